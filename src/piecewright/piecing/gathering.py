"""Gathering loose triangles of a drawn block into units: hourglasses, flying geese, half-square triangles.

A block drawn by corners does not say which patches belong together. Right triangles with two equal legs
do when four meet in one point, when a large one stands on the long sides of two small ones, or when two
share a long side; what forms a unit is confirmed by the methods.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from piecewright.design.drawing import Group, Patch, Placed
from piecewright.geometry.isometry import moved
from piecewright.geometry.point import Point, distance, dot, middle, near, sub
from piecewright.geometry.polygon import bounds
from piecewright.measure.tolerance import AS_DRAWN
from piecewright.methods.kinds import name_of, recognise


@dataclass(frozen=True)
class _Triangle:
    """A right triangle with equal legs: its number among the children, apex, and ends of its long side."""

    number: int
    apex: Point
    one: Point
    other: Point

    def legs(self) -> tuple[tuple[Point, Point], tuple[Point, Point]]:
        return (self.apex, self.one), (self.apex, self.other)


@lru_cache(maxsize=1024)
def gathered(block: Group) -> Group:
    """The block with its loose triangles gathered into units; what fits no unit stays as it is."""
    triangles = [t for k, child in enumerate(block.children) if (t := _triangle(k, child))]
    if not triangles:
        return block
    taken: set[int] = set()
    units: list[Placed] = []
    for candidates in (_hourglasses, _geese, _three_patches, _halves):
        for numbers in candidates([t for t in triangles if t.number not in taken]):
            unit = None if taken & set(numbers) else _unit([block.children[k] for k in numbers])
            if unit:
                units.append(unit)
                taken |= set(numbers)
    rest = [child for k, child in enumerate(block.children) if k not in taken]
    return Group(block.name, (*rest, *units), block.outline)


def _triangle(number: int, child: Placed) -> _Triangle | None:
    if not isinstance(child.drawing, Patch) or len(child.outline) != 3:
        return None
    corners = child.outline
    for k in range(3):
        apex, one, other = corners[k], corners[k - 1], corners[(k + 1) % 3]
        legs = sub(one, apex), sub(other, apex)
        equal = abs(distance(apex, one) - distance(apex, other)) < AS_DRAWN
        if equal and abs(dot(*legs)) < AS_DRAWN * distance(apex, one):
            return _Triangle(number, apex, one, other)
    return None


def _hourglasses(triangles: list[_Triangle]) -> Iterable[tuple[int, ...]]:
    """Four that meet with their right angles in one point."""
    for t in triangles:
        four = [u for u in triangles if near(u.apex, t.apex, AS_DRAWN) and _alike(t, u)]
        if len(four) == 4:
            yield tuple(u.number for u in four)


def _geese(triangles: list[_Triangle]) -> Iterable[tuple[int, ...]]:
    """A large one, and a small one with its long side on each of the large one's legs."""
    for large in triangles:
        wings = [
            next((u.number for u in triangles if u is not large and _same(leg, (u.one, u.other))), None)
            for leg in large.legs()
        ]
        if wings[0] is not None and wings[1] is not None:
            yield large.number, wings[0], wings[1]


def _three_patches(triangles: list[_Triangle]) -> Iterable[tuple[int, ...]]:
    """A large one, and on its long side two small ones whose right angles meet in the middle of it."""
    for large in triangles:
        centre = middle(large.one, large.other)
        small = [u for u in triangles if near(u.apex, centre, AS_DRAWN)]
        for k, u in enumerate(small):
            for v in small[k + 1 :]:
                if _meet(large, u, v):
                    yield large.number, u.number, v.number


def _meet(large: _Triangle, u: _Triangle, v: _Triangle) -> bool:
    """Whether two small triangles have one corner in common, and the ends of the large one's long side."""
    return any(
        near(p, q, AS_DRAWN) and _same((a, b), (large.one, large.other))
        for p, a in ((u.one, u.other), (u.other, u.one))
        for q, b in ((v.one, v.other), (v.other, v.one))
    )


def _halves(triangles: list[_Triangle]) -> Iterable[tuple[int, ...]]:
    """Two that share their long side."""
    for k, t in enumerate(triangles):
        for u in triangles[k + 1 :]:
            if _same((t.one, t.other), (u.one, u.other)):
                yield t.number, u.number


def _alike(t: _Triangle, u: _Triangle) -> bool:
    return abs(distance(t.one, t.other) - distance(u.one, u.other)) < AS_DRAWN


def _same(edge: tuple[Point, Point], other: tuple[Point, Point]) -> bool:
    (a, b), (c, d) = edge, other
    return (near(a, c, AS_DRAWN) and near(b, d, AS_DRAWN)) or (near(a, d, AS_DRAWN) and near(b, c, AS_DRAWN))


def _unit(children: list[Placed]) -> Placed | None:
    """The children as one placed unit, lower left corner at its own origin; None if no method knows it."""
    patches = [patch.placed(child.place) for child in children for patch in child.drawing.patches]
    left, low, right, high = bounds([p for patch in patches for p in patch.outline])
    home = moved(-left, -low)
    outline = ((0.0, 0.0), (right - left, 0.0), (right - left, high - low), (0.0, high - low))
    group = Group("unit", tuple(Placed(patch.placed(home)) for patch in patches), outline)
    unit = recognise(group)
    if unit is None:
        return None
    return Placed(Group(name_of(unit.kind), group.children, outline), moved(left, low))
