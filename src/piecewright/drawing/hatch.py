"""Hatching: slanting lines that fill a polygon of any shape."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, floor, sqrt

from piecewright.geometry.point import Point
from piecewright.geometry.polygon import Line

GAP = 3.2
"""The distance between two lines, in points."""


def hatching(polygon: Sequence[Point], gap: float = GAP) -> list[Line]:
    """The lines of a hatch that rises to the right, at the same places on the paper for every polygon."""
    step = gap * sqrt(2)
    levels = [y - x for x, y in polygon]
    lines = []
    for k in range(ceil(min(levels) / step), floor(max(levels) / step) + 1):
        level = k * step
        at = sorted(_crossings(polygon, levels, level))
        lines += [((a, a + level), (b, b + level)) for a, b in zip(at[::2], at[1::2], strict=False)]
    return [line for line in lines if line[1][0] - line[0][0] > gap / 8]


def _crossings(polygon: Sequence[Point], levels: Sequence[float], level: float) -> list[float]:
    """The x of each place where the line y - x = level crosses the polygon's edge."""
    found = []
    for k, (x, _) in enumerate(polygon):
        before, (x0, _) = levels[k - 1], polygon[k - 1]
        if (before < level) != (levels[k] < level):
            found.append(x0 + (x - x0) * (level - before) / (levels[k] - before))
    return found
