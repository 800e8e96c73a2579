"""Flying geese from cut triangles: the goose from a square cut twice, its corners from squares cut once.

Both squares must be rounded alike, or the triangles' edges would differ: the goose grows along its long
side twice as much as a corner along its short one. Where no two marks of the ruler do so, the way is refused.
"""

from __future__ import annotations

from functools import lru_cache

from piecewright.bench.steps import AnyStep, Join, JoinPart
from piecewright.measure.rounding import Ruler, round_up
from piecewright.measure.tolerance import EDGE_MATCH
from piecewright.methods.cut_squares import (
    HALF_LONG,
    QUARTER_FIRST,
    cut_once,
    cut_twice,
    square_cut_once,
    square_cut_twice,
)
from piecewright.methods.lines import press_all
from piecewright.methods.method import Derived, Family, Making, Method, Sizes, Start, Unit
from piecewright.problems import Problem, Refused
from piecewright.workroom.workroom import Workroom

NAME = "from cut triangles"
OTHER_LEG = 3
"""The goose's left short side once a corner has been sewn to its right one."""


def steps(making: Making) -> tuple[AnyStep, ...]:
    """A corner on the right short side of each goose, then one on the left."""
    (large, small), (goose, sky), made = making.sizes, making.pieces, making.gives
    geese, corners, wing = f"{made} geese", f"{made} corners", f"{made} one wing"
    return (
        cut_twice(goose, large, geese, making.times),
        cut_once(sky, small, corners, 4 * making.times),
        _joined(geese, QUARTER_FIRST, corners, wing, 4 * making.times),
        press_all(wing, f"{wing}.0"),
        _joined(wing, OTHER_LEG, corners, made, 4 * making.times),
        press_all(made, f"{made}.0"),
    )


def _joined(first: str, side: int, corner: str, gives: str, times: int) -> Join:
    parts = (JoinPart(name=first, exit=(side,)), JoinPart(name=corner, entry=(HALF_LONG,)))
    return Join(parts=parts, gives=gives, times=times)


def squares_for(height: float, take_up: float) -> Sizes:
    """The squares for a goose of a finished height: cut twice for the goose, cut once for the corners."""
    return square_cut_twice(2 * height, take_up), square_cut_once(height, take_up)


def _rounded_alike(ruler: Ruler) -> Derived:
    def sizes(unit: Unit, take_up: float, extra: float) -> Sizes:
        large, small = squares_for(float(unit.height) + extra, take_up)
        over, other = (float(round_up(size, ruler)) - size for size in (large, small))
        if abs(over - 2 * other) > EDGE_MATCH:
            raise Refused(_no_marks("Cut them larger and trim the geese, or choose another way."))
        return large, small

    return sizes


def _larger_alike(ruler: Ruler) -> Derived:
    def sizes(unit: Unit, take_up: float, extra: float) -> Sizes:
        height = float(unit.height)
        large, small = squares_for(height + extra, take_up)
        if not extra:
            return large, small
        marked = float(round_up(small, ruler))
        large, small = squares_for(height + extra + marked - small, take_up)
        if abs(float(round_up(large - EDGE_MATCH, ruler)) - large) > EDGE_MATCH:
            raise Refused(_no_marks("Choose another way."))
        return large, small

    return sizes


def _no_marks(do: str) -> Problem:
    return Problem(f"{NAME}: with your seam, no squares on the marks of the ruler fit each other", do=do)


_CUTTING = (
    "Cut the goose's squares twice from corner to corner, the corners' squares once.",
    "Lay a small triangle on the right short side of a large one, right sides together: the long side of the "
    "small one is sewn, and its dog ears stick out alike at both ends.",
    "Sew without pulling, and press to the corner.",
    "Do the same on the left; the seams cross at the point, a seam allowance below the edge.",
)


@lru_cache(maxsize=256)
def members(unit: Unit, workroom: Workroom) -> tuple[Method, ...]:
    """Cut as closely as the ruler allows; and cut larger, to be trimmed."""

    def way(name: str, reason: str, last: str, derived: Derived, oversize: bool) -> Method:
        return Method(
            name=name,
            kind="geese",
            makes=4,
            starts=(Start(0, 1, 0, 0), Start(1, 4, 1, 1)),
            steps=steps,
            landmark="point",
            reason=reason,
            says=(*_CUTTING, last),
            unknowns=2,
            oversize=oversize,
            derived=derived,
            pressed_as_written=True,
        )

    return (
        way(
            NAME,
            "nothing to mark and any prints may meet, but bias seams must not be stretched",
            "Clip the dog ears.",
            _rounded_alike(workroom.ruler),
            False,
        ),
        way(
            f"{NAME}, trimmed",
            "nothing to mark, and every goose is trimmed true, but bias seams must not be stretched",
            "Trim every goose to size, measured from its point.",
            _larger_alike(workroom.ruler),
            True,
        ),
    )


FAMILY = Family(NAME, ("geese",), members)
