"""Foundation piecing on the bench: from scraps to a finished section, as steps that can be replayed.

The work lies in the frame of the first scrap, which lies face up. Each further scrap is laid on face down,
sewn through its printed line, trimmed behind it together with what it was sewn to, opened and pressed. In the
end the section is cut out along the printed edge.
"""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.bench.steps import AnyStep, CutOut, Lay, Press, Pressing, Ruled, Stack
from piecewright.geometry.isometry import Isometry
from piecewright.geometry.point import add, scale, sub, unit
from piecewright.geometry.polygon import Line, clip_segment, placed
from piecewright.methods.foundation.plan import FoundationPatch, FoundationSection
from piecewright.problems import Problem, Refused


def frame_of(section: FoundationSection) -> Isometry:
    """From the drawing's frame into that of the section's cloth on the bench."""
    return section.patches[0].scrap.place.back()


def foundation_steps(
    section: FoundationSection, names: Sequence[str], gives: str, times: int
) -> tuple[AnyStep, ...]:
    """The steps that make a section so many times.

    `names` are the piles of its scraps, in the order of the numbers; each scrap is as `Scrap` says, lower
    left corner at the origin. Raises Refused where there are not as many names as patches.
    """
    if len(names) != len(section.patches):
        raise Refused(
            Problem(f"section {section.letter} takes {len(section.patches)} scraps, {len(names)} are named")
        )
    home = frame_of(section)
    steps: list[AnyStep] = []
    work = names[0]
    for name, patch in zip(names[1:], section.patches[1:], strict=True):
        sewn = f"{gives} to {patch.number}"
        steps += _added(patch, work, name, sewn, home, times)
        work = sewn
    outline = placed(section.raw, home)
    steps.append(CutOut(takes=work, outline=outline, gives=gives, times=times))
    return tuple(steps)


def _added(
    patch: FoundationPatch, work: str, name: str, sewn: str, home: Isometry, times: int
) -> tuple[AnyStep, ...]:
    """One scrap sewn on, trimmed, opened and pressed."""
    assert patch.seam is not None, "only the first patch has no seam"
    lying = home.after(patch.scrap.face_down(patch.seam))
    (ax, ay), (bx, by) = map(home.at, _stitching(patch.seam, patch))
    stack = Stack(
        base=work,
        tops=(Lay(name, lying.degrees, lying.x, lying.y),),
        # The fold comes to lie on the printed line: the needle goes a hair behind it.
        sew=(Ruled(ax, ay, bx, by, "hair right"),),
        # Both layers are trimmed to the allowance before the scrap is opened.
        cut=(Ruled(ax, ay, bx, by, "seam right"),),
        gives=(sewn,),
        times=times,
    )
    # Both allowances lie under the patch that was added.
    return stack, Press(pile=sewn, seams=(Pressing(f"{sewn}.0", ("second",)),))


def _stitching(seam: Line, patch: FoundationPatch) -> Line:
    """The seam line from end to end of the scrap, so that it is sewn all across."""
    reach = scale(unit(sub(seam[1], seam[0])), float(patch.scrap.cut_width) + float(patch.scrap.cut_height))
    inside = clip_segment((sub(seam[0], reach), add(seam[1], reach)), patch.scrap.outline)
    assert inside is not None, "a scrap lies over its seam line"
    return inside
