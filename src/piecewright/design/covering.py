"""What is to be seen of shapes that are painted one over the other: the later one covers the earlier one.

Drawing programs lay a background under everything, or a square under a star. Each shape shows what no later
shape covers; that may be nothing, or several pieces.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import shapely
from shapely import LineString, MultiPolygon
from shapely import Polygon as ShapelyPolygon
from shapely.geometry.base import BaseGeometry

from piecewright.design.misfit import Misfit, region_misfit
from piecewright.design.svg_file import Unreadable
from piecewright.geometry.point import Point
from piecewright.geometry.polygon import Polygon, area, clean
from piecewright.measure.tolerance import WELD

# Outlines that cross themselves are taken apart, which takes long where there are many corners.
MOST_CROSSED = 200

# So many shapes may lie over one another before nobody looks for narrow strips any more.
MOST_PAIRS = 40_000

# Outlines are laid onto each other on a mesh this fine, so that edges that are one are seen to be one; that
# may leave a corner in a straight edge, off by a few such steps, which is taken out again.
MESH = 1e-8


@dataclass(frozen=True)
class Seen:
    """A piece that is seen of a shape (by its number); `hole` is a place where it has a hole, or None."""

    shape: int
    outline: Polygon
    hole: Point | None = None


def painted_area(rings: Sequence[Sequence[Point]], even_odd: bool) -> BaseGeometry:
    """What a shape of several rings fills, by SVG's rules nonzero or evenodd; raises Unreadable."""
    usable = [ShapelyPolygon(ring) for ring in rings if len(ring) >= 3]
    if len(usable) == 1 and usable[0].is_valid:
        return usable[0]
    if sum(map(len, rings)) > MOST_CROSSED:
        what = f"expected at most {MOST_CROSSED} corners in an outline with holes or crossings, got more."
        raise Unreadable(what, "Draw it in several shapes.")
    lines = shapely.union_all(
        [LineString([*ring, ring[0]]) for ring in rings if len(ring) >= 3], grid_size=MESH
    )
    faces = []
    for face in shapely.polygonize([lines]).geoms:
        inside = face.representative_point()
        turns = [_turns(ring, (inside.x, inside.y)) for ring in rings]
        if sum(turns) % 2 if even_odd else sum(turns):
            faces.append(face)
    return _solid(shapely.union_all(faces, grid_size=MESH))


def _turns(ring: Sequence[Point], p: Point) -> int:
    """How often a ring runs around a point, counter-clockwise."""
    turns = 0
    for (ax, ay), (bx, by) in zip(ring, [*ring[1:], ring[0]], strict=True):
        if (ay <= p[1]) != (by <= p[1]):
            side = (bx - ax) * (p[1] - ay) - (by - ay) * (p[0] - ax)
            if (side > 0) == (by > ay):
                turns += 1 if by > ay else -1
    return turns


def seen_pieces(shapes: Sequence[BaseGeometry], limit: float, most: int) -> tuple[list[Seen], int]:
    """What is seen of each shape, the lowest first, and how many slivers were given to their neighbours.

    A sliver is a piece, or a gap with patches all around it, that is narrower than the limit. Raises
    Unreadable for more than `most` pieces.
    """
    covered: BaseGeometry = ShapelyPolygon()
    pieces: list[tuple[int, BaseGeometry]] = []
    for number in reversed(range(len(shapes))):
        rest = shapely.difference(shapes[number], covered, grid_size=MESH)
        pieces += [(number, part) for part in reversed(_parts(rest))]
        if len(pieces) > most:
            raise Unreadable(f"expected at most {most:,} patches in a drawing, got more.")
        covered = _solid(shapely.union(covered, shapes[number], grid_size=MESH))
    pieces.reverse()
    wide = [(number, piece) for number, piece in pieces if not is_thin(piece, limit)]
    thin = [piece for _, piece in pieces if is_thin(piece, limit)]
    thin += [hole for hole in _holes_in(covered) if is_thin(hole, limit)]
    return [seen for number, piece in _given(wide, thin) for seen in _as_seen(number, piece)], len(thin)


def is_thin(region: BaseGeometry, limit: float) -> bool:
    """Whether a region is nowhere as wide as the limit."""
    return bool(region.buffer(-limit / 2, join_style="mitre").is_empty)


def covered_strips(shapes: Sequence[BaseGeometry], least: float, most: float) -> list[Misfit]:
    """Where a shape covers no more than a strip of an earlier one, wider than `least`, narrower than `most`.

    What is no wider than that itself may well be meant to lie on top.
    """
    tree = shapely.STRtree(list(shapes))
    found: list[Misfit] = []
    pairs = tree.query(list(shapes), "intersects").tolist()
    for upper, lower in sorted(zip(*pairs, strict=True)) if len(pairs[0]) <= MOST_PAIRS else ():
        if lower >= upper or is_thin(shapes[upper], most):
            continue
        strip = shapely.intersection(shapes[upper], shapes[lower], grid_size=MESH)
        if not strip.is_empty and is_thin(strip, most) and not is_thin(strip, least):
            found += [region_misfit(part, "overlap", (lower, upper)) for part in _parts(strip)]
    return found


def _parts(region: BaseGeometry) -> list[BaseGeometry]:
    return [
        part
        for part in getattr(region, "geoms", [region])
        if part.geom_type == "Polygon" and not part.is_empty
    ]


def _solid(region: BaseGeometry) -> BaseGeometry:
    """The region without lines and points that are left of what has no width."""
    parts = _parts(region)
    return parts[0] if len(parts) == 1 else MultiPolygon(parts)


def _holes_in(region: BaseGeometry) -> list[BaseGeometry]:
    return [ShapelyPolygon(ring) for part in _parts(region) for ring in part.interiors]


def _given(wide: list[tuple[int, BaseGeometry]], thin: list[BaseGeometry]) -> list[tuple[int, BaseGeometry]]:
    """The wide pieces, each thin one joined to the piece it touches along most of its edge."""
    if not (wide and thin):
        return wide
    tree = shapely.STRtree([piece for _, piece in wide])
    for region in thin:
        beside = sorted(tree.query(region, "dwithin", WELD).tolist())
        shared = [
            shapely.intersection(region.boundary, wide[k][1].boundary, grid_size=MESH).length for k in beside
        ]
        if max(shared, default=0.0) > 0:
            number, piece = wide[beside[shared.index(max(shared))]]
            wide[beside[shared.index(max(shared))]] = (number, shapely.union(piece, region, grid_size=MESH))
    return wide


def _as_seen(number: int, region: BaseGeometry) -> list[Seen]:
    seen = []
    for part in _parts(region):
        corners = [(float(x), float(y)) for x, y in part.exterior.coords[:-1]]
        outline = clean(corners if area(corners) > 0 else corners[::-1], WELD, WELD)
        hole = None
        if part.interiors:
            middle = max((ShapelyPolygon(ring) for ring in part.interiors), key=lambda p: p.area)
            place = middle.representative_point()
            hole = (float(place.x), float(place.y))
        if outline:
            seen.append(Seen(number, outline, hole))
    return seen
