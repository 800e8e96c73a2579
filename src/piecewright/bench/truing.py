"""Truing up: a unit is brought to its exact size, measured from a landmark, by trimming or by ease."""

from __future__ import annotations

from dataclasses import dataclass

from piecewright.bench.cloth import Cloth, Face, Seam, SeamSize, clipped_seams
from piecewright.bench.steps import Landmark
from piecewright.geometry.point import (
    Point,
    add,
    cross,
    distance,
    dot,
    left_of,
    middle,
    scale,
    sub,
    unit,
    where_lines_meet,
)
from piecewright.geometry.polygon import Polygon, clip_to, contains, edges, grown
from piecewright.measure.tolerance import EDGE_MATCH, WELD
from piecewright.problems import Problem, Refused


@dataclass(frozen=True)
class Allowed:
    """What truing up may do: leave up to `ease` as it is; cut off at least `trim`; inches."""

    ease: float
    trim: float


def true_up(
    cloth: Cloth, landmark: Landmark, size: tuple[float, float], by: str, seam: SeamSize, allowed: Allowed
) -> Cloth:
    """The cloth at its exact raw size (width, height).

    Raises Refused when it is too small, when a sliver would have to be trimmed, or when more than a little
    ease would have to be left.
    """
    window = _window(cloth, landmark, size, seam)
    if not all(contains(cloth.raw, corner, 10 * WELD) for corner in window):
        raise Refused(Problem(_too_small(cloth, size), do="Sew it again, or cut larger."))
    over = max(_over(cloth.raw, window))
    if by == "ease" and over > allowed.ease + EDGE_MATCH:
        raise Refused(
            Problem(
                f"{over:.4f} in is more than can be eased in ({allowed.ease:g} in)", do="Trim it to size."
            )
        )
    if by == "trim" and over < allowed.trim - EDGE_MATCH:
        raise Refused(
            Problem(
                f"a sliver of {over:.4f} in would be trimmed",
                do=f"Cut larger, so that {allowed.trim:g} in comes off.",
            )
        )
    faces = tuple(_trimmed(face, window, by) for face in cloth.faces if clip_to(face.seen, window))
    net, seams = grown(window, -seam.take_up), clipped_seams(cloth.seams, window)
    return Cloth(window, net, faces, (), seams, cloth.all_caught)


def _trimmed(face: Face, window: Polygon, by: str) -> Face:
    flat = clip_to(face.flat, window) if by == "trim" else face.flat
    return Face(face.fabric, clip_to(face.seen, window), flat, face.grain)


def _too_small(cloth: Cloth, size: tuple[float, float]) -> str:
    width, height = cloth.size
    return (
        f"{width:.4f} x {height:.4f} in is too small to be trued up to {max(size):.4f} x {min(size):.4f} in"
    )


def _over(raw: Polygon, window: Polygon) -> tuple[float, float]:
    """How much longer the raw cloth is than the window, along its first two sides."""
    found = []
    for a, b in edges(window)[:2]:
        along = unit(sub(b, a))
        reach = [dot(along, p) for p in raw]
        found.append(max(reach) - min(reach) - distance(a, b))
    return found[0], found[1]


def measured(cloth: Cloth, landmark: Landmark) -> tuple[float, float]:
    """The raw width and height of a cloth along the axes that a landmark gives it; inches."""
    right = _right_of(cloth, landmark)
    across = [dot(right, p) for p in cloth.raw]
    up = [dot(left_of(right), p) for p in cloth.raw]
    return max(across) - min(across), max(up) - min(up)


def _right_of(cloth: Cloth, landmark: Landmark) -> Point:
    """The direction of the unit's width."""
    if landmark == "edges":
        return _longest_side(cloth.raw)
    if landmark == "point":
        return left_of(_point(_seams_in(cloth, landmark, 2))[1])
    path = _seams_in(cloth, landmark, 1)[0].path
    return _turned_eighth(unit(sub(path[-1], path[0])))


def _window(cloth: Cloth, landmark: Landmark, size: tuple[float, float], seam: SeamSize) -> Polygon:
    right = _right_of(cloth, landmark)
    if landmark == "edges":
        # A unit with slanted seams is trued by its seams: its edges may be off while they look straight.
        if any(_slants(seam, right) for seam in cloth.seams):
            raise Refused(
                Problem("slanted seams run through it", do="Measure from the seams, not from the edges.")
            )
        return _about(_middle_of_edges(cloth), right, (max(size), min(size)))
    if landmark == "point":
        point, down = _point(_seams_in(cloth, landmark, 2))
        centre = add(point, scale(down, size[1] / 2 - seam.take_up))
        return _about(centre, right, size)
    if abs(size[0] - size[1]) > EDGE_MATCH:
        raise Refused(
            Problem(f"the {landmark} is the landmark of a square, not of {size[0]:g} x {size[1]:g} in")
        )
    if landmark == "centre":
        return _about(_crossing(_seams_in(cloth, landmark, 2)), right, size)
    longest, *others = _seams_in(cloth, landmark, 1)
    if others:
        raise Refused(
            Problem(f"one seam was expected, {1 + len(others)} run through it", do="Measure from the centre.")
        )
    return _about(middle(longest.path[0], longest.path[-1]), right, size)


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


def _about(centre: Point, along: Point, size: tuple[float, float]) -> Polygon:
    """A rectangle about its centre, its width along a direction."""
    u, v = scale(along, size[0] / 2), scale(left_of(along), size[1] / 2)
    return (sub(sub(centre, u), v), sub(add(centre, u), v), add(add(centre, u), v), add(sub(centre, u), v))


def _turned_eighth(direction: Point) -> Point:
    """The direction 45 degrees to the right of this one."""
    return unit(sub(direction, left_of(direction)))


def _longest_side(raw: Polygon) -> Point:
    a, b = max(edges(raw), key=lambda e: (round(distance(*e), 6), -e[0][1], -e[0][0]))
    return unit(sub(b, a))


def _middle_of_edges(cloth: Cloth) -> Point:
    along = _longest_side(cloth.raw)
    across = left_of(along)
    us, vs = [dot(along, p) for p in cloth.raw], [dot(across, p) for p in cloth.raw]
    return add(scale(along, (min(us) + max(us)) / 2), scale(across, (min(vs) + max(vs)) / 2))
