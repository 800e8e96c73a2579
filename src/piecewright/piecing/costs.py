"""What a sewing order costs: of two orders that make the same block, the cheaper is the easier one.

Every order of full straight seams has as many joins and as much to sew; what differs is what one has in
hand on the way. Costs are like minutes of extra care. The figures are ours (common practice, no source):

| what                                                                        | costs               |
|-----------------------------------------------------------------------------|---------------------|
| outside of a sub-assembly that does not run along the block's sides: bias   | `BIAS_INCH` an inch |
| a sub-assembly that is a triangle                                           | `TRIANGLE`          |
| one that is neither a triangle nor a rectangle                              | `AWKWARD`           |
| one more than `THIN` times as long as wide, but for rows across the block   | `LONG_THIN`         |
| a crossing on a seam where three or more seams run in: it cannot nest       | `CROWDED`           |
| a crossing on a seam where two meet, one of them at a slant                 | `SLANTED`           |
| a seam that is set in, and each corner that is sewn round                   | `SET_IN`, `CORNER`  |
| a ring, whose first seam is sewn in part and closed later                   | `PARTIAL`           |

Terms:
- *sub-assembly*: parts sewn together on the way to the block; patches and units do not count, nor the block;
- *ray*: the direction in which a seam runs away from a point.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise
from math import atan2, pi

from piecewright.design.drawing import Patch
from piecewright.geometry.point import Point, cross, distance, dot, sub, unit
from piecewright.geometry.polygon import Line, Polygon, edges, extent
from piecewright.measure.tolerance import AS_DRAWN

BIAS_INCH = 0.05
TRIANGLE = 0.5
AWKWARD = 1.0
THIN = 4.0
LONG_THIN = 0.5
CROWDED = 0.5
SLANTED = 0.25
SET_IN = 3.0
CORNER = 2.0
PARTIAL = 4.0

ALIKE = 1e-4
"""Radians: directions nearer than this are one; corners are drawn no truer."""


def shape_cost(outline: Polygon, across: float) -> float:
    """What a sub-assembly costs by its outline (finished inches, no corner on a straight side).

    `across` is the shorter side of the block: what is as long as that is a row, which is joined at once.
    """
    slanted = sum(distance(a, b) for a, b in edges(outline) if is_slanted((a, b)))
    return BIAS_INCH * slanted + _awkward(outline) + _long(outline, across)


def is_slanted(edge: Line) -> bool:
    """Whether an edge runs neither level nor upright: along the bias of a block."""
    along = sub(edge[1], edge[0])
    return min(abs(along[0]), abs(along[1])) > AS_DRAWN


def _awkward(outline: Polygon) -> float:
    if len(outline) == 3:
        return TRIANGLE
    return 0.0 if is_rectangle(outline) else AWKWARD


def is_rectangle(outline: Polygon) -> bool:
    """Whether an outline has four square corners, at any angle."""
    if len(outline) != 4:
        return False
    sides = [sub(b, a) for a, b in edges(outline)]
    return all(abs(dot(unit(a), b)) <= AS_DRAWN for a, b in pairwise(sides))


def _long(outline: Polygon, across: float) -> float:
    length, width = sorted(extent(outline), reverse=True)
    return LONG_THIN if THIN * width + AS_DRAWN < length < across - AS_DRAWN else 0.0


@dataclass(frozen=True, slots=True)
class Meeting:
    """A point where `corners` corners of patches meet, and the rays of all seams there, as unit vectors."""

    at: Point
    rays: tuple[Point, ...]
    corners: int

    def cost_along(self, along: Point) -> float:
        """What the crossing costs on a seam in this direction (a unit vector), which runs through it."""
        turns = [(cross(along, ray), dot(along, ray)) for ray in self.rays]
        left, right = [t for t in turns if t[0] > ALIKE], [t for t in turns if t[0] < -ALIKE]
        if not left or not right:
            return 0.0
        if len(left) + len(right) > 2:
            return CROWDED
        return SLANTED if any(abs(forward) > ALIKE for _, forward in left + right) else 0.0


def meetings(patches: Iterable[Patch]) -> tuple[Meeting, ...]:
    """Every point where corners of patches meet."""
    found: dict[tuple[int, int], tuple[Point, list[Point]]] = {}
    for patch in patches:
        for a, b in edges(patch.outline):
            for start, end in ((a, b), (b, a)):
                _, rays = found.setdefault(_place(start, found), (start, []))
                rays.append(unit(sub(end, start)))
    return tuple(Meeting(at, _distinct(rays), len(rays) // 2) for at, rays in found.values())


def _place(p: Point, known: dict[tuple[int, int], tuple[Point, list[Point]]]) -> tuple[int, int]:
    """The place of a point, that of one near it where there is one."""
    x, y = round(p[0] / AS_DRAWN), round(p[1] / AS_DRAWN)
    if (x, y) in known:
        return x, y
    around = ((x + dx, y + dy) for dx in (-1, 0, 1) for dy in (-1, 0, 1))
    return next((place for place in around if place in known), (x, y))


def _distinct(rays: list[Point]) -> tuple[Point, ...]:
    kept: list[tuple[float, Point]] = []
    for angle, ray in sorted((atan2(y, x) % (2 * pi), (x, y)) for x, y in rays):
        if not kept or angle - kept[-1][0] > ALIKE:
            kept.append((angle, ray))
    if len(kept) > 1 and kept[0][0] + 2 * pi - kept[-1][0] <= ALIKE:
        kept.pop()
    return tuple(ray for _, ray in kept)
