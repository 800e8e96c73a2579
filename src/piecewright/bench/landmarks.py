"""Landmarks: what a unit is measured from when it is trued up, and where its exact size lies by each.

- *edges*: the middle between opposite raw edges;
- *base*: the same of the piece that corners were sewn over, which was cut to size;
- *diagonal*: the seam runs through two raw corners;
- *finished corners*: the seam runs through two corners of the finished size, one take-up inside the raw ones;
- *centre*: seams cross in the middle and run through the corners;
- *point*: the point lies one take-up below the upper edge, in the middle;
- *square*: the four points of a square lie one take-up inside the edges, in their middles.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2

from piecewright.bench.cloth import Cloth, Face, Seam, SeamSize
from piecewright.bench.steps import Landmark
from piecewright.geometry.isometry import Isometry, cos_of, sin_of
from piecewright.geometry.point import (
    Point,
    add,
    cross,
    distance,
    dot,
    left_of,
    middle,
    scale,
    side_of,
    sub,
    unit,
    where_lines_meet,
)
from piecewright.geometry.polygon import Polygon, centroid, edges
from piecewright.measure.tolerance import EDGE_MATCH
from piecewright.problems import Problem, Refused

Size = tuple[float, float]


def right_of(cloth: Cloth, landmark: Landmark) -> Point:
    """The direction of the unit's width; raises Refused where the landmark is not there.

    Where only the size can tell which of two sides is the width, it is the one that lies across.
    """
    if landmark == "edges":
        return _longest_side(cloth.raw)
    if landmark == "base":
        return _across(_base_side(cloth))
    if landmark == "finished corners":
        return _across(_longest_side(cloth.raw))
    if landmark == "point":
        return left_of(_point(_seams_in(cloth, landmark, 2))[1])
    if landmark == "square":
        return points_of(cloth).right
    path = _seams_in(cloth, landmark, 1)[0].path
    return _turned_eighth(unit(sub(path[-1], path[0])))


def window_at(cloth: Cloth, landmark: Landmark, size: Size, seam: SeamSize) -> Polygon:
    """Where the exact raw size (width, height) lies on a cloth; raises Refused where it cannot be told."""
    if landmark == "edges":
        # A unit with slanted seams is trued by its seams: its edges may be off while they look straight.
        if any(_slants(seam, right_of(cloth, landmark)) for seam in cloth.seams):
            raise Refused(
                Problem("slanted seams run through it", do="Measure from the seams, not from the edges.")
            )
        along = _longest_side(cloth.raw)
        return about(_middle_of(cloth.raw, along), along, (max(size), min(size)))
    if landmark == "base":
        return _window_of_base(cloth, size)
    if landmark == "finished corners":
        return _window_of_finished_corners(cloth, size, seam)
    if landmark == "point":
        point, down = _point(_seams_in(cloth, landmark, 2))
        centre = add(point, scale(down, size[1] / 2 - seam.take_up))
        return about(centre, right_of(cloth, landmark), size)
    if abs(size[0] - size[1]) > EDGE_MATCH:
        raise Refused(
            Problem(f"the {landmark} is the landmark of a square, not of {size[0]:g} x {size[1]:g} in")
        )
    if landmark == "square":
        points = points_of(cloth)
        return about(points.centre, points.right, size)
    if landmark == "centre":
        return about(_crossing(_seams_in(cloth, landmark, 2)), right_of(cloth, landmark), size)
    longest, *others = _seams_in(cloth, landmark, 1)
    if others:
        raise Refused(
            Problem(f"one seam was expected, {1 + len(others)} run through it", do="Measure from the centre.")
        )
    return about(middle(longest.path[0], longest.path[-1]), right_of(cloth, landmark), size)


def about(centre: Point, along: Point, size: Size) -> Polygon:
    """A rectangle about its centre, its width along a direction."""
    u, v = scale(along, size[0] / 2), scale(left_of(along), size[1] / 2)
    return (sub(sub(centre, u), v), sub(add(centre, u), v), add(add(centre, u), v), add(sub(centre, u), v))


@dataclass(frozen=True)
class SquarePoints:
    """The points of a square-in-a-square: their centre, the way to one of them, how far two are apart."""

    centre: Point
    right: Point
    apart: float


def points_of(cloth: Cloth) -> SquarePoints:
    """The four points where the seams around a square meet; raises Refused where there are none."""
    seams = _seams_in(cloth, "square", 4)[:4]
    way = _way(seams[0])
    along = [seam for seam in seams if abs(cross(_way(seam), way)) <= EDGE_MATCH]
    across = [seam for seam in seams if abs(dot(_way(seam), way)) <= EDGE_MATCH]
    if len(along) != 2 or len(across) != 2:
        raise Refused(Problem("the four seams do not run around a square"))
    one, two, three, four = (_crossing([a, b]) for a in along for b in across)
    apart = (distance(one, four) + distance(two, three)) / 2
    return SquarePoints(middle(middle(one, four), middle(two, three)), unit(sub(four, one)), apart)


def _window_of_base(cloth: Cloth, size: Size) -> Polygon:
    face, along = _base(cloth), _base_side(cloth)
    us = [dot(along, p) for p in face.flat]
    vs = [dot(left_of(along), p) for p in face.flat]
    long, high = max(us) - min(us), max(vs) - min(vs)
    stands = abs(long - size[1]) + abs(high - size[0]) < abs(long - size[0]) + abs(high - size[1])
    centre = _middle_of(face.flat, along)
    return about(centre, scale(left_of(along), -1.0) if stands else along, size)


def _base(cloth: Cloth) -> Face:
    """The piece that lies on the first side of every seam."""
    _seams_in(cloth, "base", 1)
    for face in cloth.faces:
        at = centroid(face.seen)
        if all(side_of(at, seam.path[0], seam.path[-1]) > 0 for seam in cloth.seams):
            return face
    raise Refused(Problem("no piece lies on the first side of every seam", do="Measure from a seam."))


def _base_side(cloth: Cloth) -> Point:
    """The direction of the base's longest edge that is not one of its corner seams."""
    ways = [_way(seam) for seam in cloth.seams]
    free = [
        (a, b)
        for a, b in edges(_base(cloth).flat)
        if all(abs(cross(unit(sub(b, a)), way)) > EDGE_MATCH for way in ways)
    ]
    if not free:
        raise Refused(Problem("no edge of the base is left to measure from", do="Measure from a seam."))
    a, b = max(free, key=lambda e: distance(*e))
    return unit(sub(b, a))


