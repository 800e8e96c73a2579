"""Which patches touch: those that share a side, or a part of one; at wish those that meet at a corner."""

from __future__ import annotations

from collections.abc import Sequence

import shapely

from piecewright.geometry.polygon import Polygon

# Sides that run along each other for less than this (inches) only meet at a corner.
SHORTEST_SIDE = 1e-3


def touching(outlines: Sequence[Polygon], corners: bool = False) -> tuple[tuple[int, int], ...]:
    """The pairs of outlines (of one role, as they lie in the quilt) that touch, in order.

    >>> left, right = ((0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0)), ((2.0, 1.0), (4.0, 1.0), (4.0, 3.0))
    >>> touching([left, right]), touching([left, right], corners=True)
    ((), ((0, 1),))
    """
    if not outlines:
        return ()
    shapes = [shapely.Polygon(outline) for outline in outlines]
    tree = shapely.STRtree(shapes)
    ones, others = tree.query(shapes, predicate="dwithin", distance=SHORTEST_SIDE)
    pairs = [(int(a), int(b)) for a, b in zip(ones, others, strict=True) if a < b]
    return tuple(sorted(pair for pair in pairs if corners or _share_a_side(shapes, pair)))


def _share_a_side(shapes: Sequence[shapely.Polygon], pair: tuple[int, int]) -> bool:
    one, other = (shapes[k] for k in pair)
    along = one.exterior.intersection(other.exterior.buffer(SHORTEST_SIDE, cap_style="flat"))
    return float(along.length) > 4 * SHORTEST_SIDE
