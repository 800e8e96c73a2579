"""Margins of faces beside sewn seams: what is folded away there, and what stays.

A *margin* is what lies between the net and the raw outline of a cloth.
"""

from __future__ import annotations

from piecewright.geometry.point import distance, dot, middle, side_of, sub, unit
from piecewright.geometry.polygon import Line, Polygon, clip, clip_segment, contains
from piecewright.measure.tolerance import EDGE_MATCH


def beside(sewn: list[tuple[Line, Line]], seen: Polygon, inner: Polygon) -> Polygon:
    """What a face shows beside stretches that are sewn, each with the whole side; `inner` is its net part."""
    for segment, side in sewn:
        # A seam round a corner must not cut off what lies beside another segment of it, or beyond a slit.
        if (
            seen
            and _runs_through(segment, seen)
            and all(side_of(p, *segment) >= -10 * EDGE_MATCH for p in inner)
            and not _goes_on(seen, segment, side)
        ):
            seen = clip(seen, *segment)
    return seen


def _runs_through(segment: Line, polygon: Polygon) -> bool:
    """Whether a segment runs through a convex polygon, not just along its edge."""
    inside = clip_segment(segment, polygon)
    return inside is not None and contains(polygon, middle(*inside), -EDGE_MATCH)


def _goes_on(seen: Polygon, segment: Line, side: Line) -> bool:
    """Whether a face goes on along its cloth's side beyond a stretch of it that is sewn."""
    along = unit(sub(side[1], side[0]))
    whole = clip_segment(side, seen)
    if whole is None:
        return False
    start, stop = (dot(along, p) for p in segment)
    return dot(along, whole[0]) < start - EDGE_MATCH or dot(along, whole[1]) > stop + EDGE_MATCH


def lie_on(segment: Line, side: Line) -> bool:
    """Whether a segment runs along a side (both ends on its line, and a stretch in common)."""
    if abs(side_of(segment[0], *side)) > EDGE_MATCH or abs(side_of(segment[1], *side)) > EDGE_MATCH:
        return False
    along = unit(sub(side[1], side[0]))
    low, high = sorted(dot(sub(p, side[0]), along) for p in segment)
    return min(high, distance(*side)) - max(low, 0.0) > EDGE_MATCH
