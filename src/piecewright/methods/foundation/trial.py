"""Trying foundations out on the bench: every section is sewn, and compared with what was drawn.

Rough scraps stand out in all directions. Where what is sewn so far does not reach as far behind a seam line
as the scrap that is laid on, the seam would end without an allowance; then the scraps beneath it are cut
larger.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

from piecewright.bench.as_drawn import compare
from piecewright.bench.bench import Bench, seam_of
from piecewright.bench.cloth import Cloth
from piecewright.bench.plan import Have, Supply
from piecewright.bench.steps import Stack
from piecewright.design.drawing import Group, Patch, Placed
from piecewright.geometry.point import side_of
from piecewright.geometry.polygon import Line
from piecewright.measure.length import ZERO, Length
from piecewright.measure.tolerance import EDGE_MATCH
from piecewright.methods.foundation.plan import Foundation, FoundationPatch, FoundationSection
from piecewright.methods.foundation.steps import foundation_steps
from piecewright.problems import Problem, Refused
from piecewright.workroom.workroom import Workroom

ROUNDS_BENEATH = 3
"""So often the scraps that lie along the seam are cut larger before all are that are there by then."""
MOST_ROUNDS = 12


def tried(foundation: Foundation, workroom: Workroom) -> Foundation:
    """The foundation with scraps that make every section as drawn, with whole allowances, on the bench.

    Raises Refused where no scraps do, or where it is drawn for another seam than the workroom's.
    """
    return replace(
        foundation, sections=tuple(tried_section(section, workroom) for section in foundation.sections)
    )


def tried_section(section: FoundationSection, workroom: Workroom) -> FoundationSection:
    """One section with scraps that make it; see `tried`."""
    if abs(section.rule.take_up - seam_of(workroom).take_up) > EDGE_MATCH:
        what = f"section {section.letter} is drawn for another seam than the workroom's"
        raise Refused(Problem(what, do="Draw it for this workroom."))
    rounds: Counter[int] = Counter()
    while (at := _refused_at(section, workroom)) is not None and rounds[at] < MOST_ROUNDS:
        rounds[at] += 1
        section = _larger(section, at, more_of_them=rounds[at] > ROUNDS_BENEATH)
    if at is None:
        return section
    what = f"no scraps were found that make section {section.letter} on the bench"
    raise Refused(Problem(what, do="Sew that part without a foundation."))


def sewn_section(section: FoundationSection, workroom: Workroom) -> Cloth:
    """The section as the bench sews it from its scraps; raises Refused where it cannot."""
    bench, names = _laid_out(section, workroom)
    for step in foundation_steps(section, names, section.letter, 1):
        bench.do(step)
    return bench.cloth(section.letter)


def drawing_of(section: FoundationSection) -> Group:
    """The section as a drawing of its own."""
    patches = tuple(Placed(Patch(p.role, p.outline, p.way)) for p in section.patches)
    return Group(f"section {section.letter}", patches, section.outline)


def _laid_out(section: FoundationSection, workroom: Workroom) -> tuple[Bench, list[str]]:
    """A bench with the scraps on it, each in a pile named by its number; roles are fabrics."""
    cloth = [
        Supply(fabric=role, width=workroom.usable_width, length=ZERO)
        for role in dict.fromkeys(patch.role for patch in section.patches)
    ]
    scraps = [
        Have(
            name=patch.number,
            count=1,
            fabric=patch.role,
            width=patch.scrap.cut_width,
            height=patch.scrap.cut_height,
        )
        for patch in section.patches
    ]
    return Bench(workroom, cloth, scraps), [patch.number for patch in section.patches]


def _refused_at(section: FoundationSection, workroom: Workroom) -> int | None:
    """The place in the order of the patch that could not be added as drawn, or None where all could."""
    bench, names = _laid_out(section, workroom)
    patch = 0
    for step in foundation_steps(section, names, section.letter, 1):
        patch += isinstance(step, Stack)
        if bench.problems(step):
            return patch
        bench.do(step)
    found = compare(bench.cloth(section.letter), drawing_of(section), {}, section.rule.take_up)
    return len(names) if found.differences else None


def _larger(section: FoundationSection, at: int, more_of_them: bool) -> FoundationSection:
    """The section with larger scraps for the patches along the seam of one; or for all up to that one."""
    seam = section.patches[at].seam if at < len(section.patches) else None
    grows = [
        k <= at if more_of_them or seam is None else k < at and _lies_along(patch, seam)
        for k, patch in enumerate(section.patches)
    ]
    more = _step(section)
    return replace(
        section,
        patches=tuple(
            replace(patch, scrap=patch.scrap.larger(more)) if grow else patch
            for patch, grow in zip(section.patches, grows, strict=True)
        ),
    )


def _lies_along(patch: FoundationPatch, seam: Line) -> bool:
    return any(abs(side_of(p, *seam)) <= EDGE_MATCH for p in patch.outline)


def _step(section: FoundationSection) -> Length:
    """The margin, in whole marks of the ruler."""
    mark = section.rule.ruler.mark
    return mark * max(1, -(-section.rule.margin.exact // mark.exact))
