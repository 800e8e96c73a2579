"""A joined thing pulled apart along its seams, and where its dots are: what pictures of piecing show.

Terms:
- *pulled*: how far a part is moved away, so that a gap opens along its seam;
- *left open*: a stretch of a seam that is not sewn until all parts are on;
- *dot*: a place marked on the cloth, where a seam starts, turns or stops.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from piecewright.bench.cloth import Cloth, Part, Seam
from piecewright.drawing.joining import onwards
from piecewright.geometry.isometry import STILL, Isometry
from piecewright.geometry.point import Point, add, near, scale, sub, unit
from piecewright.geometry.polygon import bounds, placed
from piecewright.measure.tolerance import EDGE_MATCH
from piecewright.piecing.tree import How

DotKind = Literal["start", "turn", "stop"]

GAPS: dict[How, float] = {"row": 0.12, "set in": 0.26, "ring": 0.14}
"""The gap along a seam, as a share of the shorter side of the whole."""


@dataclass(frozen=True, slots=True)
class Dot:
    """A mark on the cloth."""

    at: Point
    kind: DotKind


@dataclass(frozen=True, slots=True)
class ShownSeam:
    """A seam in the middle of its gap; `number` in the order of sewing; `left_open` until it is closed."""

    path: tuple[Point, ...]
    number: int
    left_open: bool = False


@dataclass(frozen=True)
class PulledApart:
    """The parts in the order of sewing, each where it lies, the seams between them, and the dots."""

    parts: tuple[Part, ...]
    seams: tuple[ShownSeam, ...]
    dots: tuple[Dot, ...]

    @property
    def box(self) -> tuple[float, float, float, float]:
        """The bounds of all parts in inches."""
        return bounds([p for part in self.parts for p in placed(part.cloth.net, part.place)])


def pulled_apart(cloth: Cloth, how: How = "row", joins: int = 1, place: Isometry = STILL) -> PulledApart:
    """The parts of a joined cloth pulled apart, turned into a place.

    `joins` is how many joins deep its first part is taken apart: of a ring all that were sewn on, one after
    another; 1 for anything else. A seam of the last join beyond those between its parts closes the ring.
    """
    parts, seams, closing = _taken_apart(cloth, joins, place)
    gap = GAPS[how] * _shorter_side(cloth)
    ways = [scale(onwards(seam), gap) for seam in seams]
    moves: list[Point] = [(0.0, 0.0)]
    for way in ways:
        moves.append(way if how == "ring" else add(moves[-1], way))
    middles = [add(move, scale(way, -0.5)) for move, way in zip(moves[1:], ways, strict=True)]
    shown = [
        ShownSeam(_moved(seam.path, by), number)
        for number, (seam, by) in enumerate(zip(seams, middles, strict=True), 1)
    ]
    for seam in closing:
        by = scale(add(moves[1], moves[-1]), 0.5)
        shown.append(ShownSeam(_moved(seam.path, by), len(shown) + 1, left_open=True))
    lying = tuple(
        Part(part.cloth, _shifted(part.place, move)) for part, move in zip(parts, moves, strict=True)
    )
    dots = _ring_dots(seams, closing, moves) if closing else _dots(parts, seams, moves, how)
    return PulledApart(lying, tuple(shown), tuple(dots))


def _taken_apart(cloth: Cloth, joins: int, place: Isometry) -> tuple[list[Part], list[Seam], list[Seam]]:
    """Parts and seams in the order of sewing, and the seams that close what was left open."""
    own = [seam.placed(place) for seam in cloth.own_seams]
    between = len(cloth.parts) - 1
    lying = [Part(part.cloth, place.after(part.place)) for part in cloth.parts]
    if joins <= 1 or not lying[0].cloth.parts:
        return lying, own[:between], own[between:]
    parts, seams, closing = _taken_apart(lying[0].cloth, joins - 1, lying[0].place)
    return [*parts, *lying[1:]], [*seams, *own[:between]], [*closing, *own[between:]]


def _shorter_side(cloth: Cloth) -> float:
    x0, y0, x1, y1 = bounds(cloth.net)
    return min(x1 - x0, y1 - y0)


def _moved(path: Sequence[Point], by: Point) -> tuple[Point, ...]:
    return tuple(add(p, by) for p in path)


def _shifted(place: Isometry, by: Point) -> Isometry:
    return Isometry(place.cos, place.sin, place.x + by[0], place.y + by[1], place.mirrored)


def _dots(parts: Sequence[Part], seams: Sequence[Seam], moves: Sequence[Point], how: How) -> list[Dot]:
    """Of a seam that is set in all its points; of a straight one those where it stops inside a side."""
    found: list[Dot] = []
    for k, seam in enumerate(seams):
        last = len(seam.path) - 1
        for j, point in enumerate(seam.path):
            if how == "row" and _is_corner(point, parts[k : k + 2]):
                continue
            if 0 < j < last and not _bends(seam.path, j):
                continue
            kind: DotKind = "stop" if how == "row" or j == last else "start" if j == 0 else "turn"
            found += [Dot(add(point, move), kind) for move in (moves[k], moves[k + 1])]
    return found


def _is_corner(point: Point, parts: Sequence[Part]) -> bool:
    """Whether all parts have a corner at a point."""
    return all(
        any(near(point, corner, 2 * EDGE_MATCH) for corner in placed(part.cloth.net, part.place))
        for part in parts
    )


def _ring_dots(seams: Sequence[Seam], closing: Sequence[Seam], moves: Sequence[Point]) -> list[Dot]:
    """Where the first seam of a ring stops, and the last begins again."""
    ends = [p for seam in closing for p in (seam.path[0], seam.path[-1])]
    first = seams[0].path
    where = [p for p in (first[0], first[-1]) if any(near(p, q, 2 * EDGE_MATCH) for q in ends)]
    return [Dot(add(p, move), "stop") for p in where for move in moves[:2]]


def corners_of(seam: Seam) -> int:
    """How many corners a seam goes round.

    >>> corners_of(Seam("straight", ((0.0, 0.0), (3.0, 0.0))))
    0
    """
    return sum(_bends(seam.path, j) for j in range(1, len(seam.path) - 1))


def _bends(path: Sequence[Point], j: int) -> bool:
    """Whether a path goes round a corner at a point inside it."""
    into, out = unit(sub(path[j], path[j - 1])), unit(sub(path[j + 1], path[j]))
    return not near(into, out, EDGE_MATCH)
