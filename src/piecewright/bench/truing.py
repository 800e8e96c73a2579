"""Truing up: a unit is brought to its exact size, measured from a landmark, by trimming or by ease.

Easing works in a little too much, evenly: where the points of a square-in-a-square are a little too far
apart, they come to lie where they should once the unit is eased in.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from piecewright.bench.cloth import Cloth, Face, SeamSize, clipped_seams
from piecewright.bench.landmarks import SquarePoints, about, points_of, right_of, window_at
from piecewright.bench.steps import Landmark
from piecewright.geometry.point import Point, add, distance, dot, left_of, scale, side_of, sub, unit
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

    Raises Refused when it is too small, when a sliver would have to be trimmed, when more than a little
    ease would have to be left, or when the landmark itself is not where the size needs it.
    """
    window = window_at(cloth, landmark, size, seam)
    points = points_of(cloth) if landmark == "square" else None
    share = _eased_share(points, size[0] - 2 * seam.take_up, allowed) if points else 1.0
    # Points that are a little too far apart: one cuts beyond them all the same, and eases in the rest.
    cut = about(points.centre, points.right, (size[0] / share, size[1] / share)) if points else window
    if not all(contains(cloth.raw, corner, 10 * WELD) for corner in cut):
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
    trimmed = tuple(_trimmed(face, cut, by) for face in cloth.faces if clip_to(face.seen, cut))
    seams = clipped_seams(cloth.seams, cut)
    if points and share != 1.0:
        trimmed = tuple(_face_drawn_in(face, points, share) for face in trimmed)
        seams = tuple(replace(one, path=_drawn_in(one.path, points, share)) for one in seams)
    return Cloth(window, grown(window, -seam.take_up), trimmed, (), seams, cloth.all_caught)


def measured(cloth: Cloth, landmark: Landmark) -> tuple[float, float]:
    """The raw width and height of a cloth along the axes that a landmark gives it; inches."""
    right = right_of(cloth, landmark)
    across = [dot(right, p) for p in cloth.raw]
    up = [dot(left_of(right), p) for p in cloth.raw]
    return max(across) - min(across), max(up) - min(up)


def _trimmed(face: Face, window: Polygon, by: str) -> Face:
    flat = clip_to(face.flat, window) if by == "trim" else face.flat
    return Face(face.fabric, clip_to(face.seen, window), flat, face.grain)


def _eased_share(points: SquarePoints, wanted: float, allowed: Allowed) -> float:
    """What easing makes of a length between the points; 1 where they lie where they should."""
    off = points.apart - wanted
    if not -EDGE_MATCH <= off <= allowed.ease + EDGE_MATCH:
        raise Refused(
            Problem(
                f"the points are {points.apart:.4f} in apart, {wanted:.4f} in was expected",
                do="Cut the square in the middle to its size.",
            )
        )
    return wanted / points.apart if abs(off) > WELD else 1.0


def _drawn_in(path: Sequence[Point], points: SquarePoints, share: float) -> tuple[Point, ...]:
    """Where places come to lie once what is too much has been eased in, evenly to all sides."""
    return tuple(add(points.centre, scale(sub(p, points.centre), share)) for p in path)


def _face_drawn_in(face: Face, points: SquarePoints, share: float) -> Face:
    """A face drawn in; the cloth behind it moves with its seam, so that its allowance stays as wide."""
    a, b = min(edges(face.seen), key=lambda edge: side_of(points.centre, *edge))
    off = min(side_of(points.centre, a, b), 0.0)
    x, y = scale(left_of(unit(sub(b, a))), off * (1 - share))
    flat = tuple((px + x, py + y) for px, py in face.flat)
    return Face(face.fabric, _drawn_in(face.seen, points, share), flat, face.grain)


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
