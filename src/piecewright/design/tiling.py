"""Whether shapes tile a block, and where they do not.

Each place where they do not is a misfit. Sizes are finished inches.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

import shapely
from shapely.geometry import MultiPoint, box
from shapely.geometry import Polygon as ShapelyPolygon
from shapely.geometry.base import BaseGeometry

from piecewright.design.misfit import NARROWEST, Misfit, region_misfit
from piecewright.design.missed_corners import missed_corner
from piecewright.geometry.point import Point, distance
from piecewright.geometry.polygon import Polygon, area, clean, rectangle
from piecewright.measure.tolerance import AS_DRAWN


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


def misfits(polygons: Sequence[Polygon], width: float, height: float) -> list[Misfit]:
    """Everything that keeps polygons (counter-clockwise) from tiling a rectangle at the origin.

    Overlaps and holes are looked for once each polygon is sound by itself.
    """
    found = [misfit for i, p in enumerate(polygons) for misfit in _alone(i, p, width, height)]
    return found or [*_overlaps(polygons), *_holes(polygons, width, height)]


def _alone(number: int, polygon: Polygon, width: float, height: float) -> Iterator[Misfit]:
    crossing = self_crossing(polygon)
    if crossing is not None:
        yield Misfit("crossing", crossing, (number,))
        return
    beyond = outside(polygon, width, height)
    if beyond is not None:
        inside = (min(max(beyond[0], 0.0), width), min(max(beyond[1], 0.0), height))
        yield Misfit("outside", beyond, (number,), distance(beyond, inside))
    elif narrowest(polygon) < NARROWEST:
        place = ShapelyPolygon(polygon).representative_point()
        yield Misfit("sliver", (float(place.x), float(place.y)), (number,), narrowest(polygon), polygon)


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


def outside(polygon: Polygon, width: float, height: float) -> Point | None:
    """A corner that lies outside the rectangle, or None."""
    for x, y in polygon:
        if not (-AS_DRAWN <= x <= width + AS_DRAWN and -AS_DRAWN <= y <= height + AS_DRAWN):
            return x, y
    return None


def _overlaps(polygons: Sequence[Polygon]) -> Iterator[Misfit]:
    shapes = [ShapelyPolygon(p) for p in polygons]
    tree = shapely.STRtree(shapes)
    for i, j in sorted(zip(*tree.query(shapes, predicate="intersects").tolist(), strict=True)):
        if i < j:
            for region in _wider(shapes[i].intersection(shapes[j])):
                outlines = {i: polygons[i], j: polygons[j]}
                yield missed_corner(region, outlines, "corner overlap") or region_misfit(
                    region, "overlap", (i, j)
                )


def _holes(polygons: Sequence[Polygon], width: float, height: float) -> list[Misfit]:
    shapes = [ShapelyPolygon(p) for p in polygons]
    rest = box(0, 0, width, height).difference(shapely.union_all(shapes))
    tree, frame = shapely.STRtree(shapes), rectangle(width, height)
    found = []
    for region in _wider(rest):
        beside = tree.query(region, "dwithin", AS_DRAWN).tolist()
        outlines = {-1: frame, **{i: polygons[i] for i in sorted(beside)}}
        found.append(missed_corner(region, outlines, "corner gap") or region_misfit(region, "hole", ()))
    return sorted(found, key=lambda misfit: misfit.place)


def _wider(region: BaseGeometry) -> list[ShapelyPolygon]:
    """The parts of a region that are wider than the tolerance of drawing."""
    parts = [part for part in getattr(region, "geoms", [region]) if part.geom_type == "Polygon"]
    return [part for part in parts if not part.buffer(-AS_DRAWN / 2).is_empty]
