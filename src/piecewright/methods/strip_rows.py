"""Slanted pieces side by side in a strip: alternately as they are and turned by half, edge on edge.

A piece here has a side on the lower edge of the strip, and a side or a point on the upper one. Turned by
half it fits beside its neighbour without waste: diamonds all lie alike then, triangles look up and down.
"""

from __future__ import annotations

from dataclasses import dataclass

from piecewright.bench.cloth import SeamSize, piece
from piecewright.bench.stacking import slice_apart
from piecewright.bench.steps import CutApart, Ruled
from piecewright.geometry.isometry import moved, turned
from piecewright.geometry.point import middle
from piecewright.geometry.polygon import Line, Polygon, bounds, from_lowest, placed, rectangle, same_polygon
from piecewright.measure.tolerance import AS_DRAWN, WELD


@dataclass(frozen=True)
class Row:
    """Pieces in a strip of a length and a height (inches), from the left, and the cuts between them."""

    length: float
    height: float
    pieces: tuple[Polygon, ...]
    cuts: tuple[Line, ...]


def homed(polygon: Polygon) -> Polygon:
    """The polygon moved so that it lies at the origin, started at its lowest corner."""
    left, low, *_ = bounds(polygon)
    return from_lowest(placed(polygon, moved(-left, -low)))


def row_of(raw: Polygon, length: float, most: int | None = None) -> Row:
    """As many pieces as a strip of this length holds (at most so many); inches.

    >>> len(row_of(((0, 0), (2, 0), (1, 2)), 10).pieces)
    9
    """
    shapes = (homed(raw), homed(placed(raw, turned(180))))
    height = bounds(shapes[0])[3]
    pieces: list[Polygon] = []
    cuts: list[Line] = []
    while most is None or len(pieces) < most:
        shape = shapes[len(pieces) % 2]
        off = cuts[-1][0][0] - _leg(shape, "left")[0][0] if pieces else 0.0
        lying = placed(shape, moved(off, 0.0))
        if bounds(lying)[2] > length + WELD:
            break
        below, above = _leg(lying, "left")
        if not pieces and abs(below[0] - above[0]) > WELD:
            cuts.append((below, above))
        pieces.append(lying)
        cuts.append(_leg(lying, "right"))
    return Row(length, height, tuple(pieces), tuple(cuts))


def _leg(shape: Polygon, side: str) -> Line:
    """The left or right edge of a piece, from the lower edge of the strip to the upper."""
    height = bounds(shape)[3]
    outermost = min if side == "left" else max
    below = outermost(p for p in shape if p[1] <= WELD)
    above = outermost(p for p in shape if p[1] >= height - WELD)
    return below, above


def length_for(raw: Polygon, count: int) -> float:
    """How long a strip must be that holds so many pieces; inches."""
    left, _, right, _ = bounds(raw)
    return max(bounds(lying)[2] for lying in row_of(raw, (right - left) * (count + 1), count).pieces)


def cut_row(takes: str, gives: str, row: Row, seam: SeamSize, times: int) -> CutApart:
    """The step that cuts a strip into the pieces of a row; both ends of it are offcuts."""
    parts = slice_apart(piece("", rectangle(row.length, row.height), seam), row.cuts, seam)
    names = tuple(gives if _is_wanted(part.raw, row) else "" for part in parts)
    return CutApart(takes=takes, cut=tuple(Ruled(*a, *b) for a, b in row.cuts), gives=names, times=times)


def _is_wanted(part: Polygon, row: Row) -> bool:
    return any(same_polygon(part, wanted, AS_DRAWN) for wanted in row.pieces)


def across_tips(diamond: Polygon) -> tuple[Line, Line]:
    """The two cuts that take the sharp tips off a 60 degree diamond on its side and leave a hexagon."""
    sharp, right, far, left = homed(diamond)
    return (
        (middle(sharp, right), middle(sharp, left)),
        (middle(right, far), middle(left, far)),
    )
