"""Squares cut into triangles: how large they are, and the steps of cutting them.

Terms:
- *cut once*: on one diagonal, two half-square triangles, their short sides on the straight grain;
- *cut twice*: on both diagonals, four quarter-square triangles, their long sides on the straight grain.

A triangle is cut as large as its patch grown by the take-up of the seam on every side.
"""

from __future__ import annotations

from piecewright.bench.steps import CutApart, Join, JoinPart
from piecewright.geometry.polygon import Polygon, bounds, grown
from piecewright.methods.lines import falling, rising

HALF_LONG, QUARTER_FIRST, QUARTER_SECOND = 2, 1, 2
"""Sides of a triangle cut here: the long one of a half, the short ones of a quarter, counter-clockwise."""


def square_cut_once(side: float, take_up: float) -> float:
    """The square whose halves finish with short sides so long; inches.

    >>> round(square_cut_once(2, 0.25), 6)
    2.853553
    """
    return _width(((0.0, 0.0), (side, 0.0), (side, side)), take_up)


def square_cut_twice(long_side: float, take_up: float) -> float:
    """The square whose quarters finish with a long side so long; inches.

    >>> round(square_cut_twice(4, 0.25), 6)
    5.207107
    """
    return _width(((0.0, 0.0), (long_side, 0.0), (long_side / 2, long_side / 2)), take_up)


def _width(patch: Polygon, take_up: float) -> float:
    x0, _, x1, _ = bounds(grown(patch, take_up))
    return x1 - x0


def cut_once(takes: str, size: float, gives: str, times: int) -> CutApart:
    """Every square of a pile in two."""
    return CutApart(takes=takes, cut=(rising(size),), gives=(gives,), times=times)


def cut_twice(takes: str, size: float, gives: str, times: int) -> CutApart:
    """Every square of a pile in four."""
    return CutApart(takes=takes, cut=(rising(size), falling(size)), gives=(gives,), times=times)


def quarters_joined(first: str, second: str, gives: str, times: int) -> Join:
    """Two quarters on their short sides: a pieced half, the second one ahead counter-clockwise."""
    return Join(
        parts=(
            JoinPart(name=first, exit=(QUARTER_FIRST,)),
            JoinPart(name=second, entry=(QUARTER_SECOND,)),
        ),
        gives=gives,
        times=times,
    )


def halves_joined(first: str, second: str, gives: str, times: int, nests: int = 0) -> Join:
    """Two halves, plain or pieced, on their long sides; two pieced ones meet in one place and nest."""
    return Join(
        parts=(JoinPart(name=first, exit=(HALF_LONG,)), JoinPart(name=second, entry=(HALF_LONG,))),
        gives=gives,
        times=times,
        nests=nests,
    )
