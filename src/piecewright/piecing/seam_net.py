"""The seams of a drawn block as a net: the points where they meet, and the ways from point to point.

Terms:
- *point*: a corner of a part, with a number; corners that lie together are one point;
- *way*: a stretch of an edge from one point to the next, as (from, to); the part on its left owns it;
- *curve*: three or more corners of a part, one after another, that turn the same way by little each: an arc
  drawn as chords. A seam along it does not turn round corners; it is inset, by template.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import groupby, pairwise
from math import atan2, radians

import numpy as np

from piecewright.geometry.point import Point, add, cross, distance, dot, near, sub, unit
from piecewright.geometry.polygon import Polygon
from piecewright.measure.tolerance import EDGE_MATCH

Way = tuple[int, int]

SHALLOW = radians(20)
"""Chords of a curve turn by less than this, each against the next (common practice, no source)."""

LEAST_OF_A_CURVE = 3


@dataclass(frozen=True, eq=False)
class SeamNet:
    """Points and ways of a block.

    `owner` tells the part on the left of a way, `ways_of` the ways round each part, counter-clockwise.
    `onward` tells where a way goes on straight, `curving` where it goes on straight or along a curve.
    """

    points: tuple[Point, ...]
    owner: dict[Way, int]
    ways_of: tuple[tuple[Way, ...], ...]
    onward: dict[Way, int]
    curving: dict[Way, int]

    def bend(self, a: int, b: int, c: int) -> float:
        """The angle by which one turns to the left in b, coming from a and going to c; radians."""
        into, out = sub(self.points[b], self.points[a]), sub(self.points[c], self.points[b])
        return atan2(cross(into, out), dot(into, out))

    def length(self, way: Way) -> float:
        """How long a way is; inches."""
        return distance(self.points[way[0]], self.points[way[1]])


@lru_cache(maxsize=64)
def seam_net(outlines: tuple[Polygon, ...]) -> SeamNet:
    """The net of parts that tile a region, given by their outlines; O(n^2) with a small constant."""
    points = _Points()
    corners = [tuple(map(points.number, outline)) for outline in outlines]
    ways_of = tuple(tuple(_ways_round(numbers, points)) for numbers in corners)
    owner = {way: part for part, ways in enumerate(ways_of) for way in ways}
    around: dict[int, set[int]] = {}
    for a, b in owner:
        around.setdefault(a, set()).add(b)
        around.setdefault(b, set()).add(a)
    onward = {
        (a, b): c
        for b, neighbours in around.items()
        for a in neighbours
        if (c := _straight_on(a, b, neighbours, points.places)) is not None
    }
    net = SeamNet(tuple(points.places), owner, ways_of, onward, dict(onward))
    for numbers, ways in zip(corners, ways_of, strict=True):
        net.curving.update(_curves(net, numbers, ways))
    return net


class _Points:
    """The points found so far."""

    def __init__(self) -> None:
        self.places: list[Point] = []
        self._cells: dict[Way, list[int]] = {}

    def number(self, p: Point) -> int:
        """The number of the point where a corner lies."""
        x, y = round(p[0] / EDGE_MATCH), round(p[1] / EDGE_MATCH)
        for cell in ((x + dx, y + dy) for dx in (0, -1, 1) for dy in (0, -1, 1)):
            for number in self._cells.get(cell, ()):
                if near(p, self.places[number], EDGE_MATCH):
                    return number
        self._cells.setdefault((x, y), []).append(len(self.places))
        self.places.append(p)
        return len(self.places) - 1


def _ways_round(numbers: tuple[int, ...], points: _Points) -> Iterator[Way]:
    """The ways round a part: its edges, divided where other parts have corners on them."""
    places = np.array(points.places)
    for a, b in zip(numbers, numbers[1:] + numbers[:1], strict=True):
        start, length = places[a], distance(points.places[a], points.places[b])
        if length <= EDGE_MATCH:
            continue
        ux, uy = (places[b] - start) / length
        along = (places - start) @ (ux, uy)
        off = np.abs(ux * (places[:, 1] - start[1]) - uy * (places[:, 0] - start[0]))
        within = (off <= EDGE_MATCH) & (along > EDGE_MATCH) & (along < length - EDGE_MATCH)
        between = sorted(map(int, np.flatnonzero(within)), key=lambda k: along[k])
        yield from pairwise((a, *between, b))


def _straight_on(a: int, b: int, neighbours: set[int], places: list[Point]) -> int | None:
    """Of the neighbours of b the one that lies straight on when one comes from a, within `EDGE_MATCH`."""
    into = sub(places[b], places[a])
    bends = []
    for c in neighbours - {a}:
        out = sub(places[c], places[b])
        both = distance(add(into, out), (0.0, 0.0))
        if dot(into, out) > 0 and abs(cross(into, out)) <= EDGE_MATCH * both:
            bends.append((abs(cross(unit(into), unit(out))), c))
    return min(bends)[1] if bends else None


def _curves(net: SeamNet, numbers: tuple[int, ...], ways: tuple[Way, ...]) -> Iterator[tuple[Way, int]]:
    """Where ways of a part go on along a curve, in both directions."""
    arriving, leaving = {b: a for a, b in ways}, dict(ways)
    count = len(numbers)
    turns = [net.bend(numbers[k - 1], numbers[k], numbers[(k + 1) % count]) for k in range(count)]
    hands = [(turn > 0) - (turn < 0) if abs(turn) < SHALLOW else 0 for turn in turns]
    first = next((k for k in range(count) if hands[k] != hands[k - 1]), 0)
    in_order = [(first + k) % count for k in range(count)]
    for hand, together in groupby(in_order, key=lambda k: hands[k]):
        run = list(together)
        for b in (numbers[k] for k in run if hand and len(run) >= LEAST_OF_A_CURVE):
            a, c = arriving[b], leaving[b]
            yield (a, b), c
            yield (c, b), a
