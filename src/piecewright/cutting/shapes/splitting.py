"""What the pieces of a shape are cut from: whole strips and a shorter one, or squares.

Terms:
- *split*: how many pieces lie in which strip. "longest": strips as long as the cloth is wide, and what is
  left in a shorter one; "rest in halves": that one in two; "alike": all strips as nearly alike as can be;
- *room*: the longest strip that the cloth allows.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import Literal

from piecewright.cutting.shapes.rows import best_row, most_in
from piecewright.cutting.shapes.wanted import CutStrip, ShapeCut, ShapeDemand
from piecewright.cutting.wanted import Supply
from piecewright.geometry.isometry import turned
from piecewright.geometry.polygon import Line, Polygon, bounds, placed
from piecewright.measure.length import Length
from piecewright.measure.rounding import exactly, round_up
from piecewright.measure.tolerance import WELD
from piecewright.workroom.workroom import default_workroom

Split = Literal["longest", "rest in halves", "alike"]
SPLITS: tuple[Split, ...] = ("longest", "rest in halves", "alike")


def cut_from(
    demand: ShapeDemand, supply: Supply, split: Split = "longest", room: Length | None = None
) -> ShapeCut:
    """The strips or squares that the pieces are cut from; together they give each piece wanted.

    Of strips exactly as many pieces come as are wanted; squares may give a few over. The room is the usable
    width unless given. Where it does not hold even one piece, each has its own strip all the same, so that
    whoever lays out the strips can say so.

    >>> from piecewright.measure.length import inches
    >>> sail = ShapeDemand("sails", "triangle", ((0, 0), (4, 0), (2, 4)), 40)
    >>> cloth = Supply("sea", inches(40), inches("4 1/2"))
    >>> [(strip.count, strip.each) for strip in cut_from(sail, cloth).strips]
    [(2, 19), (1, 2)]
    """
    if is_from_squares(demand):
        return ShapeCut(demand, (_squares(demand),))
    room = supply.usable_width if room is None else room
    most = max(1, most_in(demand, float(room)))
    parts = +_parts(demand.count, most, split)
    ordered = sorted(parts.items(), reverse=True)
    return ShapeCut(demand, tuple(_strip(demand, each, count, room, supply) for each, count in ordered))


def is_from_squares(demand: ShapeDemand) -> bool:
    """Whether the pieces are cut from squares or rectangles, out of which they come turned.

    Where a print must stand they are cut side by side in strips instead, so that all can be used.
    """
    if demand.cut_as == "in strips":
        return False
    return demand.turning == "any" or (demand.cut_as == "once" and demand.turning == "end for end")


def least_cloth(demand: ShapeDemand, supply: Supply) -> float:
    """What the pieces take at least, however many lie in each strip; square inches."""
    if is_from_squares(demand):
        square = _squares(demand)
        return float(square.width) * float(square.height) * square.count
    most = max(1, most_in(demand, float(supply.usable_width)))
    each = min(best_row(demand, n).length / n for n in {most, max(1, most - 1)})
    return each * bounds(demand.outline)[3] * demand.count


def _parts(count: int, most: int, split: Split) -> Counter[int]:
    """How many strips hold how many pieces each."""
    full, rest = divmod(count, most)
    if split == "alike":
        strips = -(-count // most)
        each, more = divmod(count, strips)
        return Counter({each: strips - more, each + 1: more})
    parts = Counter({most: full})
    halves = [rest] if split == "longest" else [rest // 2, rest - rest // 2]
    parts.update(halves)
    del parts[0]
    return parts


def _strip(demand: ShapeDemand, each: int, count: int, room: Length, supply: Supply) -> CutStrip:
    row = best_row(demand, each)
    name = f"{demand.name}, strip of {each}"
    length = _length(row.length, row.pieces[-1], room, supply)
    return CutStrip(name, length, _height(demand), count, row.pieces, row.cuts)


def _height(demand: ShapeDemand) -> Length:
    return exactly(bounds(demand.outline)[3])


def _length(length: float, last: Polygon, room: Length, supply: Supply) -> Length:
    """The length of a strip: exact where its end is the last piece's; else what is over falls away."""
    ends_square = sum(abs(x - length) <= WELD for x, _ in last) == 2
    best = exactly(length) if ends_square else round_up(length, default_workroom(supply.unit).ruler)
    return min(best, room) if length <= float(room) + WELD else best


def _squares(demand: ShapeDemand) -> CutStrip:
    halves = _once if demand.cut_as == "once" else _twice
    pieces, cuts = halves(demand.outline)
    _, _, wide, high = bounds([corner for piece in pieces for corner in piece])
    width, height = exactly(wide), exactly(high)
    name = f"{demand.name}, {'square' if width == height else 'rectangle'}"
    return CutStrip(name, width, height, -(-demand.count // len(pieces)), tuple(pieces), tuple(cuts))


def _once(outline: Polygon) -> tuple[Sequence[Polygon], Sequence[Line]]:
    """Half a rectangle and its other half, turned by half; cut along their common side."""
    _, _, width, height = bounds(outline)
    falls = any(abs(x) <= WELD and abs(y - height) <= WELD for x, y in outline)
    cut = ((0.0, height), (width, 0.0)) if falls else ((0.0, 0.0), (width, height))
    return (outline, placed(outline, turned(180, (width / 2, height / 2)))), (cut,)


def _twice(outline: Polygon) -> tuple[Sequence[Polygon], Sequence[Line]]:
    """A quarter of a square and the others, turned by quarters; cut along both diagonals."""
    side = bounds(outline)[2]
    middle = (side / 2, side / 2)
    quarters = [placed(outline, turned(90 * q, middle)) for q in range(4)]
    return quarters, (((0.0, 0.0), (side, side)), ((0.0, side), (side, 0.0)))