def _window_of_finished_corners(cloth: Cloth, size: Size, seam: SeamSize) -> Polygon:
    """The seam is a diagonal of the finished size; which of the two, the cloth itself shows."""
    longest, *others = _seams_in(cloth, "finished corners", 1)
    if others:
        raise Refused(
            Problem(f"one seam was expected, {1 + len(others)} run through it", do="Measure from the centre.")
        )
    width, height = (side - 2 * seam.take_up for side in size)
    if min(width, height) <= 0:
        raise Refused(Problem(f"{size[0]:g} x {size[1]:g} in leaves nothing between its seams"))
    long = (width**2 + height**2) ** 0.5
    along, centre = _way(longest), middle(longest.path[0], longest.path[-1])
    falling, rising = (Isometry(width / long, turn * height / long).along(along) for turn in (1.0, -1.0))
    windows = [about(centre, right, size) for right in (rising, falling)]
    return max(windows, key=lambda window: _room(cloth.raw, window))


def _room(raw: Polygon, window: Polygon) -> float:
    """How far a window lies inside an outline, at the corner where there is least room."""
    return min(side_of(p, a, b) for p in window for a, b in edges(raw))


def _way(seam: Seam) -> Point:
    return unit(sub(seam.path[-1], seam.path[0]))


def _slants(seam: Seam, right: Point) -> bool:
    ways = [unit(sub(b, a)) for a, b in seam.segments]
    return any(min(abs(dot(way, right)), abs(cross(way, right))) > EDGE_MATCH for way in ways)


def _seams_in(cloth: Cloth, landmark: str, least: int) -> list[Seam]:
    """The seams of a unit, longest first; one for each name."""
    longest: dict[str, Seam] = {}
    for seam in cloth.seams:
        if seam.name not in longest or _long(seam) > _long(longest[seam.name]):
            longest[seam.name] = seam
    if len(longest) < least:
        raise Refused(
            Problem(f"there is no {landmark} to measure from: {least} seams expected, {len(longest)} found")
        )
    return sorted(longest.values(), key=lambda s: -_long(s))


def _long(seam: Seam) -> float:
    return sum(distance(a, b) for a, b in seam.segments)


def _crossing(seams: list[Seam]) -> Point:
    one, two = seams[:2]
    crossing = where_lines_meet(one.path[0], one.path[-1], two.path[0], two.path[-1])
    if crossing is None:
        raise Refused(Problem("the two seams do not cross"))
    return crossing


def _point(seams: list[Seam]) -> tuple[Point, Point]:
    """The point where two seams meet, and the direction from it into the unit."""
    point = _crossing(seams)
    ways = [unit(sub(max(s.path, key=lambda p: distance(p, point)), point)) for s in seams[:2]]
    return point, unit(add(*ways))


def _turned_eighth(direction: Point) -> Point:
    """The direction 45 degrees to the right of this one."""
    return unit(sub(direction, left_of(direction)))


def _across(direction: Point) -> Point:
    """The direction, turned by quarters so that it runs to the right as nearly as it can."""
    quarters = [(cos_of(turn), sin_of(turn)) for turn in (0.0, 90.0, 180.0, 270.0)]
    ways = [Isometry(cos, sin).along(direction) for cos, sin in quarters]
    return min(ways, key=lambda way: abs(atan2(way[1], way[0])))


def _longest_side(raw: Polygon) -> Point:
    a, b = max(edges(raw), key=lambda e: (round(distance(*e), 6), -e[0][1], -e[0][0]))
    return unit(sub(b, a))


def _middle_of(outline: Polygon, along: Point) -> Point:
    """The middle between the outermost points along a direction and across it."""
    across = left_of(along)
    us, vs = [dot(along, p) for p in outline], [dot(across, p) for p in outline]
    return add(scale(along, (min(us) + max(us)) / 2), scale(across, (min(vs) + max(vs)) / 2))
