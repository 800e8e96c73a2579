"""Looks: keys that are equal for drawings that show the same, turned by any angle (never mirrored); hands.

Every drawing is laid with one of its corners farthest from its middle to the right of that middle. Where
several are as far, the least of the keys counts: so it does not matter how the drawing lies at first.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import islice
from math import atan2, degrees, hypot

import numpy as np

from piecewright.design.drawing import Patch
from piecewright.geometry.isometry import folded
from piecewright.geometry.point import Point
from piecewright.methods.method import Unit

Look = tuple[tuple[object, ...], ...]

# Corners are counted in steps that no ruler has, so that none falls between two of them.
STEP = 1.2345e-3
OFF_STEP = 0.31
AS_FAR = 1e-4  # Corners as far from the middle as this, inches, are equally far.
MIRRORED = folded((0.0, 0.0), (0.0, 1.0))


def look(patches: Iterable[Patch]) -> Look:
    """The key of what the patches show together."""
    return min(key for key, _ in looks_lying(patches))


def looks_lying(patches: Iterable[Patch]) -> list[tuple[Look, float]]:
    """The keys with each of the farthest corners laid to the right, and by how many degrees it lay turned."""
    shown = tuple(patches)
    corners = np.array([corner for patch in shown for corner in patch.outline])
    corners = corners - corners.mean(axis=0)
    return [_lying(shown, corners, way) for way in far_ways(corners)]


def mirror_look(patches: Iterable[Patch]) -> Look:
    """The key of the mirror image: equal to the look of patches that are the other hand of these."""
    return look([patch.placed(MIRRORED) for patch in patches])


def hand_of(unit: Unit) -> str:
    """ "left" or "right" where a unit and its mirror image do not look alike, else an empty text."""
    patches = unit.drawing.patches
    return unit.hand if look(patches) != mirror_look(patches) else ""


def far_ways(points: np.ndarray) -> list[Point]:
    """The directions (unit vectors) from the origin to each of the points that lie farthest from it."""
    far = np.hypot(points[:, 0], points[:, 1])
    if far.max() <= AS_FAR:
        return [(1.0, 0.0)]
    ways: list[Point] = []
    for x, y in points[far >= far.max() - AS_FAR].tolist():
        length = hypot(x, y)
        way = (x / length, y / length)
        if all(hypot(way[0] - u, way[1] - v) * length > AS_FAR for u, v in ways):
            ways.append(way)
    return ways


def _lying(patches: Sequence[Patch], corners: np.ndarray, way: Point) -> tuple[Look, float]:
    cos, sin = way
    laid = corners @ np.array([[cos, -sin], [sin, cos]])
    steps = iter(map(tuple, np.floor(laid / STEP + OFF_STEP).astype(int).tolist()))
    turn = degrees(atan2(sin, cos))
    return tuple(sorted(_key(patch, turn, islice(steps, len(patch.outline))) for patch in patches)), turn


def _key(patch: Patch, turn: float, corners: Iterable[tuple[int, ...]]) -> tuple[object, ...]:
    way = -1 if patch.way is None else round(patch.way - turn + 0.137) % 360
    return (patch.role, way, tuple(sorted(corners)))
