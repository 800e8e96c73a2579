"""What the pressing programme is asked: every distinct seam, where seams meet, which side is darker."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from piecewright.bench.cloth import Cloth, Towards
from piecewright.bench.joining import Meet, tallied
from piecewright.design.kinds import kind_of
from piecewright.planning.things import Gathered, Joined, Seamed, Thing, ThingThere, UnitThing
from piecewright.pressing.directions import Directions, Leaning, Meeting, press_all

# A goose is pressed away from its point, and corners outwards: there is least bulk.
POINT_WEIGHT, BULK_WEIGHT, DARK_WEIGHT = 4.0, 2.0, 1.0


@dataclass(frozen=True)
class Pressings:
    """The direction of every seam, and for each joined thing the seam ends that nest and that clash."""

    directions: Directions
    of_seam: Mapping[str, str]

    def towards(self, seam: str) -> Towards:
        """Which cloth a seam is pressed to."""
        return "first" if self._to_first(seam) else "second"

    def _to_first(self, seam: str) -> bool:
        return self.directions.to_first[self.of_seam[seam]]

    def nesting(self, thing: Joined) -> tuple[int, int]:
        """How many places nest, and how many clash, where one of this thing is joined."""
        met = tallied([seamed.pairs for seamed in thing.seams])
        nested = sum(times * sum(map(self._nests, pairs)) for pairs, times in met)
        return nested, sum(times * len(pairs) for pairs, times in met) - nested

    def clashes(self, seamed: Seamed) -> list[float]:
        """Where on a seam the meeting seams clash: inches from the start of the first cloth's side."""
        return [pair[0].at for pair in seamed.pairs if not self._nests(pair)]

    def _nests(self, pair: Meet) -> bool:
        leans = []
        for end in pair:
            if end.pressed == "open" or end.name not in self.of_seam:
                return False
            leans.append(self._to_first(end.name) == end.first_is_ahead)
        return leans[0] == leans[1]


def plan_pressing(
    things: Mapping[str, Thing], counts: Mapping[str, int], lightness: Mapping[str, float]
) -> Pressings:
    """The best pressing for all seams; `lightness` is that of each cloth, from 0 to 1."""
    variable = _shared(things)
    of_seam: dict[str, str] = {}
    leanings: list[Leaning] = []
    fixed: dict[str, bool] = {}
    for thing in things.values():
        if isinstance(thing, Joined):
            for seamed in thing.seams:
                of_seam[seamed.seam] = seamed.seam
                leanings.append(_seam_wish(seamed, counts[thing.name], lightness))
        elif isinstance(thing, UnitThing) and not thing.recipe.method.pressed_as_written:
            name = variable.get(thing.name, thing.name)
            of_seam |= {seam.name: name for seam in thing.cloth.own_seams}
            leanings.append(_unit_wish(thing, name, counts[thing.name], lightness))
        elif isinstance(thing, UnitThing | ThingThere):
            written = _as_written(thing.cloth)
            of_seam |= {seam: seam for seam in written}
            fixed |= written
            if thing.name in variable and len(set(written.values())) == 1:
                # The others of its pile are pressed as these are.
                fixed[variable[thing.name]] = next(iter(written.values()))
    found = [
        meeting
        for thing in things.values()
        if isinstance(thing, Joined)
        for pairs, times in tallied([seamed.pairs for seamed in thing.seams])
        for meeting in _meetings(pairs, times * counts[thing.name], of_seam)
    ]
    seams = dict.fromkeys(of_seam.values())
    held = {seam: to_first for seam, to_first in fixed.items() if seam in seams}
    return Pressings(press_all(seams, found, leanings, held), of_seam)


def _shared(things: Mapping[str, Thing]) -> dict[str, str]:
    """For units that are gathered and pressed alike: the name they share in the programme."""
    return {
        source: thing.name
        for thing in things.values()
        if isinstance(thing, Gathered) and thing.alike
        for source, _ in thing.sources
    }


def _as_written(cloth: Cloth) -> dict[str, bool]:
    """For every seam of a unit that is pressed to one side: whether it is pressed to its first cloth."""
    return {
        seam.name: seam.pressed[0] == "first"
        for seam in cloth.seams
        if set(seam.pressed) in ({"first"}, {"second"})
    }


def _unit_wish(thing: UnitThing, name: str, count: int, lightness: Mapping[str, float]) -> Leaning:
    unit = thing.recipe.unit
    if kind_of(unit.kind).outwards:
        return Leaning(name, False, POINT_WEIGHT * count)
    light = [lightness.get(fabric, 0.5) for fabric in unit.fabrics[:2]]
    darker = len(light) == 2 and light[0] < light[1]
    return Leaning(name, darker, DARK_WEIGHT * count)


def _seam_wish(seamed: Seamed, count: int, lightness: Mapping[str, float]) -> Leaning:
    """Away from the side with more seams; then to the darker side."""
    first, second = seamed.ends
    wish = BULK_WEIGHT * (second - first) / max(first + second, 1)
    wish += DARK_WEIGHT * (_lightness(seamed.second, lightness) - _lightness(seamed.first, lightness))
    return Leaning(seamed.seam, wish > 0, abs(wish) * count)


def _lightness(cloth: Cloth, lightness: Mapping[str, float]) -> float:
    areas = cloth.cloth_of
    return sum(lightness.get(fabric, 0.5) * a for fabric, a in areas.items()) / sum(areas.values())


def _meetings(pairs: tuple[Meet, ...], count: int, of_seam: Mapping[str, str]) -> list[Meeting]:
    return [
        Meeting(of_seam[one.name], of_seam[two.name], one.first_is_ahead == two.first_is_ahead, count)
        for one, two in pairs
        if one.name in of_seam and two.name in of_seam
    ]
