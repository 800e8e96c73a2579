"""Lines along which patches could be parted, and which patches lie on either side of each.

Terms:
- *dividing line*: an endless line along an edge of some patch;
- *set*: patches written as the bits of one number, patch k as bit k, so that sets are compared at once.

Plane geometry throughout.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from piecewright.geometry.point import Point, cross, distance, sub, unit
from piecewright.geometry.polygon import Line, Polygon, edges
from piecewright.measure.tolerance import AS_DRAWN, PARALLEL


@dataclass(frozen=True, slots=True)
class DividingLine:
    """A line and the sets of patches that lie wholly on its left and on its right.

    It runs to the right, or straight up: what is on its left lies above it, or to the left of it.
    """

    line: Line
    left: int
    right: int

    def divides(self, patches: int) -> tuple[int, int] | None:
        """The two sets into which the line parts the patches, or None where it does not part them."""
        left, right = patches & self.left, patches & self.right
        return (left, right) if left and right and left | right == patches else None


def is_single(patches: int) -> bool:
    """Whether a set holds one patch only.

    >>> is_single(0b100), is_single(0b110)
    (True, False)
    """
    return patches & (patches - 1) == 0


def members(patches: int) -> list[int]:
    """The numbers of the patches in a set.

    >>> members(0b101)
    [0, 2]
    """
    return [k for k in range(patches.bit_length()) if patches >> k & 1]


def dividing_lines(patches: Sequence[Polygon]) -> tuple[DividingLine, ...]:
    """Every line along an edge that has patches on both sides.

    Level lines come first, from the top, then upright ones, from the left. Edges that part the same sets
    give one line, the one along the longest of them.
    """
    drawn = sorted((edge for patch in patches for edge in edges(patch)), key=lambda e: -distance(*e))
    corners = np.array([corner for patch in patches for corner in patch])
    starts = np.cumsum([0, *(len(patch) for patch in patches[:-1])])
    seen: set[tuple[float, ...]] = set()
    found: dict[tuple[int, int], DividingLine] = {}
    for edge in drawn:
        a, b = _rightwards(edge)
        along = unit(sub(b, a))
        key = (round(along[0], 6), round(along[1], 6), round(cross(along, a), 6))
        if key in seen:
            continue
        seen.add(key)
        depths = along[0] * (corners[:, 1] - a[1]) - along[1] * (corners[:, 0] - a[0])
        left = _as_set(np.minimum.reduceat(depths, starts) >= -AS_DRAWN)
        right = _as_set(np.maximum.reduceat(depths, starts) <= AS_DRAWN)
        if left and right:
            found.setdefault((left, right), DividingLine((a, b), left, right))
    return tuple(sorted(found.values(), key=_reading_order))


def _rightwards(edge: Line) -> Line:
    (ax, ay), (bx, by) = edge
    steep = abs(bx - ax) <= PARALLEL * distance(*edge)
    return edge if (by > ay if steep else bx > ax) else edge[::-1]


def _as_set(lies: np.ndarray) -> int:
    return sum(1 << int(k) for k in np.flatnonzero(lies))


def _reading_order(dividing: DividingLine) -> tuple[float, ...]:
    """Level lines, upright ones, slanted ones; of parallel lines the upper or the left one first."""
    along: Point = unit(sub(dividing.line[1], dividing.line[0]))
    level, upright = abs(along[1]) <= PARALLEL, abs(along[0]) <= PARALLEL
    offset = cross(along, dividing.line[0])
    return (0 if level else 1 if upright else 2, round(along[1], 6), -round(offset, 6))
