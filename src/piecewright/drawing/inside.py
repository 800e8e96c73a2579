"""What lies inside what: the parts of a line within shapes, and where there is most room for words."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import shapely
from shapely import LineString
from shapely import Polygon as ShapelyPolygon
from shapely.geometry.base import BaseGeometry

from piecewright.geometry.point import Point, distance, dot, sub
from piecewright.geometry.polygon import Polygon
from piecewright.measure.tolerance import AS_DRAWN, WELD

Points = tuple[Point, ...]

ENOUGH = 0.9
"""The share of the greatest room that is as good as the greatest."""


def parts_within(line: Sequence[Point], shapes: Sequence[Polygon]) -> list[Points]:
    """The parts of a line inside all of several shapes, in the order and direction of the line."""
    left: BaseGeometry = LineString(line)
    for shape in shapes:
        left = left.intersection(ShapelyPolygon(shape).buffer(WELD, join_style="mitre"))
    parts = _parts_of(left)
    whole = LineString(line)
    ordered = sorted((_directed(part, whole) for part in parts), key=lambda part: _along(whole, part[0]))
    return [part for part in ordered if _length(part) > AS_DRAWN]


def parts_off(line: Sequence[Point], outline: Polygon) -> list[Points]:
    """The parts of a line that do not run along an outline."""
    off = LineString(line).difference(ShapelyPolygon(outline).exterior.buffer(10 * WELD))
    return [part for part in _parts_of(off) if _length(part) > 2 * AS_DRAWN]


def parts_outside(line: Sequence[Point], shape: Polygon) -> list[Points]:
    """The parts of a line that do not lie inside a shape."""
    return _parts_of(LineString(line).difference(ShapelyPolygon(shape)))


def across(line: tuple[Point, Point], shapes: Sequence[Polygon]) -> tuple[Point, Point] | None:
    """The endless line from where it first meets any of the shapes to where it last leaves them."""
    reach = max(distance(line[0], corner) for shape in shapes for corner in shape) + 1
    (ax, ay), (ux, uy) = line[0], sub(line[1], line[0])
    long = reach / distance(*line)
    endless = ((ax - ux * long, ay - uy * long), (ax + ux * long, ay + uy * long))
    ends = [end for shape in shapes for part in parts_within(endless, [shape]) for end in (part[0], part[-1])]
    if not ends:
        return None
    ends.sort(key=lambda end: dot((ux, uy), end))
    return ends[0], ends[-1]


def overlaps(shape: Polygon, other: Polygon) -> bool:
    """Whether two shapes share more than an edge."""
    return bool(ShapelyPolygon(shape).intersection(ShapelyPolygon(other)).area > WELD)


def roomiest(shape: Polygon) -> tuple[Point, float]:
    """The centre and the radius of a circle that fits into a shape and is about as large as can be.

    Its centre is that of the shape where there is nearly as much room: in the middle of a strip, say.
    """
    whole = ShapelyPolygon(shape)
    spoke = shapely.maximum_inscribed_circle(whole, tolerance=AS_DRAWN)
    centre, edge = spoke.coords
    radius = distance(centre, edge)
    middle = whole.centroid
    room = float(whole.exterior.distance(middle)) if whole.contains(middle) else 0.0
    if room >= ENOUGH * radius:
        return (float(middle.x), float(middle.y)), room
    return (float(centre[0]), float(centre[1])), radius


def covers(shape: Polygon, box: Polygon) -> bool:
    """Whether a box lies inside a shape."""
    return bool(ShapelyPolygon(shape).covers(ShapelyPolygon(box)))


def _parts_of(lines: BaseGeometry) -> list[Points]:
    """The points of every line in a geometry, those that touch end to end made one."""
    merged = shapely.line_merge(lines) if lines.geom_type == "MultiLineString" else lines
    found = [
        part for part in shapely.get_parts(merged) if part.geom_type == "LineString" and not part.is_empty
    ]
    return [tuple((float(x), float(y)) for x, y in part.coords) for part in found]


def _directed(part: Points, whole: LineString) -> Points:
    """The part, the way the whole line runs."""
    if whole.is_ring:
        return part
    return part if _along(whole, part[0]) <= _along(whole, part[-1]) else part[::-1]


def _along(whole: LineString, point: Point) -> float:
    return float(whole.project(shapely.Point(point)))


def _length(part: Points) -> float:
    return sum(distance(a, b) for a, b in pairwise(part))
