"""Where the allowance of one piece lies beyond a seam, until it is folded back: a zone beside each stretch.

Terms:
- *path*: the points of a seam, the piece on its left;
- *zone*: the place beyond one straight stretch of a seam in which the piece's own allowance lies;
- *tip*: an allowance that reaches past the end of its seam, as every corner's does.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from shapely import Polygon as ShapelyPolygon

from piecewright.geometry.point import (
    Point,
    add,
    cross,
    distance,
    dot,
    left_of,
    scale,
    side_of,
    sub,
    unit,
    where_lines_meet,
)
from piecewright.geometry.polygon import Line, Polygon, bounds, centroid, edges
from piecewright.measure.tolerance import EDGE_MATCH

CLOSE = 2 * EDGE_MATCH
"""Inches: a piece that ends so near a seam is sewn in it."""

DEEP = 4.0
"""How far an allowance may reach beyond its seam, in take-ups; ears that are not cut off are the longest."""

EASE = 0.25
"""So much farther, in take-ups, where a piece is a little too large and eased in."""

LONGEST_TIP = 6.0
"""How far a tip may reach past the end of a seam, in take-ups: of a piece with a corner of 20 degrees."""

CURVED = 0.5
"""A path that bends by less than this (the sine of the angle) is a curve: each stretch folds its own part."""

Zone = tuple[int, Line, ShapelyPolygon]


def is_beside(owner: Polygon, path: Sequence[Point]) -> bool:
    """Whether a piece is sewn in a seam: it has a side along one of its stretches, on the left."""
    return any(_side_on(owner, line) is not None for line in pairwise(path))


def beyond(owner: Polygon, outline: Polygon, path: Sequence[Point], take_up: float) -> Iterator[Zone]:
    """The zones of a path in which a sheet of a piece may lie: number and line of the stretch, and the place.

    A sheet whose piece has no side on the path is caught in the stretch that is nearest to its piece.
    """
    if not _may_reach(outline, path, take_up):
        return
    lines = list(pairwise(path))
    sides = [_side_on(owner, line) for line in lines]
    if any(sides):
        for k, (line, side) in enumerate(zip(lines, sides, strict=True)):
            if side is not None:
                goes_on = [0 <= j < len(sides) and sides[j] is not None for j in (k - 1, k + 1)]
                yield k, line, _zone_of_own(owner, line, side, goes_on, take_up)
        return
    middle = centroid(owner)
    k = min(range(len(lines)), key=lambda k: _from_line(middle, lines[k]))
    if side_of(middle, *lines[k]) > 0:
        tip = LONGEST_TIP / 2 * take_up
        yield k, lines[k], _zone(lines[k], (tip, None), (tip, None), take_up)


def _may_reach(outline: Polygon, path: Sequence[Point], take_up: float) -> bool:
    left, low, right, high = bounds(outline)
    x0, y0, x1, y1 = bounds(path)
    far = LONGEST_TIP * take_up
    return left <= x1 + far and right >= x0 - far and low <= y1 + far and high >= y0 - far


def _side_on(owner: Polygon, line: Line) -> int | None:
    """The number of the side of a piece that runs along a line, the piece on its left."""
    start, end = line
    ahead, length = unit(sub(end, start)), distance(start, end)
    for k, (a, b) in enumerate(edges(owner)):
        first, last = dot(ahead, sub(a, start)), dot(ahead, sub(b, start))
        if min(last, length) - max(first, 0.0) <= CLOSE:
            continue
        if abs(cross(ahead, sub(a, start))) <= CLOSE and abs(cross(ahead, sub(b, start))) <= CLOSE:
            return k
    return None


def _from_line(point: Point, line: Line) -> float:
    start, end = line
    ahead, length = unit(sub(end, start)), distance(start, end)
    at = min(max(dot(ahead, sub(point, start)), 0.0), length)
    return distance(point, add(start, scale(ahead, at)))


End = tuple[float, Point | None]
"""How far a zone goes past the end of its stretch; or the way from that end along which it is bounded."""


def _zone_of_own(
    owner: Polygon, line: Line, side: int, goes_on: Sequence[bool], take_up: float
) -> ShapelyPolygon:
    """The zone of a piece that has a side on the line; `goes_on` where it has one on the next stretch too."""
    a, b = owner[side], owner[(side + 1) % len(owner)]
    before, after = owner[side - 1], owner[(side + 2) % len(owner)]
    ahead = unit(sub(line[1], line[0]))
    early, late = dot(ahead, sub(line[0], a)), dot(ahead, sub(b, line[1]))
    start = _end(unit(sub(a, before)), ahead, early, goes_on[0], take_up)
    end = _end(ahead, unit(sub(after, b)), late, goes_on[1], take_up)
    return _zone(line, start, end, take_up)


def _end(into: Point, out: Point, over: float, goes_on: bool, take_up: float) -> End:
    """What a zone does at a corner of its piece, which goes on by `over` beyond the end of the stretch."""
    bend, straight = cross(into, out), dot(into, out)
    if over > CLOSE or straight < -1 + EDGE_MATCH:
        return 0.0, None
    if bend < -EDGE_MATCH or (goes_on and bend < CURVED):
        return 0.0, scale(left_of(unit(add(into, out))), -1.0)
    # The allowances of two sides that bend by an angle a meet tan(a/2) take-ups past the corner.
    tip = min(max(bend, 0.0) / (1 + straight), LONGEST_TIP)
    return (tip + EASE) * take_up, None


def _zone(line: Line, start: End, end: End, take_up: float) -> ShapelyPolygon:
    """The place beside a stretch, on its right."""
    ahead = unit(sub(line[1], line[0]))
    out, deep = scale(left_of(ahead), -1.0), DEEP * take_up
    a, b = sub(line[0], scale(ahead, start[0])), add(line[1], scale(ahead, end[0]))
    c = add(b, _reaching(end[1] or out, out, deep))
    d = add(a, _reaching(start[1] or out, out, deep))
    if dot(sub(c, d), ahead) > 0:
        return ShapelyPolygon((a, d, c, b))
    # Between two inner corners near one another the bounds meet.
    top = where_lines_meet(a, d, b, c)
    return ShapelyPolygon((a, top or d, b))


def _reaching(way: Point, out: Point, deep: float) -> Point:
    """The vector along a way that goes so deep beyond the seam."""
    return scale(way, deep / max(dot(way, out), EDGE_MATCH))
