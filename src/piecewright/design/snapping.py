"""Small misfits of a drawing set right: corners that nearly meet are brought together.

Terms:
- *limit*: what lies nearer than this was meant to meet; all in finished inches;
- *knot*: corners of the drawing that were meant to be one, and the place where that one comes to lie;
- *hold*: a knot that was meant to lie on the straight line between two others.

First corners are gathered into knots. If a simple grid (n-ths of the side) explains all of them, each goes to
its place on it. Otherwise the knots are moved step by step until every hold is kept.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

import shapely
from shapely import LineString
from shapely import Point as ShapelyPoint

from piecewright.design.gridding import on_simple_grid
from piecewright.design.svg_file import Unreadable
from piecewright.geometry.point import Point, add, cross, distance, dot, scale, sub
from piecewright.geometry.polygon import bounds
from piecewright.measure.length import inches
from piecewright.measure.tolerance import AS_DRAWN, WELD

# Narrower gaps and overlaps than this, or than this share of the block's shorter side, are misfits. The most
# is well below the narrowest patch there can be (1/8 in).
LIMIT = float(inches("1/16"))
LIMIT_SHARE = 0.005
MOST_LIMIT = float(inches("3/32"))

# More than this is no drawing of a block, and would take long.
MOST_NEAR = 100_000
MOST_HOLDS = 10_000
MOST_IN_CHAIN = 200

_ROUNDS = 200
_STILL = 1e-9
_TANGLED = "expected patches wider than a few threads, got too many lines in one place."

Ring = Sequence[Point]
Hold = tuple[int, int, int]


@dataclass(frozen=True)
class Snapped:
    """Where each corner of the drawing comes to lie, how many were moved visibly, and how far at most."""

    places: dict[Point, Point]
    moved: int
    farthest: float


def misfit_limit(width: float, height: float) -> float:
    """How near things lie that were meant to meet, in a block of a finished size.

    >>> misfit_limit(6, 6), misfit_limit(16, 18), misfit_limit(40, 40)
    (0.0625, 0.08, 0.09375)
    """
    return min(max(LIMIT, LIMIT_SHARE * min(width, height)), MOST_LIMIT)


def snap(rings: Sequence[Ring], width: float, height: float, in_curves: Iterable[Point] = ()) -> Snapped:
    """The corners of the rings brought together in a block with its lower left corner at the origin.

    Corners `in_curves` stay where they are, and so do lines that end in one. Raises Unreadable for what is
    much too fine.
    """
    limit, soft = misfit_limit(width, height), frozenset(in_curves)
    frame = ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height))
    corners = list(dict.fromkeys(corner for ring in rings for corner in ring if corner not in soft))
    knots = _knots(frame, corners, limit)
    number = {corner: k for k, knot in enumerate(knots) for corner in knot}
    before = [knot[0] if k < 4 else _middle(knot) for k, knot in enumerate(knots)]
    holds = _holds(before, _lines(rings, number), limit)
    spread = max([*map(_spread, knots), *(_off(before[p], before[a], before[b]) for p, a, b in holds)])
    after = on_simple_grid(before, width, height, limit, spread)
    if after is None or any(_off(after[p], after[a], after[b]) > WELD for p, a, b in holds):
        after = _held(before, holds, limit)
    places = {corner: after[k] for corner, k in number.items()}
    ways = [distance(corner, places[corner]) for corner in corners]
    return Snapped(places, sum(way > AS_DRAWN for way in ways), max(ways, default=0.0))


def _knots(frame: Sequence[Point], corners: Sequence[Point], limit: float) -> list[list[Point]]:
    """The corners gathered, all of a knot within the limit of one another; the block's own come first."""
    knots: list[list[Point]] = [[corner] for corner in frame]
    boxes: list[tuple[Point, Point]] = [(corner, corner) for corner in frame]
    by_cell: dict[tuple[int, int], list[int]] = defaultdict(list)

    def cell(corner: Point) -> tuple[int, int]:
        return int(corner[0] // limit), int(corner[1] // limit)

    for k, corner in enumerate(frame):
        by_cell[cell(corner)].append(k)
    for corner in corners:
        x, y = cell(corner)
        around = {k for i in (-1, 0, 1) for j in (-1, 0, 1) for k in by_cell.get((x + i, y + j), ())}
        far, k = min(((_spread([corner, *boxes[k]]), k) for k in around), default=(limit, -1))
        if far >= limit:
            k = len(knots)
            knots.append([])
            boxes.append((corner, corner))
        left, low, right, high = bounds([corner, *boxes[k]])
        boxes[k] = (left, low), (right, high)
        knots[k].append(corner)
        by_cell[x, y].append(k)
    return knots


def _spread(corners: Sequence[Point]) -> float:
    """How far corners lie apart: the diagonal of the box around them."""
    left, low, right, high = bounds(corners)
    return distance((left, low), (right, high))


def _middle(knot: Sequence[Point]) -> Point:
    if len(knot) == 1:
        return knot[0]
    return sum(x for x, _ in knot) / len(knot), sum(y for _, y in knot) / len(knot)


def _lines(rings: Sequence[Ring], number: dict[Point, int]) -> set[tuple[int, int]]:
    """The lines of all rings and of the block's edge, as pairs of knots; none that ends in a curve."""
    lines = {(0, 1), (1, 2), (2, 3), (0, 3)}
    for ring in rings:
        for one, other in zip(ring, [*ring[1:], ring[0]], strict=True):
            a, b = number.get(one), number.get(other)
            if a is not None and b is not None and a != b:
                lines.add((min(a, b), max(a, b)))
    return lines


def _holds(places: Sequence[Point], lines: set[tuple[int, int]], limit: float) -> list[Hold]:
    """The knots that nearly lie on a line: on a line of the drawing, or within lines that nearly are one."""
    ordered = sorted(lines)
    drawn = [LineString((places[a], places[b])) for a, b in ordered]
    near = shapely.STRtree(drawn).query([ShapelyPoint(p) for p in places], "dwithin", limit)
    if near.shape[1] > MOST_NEAR:
        raise Unreadable(_TANGLED)
    whole: dict[tuple[int, int], tuple[int, int]] = {}
    holds: set[Hold] = set()
    for chain in _chains(places, ordered, limit):
        first, last = chain[0], chain[-1]
        whole |= {(min(a, b), max(a, b)): (first, last) for a, b in pairwise(chain)}
        holds |= {(p, first, last) for p in chain[1:-1] if p >= 4}
    for p, line in zip(*near.tolist(), strict=True):
        ends = whole[ordered[line]]
        if p >= 4 and p not in ends and _is_between(places, p, *ordered[line]):
            holds.add((p, *ends))
    if len(holds) > MOST_HOLDS:
        raise Unreadable(_TANGLED)
    return sorted(holds)


def _chains(places: Sequence[Point], lines: Sequence[tuple[int, int]], limit: float) -> Iterator[list[int]]:
    """Lines that go on in one another nearly straight, as the knots along each; each line is in one chain."""
    ends: dict[int, list[int]] = defaultdict(list)
    for a, b in lines:
        ends[a].append(b)
        ends[b].append(a)
    done: set[tuple[int, int]] = set()
    for line in lines:
        if line in done:
            continue
        chain = list(line)
        for _ in range(2):
            more = _further(places, chain, ends, done, limit)
            while more is not None and len(chain) < MOST_IN_CHAIN:
                chain.append(more)
                more = _further(places, chain, ends, done, limit)
            chain.reverse()
        done |= {(min(a, b), max(a, b)) for a, b in pairwise(chain)}
        yield chain


def _further(
    places: Sequence[Point],
    chain: Sequence[int],
    ends: Mapping[int, Sequence[int]],
    done: Collection[tuple[int, int]],
    limit: float,
) -> int | None:
    """The knot to which a chain goes on, the one that is least off; None where it ends."""
    last, first = chain[-1], chain[0]
    going = [
        (_off(places[last], places[first], places[k]), k)
        for k in ends[last]
        if k not in chain and (min(k, last), max(k, last)) not in done and _is_between(places, last, first, k)
    ]
    off, k = min(going, default=(limit, -1))
    if off >= limit or any(_off(places[p], places[first], places[k]) >= limit for p in chain[1:-1]):
        return None
    return k


def _is_between(places: Sequence[Point], p: int, a: int, b: int) -> bool:
    along = sub(places[b], places[a])
    return 0 < dot(sub(places[p], places[a]), along) < dot(along, along)


def _off(p: Point, a: Point, b: Point) -> float:
    """How far a point lies off the endless line through two others."""
    size = distance(a, b)
    return abs(cross(sub(b, a), sub(p, a))) / size if size > WELD else distance(p, a)


def _held(before: Sequence[Point], holds: Sequence[Hold], limit: float) -> list[Point]:
    """The knots moved until all holds are kept; one that would have to go farther than the limit stays."""
    after = list(before)
    for _ in range(_ROUNDS):
        farthest = 0.0
        for p, a, b in holds:
            onto = _onto(after[p], after[a], after[b])
            farthest = max(farthest, distance(onto, after[p]))
            after[p] = onto
        if farthest < _STILL:
            break
    return [new if distance(new, old) <= limit else old for new, old in zip(after, before, strict=True)]


def _onto(p: Point, a: Point, b: Point) -> Point:
    along = sub(b, a)
    size = dot(along, along)
    return add(a, scale(along, dot(sub(p, a), along) / size)) if size > WELD**2 else p
