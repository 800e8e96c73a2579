"""Random blocks that full seams take apart, and what is checked of their orders, by Shapely alone."""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator, Sequence
from functools import cache
from itertools import pairwise
from math import atan2, dist, pi
from typing import Any

from hypothesis import strategies as st
from shapely import LineString, Point, Polygon, unary_union

from piecewright.design.drawing import Patch, Placed
from piecewright.geometry.polygon import area, clip, edges, rectangle
from piecewright.piecing.costs import Meeting, meetings, shape_cost
from piecewright.piecing.patchwork import Patchwork, patchwork
from piecewright.piecing.tree import Piecing, Sewn, leaves

NEAR = 1e-4
SHARES = (0.25, 1 / 3, 0.5, 0.6)


@st.composite
def cut_blocks(draw: st.DrawFn, most: int, level: bool = False, least: int = 2) -> Patchwork:
    """A rectangle cut in two from side to side, again and again; `level`: by level and upright lines."""
    size = draw(st.sampled_from(((12.0, 12.0), (8.0, 12.0))))
    count = draw(st.integers(least, most))
    return _cut(size, count, level, lambda choices: draw(st.sampled_from(choices)))


def cut_at_random(count: int, seed: int, level: bool) -> Patchwork:
    """A square of 24 inches cut into so many patches."""
    return _cut((24.0, 24.0), count, level, random.Random(seed).choice)


def _cut(
    size: tuple[float, float], count: int, level: bool, choose: Callable[[Sequence[Any]], Any]
) -> Patchwork:
    """The largest piece is cut next, its longest side always."""
    pieces = [rectangle(*size)]
    while len(pieces) < count:
        piece = pieces.pop(max(range(len(pieces)), key=lambda k: round(area(pieces[k]), 6)))
        sides = sorted(edges(piece), key=lambda edge: -round(dist(*edge), 6))
        share = choose(SHARES)
        start = _along(sides[0], share)
        if level:
            (ax, ay), (bx, by) = sides[0]
            end = (start[0] - (by - ay), start[1] + (bx - ax))
        else:
            end = _along(choose(sides[1:3]), choose(SHARES))
        pieces += [clip(piece, start, end, 1), clip(piece, start, end, -1)]
    return patchwork("Slipway", [Placed(Patch(choose("ab"), piece)) for piece in pieces])


def _along(edge: tuple[tuple[float, float], tuple[float, float]], share: float) -> tuple[float, float]:
    (ax, ay), (bx, by) = edge
    return ax + share * (bx - ax), ay + share * (by - ay)


def nodes(tree: Piecing) -> Iterator[Sewn]:
    """Everything that is sewn, the block itself first."""
    if isinstance(tree, Sewn):
        yield tree
        for part in tree.parts:
            yield from nodes(part)


def region(tree: Piecing) -> Polygon:
    """What the patches of a tree cover."""
    covered = unary_union(
        [Polygon(part.outline).buffer(NEAR / 10, join_style="mitre") for part in leaves(tree)]
    )
    return covered.simplify(NEAR)


def whole_side(one: Polygon, other: Polygon) -> LineString | None:
    """The straight side that both regions have whole in common, or None."""
    for a, b in _sides(one):
        for c, d in _sides(other):
            if max(LineString((a, d)).length, LineString((b, c)).length) < 10 * NEAR:
                rest = (
                    one.buffer(NEAR)
                    .intersection(other.buffer(NEAR))
                    .difference(LineString((a, b)).buffer(50 * NEAR))
                )
                return LineString((a, b)) if rest.is_empty else None
    return None


def _sides(shape: Polygon) -> list[tuple[tuple[float, ...], tuple[float, ...]]]:
    ring = shape.exterior if shape.exterior.is_ccw else shape.exterior.reverse()
    corners = list(ring.coords)[:-1]
    # Simplifying may leave a corner on a straight side.
    for corner in list(corners):
        k = corners.index(corner)
        if LineString((corners[k - 1], corners[(k + 1) % len(corners)])).distance(Point(corner)) < NEAR:
            corners.remove(corner)
    return list(pairwise([*corners, corners[0]]))


def seams(tree: Piecing) -> list[LineString]:
    """The seam of every join of an order of full seams; fails where one is not a whole side of both."""
    found = []
    for node in nodes(tree):
        for one, other in pairwise(node.parts):
            side = whole_side(region(one), region(other))
            assert side is not None, f"no whole side in common in {node.name}"
            found.append(side)
    return found


def cost_of(tree: Piecing, work: Patchwork) -> float:
    """What an order of full seams costs: the crossings on its seams, and what there is on the way."""
    left, low, right, high = region(tree).bounds
    across = min(right - left, high - low)
    points = meetings(patch.placed(p.place) for p in work.parts for patch in p.drawing.patches)
    on_the_way = [tuple(a for a, _ in _sides(region(node))) for node in list(nodes(tree))[1:]]
    crossed = sum(_crossed(side, points) for side in seams(tree))
    return crossed + sum(shape_cost(outline, across) for outline in on_the_way)


def _crossed(side: LineString, points: Sequence[Meeting]) -> float:
    """What the crossings on a seam cost."""
    (ax, ay), (bx, by) = side.coords
    along = ((bx - ax) / side.length, (by - ay) / side.length)
    inner = LineString((side.interpolate(0.01), side.interpolate(side.length - 0.01))).buffer(0.002)
    return sum(m.cost_along(along) for m in points if inner.covers(Point(m.at)))


def least_cost(work: Patchwork) -> float:
    """The least cost over all orders, found by trying every one.

    Every way to part every set in two is tried; what is joined along a seam that runs the same way as those
    inside it is one row, and no sub-assembly.
    """
    count = len(work.parts)
    points = meetings(patch.placed(p.place) for p in work.parts for patch in p.drawing.patches)
    shapes = cache(
        lambda parts: unary_union(
            [
                Polygon(work.outlines[k]).buffer(NEAR / 10, join_style="mitre")
                for k in range(count)
                if parts >> k & 1
            ]
        ).simplify(NEAR)
    )
    left, low, right, high = shapes(work.whole).bounds
    across = min(right - left, high - low)

    @cache
    def ways(parts: int) -> list[tuple[int, int, float, float]]:
        """The two sets, the direction of the seam between them, what the crossings on it cost."""
        found, half = [], (parts - 1) & parts
        while half:
            other = parts & ~half
            if half > other and shapes(half).geom_type == shapes(other).geom_type == "Polygon":
                side = whole_side(shapes(half), shapes(other))
                if side:
                    found.append((half, other, _direction(side), _crossed(side, points)))
            half = (half - 1) & parts
        return found

    @cache
    def cost(parts: int, joined: float | None) -> float:
        """The least cost of a set that is then joined along a seam in a direction."""
        if parts & (parts - 1) == 0:
            return 0.0
        outline = tuple(a for a, _ in _sides(shapes(parts)))
        own = 0.0 if joined is None else shape_cost(outline, across)
        return min(
            (0.0 if joined is not None and _same(joined, way) else own)
            + crossing
            + cost(one, way)
            + cost(other, way)
            for one, other, way, crossing in ways(parts)
        )

    return cost(work.whole, None)


def _direction(side: LineString) -> float:
    (ax, ay), (bx, by) = side.coords
    return round(atan2(by - ay, bx - ax) % pi, 4) % round(pi, 4)


def _same(one: float, other: float) -> bool:
    off = abs(one - other) % pi
    return min(off, pi - off) < 1e-3
