"""Whether the corners of a block were meant to lie on a simple grid: n-ths of its side, in square cells."""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.geometry.point import Point, distance
from piecewright.measure.length import inches
from piecewright.measure.tolerance import WELD

# Grids in common use have up to 16 cells along a side; up to 24 count where corners plainly miss one another.
SIMPLE = 16
FINEST = 24

# Corners that agree with one another are moved onto a grid only by what rounding in a drawing explains.
# (Eight-pointed stars and hexagons lie farther than this from every simple grid: plane geometry.)
ROUNDED = float(inches("1/64"))
ROUNDED_SHARE = 0.002

# A cell is at least so many limits wide: on a finer grid every corner lies near some line.
WIDE = 4


def on_simple_grid(
    corners: Sequence[Point], width: float, height: float, limit: float, spread: float
) -> list[Point] | None:
    """The corners on the coarsest simple grid that explains all of them, or None where none does.

    `spread` is how far corners lie apart that were meant to meet. None is moved farther than the limit, nor
    than twice the spread (or than rounding explains).
    """
    rounded = min(ROUNDED, ROUNDED_SHARE * min(width, height))
    for count in range(1, FINEST + 1):
        cell = width / count
        up = round(height / cell)
        if up == 0 or abs(height / up - cell) > WELD or cell < WIDE * limit:
            continue
        most = min(limit, max(rounded if count <= SIMPLE else 0.0, 2 * spread))
        places = [(round(x / cell) * width / count, round(y / cell) * height / up) for x, y in corners]
        if all(distance(a, b) <= most for a, b in zip(corners, places, strict=True)):
            return places
    return None
