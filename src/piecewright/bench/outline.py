"""Outlines of joined cloths: what a seam leaves free of them, and slits where a seam is not sewn to its end.

A *path* is the stretch of an outline along which a seam runs, counter-clockwise like the outline. A *slit*
runs from a point of the outline inwards and back again: there, two neighbours lie side by side, unsewn.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from shapely import Polygon as ShapelyPolygon
from shapely import make_valid

from piecewright.geometry.point import Point, cross, distance, dot, near, side_of, sub, unit
from piecewright.geometry.polygon import Line, Polygon, clean, edges, grown
from piecewright.measure.tolerance import EDGE_MATCH, WELD
from piecewright.problems import Problem, Refused


def rest_of(net: Polygon, path: Sequence[Point]) -> list[Point]:
    """The corners from the end of a path round to its start; raises Refused where it is not on the outline.

    The path may begin or end in the middle of a straight side.
    """
    # Most paths run from corner to corner.
    found = _around(net, path) or _around(_with_stops(net, path), path)
    if not found:
        raise Refused(Problem("that side is sewn already", do="Join along a side that is still free."))
    return found


def _around(stops: Sequence[Point], path: Sequence[Point]) -> list[Point]:
    """The stops from the end of a path round to its start; none where it does not follow them."""
    count = len(stops)
    for first in range(count):
        if not near(path[0], stops[first], EDGE_MATCH):
            continue
        around = [stops[(first + k) % count] for k in range(count)]
        if all(near(p, q, EDGE_MATCH) for p, q in zip(path, around, strict=False)):
            return [*around[len(path) - 1 :], around[0]]
    return []


def _with_stops(net: Polygon, path: Sequence[Point]) -> list[Point]:
    """The corners of an outline, and the points of a path that lie within its sides."""
    ways = list(pairwise(path))
    stops: list[Point] = []
    for side in edges(net):
        on_side = [p for way in ways if _lies_along(way, side) for p in way if _is_within(p, side)]
        along = unit(sub(side[1], side[0]))
        ordered = sorted(on_side, key=lambda p: dot(along, p))
        stops.append(side[0])
        stops += [p for k, p in enumerate(ordered) if not k or not near(p, ordered[k - 1], EDGE_MATCH)]
    return stops


def _lies_along(way: Line, side: Line) -> bool:
    return all(abs(side_of(p, *side)) <= EDGE_MATCH for p in way)


def _is_within(p: Point, side: Line) -> bool:
    along = unit(sub(side[1], side[0]))
    return EDGE_MATCH < dot(along, sub(p, side[0])) < distance(*side) - EDGE_MATCH


def without_slits(net: Polygon) -> Polygon:
    """The outline as it is once every slit in it has been sewn."""
    corners = list(net)
    while len(corners) >= 3:
        before, after = corners[-1:] + corners[:-1], corners[1:] + corners[:1]
        tips = [
            k for k, triple in enumerate(zip(before, corners, after, strict=True)) if _turns_back(*triple)
        ]
        if not tips:
            break
        corners.pop(tips[0])
        corners = list(clean(corners, EDGE_MATCH / 10))
    return tuple(corners) if len(corners) < len(net) else net


def _turns_back(before: Point, corner: Point, after: Point) -> bool:
    into, out = sub(corner, before), sub(after, corner)
    return dot(into, out) < 0 and abs(cross(unit(into), out)) <= EDGE_MATCH


def raw_of(net: Polygon, take_up: float) -> Polygon:
    """The raw outline around a net one; the allowances along a slit lie behind it."""
    return grown(without_slits(net), take_up)


def overlap(net: Polygon, other: Polygon) -> float:
    """The area that two outlines, slits or not, have in common.

    Corners are welded first: of edges that differ by less than a float shows, GEOS may find a false overlap.
    """
    one, two = (make_valid(ShapelyPolygon(without_slits(polygon))) for polygon in (net, other))
    return float(one.intersection(two, grid_size=WELD).area)
