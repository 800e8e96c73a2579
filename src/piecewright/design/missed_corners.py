"""Corners that miss the edge they were meant to lie on, and how far they are off."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence

import shapely
from shapely import LineString
from shapely.geometry import Point as ShapelyPoint
from shapely.geometry import Polygon as ShapelyPolygon

from piecewright.design.misfit import THIN, Kind, Misfit, outline_of, width_of
from piecewright.geometry.point import Point, add, distance, dot, scale, sub
from piecewright.geometry.polygon import Polygon, bounds, edges
from piecewright.measure.tolerance import AS_DRAWN

Box = tuple[float, float, float, float]


def missed_corner(region: ShapelyPolygon, outlines: Mapping[int, Polygon], kind: Kind) -> Misfit | None:
    """The region as a corner that misses an edge, the one that is farthest off; None where it is wide.

    `outlines` are those around it by their numbers; that of the block itself has the number -1.
    """
    if width_of(region) >= THIN:
        return None
    corners = [
        (i, corner)
        for i, outline in outlines.items()
        for corner in outline
        if i >= 0
        and _boxes_meet(region.bounds, (*corner, *corner))
        and region.distance(ShapelyPoint(corner)) <= AS_DRAWN
    ]
    sides = [
        (j, edge) for j, outline in outlines.items() for edge in edges(outline) if _touches(region, *edge)
    ]
    # Of two corners that miss each other, the block's own is right, and the later patch is told.
    right = outlines.get(-1, ())
    missed = [
        (corner not in right, round(off, 9), i, corner, j)
        for i, corner in corners
        for j, edge in sides
        if j != i and AS_DRAWN < (off := _off(corner, *edge)) < THIN
    ]
    if not missed:
        return None
    _, off, i, corner, j = max(missed)
    return Misfit(kind, corner, tuple(k for k in (i, j) if k >= 0), off, outline_of(region))


def near_misses(
    polygons: Sequence[Polygon], corners: Iterable[Point], in_curves: Collection[Point] = ()
) -> list[Misfit]:
    """Which corners lie off an edge of a polygon by less than `THIN`; of two that miss each other, one.

    In a tiling without holes such corners make jogs in seams that hardly anybody can sew. Edges that end
    `in_curves` are pieces of a curve and do not count.
    """
    owned = [
        (i, edge)
        for i, polygon in enumerate(polygons)
        for edge in edges(polygon)
        if edge[0] not in in_curves and edge[1] not in in_curves
    ]
    places = sorted(set(corners))
    tree = shapely.STRtree([LineString(edge) for _, edge in owned])
    near = tree.query([ShapelyPoint(p) for p in places], "dwithin", THIN).tolist()
    found: dict[Point, Misfit] = {}
    for number, line in zip(*near, strict=True):
        corner, (owner, edge) = places[number], owned[line]
        off = _off(corner, *edge)
        nearest = found[corner].size if corner in found else THIN
        if AS_DRAWN < off < nearest - AS_DRAWN:
            found[corner] = Misfit("near miss", corner, (owner,), off)
    kept: list[Misfit] = []
    for misfit in sorted(found.values(), key=lambda misfit: misfit.place):
        if all(distance(misfit.place, other.place) > misfit.size + AS_DRAWN for other in kept):
            kept.append(misfit)
    return kept


def _touches(region: ShapelyPolygon, a: Point, b: Point) -> bool:
    """Whether a good part of the region's edge runs along an edge."""
    if not _boxes_meet(region.bounds, bounds((a, b))):
        return False
    along = LineString((a, b)).buffer(AS_DRAWN / 2)
    return float(region.boundary.intersection(along).length) > 10 * AS_DRAWN


def _boxes_meet(one: Box, other: Box) -> bool:
    return all(one[k] <= other[k + 2] + AS_DRAWN and other[k] <= one[k + 2] + AS_DRAWN for k in (0, 1))


def _off(p: Point, a: Point, b: Point) -> float:
    """How far a point lies off a stretch from a to b."""
    along = sub(b, a)
    share = min(max(dot(sub(p, a), along) / dot(along, along), 0.0), 1.0)
    return distance(p, add(a, scale(along, share)))
