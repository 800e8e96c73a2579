"""Any unit on a foundation: its patches sewn one after another along printed lines, its sections joined."""

from __future__ import annotations

from functools import lru_cache

from piecewright.bench.bench import seam_of
from piecewright.bench.cloth import Cloth
from piecewright.bench.steps import AnyStep
from piecewright.design.kinds import KINDS
from piecewright.methods.foundation.joins import joining_steps
from piecewright.methods.foundation.plan import Foundation, foundation_of
from piecewright.methods.foundation.scraps import ScrapRule
from piecewright.methods.foundation.steps import foundation_steps
from piecewright.methods.foundation.trial import sewn_section, tried
from piecewright.methods.method import Family, Making, Method, Start, Unit
from piecewright.problems import Refused
from piecewright.workroom.workroom import Workroom

NAME = "on a foundation"
MOST_PATCHES = 64

SAYS = (
    "Print the foundation at true scale and check its square with a ruler; it is mirrored, as it must be.",
    "Set a short stitch, so that the paper tears off easily.",
    "Pin the first scrap to the unprinted side, right side out, over the place numbered 1.",
    "Lay the next scrap on it, right sides together, turn the paper, and sew on the printed line.",
    "Fold the paper back, trim the allowance, open the scrap, press it; go on in the order of the numbers.",
    "Trim along the outer line; leave the paper in until all sides are joined.",
)
JOINED = "Join the sections in the order of their letters."


def foundation_for(unit: Unit, workroom: Workroom) -> Foundation:
    """The unit's foundation with its scraps, tried on the bench; raises Refused where it has none."""
    rule = ScrapRule(float(workroom.take_up), ruler=workroom.ruler, grain="edge")
    return tried(foundation_of(unit.drawing, rule), workroom)


@lru_cache(maxsize=512)
def members(unit: Unit, workroom: Workroom) -> tuple[Method, ...]:
    """The unit on a foundation, where straight lines allow it."""
    if not 2 <= len(unit.drawing.patches) <= MOST_PATCHES:
        return ()
    try:
        foundation = foundation_for(unit, workroom)
        cloths = {section.letter: sewn_section(section, workroom) for section in foundation.sections}
    except Refused:
        return ()
    return (_method(unit, workroom, foundation, cloths),)


def _method(unit: Unit, workroom: Workroom, foundation: Foundation, cloths: dict[str, Cloth]) -> Method:
    patches = [patch for section in foundation.sections for patch in section.patches]
    sizes = tuple(
        float(size) for patch in patches for size in (patch.scrap.cut_width, patch.scrap.cut_height)
    )
    starts = tuple(
        Start(unit.fabrics.index(patch.role), 1, 2 * k, 2 * k + 1) for k, patch in enumerate(patches)
    )

    def derived(_: Unit, take_up: float, extra: float) -> tuple[float, ...]:
        return sizes

    def steps(making: Making) -> tuple[AnyStep, ...]:
        names = iter(making.pieces)
        whole = foundation.joins is None
        found: list[AnyStep] = []
        piles: dict[str, tuple[str, Cloth]] = {}
        for section in foundation.sections:
            gives = making.gives if whole else f"{making.gives} {section.letter}"
            own = [next(names) for _ in section.patches]
            found += foundation_steps(section, own, gives, making.times)
            piles[section.letter] = (gives, cloths[section.letter])
        if whole:
            return tuple(found)
        return (
            *found,
            *joining_steps(foundation, piles, making.gives, making.times, seam_of(workroom), "first"),
        )

    return Method(
        name=NAME,
        kind=unit.kind,
        makes=1,
        starts=starts,
        steps=steps,
        landmark="edges",
        reason="exact to the printed line at any angle, from scraps, but slow, and the paper must come off",
        says=SAYS if foundation.joins is None else (*SAYS, JOINED),
        unknowns=len(sizes),
        may_round=False,
        derived=derived,
        pressed_as_written=True,
        printed=True,
    )


FAMILY = Family(NAME, tuple(KINDS), members)
