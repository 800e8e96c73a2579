"""Flying geese by stitch-and-flip, both corners that are cut off sewn as well: two small units besides."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from piecewright.bench.steps import AnyStep, Stack
from piecewright.geometry.point import Point
from piecewright.methods import geese_flip
from piecewright.methods.bonus import PILE, bonus, corner_of, is_worth_it, sewn_twice
from piecewright.methods.lines import face_down, press_all, ruled
from piecewright.methods.method import Family, Making, Method, Unit
from piecewright.workroom.workroom import Workroom

NAME = "stitch and flip, bonus saved"
SECOND_PILE = f"second {PILE}"
"""A tip of the first corner is caught in the seam of the second small unit, so they lie apart."""


def steps(making: Making) -> tuple[AnyStep, ...]:
    """A square on the right upper corner, sewn twice, cut between, opened; then one on the left."""
    (width, height), (goose, sky), made = making.sizes, making.pieces, making.gives
    wing = f"{made} one wing"
    right, left = ((width, 0.0), (width - height, height)), ((height, height), (0.0, 0.0))
    return (
        *_corner(making, goose, sky, (width - height, 0.0), right, (wing, f"{made} {PILE}")),
        *_corner(making, wing, sky, (0.0, 0.0), left, (made, f"{made} {SECOND_PILE}")),
    )


def _corner(
    making: Making, base: str, sky: str, at: Point, ends: tuple[Point, Point], gives: tuple[str, str]
) -> tuple[AnyStep, ...]:
    return (
        Stack(
            base=base,
            tops=(face_down(sky, making.sizes[1], at),),
            sew=sewn_twice(*ends, making.seam),
            cut=(ruled(*ends, "seam right"),),
            gives=gives,
            times=making.times,
        ),
        *(press_all(pile, f"{gives[0]}.0") for pile in gives),
    )


METHOD = replace(
    geese_flip.METHOD,
    name=NAME,
    steps=steps,
    reason="whole sizes, and the two corners that are cut off make two small units besides",
    says=(
        "Draw a line from corner to corner on the wrong side of the small squares.",
        "Lay a square on the right end of a rectangle, right sides together, its line running down and out.",
        "Sew a thread beside the line, on the side of the corner that goes.",
        "Sew again, twice the needle's distance beyond the first seam, and cut midway between.",
        "Press the goose to its corner, and the small unit to the darker cloth.",
        "Do the same on the left end; the two squares cross at the point by a seam allowance.",
        "True up the small units to a size of their own.",
    ),
    # What comes off is told by where it lies, so the base is not turned.
    upright=False,
    besides=(bonus(1), bonus(1, SECOND_PILE)),
)


@lru_cache(maxsize=256)
def members(unit: Unit, workroom: Workroom) -> tuple[Method, ...]:
    """The way where the small units are worth their seams."""
    take_up = float(workroom.take_up)
    return (METHOD,) if is_worth_it(corner_of(unit, take_up), take_up) else ()


FAMILY = Family(NAME, ("geese",), members)
