"""Polygons: tuples of corners, counter-clockwise, straight sides; sizes in inches and square inches."""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot

from shapely import LineString, make_valid, unary_union
from shapely import Polygon as ShapelyPolygon

from piecewright.geometry.isometry import Isometry
from piecewright.geometry.point import (
    Point,
    add,
    cross,
    distance,
    dot,
    left_of,
    near,
    scale,
    side_of,
    sub,
    unit,
    where_lines_meet,
)
from piecewright.measure.tolerance import PARALLEL, WELD

Polygon = tuple[Point, ...]
Line = tuple[Point, Point]


def rectangle(width: float, height: float) -> Polygon:
    """A rectangle with its lower left corner at the origin."""
    return ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height))


def area(polygon: Sequence[Point]) -> float:
    """The area, positive when the corners run counter-clockwise."""
    total = 0.0
    x0, y0 = polygon[-1]
    for x1, y1 in polygon:
        total += x0 * y1 - x1 * y0
        x0, y0 = x1, y1
    return total / 2


def centroid(polygon: Polygon) -> Point:
    """The centre of gravity."""
    whole = area(polygon)
    x = y = 0.0
    ax, ay = polygon[0]
    for (px, py), (qx, qy) in zip(polygon, polygon[1:] + polygon[:1], strict=True):
        part = (px - ax) * (qy - ay) - (qx - ax) * (py - ay)
        x += part * (px - ax + qx - ax)
        y += part * (py - ay + qy - ay)
    return (ax + x / (6 * whole), ay + y / (6 * whole))


def bounds(points: Sequence[Point]) -> tuple[float, float, float, float]:
    """The least x, least y, greatest x and greatest y."""
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return min(xs), min(ys), max(xs), max(ys)


def placed(polygon: Polygon, place: Isometry) -> Polygon:
    """The polygon after an isometry, still counter-clockwise."""
    corners = tuple(map(place.at, polygon))
    return corners[::-1] if place.mirrored else corners


def edges(polygon: Polygon) -> list[Line]:
    """Each edge as (start, end), in order."""
    return list(zip(polygon, polygon[1:] + polygon[:1], strict=True))


def clean(corners: Sequence[Point], tolerance: float = WELD, straight: float = 0.0) -> Polygon:
    """The polygon without repeated corners and corners in the middle of a straight side.

    A side counts as straight, too, where a corner lies off it by no more than `straight`. Starts at the
    lowest corner (the left-most of those), so that sides are counted alike everywhere.
    Returns () when nothing is left.
    """
    kept: list[Point] = []
    for corner in corners:
        if not kept or not near(corner, kept[-1], tolerance):
            kept.append(corner)
    if len(kept) > 1 and near(kept[0], kept[-1], tolerance):
        kept.pop()
    at = 0
    while at < len(kept) >= 3:
        if not _is_straight(kept[at - 1], kept[at], kept[(at + 1) % len(kept)], straight):
            at += 1
            continue
        kept.pop(at)
        # Its neighbours may have become needless: the one before it, or the first one after the last.
        at = 0 if at == len(kept) else max(at - 1, 0)
    return from_lowest(kept) if len(kept) >= 3 else ()


def _is_straight(before: Point, corner: Point, after: Point, off: float) -> bool:
    (ax, ay), (bx, by) = sub(corner, before), sub(after, corner)
    bend, size = abs(ax * by - ay * bx), hypot(ax, ay) * hypot(bx, by)
    if size == 0:
        return True
    is_straight = bend <= PARALLEL * size * 10 or bend <= off * distance(before, after)
    return is_straight and ax * bx + ay * by > 0


def from_lowest(corners: Sequence[Point]) -> Polygon:
    """The same cycle, started at its lowest corner (the left-most of the lowest)."""
    lowest = min(y for _, y in corners)
    first = min((i for i, (_, y) in enumerate(corners) if y <= lowest + WELD), key=lambda i: corners[i][0])
    return (*corners[first:], *corners[:first])


def clip(polygon: Polygon, a: Point, b: Point, keep: int = 1) -> Polygon:
    """The part of a convex polygon on the left (`keep` 1) or right (-1) of the endless line from a to b.

    Returns () where nothing wider than `WELD` is left.
    """
    if not polygon:
        return ()
    ux, uy = unit(sub(b, a))
    ax, ay = a
    depths = [keep * (ux * (y - ay) - uy * (x - ax)) for x, y in polygon]
    if max(depths) <= WELD:
        return ()
    if min(depths) >= -WELD:
        return polygon
    kept: list[Point] = []
    for i, (p, q) in enumerate(edges(polygon)):
        d, e = depths[i], depths[(i + 1) % len(polygon)]
        if d >= 0:
            kept.append(p)
        if (d > 0 > e) or (d < 0 < e):
            kept.append(add(p, scale(sub(q, p), d / (d - e))))
    return clean(kept)


