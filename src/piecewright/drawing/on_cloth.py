"""Where lines lie on cloth: the parts of a line within polygons, and how far things are pulled apart."""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.geometry.point import Point, add, distance, dot, left_of, scale, side_of, sub, unit
from piecewright.geometry.polygon import Line, Polygon, bounds, clip_segment
from piecewright.measure.tolerance import AS_DRAWN

Stretch = tuple[float, float]


def stretches(line: Line, polygons: Sequence[Polygon]) -> list[Stretch]:
    """The parts of a line within convex polygons, as distances from its start; what touches is one."""
    along = unit(sub(line[1], line[0]))
    found = []
    for polygon in polygons:
        inside = clip_segment(line, polygon)
        if inside:
            found.append((dot(along, sub(inside[0], line[0])), dot(along, sub(inside[1], line[0]))))
    merged: list[Stretch] = []
    for start, end in sorted(found):
        if merged and start <= merged[-1][1] + AS_DRAWN:
            merged[-1] = (merged[-1][0], max(end, merged[-1][1]))
        else:
            merged.append((start, end))
    return merged


def common(one: Sequence[Stretch], two: Sequence[Stretch]) -> list[Stretch]:
    """The stretches that two lists have in common."""
    both = [(max(a, c), min(b, d)) for a, b in one for c, d in two]
    return [(start, end) for start, end in both if end - start > AS_DRAWN]


def on_line(line: Line, stretch: Stretch) -> Line:
    """The two ends of a stretch of a line."""
    along = unit(sub(line[1], line[0]))
    return add(line[0], scale(along, stretch[0])), add(line[0], scale(along, stretch[1]))


def across_cloth(line: Line, polygons: Sequence[Polygon]) -> Line | None:
    """The part of the endless line from the first to the last place where it crosses the polygons."""
    x0, y0, x1, y1 = bounds([p for polygon in polygons for p in polygon])
    reach = 2 * (distance((x0, y0), (x1, y1)) + distance(line[0], (x0, y0)))
    along = scale(unit(sub(line[1], line[0])), reach)
    long = (sub(line[0], along), add(line[0], along))
    found = stretches(long, polygons)
    return on_line(long, (found[0][0], found[-1][1])) if found else None


def longer(line: Line, by: float) -> Line:
    """The line made longer at both ends."""
    along = scale(unit(sub(line[1], line[0])), by)
    return sub(line[0], along), add(line[1], along)


def sides_of(point: Point, lines: Sequence[Line]) -> tuple[int, ...]:
    """For each line, whether the point lies on its left (1) or right (-1)."""
    return tuple(1 if side_of(point, *line) > 0 else -1 for line in lines)


def pulled_apart(sides: Sequence[int], lines: Sequence[Line], gap: float) -> Point:
    """How far a part on these sides of the cut lines is moved, so that gaps open along them."""
    move = (0.0, 0.0)
    for side, (a, b) in zip(sides, lines, strict=True):
        move = add(move, scale(left_of(unit(sub(b, a))), side * gap / 2))
    return move
