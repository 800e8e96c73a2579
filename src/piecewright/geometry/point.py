"""Points and directions on the table: pairs of floats in inches, x to the right, y away from one."""

from __future__ import annotations

import math

from piecewright.measure.tolerance import WELD

Point = tuple[float, float]


def add(p: Point, q: Point) -> Point:
    """The sum of two vectors."""
    return (p[0] + q[0], p[1] + q[1])


def sub(p: Point, q: Point) -> Point:
    """The vector from q to p."""
    return (p[0] - q[0], p[1] - q[1])


def scale(p: Point, factor: float) -> Point:
    """The vector made `factor` times as long."""
    return (p[0] * factor, p[1] * factor)


def dot(p: Point, q: Point) -> float:
    """The scalar product."""
    return p[0] * q[0] + p[1] * q[1]


def cross(p: Point, q: Point) -> float:
    """The area of the parallelogram on p and q, positive where q lies to the left of p."""
    return p[0] * q[1] - p[1] * q[0]


def distance(p: Point, q: Point) -> float:
    """How far apart two points are."""
    return math.hypot(p[0] - q[0], p[1] - q[1])


def near(p: Point, q: Point, tolerance: float = WELD) -> bool:
    """Whether two points are one, within a tolerance."""
    return abs(p[0] - q[0]) <= tolerance and abs(p[1] - q[1]) <= tolerance


def unit(v: Point) -> Point:
    """The direction of a vector, of length 1."""
    length = math.hypot(*v)
    return (v[0] / length, v[1] / length)


def left_of(v: Point) -> Point:
    """The vector turned a quarter to the left."""
    return (-v[1], v[0])


def middle(p: Point, q: Point) -> Point:
    """The point half-way between two points."""
    return ((p[0] + q[0]) / 2, (p[1] + q[1]) / 2)


def side_of(p: Point, a: Point, b: Point) -> float:
    """The distance of p from the line a to b: positive on its left, negative on its right."""
    along, up = b[0] - a[0], b[1] - a[1]
    return (along * (p[1] - a[1]) - up * (p[0] - a[0])) / math.hypot(along, up)


def where_lines_meet(a: Point, b: Point, c: Point, d: Point) -> Point | None:
    """The point common to the endless lines ab and cd, or None where they are parallel."""
    along, across = sub(b, a), sub(d, c)
    bottom = cross(along, across)
    if abs(bottom) < 1e-12:
        return None
    return add(a, scale(along, cross(sub(c, a), across) / bottom))
