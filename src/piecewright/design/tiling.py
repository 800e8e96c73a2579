"""Whether shapes tile a block: no overlap, hole, sliver, nothing outside, no outline that crosses itself."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import shapely
from shapely.geometry import MultiPoint, box
from shapely.geometry import Polygon as ShapelyPolygon

from piecewright.geometry.point import Point
from piecewright.geometry.polygon import Polygon, area, clean
from piecewright.measure.length import inches
from piecewright.measure.tolerance import AS_DRAWN

# A finished patch narrower than this disappears between its two seams.
NARROWEST = float(inches("1/8"))


def welded(outlines: Sequence[Sequence[Point]]) -> list[Polygon]:
    """The outlines counter-clockwise, corners that are nearly one made one; () for one with no area."""
    kept: dict[tuple[int, int], Point] = {}
    polygons = []
    for outline in outlines:
        corners = clean([_weld(corner, kept) for corner in outline])
        polygons.append(corners if not corners or area(corners) > 0 else clean(corners[::-1]))
    return polygons


def _weld(corner: Point, kept: dict[tuple[int, int], Point]) -> Point:
    cell = (round(corner[0] / AS_DRAWN), round(corner[1] / AS_DRAWN))
    for dx in (0, -1, 1):
        for dy in (0, -1, 1):
            near = kept.get((cell[0] + dx, cell[1] + dy))
            if near is not None:
                return near
    kept[cell] = corner
    return corner


def self_crossing(polygon: Polygon) -> Point | None:
    """Where an outline crosses or touches itself, or None."""
    reason = shapely.is_valid_reason(ShapelyPolygon(polygon))
    if reason == "Valid Geometry":
        return None
    x, _, y = reason[reason.index("[") + 1 : -1].partition(" ")
    return float(x), float(y)


def narrowest(polygon: Polygon) -> float:
    """The least width of a shape, in inches."""
    widths = []
    hull = list(MultiPoint(polygon).convex_hull.exterior.coords)
    for (ax, ay), (bx, by) in pairwise(hull):
        side = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5
        widths.append(max(abs((bx - ax) * (py - ay) - (by - ay) * (px - ax)) / side for px, py in hull))
    return float(min(widths))


def overlaps(polygons: Sequence[Polygon]) -> list[tuple[int, int, Point]]:
    """Which two polygons overlap, and where."""
    shapes = [ShapelyPolygon(p) for p in polygons]
    tree = shapely.STRtree(shapes)
    found = []
    for i, j in sorted(zip(*tree.query(shapes, predicate="intersects").tolist(), strict=True)):
        if i < j:
            place = _where(shapes[i].intersection(shapes[j]))
            if place is not None:
                found.append((i, j, place))
    return found


def holes(polygons: Sequence[Polygon], width: float, height: float) -> list[Point]:
    """Where a rectangle with its corner at the origin is not covered."""
    rest = box(0, 0, width, height).difference(shapely.union_all([ShapelyPolygon(p) for p in polygons]))
    places = (_where(part) for part in getattr(rest, "geoms", [rest]))
    return sorted(place for place in places if place is not None)


def outside(polygon: Polygon, width: float, height: float) -> Point | None:
    """A corner that lies outside the rectangle, or None."""
    for x, y in polygon:
        if not (-AS_DRAWN <= x <= width + AS_DRAWN and -AS_DRAWN <= y <= height + AS_DRAWN):
            return x, y
    return None


def _where(region: shapely.Geometry) -> Point | None:
    """The middle of a region that is wider than the tolerance of drawing, or None."""
    core = region.buffer(-AS_DRAWN / 2)
    if core.is_empty:
        return None
    point = core.representative_point()
    return float(point.x), float(point.y)
