"""Where the pieces lie in one strip, and the cuts between them, all in closed form.

Terms:
- *foot*: how far from the left a slant stands on the lower edge of the strip; its *head* on the upper one;
- *step*: how far one piece lies from the next of the same way up.

Every second piece is turned by half where that is allowed, so that neighbours share a cut. Upright, each
lies a step to the right of the one before, and what is between two falls away. Hexagons touch tip to tip:
cuts both ways through the tips, all across the strip, leave them.
"""

from __future__ import annotations

from dataclasses import dataclass

from piecewright.cutting.shapes.wanted import ShapeDemand
from piecewright.geometry.isometry import moved, turned
from piecewright.geometry.point import near
from piecewright.geometry.polygon import Line, Polygon, bounds, placed, same_polygon
from piecewright.measure.tolerance import AS_DRAWN, WELD
from piecewright.methods.strip_rows import homed


@dataclass(frozen=True, slots=True)
class Row:
    """So many pieces from the left, the cuts, and how long a strip they take; inches."""

    pieces: tuple[Polygon, ...]
    cuts: tuple[Line, ...]
    length: float


@dataclass(frozen=True, slots=True)
class Spacing:
    """How pieces follow one another in a strip: one or two ways up in turn, and how far apart.

    `ways` are the first pieces of each way up where they lie; each comes again after every `step`.
    """

    ways: tuple[Polygon, ...]
    step: float

    def piece(self, number: int) -> Polygon:
        """The piece of a number, from 0."""
        again, way = divmod(number, len(self.ways))
        return placed(self.ways[way], moved(again * self.step, 0.0))

    def length(self, count: int) -> float:
        """How long a strip is that holds so many; 0 for none."""
        last = range(max(0, count - len(self.ways)), count)
        return max((bounds(self.piece(number))[2] for number in last), default=0.0)

    def fit(self, length: float) -> int:
        """How many pieces a strip of this length holds."""
        first = self.length(len(self.ways))
        count = len(self.ways) * max(0, int((length - first) // self.step) + 1)
        while self.length(count + 1) <= length + WELD:
            count += 1
        return count


def spacings(demand: ShapeDemand) -> tuple[Spacing, ...]:
    """The ways in which the pieces may follow one another."""
    shape = demand.outline
    if len(shape) > 4 or demand.turning == "none" or is_alike_turned(shape):
        return (Spacing((shape,), _upright_step(shape)),)
    over = homed(placed(shape, turned(180)))
    return _in_turn(shape, over), _in_turn(over, shape)


def best_row(demand: ShapeDemand, count: int) -> Row:
    """So many pieces in the shortest strip."""
    spacing = min(spacings(demand), key=lambda s: round(s.length(count), 6))
    pieces = tuple(map(spacing.piece, range(count)))
    length = spacing.length(count)
    return Row(pieces, _cuts(pieces, length), length)


def most_in(demand: ShapeDemand, length: float) -> int:
    """How many pieces a strip of this length holds."""
    return max(spacing.fit(length) for spacing in spacings(demand))


def is_alike_turned(shape: Polygon) -> bool:
    """Whether a shape is the same one when it is turned by half."""
    return same_polygon(homed(placed(shape, turned(180))), shape, AS_DRAWN)


def _upright_step(shape: Polygon) -> float:
    """The widest that a shape is at any height of the strip: across its tips, or on its longer level side."""
    heights = {y for _, y in shape}
    return max(max(xs) - min(xs) for y in heights if (xs := [x for x, at in shape if abs(at - y) <= WELD]))


def _in_turn(shape: Polygon, over: Polygon) -> Spacing:
    (_, right), (left, _) = (legs(shape), legs(over))
    second = placed(over, moved(right[0][0] - left[0][0], 0.0))
    step = legs(second)[1][0][0] - legs(shape)[0][0][0]
    return Spacing((shape, second), step)


def legs(shape: Polygon) -> tuple[Line, Line]:
    """The left and right edge of a piece, each from its foot to its head."""
    high = bounds(shape)[3]
    below, above = ([p for p in shape if abs(p[1] - y) <= WELD] for y in (0.0, high))
    return (min(below), min(above)), (max(below), max(above))


def _cuts(pieces: tuple[Polygon, ...], length: float) -> tuple[Line, ...]:
    """Each cut once, from the left; not those at the ends of the strip."""
    if pieces and len(pieces[0]) == 6:
        return _through_tips(pieces, length)
    found: list[Line] = []
    for piece in pieces:
        for leg in legs(piece):
            at_end = all(abs(x) <= WELD for x, _ in leg) or all(abs(x - length) <= WELD for x, _ in leg)
            if not at_end and not (found and all(map(near, found[-1], leg))):
                found.append(leg)
    return tuple(found)


def _through_tips(pieces: tuple[Polygon, ...], length: float) -> tuple[Line, ...]:
    """Cuts both ways through every tip of hexagons, from edge to edge of the strip."""
    _, _, _, high = bounds(pieces[0])
    lean = min(x for x, y in pieces[0] if y <= WELD)
    tips = [bounds(piece)[0] for piece in pieces] + [length]
    rising: list[Line] = [((x - lean, 0.0), (x + lean, high)) for x in tips]
    return (*rising, *(((x + lean, 0.0), (x - lean, high)) for x in tips))
