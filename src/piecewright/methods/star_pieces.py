"""The pieces of eight-pointed stars: what is cut, how large, and where each lies about the middle.

Diamonds come from a strip just long enough for the four of one fabric; squares and triangles from squares.
"""

from __future__ import annotations

from math import sqrt

from piecewright.bench.steps import CutApart
from piecewright.design.kinds.diamonds import diamond
from piecewright.design.kinds.star_eight import side_of_diamond
from piecewright.geometry.isometry import sin_of
from piecewright.geometry.offset import cut_shape
from piecewright.geometry.polygon import Polygon, bounds, grown
from piecewright.methods.assembly import Assembly
from piecewright.methods.lines import rising
from piecewright.methods.method import Making, Start
from piecewright.methods.strip_rows import cut_row, length_for, row_of

OF_ONE_FABRIC = 4
STRIPS = (Start(0, 1, 0, 1), Start(1, 1, 0, 1))


def strip_sizes(block: float, take_up: float) -> tuple[float, float]:
    """Length and height of the strip that four diamonds are cut from; inches.

    >>> round(strip_sizes(12, 0.25)[1], 6)
    2.985281
    """
    raw = grown(diamond(side_of_diamond(block), 45), take_up)
    _, low, _, high = bounds(raw)
    return length_for(raw, OF_ONE_FABRIC), high - low


def side_in(making: Making) -> float:
    """The finished side of the diamonds that come from a strip of the making's height."""
    return (making.sizes[1] - 2 * making.seam.take_up) / sin_of(45)


def cut_points(assembly: Assembly) -> tuple[str, str]:
    """Cuts both strips into diamonds; the names of their piles."""
    making = assembly.making
    names = (f"{making.gives} first points", f"{making.gives} second points")
    raw = grown(diamond(side_in(making), 45), making.seam.take_up)
    row = row_of(raw, making.sizes[0], OF_ONE_FABRIC)
    for strip, name in zip(making.pieces[:2], names, strict=True):
        assembly.do(cut_row(strip, name, row, making.seam, making.times))
    return names


def half_square(leg: float, take_up: float) -> float:
    """The square that two right-angled triangles of a finished leg are cut from, on one diagonal; inches."""
    return cut_shape(((0.0, 0.0), (leg, 0.0), (0.0, leg)), take_up).edges[0].cut


def quarter_square(leg: float, take_up: float) -> float:
    """The square that four right-angled triangles of a finished leg are cut from, on both diagonals."""
    long = leg * sqrt(2)
    return cut_shape(((0.0, 0.0), (long, 0.0), (long / 2, long / 2)), take_up).edges[0].cut


def cut_halves(assembly: Assembly, takes: str, gives: str, size: float, squares: int) -> None:
    """Cuts squares on one diagonal."""
    assembly.do(
        CutApart(takes=takes, cut=(rising(size),), gives=(gives,), times=squares * assembly.making.times)
    )


def triangle_at_side(side: float) -> Polygon:
    """The triangle on the right side of the block."""
    across = side / sqrt(2)
    return ((side, 0.0), (side + across, -across), (side + across, across))


def square_in_corner(side: float) -> Polygon:
    """The square in the upper right corner of the block."""
    near, far = side / sqrt(2), side + side / sqrt(2)
    return ((near, near), (far, near), (far, far), (near, far))
