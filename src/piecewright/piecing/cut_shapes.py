"""How pieces of any straight-sided shape are cut out of a rectangle of cloth.

Terms:
- *lying*: of a shape as it is cut (with its allowances), turned as it lies in the cloth, its lower left
  corner at the origin; the lengthwise grain, and a one-way print, run up;
- *once*: a rectangle cut from corner to corner, two right triangles, their short sides on the grain;
- *twice*: a square cut from corner to corner both ways, four triangles, their long sides on the grain;
- *row*: pieces side by side in a strip, every second one turned by half;
- *template*: one piece, cut round a template.

The first piece lies as the shape was given; all come off with the same grain.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from piecewright.geometry.isometry import Isometry, moved, turned
from piecewright.geometry.point import near
from piecewright.geometry.polygon import Line, Polygon, bounds, centroid, placed, rectangle, same_polygon
from piecewright.measure.length import Length
from piecewright.measure.rounding import Ruler, exactly, round_up
from piecewright.measure.tolerance import AS_DRAWN, WELD
from piecewright.methods.strip_rows import homed, length_for, row_of
from piecewright.piecing.straight_grain import QUARTER, is_strip_shape

How = Literal["once", "twice", "row", "template"]

WORTH_IT = 0.8
"""A way that is less plain is taken where it needs no more than this share of the cloth."""


@dataclass(frozen=True)
class Cutting:
    """Pieces cut from one rectangle `width` wide and `height` high; where they lie in it, and the cuts.

    There are no straight cuts where a piece is cut round a template.
    """

    how: How
    width: Length
    height: Length
    pieces: tuple[Polygon, ...]
    cuts: tuple[Line, ...] = ()

    @property
    def each(self) -> int:
        """How many pieces one rectangle gives."""
        return len(self.pieces)

    def rectangles(self, count: int) -> int:
        """How many rectangles so many pieces take."""
        return -(-count // self.each)

    def cloth_for(self, count: int) -> float:
        """How much cloth so many pieces take; square inches."""
        return self.rectangles(count) * float(self.width) * float(self.height)


@dataclass(frozen=True)
class CutRules:
    """What cutting must keep to.

    `may_turn`: the cloth looks alike when it is turned. `most`: so many from one rectangle at most (None:
    any number). `room`: how long a strip may be, inches. `ruler`: to whose marks a size is rounded up where
    what is over falls away.
    """

    may_turn: bool
    room: float
    ruler: Ruler
    most: int | None = None


def lying_best(raw: Polygon) -> Polygon:
    """A shape whose grain runs up or level, turned by quarters so that it is cut most simply.

    A strip shape lies with its wider side down; any other stands upright.
    """
    turns = (homed(_straightened(homed(placed(raw, turned(QUARTER * q))))) for q in range(4))
    return min(turns, key=_plainness)


def lying_so(raw: Polygon) -> Polygon:
    """A shape that may not be turned, as it lies."""
    return homed(_straightened(homed(raw)))


def _plainness(lying: Polygon) -> tuple[object, ...]:
    x, y = centroid(lying)
    width = bounds(lying)[2]
    in_strip = is_strip_shape(lying) and not _is_half(lying)
    return not in_strip, 0.0 if in_strip else round(width, 3), round(y, 3), round(x, 3)


def _straightened(polygon: Polygon) -> Polygon:
    """The polygon with sides that are all but level or upright made so, on its outer bounds."""
    x0, y0, x1, y1 = bounds(polygon)
    return tuple((_snapped(x, x0, x1), _snapped(y, y0, y1)) for x, y in polygon)


def _snapped(at: float, low: float, high: float) -> float:
    near_by = AS_DRAWN / 2
    return low if at - low <= near_by else high if high - at <= near_by else at


def cutting_for(lying: Polygon, count: int, rules: CutRules) -> Cutting:
    """How so many pieces are cut: the plainest way, unless another one takes much less cloth.

    >>> from fractions import Fraction
    >>> rules = CutRules(True, 40.0, Ruler("in", Fraction(1, 8)))
    >>> cutting_for(((0, 0), (3, 0), (0, 3)), 5, rules).rectangles(5)
    3
    """
    ways = [way for way in (_once(lying, rules), _twice(lying, rules), _row(lying, count, rules)) if way]
    if not ways:
        return _template(lying, rules)
    best = ways[0]
    for way in ways[1:]:
        if way.cloth_for(count) < WORTH_IT * best.cloth_for(count):
            best = way
    return best


def _is_half(lying: Polygon) -> bool:
    """Whether a shape is half a rectangle: a right triangle, its right angle below."""
    _, _, width, height = bounds(lying)
    halves = (((0.0, 0.0), (width, 0.0), (x, height)) for x in (0.0, width))
    return any(same_polygon(lying, half, WELD) for half in halves)


def _once(lying: Polygon, rules: CutRules) -> Cutting | None:
    if not _is_half(lying) or not rules.may_turn or not _allows(rules, 2):
        return None
    _, _, width, height = bounds(lying)
    falls = any(near(p, (0.0, height)) for p in lying)
    cut = ((0.0, height), (width, 0.0)) if falls else ((0.0, 0.0), (width, height))
    other = homed(placed(lying, turned(180)))
    return Cutting("once", exactly(width), exactly(height), (lying, other), (cut,))


def _twice(lying: Polygon, rules: CutRules) -> Cutting | None:
    _, _, side, _ = bounds(lying)
    quarter = ((0.0, 0.0), (side, 0.0), (side / 2, side / 2))
    if not same_polygon(lying, quarter, AS_DRAWN) or not rules.may_turn or not _allows(rules, 4):
        return None
    middle = (side / 2, side / 2)
    pieces = tuple(placed(quarter, turned(QUARTER * q, middle)) for q in range(4))
    cuts: tuple[Line, ...] = (((0.0, 0.0), (side, side)), ((0.0, side), (side, 0.0)))
    return Cutting("twice", exactly(side), exactly(side), pieces, cuts)


def _allows(rules: CutRules, each: int) -> bool:
    return rules.most is None or rules.most >= each


def _row(lying: Polygon, count: int, rules: CutRules) -> Cutting | None:
    """A row in a strip that lies level or, where the print must stand, upright or upside down."""
    for q in (0, 3, 1, 2):
        shape = homed(placed(lying, turned(QUARTER * q)))
        if is_strip_shape(shape):
            return _turned_back(_level_row(shape, count, rules, exact=q in (1, 2)), q)
    return None


def _level_row(shape: Polygon, count: int, rules: CutRules, exact: bool) -> Cutting:
    most = rules.most if rules.may_turn or _is_alike_turned(shape) else 1
    fit = max(1, len(row_of(shape, rules.room, most).pieces))
    each = -(-count // -(-count // fit))
    row = row_of(shape, length_for(shape, each), each)
    # The height is exact; of the length the far end falls away, where one measures from the near one.
    exact = exact or _is_half(shape)
    length = exactly(row.length) if exact else round_up(row.length, rules.ruler)
    return Cutting("row", length, exactly(row.height), row.pieces, row.cuts)


def _is_alike_turned(shape: Polygon) -> bool:
    return same_polygon(homed(placed(shape, turned(180))), shape, AS_DRAWN)


def _turned_back(cutting: Cutting, quarters: int) -> Cutting:
    if not quarters:
        return cutting
    turn = turned(-QUARTER * quarters)
    left, low, *_ = bounds(placed(rectangle(float(cutting.width), float(cutting.height)), turn))
    back = moved(-left, -low).after(turn)
    size = (cutting.width, cutting.height) if quarters == 2 else (cutting.height, cutting.width)
    pieces = tuple(placed(piece, back) for piece in cutting.pieces)
    return Cutting(cutting.how, *size, pieces, tuple(_moved_line(line, back) for line in cutting.cuts))


def _moved_line(line: Line, place: Isometry) -> Line:
    return place.at(line[0]), place.at(line[1])


def _template(lying: Polygon, rules: CutRules) -> Cutting:
    """One piece from a rectangle that just holds it, rounded up: what is over falls away."""
    _, _, width, height = bounds(lying)
    return Cutting("template", round_up(width, rules.ruler), round_up(height, rules.ruler), (lying,))