def clip_to(polygon: Polygon, window: Polygon) -> Polygon:
    """The part of a convex polygon inside a convex window."""
    for a, b in edges(window):
        polygon = clip(polygon, a, b)
        if not polygon:
            return ()
    return polygon


def clip_segment(segment: Line, window: Polygon) -> Line | None:
    """The part of a segment inside a convex polygon, or None."""
    (p, q) = segment
    start, end = 0.0, 1.0
    for a, b in edges(window):
        d, e = side_of(p, a, b), side_of(q, a, b)
        if max(d, e) < 0 and min(d, e) < -WELD:
            return None
        if d < 0 <= e and e - d > WELD:
            start = max(start, d / (d - e))
        elif e < 0 <= d and d - e > WELD:
            end = min(end, d / (d - e))
    if (end - start) * distance(p, q) <= WELD:
        return None
    along = sub(q, p)
    return add(p, scale(along, start)), add(p, scale(along, end))


def grown(polygon: Polygon, by: float) -> Polygon:
    """The polygon with every edge moved outwards by a distance (inwards when negative), corners kept sharp.

    An edge between angles a and b grows by `by * (cot a/2 + cot b/2)`. Edges that vanish are dropped.

    >>> grown(rectangle(2, 3), 0.25)
    ((-0.25, -0.25), (2.25, -0.25), (2.25, 3.25), (-0.25, 3.25))
    """
    if by == 0:
        return polygon
    moved = []
    for a, b in edges(polygon):
        out = scale(left_of(unit(sub(b, a))), -by)
        moved.append((add(a, out), add(b, out)))
    while len(moved) >= 3:
        corners = _crossings(moved)
        if corners is None:
            return ()
        shrunk = [
            i
            for i, (a, b) in enumerate(moved)
            if dot(sub(corners[(i + 1) % len(moved)], corners[i]), sub(b, a)) <= WELD * distance(a, b)
        ]
        if not shrunk:
            return clean(corners)
        moved.pop(shrunk[0])
    return ()


def _crossings(lines: list[Line]) -> list[Point] | None:
    corners = []
    for i, (c, d) in enumerate(lines):
        a, b = lines[i - 1]
        crossing = where_lines_meet(a, b, c, d)
        if crossing is None:
            if not near(b, c, 1e-4):
                return None
            crossing = c
        corners.append(crossing)
    return corners


def joined_outline(polygons: Sequence[Polygon]) -> Polygon:
    """The outer edge of what several polygons cover together; raises ValueError when they lie apart."""
    # Without spikes at sharp corners, which GEOS may lose a whole outline over.
    whole = unary_union([ShapelyPolygon(p).buffer(WELD, join_style="mitre", mitre_limit=2) for p in polygons])
    outline = whole.buffer(-WELD, join_style="mitre")
    # Crumbs may be left at sharp corners.
    pieces = [part for part in getattr(outline, "geoms", [outline]) if part.area > WELD]
    if whole.geom_type != "Polygon" or len(pieces) != 1:
        raise ValueError("the pieces do not touch")
    corners = [(float(x), float(y)) for x, y in pieces[0].exterior.coords[:-1]]
    return clean(corners if area(corners) > 0 else corners[::-1], 5 * WELD)


def overlap_area(p: Polygon, q: Polygon) -> float:
    """The area that two polygons share."""
    return float(ShapelyPolygon(p).intersection(ShapelyPolygon(q)).area)


def length_inside(segment: Line, polygon: Polygon) -> float:
    """How much of a segment lies inside a polygon."""
    return float(LineString(segment).intersection(make_valid(ShapelyPolygon(polygon))).length)


def same_polygon(p: Polygon, q: Polygon, tolerance: float) -> bool:
    """Whether two polygons have the same corners in the same order, within a tolerance."""
    if len(p) != len(q):
        return False
    return any(
        all(near(p[i], q[(i + k) % len(q)], tolerance) for i in range(len(p)))
        for k in range(len(q))
        if near(p[0], q[k], tolerance)
    )


def is_convex(polygon: Polygon, tolerance: float = WELD) -> bool:
    """Whether no corner of a simple polygon turns inwards."""
    before, after = polygon[-1:] + polygon[:-1], polygon[1:] + polygon[:1]
    return all(
        cross(sub(b, a), sub(c, b)) >= -tolerance for a, b, c in zip(before, polygon, after, strict=True)
    )


def contains(polygon: Polygon, p: Point, tolerance: float = WELD) -> bool:
    """Whether a point lies in a convex polygon or on its edge."""
    return all(side_of(p, a, b) >= -tolerance for a, b in edges(polygon))


def extent(polygon: Polygon) -> tuple[float, float]:
    """The size along the longest side and the size across it."""
    a, b = max(edges(polygon), key=lambda e: (round(distance(*e), 6), -e[0][1], -e[0][0]))
    u = unit(sub(b, a))
    along = [dot(u, p) for p in polygon]
    across = [cross(u, p) for p in polygon]
    return max(along) - min(along), max(across) - min(across)
