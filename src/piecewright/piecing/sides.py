"""The sides along which two cloths lie together in a drawing, as a join names them.

Terms:
- *path*: the stretch of both outlines along which one seam goes, straight or round corners;
- *flush*: where two sides end at the same dot; where one goes on, the seam stops at a dot in it;
- *lips*: the two sides of a seam that is still unsewn, from where the stitches stop to the outline.

Outlines are net (finished), counter-clockwise, in inches, where the cloths lie in the drawing.
"""

from __future__ import annotations

from dataclasses import dataclass

from piecewright.bench.joining import Sides
from piecewright.bench.steps import Flush, PartSewn
from piecewright.bench.stretches import Stretch
from piecewright.geometry.point import Point, add, cross, distance, dot, scale, side_of, sub, unit
from piecewright.geometry.polygon import Line, Polygon, edges
from piecewright.measure.tolerance import EDGE_MATCH
from piecewright.problems import Problem, Refused

NEARLY = 2 * EDGE_MATCH
"""Outlines of two cloths, each drawn and sewn within `EDGE_MATCH`, lie together within this."""


@dataclass(frozen=True, slots=True)
class SharedPath:
    """The sides of two cloths that are sewn to each other: `exit` of the first, `entry` of the second.

    Both consecutive, counter-clockwise. `points` are those of the path, in the direction of the first's
    outline. `stretch` tells where the seam goes if it is not sewn on the whole of all these sides.
    """

    exit: Sides
    entry: Sides
    points: tuple[Point, ...]
    stretch: Stretch | None = None

    @property
    def line(self) -> Line:
        """From the start of the path to its end."""
        return self.points[0], self.points[-1]

    @property
    def part_sewn(self) -> PartSewn | None:
        """The stretch as a step of joining says it."""
        how = self.stretch
        if how is None:
            return None
        flush: Flush = "corner" if how.at_corner else "start" if how.flush_at_start else "end"
        return PartSewn(start=how.start, stop=how.stop, flush=flush, beyond=how.beyond)


@dataclass(frozen=True, slots=True)
class _Touch:
    """A side of the first outline along one of the second: where that starts and ends, inches along it."""

    side: int
    length: float
    other: int
    low: float
    high: float

    @property
    def start(self) -> float:
        return max(self.low, 0.0)

    @property
    def stop(self) -> float:
        return min(self.high, self.length)


def shared_path(one: Polygon, other: Polygon, leaving: Line | None = None) -> SharedPath:
    """The path along which two outlines lie together; sides on the line `leaving` are left unsewn.

    Raises Refused where they do not lie together, or along more than one path.
    """
    touching = _in_order(_touching(one, other, leaving), (len(one), len(other)))
    first, last = touching[0], touching[-1]
    sides = edges(one)
    points = (
        _at(sides[first.side], first.start),
        *(sides[touch.side][1] for touch in touching[:-1]),
        _at(sides[last.side], last.stop),
    )
    leaving_by, entered_by = [touch.side for touch in touching], [touch.other for touch in touching[::-1]]
    return SharedPath(tuple(leaving_by), tuple(entered_by), points, _stretch(touching))


def _touching(one: Polygon, other: Polygon, leaving: Line | None) -> list[_Touch]:
    found = []
    for k, (a, b) in enumerate(edges(one)):
        along, length = unit(sub(b, a)), distance(a, b)
        if leaving and all(abs(side_of(p, *leaving)) <= NEARLY for p in (a, b)):
            continue
        for j, (c, d) in enumerate(edges(other)):
            if abs(cross(along, sub(c, a))) > NEARLY or abs(cross(along, sub(d, a))) > NEARLY:
                continue
            touch = _Touch(k, length, j, dot(along, sub(d, a)), dot(along, sub(c, a)))
            if touch.stop - touch.start > NEARLY:
                found.append(touch)
    return found


def _in_order(touching: list[_Touch], counts: tuple[int, int]) -> list[_Touch]:
    """The touching sides from the start of the path to its end; `counts` tells the sides of both outlines."""
    follows = {
        one: two
        for one in touching
        for two in touching
        if (two.side - one.side - 1) % counts[0] == 0
        and (one.other - two.other - 1) % counts[1] == 0
        and abs(one.high - one.length) <= NEARLY
        and abs(two.low) <= NEARLY
    }
    path = [touch for touch in touching if touch not in follows.values()][:1]
    while path and path[-1] in follows:
        path.append(follows[path[-1]])
    if not path or len(path) != len(touching):
        raise Refused(
            Problem(
                "the two cloths do not lie together along one seam",
                do="Draw them so that one seam, straight or round corners, joins them.",
            )
        )
    return path


def _at(side: Line, along: float) -> Point:
    return add(side[0], scale(unit(sub(side[1], side[0])), along))


def _stretch(touching: list[_Touch]) -> Stretch | None:
    """Where the seam goes if a side of either goes on beyond it."""
    first, last = touching[0], touching[-1]
    at_start, at_end = abs(first.low) <= NEARLY, abs(last.high - last.length) <= NEARLY
    if at_start and at_end:
        return None
    total = sum(touch.length for touch in touching)
    if len(touching) > 1:
        start = max(first.low - first.high + first.length, 0.0)
        reach = min(last.high - last.low, last.length)
        return Stretch(_figure(start), _figure(total - last.length + reach), at_corner=True)
    reach = first.high - first.low
    if at_start:
        return Stretch(0.0, _figure(min(reach, total)))
    if at_end:
        return Stretch(_figure(max(total - reach, 0.0)), _figure(total), flush_at_start=False)
    return Stretch(_figure(first.start), _figure(first.stop), beyond=_figure(-first.low))


def _figure(inches: float) -> float:
    """A figure that can be read, far truer than a needle."""
    return round(inches, 6) + 0.0


def ring_seam(centre: Polygon, log: Polygon) -> SharedPath:
    """The first seam of a ring: from where the first log ends with the centre to the middle of that side.

    So there is half the side to hold by, and the rest is free for the last log. Raises Refused where the log
    does not end with the centre at one end of a side and go on beyond it at the other.
    """
    path = shared_path(centre, log)
    how = path.stretch
    if how is None or how.at_corner or how.beyond:
        raise Refused(
            Problem(
                "the first log of a ring must end with its centre at one end and go on at the other",
                do="Begin the ring with another log.",
            )
        )
    half = _figure((how.stop - how.start) / 2)
    if how.flush_at_start:
        sewn = Stretch(0.0, half)
    else:
        sewn = Stretch(half, how.stop, flush_at_start=False)
    return SharedPath(path.exit, path.entry, path.points, sewn)


def closing_sides(net: Polygon) -> tuple[int, int]:
    """The two lips that are sewn to each other to close a ring: they meet where the stitches stop.

    Raises Refused where nothing is left open.
    """
    for k, corner in enumerate(net):
        into, out = sub(corner, net[k - 1]), sub(net[(k + 1) % len(net)], corner)
        if dot(into, out) < 0 and abs(cross(unit(into), out)) <= NEARLY:
            return (k - 1) % len(net), k
    raise Refused(Problem("there is no seam left open that could be closed"))
