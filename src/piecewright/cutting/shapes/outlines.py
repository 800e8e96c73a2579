"""Outlines of shapes as they lie in a strip, the lower left corner of their bounds at the origin; inches.

Terms:
- *strip*: how high the strip is, and so the shape that lies in it;
- *base*: the longer of two level sides;
- *blunted*: of a triangle whose point is cut off one allowance above the finished one, where the dog ear
  would be: the strip is then only two allowances higher than the finished triangle.
"""

from __future__ import annotations

from math import radians, tan

from piecewright.geometry.isometry import folded
from piecewright.geometry.matching import outline_turns
from piecewright.geometry.point import distance
from piecewright.geometry.polygon import Polygon, bounds, clip, edges, from_lowest, grown, placed
from piecewright.measure.tolerance import AS_DRAWN
from piecewright.methods.strip_rows import homed

UPRIGHT = 90.0


def cot(degrees: float) -> float:
    """The cotangent: how far a slant leans over for each inch that it rises; exactly 0 where it is upright.

    >>> cot(90), round(cot(45), 9)
    (0.0, 1.0)
    """
    return 0.0 if degrees == UPRIGHT else 1 / tan(radians(degrees))


def four_sided(strip: float, base: float, left: float, right: float) -> Polygon:
    """A shape on its base with these inner angles (degrees) at its ends; a triangle where the slants meet.

    >>> four_sided(2.0, 5.0, 90.0, 90.0)
    ((0.0, 0.0), (5.0, 0.0), (5.0, 2.0), (0.0, 2.0))
    """
    near, far = strip * cot(left), base - strip * cot(right)
    top: Polygon = ((far, strip), (near, strip)) if far - near > 1e-9 else ((near, strip),)
    return homed(((0.0, 0.0), (base, 0.0), *top))


def point_up(strip: float, point: float) -> Polygon:
    """A triangle with two equal sides, its point of so many degrees up."""
    half = strip * tan(radians(point) / 2)
    return ((0.0, 0.0), (2 * half, 0.0), (half, strip))


def square_corner(width: float, strip: float) -> Polygon:
    """Half a rectangle, its right angle in the lower left corner."""
    return ((0.0, 0.0), (width, 0.0), (0.0, strip))


def six_sided(strip: float) -> Polygon:
    """A hexagon of equal sides, lying flat in a strip that is as high as it is from flat to flat."""
    side = strip / 3**0.5
    middle = strip / 2
    corners = ((side / 2, 0.0), (1.5 * side, 0.0), (2 * side, middle), (1.5 * side, strip))
    return (*corners, (side / 2, strip), (0.0, middle))


def mirrored(lying: Polygon) -> Polygon:
    """The shape of the other hand, on the same side."""
    return homed(placed(lying, folded((0.0, 0.0), (0.0, 1.0))))


def as_cut(net: Polygon, seam: float) -> Polygon:
    """A finished shape with its allowances; an edge between angles a and b grows by s(cot a/2 + cot b/2)."""
    return homed(grown(net, seam))


def blunted_off(net: Polygon, seam: float) -> float:
    """How much of its height a triangle loses where its point is blunted; its angles alone decide."""
    return bounds(as_cut(net, seam))[3] - bounds(net)[3] - 2 * seam


def blunted(raw: Polygon, off: float) -> Polygon:
    """A triangle, its point up, without so much of its height."""
    high = bounds(raw)[3] - off
    return from_lowest(clip(raw, (0.0, high), (-1.0, high)))


def longest_edge(outline: Polygon) -> float:
    """The length of the longest edge."""
    return max(distance(*edge) for edge in edges(outline))


def scaled(outline: Polygon, factor: float) -> Polygon:
    """The shape, so many times as large."""
    return tuple((x * factor, y * factor) for x, y in outline)


def has_hand(outline: Polygon) -> bool:
    """Whether the shape's mirror image is another shape, however it is turned."""
    return next(outline_turns(mirrored(outline), outline, AS_DRAWN), None) is None
