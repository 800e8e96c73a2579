"""Boxes: the upright rectangles that strips, checks and logs are drawn with, in finished inches."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from piecewright.geometry.polygon import Polygon, bounds
from piecewright.measure.tolerance import AS_DRAWN

Box = tuple[float, float, float, float]
"""Left, low, right, high."""


def outlined(box: Box) -> Polygon:
    """The box as a polygon, counter-clockwise from its lower left corner."""
    left, low, right, high = box
    return ((left, low), (right, low), (right, high), (left, high))


def boxes_of(patches: Iterable[Polygon]) -> list[Box]:
    """The boxes around patches."""
    return [bounds(patch) for patch in patches]


def side_by_side(boxes: Sequence[Box], axis: int, size: float) -> tuple[float, ...]:
    """The widths of boxes that fill a size one after another along an axis (0 across, 1 up), or none.

    >>> side_by_side([(0, 0, 2, 6), (2, 0, 3, 6)], 0, 3)
    (2, 1)
    """
    in_order = sorted(boxes, key=lambda box: box[axis])
    widths = tuple(box[axis + 2] - box[axis] for box in in_order)
    return widths if abs(sum(widths) - size) < AS_DRAWN else ()


def all_alike(sizes: Sequence[float]) -> bool:
    """Whether sizes are equal."""
    return max(sizes) - min(sizes) < AS_DRAWN
