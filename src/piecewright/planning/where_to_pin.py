"""Where seams meet, told for people: the places to pin, those pressed round, and those that are spun."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import pairwise

from piecewright.geometry.point import distance
from piecewright.measure.length import Unit
from piecewright.measure.showing import show_float
from piecewright.planning.crossings import Crossing
from piecewright.planning.pressing_plan import Pressings
from piecewright.planning.things import Joined, Thing
from piecewright.problems import Problem

MOST_PLACES = 6

Found = Callable[[Joined, int], list[Crossing]]


def to_pin(
    things: Mapping[str, Thing], counts: Mapping[str, int], pressings: Pressings, unit: Unit
) -> list[Problem]:
    """The places where seams do not nest: which seam, where along it, and what comes together."""
    notes = []
    for thing, number, places in _each(things, counts, pressings.to_pin):
        along, what = _along(thing, number, places, unit), _owners(places)
        told = f"seams cannot nest {along}: {what} come together there."
        if all(map(pressings.is_open, places)):
            told = f"open seams do not lock {along}: {what} come together there."
        notes.append(
            Problem(
                f"where {_met(thing, number)}, {told}",
                thing.name,
                "Pin there, and sew slowly.",
                weight="note",
            )
        )
    return notes


def pressed_round(
    things: Mapping[str, Thing], counts: Mapping[str, int], pressings: Pressings, unit: Unit
) -> list[Problem]:
    """The places where six seams or more come together, all pressed one way round: as it should be."""
    return [
        Problem(
            f"where {_met(thing, number)}, {_counted(places)} seams come together "
            f"{_along(thing, number, places, unit)}, all pressed one way round.",
            thing.name,
            "That is right: match the point, and press the middle flat.",
            weight="note",
        )
        for thing, number, places in _each(things, counts, pressings.pressed_round)
    ]


def spun(
    things: Mapping[str, Thing], counts: Mapping[str, int], pressings: Pressings, unit: Unit
) -> list[Problem]:
    """The places where a seam changes side, so that all go round one way."""
    return [
        Problem(
            f"where {_met(thing, number)}, the seam changes side {_along(thing, number, places, unit)}, "
            "so that all go round one way.",
            thing.name,
            "Pick out the few stitches of the crossing seams that lie in its allowance.",
            weight="note",
        )
        for thing, number, places in _each(things, counts, pressings.spun)
    ]


def _each(
    things: Mapping[str, Thing], counts: Mapping[str, int], found: Found
) -> Iterator[tuple[Joined, int, list[Crossing]]]:
    """Every seam of a joined thing that has such places."""
    for thing in things.values():
        if isinstance(thing, Joined) and counts[thing.name]:
            for number in range(len(thing.seams)):
                if places := found(thing, number):
                    yield thing, number, places


def _met(thing: Joined, number: int) -> str:
    if number + 1 >= sum(part.count for part in thing.parts):
        return f"{thing.name} is closed"
    one, other = thing.neighbours(number)
    return f"{one} meets {other}" if one != other else f"two of {one} meet"


def _owners(places: Sequence[Crossing]) -> str:
    """Whose seams come together: a seam's name is that of its pile and a number."""
    seams = (end.name for place in places for pair in place.pairs for end in pair)
    names = list(dict.fromkeys(seam.rpartition(".")[0] for seam in seams))
    return f"seams of {' and '.join((', '.join(names[:-1]), names[-1]) if names[:-1] else names)}"


def _counted(places: Sequence[Crossing]) -> str:
    numbers = sorted({place.seams for place in places})
    return " or ".join(map(str, numbers))


def _along(thing: Joined, number: int, places: Sequence[Crossing], unit: Unit) -> str:
    """Where on a seam, counted from its left or lower end as the picture shows it."""
    path = [thing.lies.at(point) for point in thing.cloth.own_seams[number].path]
    start, end = path[0], path[-1]
    level = abs(end[0] - start[0]) > abs(end[1] - start[1])
    backwards = end[0] < start[0] if level else end[1] < start[1]
    length = sum(distance(p, q) for p, q in pairwise(path))
    found = sorted(length - place.at if backwards else place.at for place in places)
    told = list(dict.fromkeys(show_float(abs(at), unit) for at in found))
    more = " and so on" if len(told) > MOST_PLACES else ""
    return f"{', '.join(told[:MOST_PLACES])}{more} from the {'left' if level else 'lower'} end"
