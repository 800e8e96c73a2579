"""Half-square triangles one at a time, the corner that is cut off sewn as well: a small unit besides."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from piecewright.bench.steps import AnyStep, Stack
from piecewright.methods import hst_one
from piecewright.methods.bonus import PILE, bonus, corner_of, is_worth_it, sewn_twice
from piecewright.methods.lines import face_down, press_all, ruled
from piecewright.methods.method import Family, Making, Method, Unit
from piecewright.workroom.workroom import Workroom

NAME = "one at a time, bonus saved"


def steps(making: Making) -> tuple[AnyStep, ...]:
    """One square on another, sewn on the diagonal and again beyond it, cut midway between."""
    (size,), (first, second), made = making.sizes, making.pieces, making.gives
    ends = ((size, size), (0.0, 0.0))
    small = f"{made} {PILE}"
    return (
        Stack(
            base=first,
            tops=(face_down(second, size),),
            sew=sewn_twice(*ends, making.seam),
            cut=(ruled(*ends, "seam right"),),
            gives=(made, small),
            times=making.times,
        ),
        press_all(made, f"{made}.0"),
        press_all(small, f"{made}.0"),
    )


METHOD = replace(
    hst_one.METHOD,
    name=NAME,
    steps=steps,
    reason="whole sizes, and the corner that is cut off makes a small unit besides",
    says=(
        "Draw a line from corner to corner on the wrong side of the lighter squares.",
        "Lay a light and a dark square right sides together.",
        "Sew a thread beside the line, on the side of the corner that goes.",
        "Sew again, twice the needle's distance beyond the first seam.",
        "Cut midway between the two seams.",
        "Set the seams, open, and press: a unit, and a small one to be trued up to a size of its own.",
    ),
    # What comes off is told by where it lies, so the base is not turned.
    upright=False,
    besides=(bonus(1),),
)


@lru_cache(maxsize=256)
def members(unit: Unit, workroom: Workroom) -> tuple[Method, ...]:
    """The way where the small unit is worth its seam."""
    take_up = float(workroom.take_up)
    return (METHOD,) if is_worth_it(corner_of(unit, take_up), take_up) else ()


FAMILY = Family(NAME, ("hst",), members)
