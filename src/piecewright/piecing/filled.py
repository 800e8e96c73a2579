"""Rectangles, at any angle, that some of many patches fill exactly.

Terms:
- *frame*: the turn that lays an edge level; a rectangle lies level in just one of the frames of a block;
- *filled*: a rectangle that patches tile, in its frame.

The corners of such a rectangle are sought where a level and an upright edge start; it is filled where the
patches that lie between two opposite corners are as large together as it is.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import atan2, hypot, pi

import numpy as np
import numpy.typing as npt

from piecewright.geometry.isometry import STILL, Isometry, laying
from piecewright.geometry.point import Point, distance, sub
from piecewright.geometry.polygon import Line, Polygon, area, edges
from piecewright.measure.tolerance import AS_DRAWN

Floats = npt.NDArray[np.float64]
Numbers = npt.NDArray[np.int64]
Flags = npt.NDArray[np.bool_]

SAME_WAY = 1e-4
"""Radians; edges that lie off each other by less are laid level by one turn."""

QUARTER = pi / 2


@dataclass(frozen=True, eq=False)
class Filled:
    """The patches (their numbers) that fill a rectangle `width` x `height`, inches.

    `turn` lays it level with its lower left corner at `corner`. `is_plain`: all of them are rectangles that
    lie level with it; `is_run`: and each is as high, or each as wide, as the whole; `goes_on`: and beyond one
    end lies another rectangle as large as the one at that end.
    """

    numbers: tuple[int, ...]
    turn: Isometry
    corner: Point
    width: float
    height: float
    is_plain: bool
    is_run: bool
    goes_on: bool


def filled_rectangles(patches: Sequence[Polygon], most: int) -> Iterator[Filled]:
    """Every rectangle that two or more patches fill, up to so many; the level ones first, as one reads."""
    areas = np.array([area(patch) for patch in patches])
    for frame in _frames(patches):
        if frame.lower_left and frame.upper_right:
            yield from _in_frame(frame, patches, areas, most)


class _Frame:
    """A frame, and where a rectangle may have its lower left and its upper right corner."""

    def __init__(self, edge: Line, quarters: int) -> None:
        a, (x, y) = edge[0], sub(edge[1], edge[0])
        for _ in range(quarters):
            x, y = y, -x
        is_level = abs(y) <= SAME_WAY * hypot(x, y)
        self.turn = STILL if is_level else laying(a, (a[0] + x, a[1] + y), (0.0, 0.0), (1.0, 0.0))
        # By the place of each point: from which of the four sides edges come to it, counted from the right.
        self._ways: dict[tuple[int, int], tuple[Point, set[int]]] = {}

    def add(self, edge: Line, quarters: int) -> None:
        """An edge that lies level here after so many quarter turns back."""
        for point, way in ((edge[0], quarters), (edge[1], (quarters + 2) % 4)):
            self._ways.setdefault(_place(point, self._ways), (point, set()))[1].add(way)

    @property
    def lower_left(self) -> list[Point]:
        """Points from which edges run to the right and up."""
        return [self.turn.at(point) for point, ways in self._ways.values() if ways >= {0, 1}]

    @property
    def upper_right(self) -> list[Point]:
        """Points from which edges run to the left and down."""
        return [self.turn.at(point) for point, ways in self._ways.values() if ways >= {2, 3}]


def _place(p: Point, known: dict[tuple[int, int], tuple[Point, set[int]]]) -> tuple[int, int]:
    x, y = round(p[0] / AS_DRAWN), round(p[1] / AS_DRAWN)
    around = [(x, y), *((x + dx, y + dy) for dx in (-1, 0, 1) for dy in (-1, 0, 1))]
    return next((place for place in around if place in known), (x, y))


def _frames(patches: Sequence[Polygon]) -> list[_Frame]:
    """A frame for every direction that edges have, up to quarter turns; the level one first."""
    drawn = [edge for patch in patches for edge in edges(patch)]
    leaning = sorted((_leaning(edge), -distance(*edge), k) for k, edge in enumerate(drawn))
    frames: list[_Frame] = []
    last = -QUARTER
    for (angle, quarters), _, k in leaning:
        if angle - last > SAME_WAY:
            frames.append(_Frame(drawn[k], quarters))
        frames[-1].add(drawn[k], quarters)
        last = angle
    return frames


def _leaning(edge: Line) -> tuple[float, int]:
    """The angle of an edge above the level, short of a quarter turn, and by how many of these it is more."""
    x, y = sub(edge[1], edge[0])
    angle = atan2(y, x) % (2 * pi) + SAME_WAY
    quarters = int(angle // QUARTER)
    return max(angle - quarters * QUARTER - SAME_WAY, 0.0), quarters % 4


def _in_frame(frame: _Frame, patches: Sequence[Polygon], areas: Floats, most: int) -> Iterator[Filled]:
    low, high = _boxes(frame.turn, patches)
    plain: Flags = np.less_equal(np.abs((high - low).prod(axis=1) - areas), AS_DRAWN)
    ends = np.array(sorted(frame.upper_right))
    for x, y in sorted(frame.lower_left, key=lambda p: (-round(p[1], 3), p[0])):
        far = ends[(ends > (x + AS_DRAWN, y + AS_DRAWN)).all(axis=1)]
        right = np.flatnonzero((low >= (x - AS_DRAWN, y - AS_DRAWN)).all(axis=1))
        inside: Flags = np.all(high[right][None] <= far[:, None] + AS_DRAWN, axis=2)
        sizes = far - (x, y)
        over = np.abs(inside @ areas[right] - sizes.prod(axis=1)) <= AS_DRAWN * sizes.sum(axis=1)
        count = inside.sum(axis=1)
        for k in np.flatnonzero(over & (count > 1) & (count <= most)).tolist():
            own = right[inside[k]]
            is_plain = bool(plain[own].all())
            as_large = (high - low)[own].min(axis=0) >= sizes[k] - AS_DRAWN
            is_run = is_plain and bool(as_large.any())
            goes_on = is_run and _goes_on(own, 1 if as_large[0] else 0, low, high, plain)
            width, height = sizes[k].tolist()
            yield Filled(tuple(own.tolist()), frame.turn, (x, y), width, height, is_plain, is_run, goes_on)


def _goes_on(run: Numbers, axis: int, low: Floats, high: Floats, plain: Flags) -> bool:
    """Whether a run along an axis (0 level, 1 upright) has a rectangle like its last beyond one end."""
    first, last = run[np.argmin(low[run, axis])], run[np.argmax(low[run, axis])]
    for end, step in ((first, -1.0), (last, 1.0)):
        by = np.zeros(2)
        by[axis] = step * (high[end, axis] - low[end, axis])
        off = np.maximum(np.abs(low - low[end] - by), np.abs(high - high[end] - by)).max(axis=1)
        if bool((plain & (off <= AS_DRAWN)).any()):
            return True
    return False


def _boxes(turn: Isometry, patches: Sequence[Polygon]) -> tuple[Floats, Floats]:
    """The lower left and the upper right corner of the box about each patch, laid level."""
    corners = np.array([corner for patch in patches for corner in patch])
    turned = corners @ np.array([[turn.cos, turn.sin], [-turn.sin, turn.cos]]) + (turn.x, turn.y)
    starts = np.cumsum([0, *(len(patch) for patch in patches[:-1])])
    return np.minimum.reduceat(turned, starts), np.maximum.reduceat(turned, starts)
