"""Crossings: where on a seam others come out from both its cloths, and the stretches between them.

A crossing inside a seam, at which seams from either side pair off, divides it: there it may change side. A
seam with many crossings, or sewn from dot to dot or in part, stays whole.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from itertools import pairwise

from piecewright.bench.cloth import SeamEnd
from piecewright.bench.joining import NEAR, Meet, Sides
from piecewright.geometry.point import distance
from piecewright.geometry.polygon import Polygon
from piecewright.planning.things import Joined
from piecewright.pressing.programme import Segment, segment
from piecewright.pressing.weights import MOST_CROSSINGS


@dataclass(frozen=True)
class Crossing:
    """A place on a seam, inches from its start: the pairs that meet there, and all that comes out.

    `inside`: the seam goes on to both sides of it.
    """

    at: float
    pairs: tuple[Meet, ...]
    ends: tuple[SeamEnd, ...]
    inside: bool

    @property
    def seams(self) -> int:
        """How many seams come together, the two halves of the one crossed included."""
        return len(self.ends) + (2 if self.inside else 1)

    @property
    def may_spin(self) -> bool:
        """Whether all that come out there pair off, so that they can go round one way."""
        return self.inside and len(self.ends) == 2 * len(self.pairs)


def crossings_of(thing: Joined) -> tuple[tuple[Crossing, ...], ...]:
    """For each seam of a thing its crossings, in order; like joins share one answer."""
    parts = [part for part in thing.parts for _ in range(part.count)]
    known: dict[tuple[object, ...], tuple[Crossing, ...]] = {}
    found = []
    for number, seamed in enumerate(thing.seams):
        leaving = parts[number].exit if number < len(parts) else ()
        entering = parts[number + 1].entry if number + 1 < len(parts) else ()
        key = (id(seamed.pairs), id(seamed.first), leaving, id(seamed.second), entering)
        if key not in known:
            known[key] = _crossings(thing, number, leaving, entering)
        found.append(known[key])
    return tuple(found)


def _crossings(thing: Joined, number: int, leaving: Sides, entering: Sides) -> tuple[Crossing, ...]:
    seamed, length = thing.seams[number], _length(thing.cloth.own_seams[number].path)
    places: list[tuple[float, list[Meet]]] = []
    for pair, at in zip(seamed.pairs, _along(thing, number, leaving), strict=True):
        if places and abs(places[-1][0] - at) <= NEAR:
            places[-1][1].append(pair)
        else:
            places.append((at, [pair]))
    others: list[SeamEnd] = []
    if len(leaving) == len(entering) == 1 and is_whole(thing, number, leaving):
        others = [*seamed.first.ends_on(leaving[0])]
        others += [replace(end, at=length - end.at) for end in seamed.second.ends_on(entering[0])]
    found = []
    for at, pairs in places:
        ends = [end for end in others if abs(end.at - at) <= NEAR] or [end for pair in pairs for end in pair]
        found.append(Crossing(at, tuple(pairs), tuple(ends), NEAR < at < length - NEAR))
    return tuple(found)


def is_whole(thing: Joined, number: int, leaving: Sides) -> bool:
    """Whether a seam is sewn on the whole of one straight side."""
    if len(leaving) != 1:
        return False
    side = distance(*thing.seams[number].first.sides[leaving[0]])
    return abs(side - _length(thing.cloth.own_seams[number].path)) <= NEAR


def _along(thing: Joined, number: int, leaving: Sides) -> list[float]:
    """Where each pair of a seam meets: inches from the seam's start, along its path."""
    first, path = thing.seams[number].first, thing.cloth.own_seams[number].path
    so_far = 0.0
    if leaving and number < len(thing.cloth.parts) and thing.cloth.parts[number].cloth is first:
        dot = thing.cloth.parts[number].place.at(first.sides[leaving[0]][0])
        so_far = -distance(dot, path[0])
    sides = list(leaving)
    found = []
    for end, _ in thing.seams[number].pairs:
        while len(sides) > 1 and end not in first.ends_on(sides[0]):
            so_far += distance(*first.sides[sides.pop(0)])
        found.append(so_far + end.at)
    return found


def _length(path: Polygon) -> float:
    return sum(distance(p, q) for p, q in pairwise(path))


@dataclass(frozen=True)
class Divided:
    """A seam in its stretches, and the crossings that divide it."""

    seam: str
    segments: tuple[Segment, ...]
    places: tuple[Crossing, ...]

    def running_out(self, end: SeamEnd) -> Segment:
        """The stretch that runs out at an end: the last where its first cloth lies ahead, else the first."""
        return self.segments[-1 if end.first_is_ahead else 0]


def stretch_at(of_seam: Mapping[str, Divided], end: SeamEnd) -> Segment | None:
    """The stretch that runs out at an end; None where it lies open, or either way.

    A seam that the plan does not decide on has a name for the side to which it is pressed (see `as_written`).
    """
    if end.name in of_seam:
        return of_seam[end.name].running_out(end)
    return f"{end.name}, pressed to the {end.pressed}" if end.pressed in ("first", "second") else None


def as_written(of_seam: Mapping[str, Divided], ends: Iterable[SeamEnd]) -> dict[Segment, bool]:
    """For the ends that the plan does not decide on: whether they are pressed to their first cloth."""
    return {
        name: end.pressed == "first"
        for end in ends
        if end.name not in of_seam and (name := stretch_at(of_seam, end)) is not None
    }


def in_stretches(seam: str, crossings: tuple[Crossing, ...], whole: bool) -> Divided:
    """A seam divided at the crossings where it may change side, unless it is to stay `whole`."""
    places = tuple(crossing for crossing in crossings if crossing.may_spin)
    if whole or len(places) > MOST_CROSSINGS:
        places = ()
    return Divided(seam, tuple(segment(seam, k) for k in range(len(places) + 1)), places)
