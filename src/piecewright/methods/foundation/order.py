"""The order in which patches are sewn onto a foundation: each in its turn along one straight line.

A patch can be *added* when one line has everything that is sewn already on one side and the patch on the
other, so that the seam runs all across. Read backwards it is *peeled off* last.

Peeling whatever can be peeled finds an order wherever there is one. Say a patch can be peeled off now, and
some order adds it earlier. Move it to the end: every other patch then meets fewer patches, and the line that
had more of them on one side has these on that side as well. So nothing is lost by peeling it first.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from shapely import Polygon as ShapelyPolygon

from piecewright.geometry.dividing import DividingLine, is_single, members
from piecewright.geometry.point import distance
from piecewright.geometry.polygon import Line, Polygon, area, centroid
from piecewright.measure.tolerance import AS_DRAWN


@dataclass(frozen=True, slots=True)
class Added:
    """A patch in its turn; the line has what is sewn already on its left, None for the first patch."""

    patch: int
    along: Line | None


def has_order(patches: int, lines: Sequence[DividingLine]) -> bool:
    """Whether the patches of a set can be added one after another; at most n rounds through the lines."""
    while not is_single(patches):
        peeled = next(_peelings(patches, lines), None)
        if peeled is None:
            return False
        patches ^= 1 << peeled.patch
    return True


def sewing_order(
    patches: int, lines: Sequence[DividingLine], outlines: Sequence[Polygon]
) -> tuple[Added, ...] | None:
    """The order in which the patches of a set are added, or None where there is none.

    It starts with the patch with the most neighbours (of those the largest, the lowest, the left-most) that
    can come first, and works outwards from it.
    """
    if not has_order(patches, lines):
        return None
    return next(
        order for first in _starts(patches, outlines) if (order := _from(first, patches, lines, outlines))
    )


def _from(
    first: int, patches: int, lines: Sequence[DividingLine], outlines: Sequence[Polygon]
) -> tuple[Added, ...] | None:
    """The order that starts with a patch, or None; peeling all but this one finds it, as said above."""
    middle = centroid(outlines[first])
    away = {k: round(distance(centroid(outlines[k]), middle), 4) for k in members(patches)}
    backwards: list[Added] = []
    while not is_single(patches):
        peelings = [peeled for peeled in _peelings(patches, lines) if peeled.patch != first]
        if not peelings:
            return None
        last = max(peelings, key=lambda peeled: (away[peeled.patch], peeled.patch))
        backwards.append(last)
        patches ^= 1 << last.patch
    return (Added(first, None), *backwards[::-1])


def _peelings(patches: int, lines: Sequence[DividingLine]) -> Iterator[Added]:
    """Every patch that could have been added last, with its line."""
    for dividing in lines:
        parts = dividing.divides(patches)
        if parts is None:
            continue
        left, right = parts
        if is_single(right):
            yield Added(right.bit_length() - 1, dividing.line)
        if is_single(left):
            yield Added(left.bit_length() - 1, dividing.line[::-1])


def _starts(patches: int, outlines: Sequence[Polygon]) -> list[int]:
    """The patches of a set, the best to start with first."""
    shapes = {k: ShapelyPolygon(outlines[k]) for k in members(patches)}

    def rank(k: int) -> tuple[float, ...]:
        beside = sum(_touch(shapes[k], other) for j, other in shapes.items() if j != k)
        x, y = centroid(outlines[k])
        return (-beside, -round(area(outlines[k]), 4), round(y, 4), round(x, 4))

    return sorted(shapes, key=rank)


def _touch(shape: ShapelyPolygon, other: ShapelyPolygon) -> bool:
    """Whether two patches share more of an edge than a corner."""
    near = shape.buffer(AS_DRAWN)
    return bool(near.intersects(other) and near.intersection(other).area > 10 * AS_DRAWN**2)
