"""What the pressing programme is asked: every distinct seam, where seams meet, which side is darker."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from piecewright.bench.cloth import Cloth, Towards
from piecewright.bench.joining import Meet, tallied
from piecewright.planning.things import Joined, Seamed, Thing, UnitThing
from piecewright.pressing.directions import Directions, Leaning, Meeting, press_all

# A goose is pressed away from its point, towards the corners: there is least bulk.
POINT_WEIGHT, BULK_WEIGHT, DARK_WEIGHT = 4.0, 2.0, 1.0


@dataclass(frozen=True)
class Pressings:
    """The direction of every seam, and for each joined thing the seam ends that nest and that clash."""

    directions: Directions
    of_seam: Mapping[str, str]

    def towards(self, seam: str) -> Towards:
        """Which cloth a seam is pressed to."""
        return "first" if self.directions.to_first[self.of_seam[seam]] else "second"

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
            to_first = self.directions.to_first[self.of_seam[end.name]]
            leans.append(to_first == end.first_is_ahead)
        return leans[0] == leans[1]


def plan_pressing(
    things: Mapping[str, Thing], counts: Mapping[str, int], lightness: Mapping[str, float]
) -> Pressings:
    """The best pressing for all seams; `lightness` is that of each cloth, from 0 to 1."""
    of_seam: dict[str, str] = {}
    leanings: list[Leaning] = []
    for thing in things.values():
        if isinstance(thing, UnitThing):
            for seam in thing.cloth.own_seams:
                of_seam[seam.name] = thing.name
            leanings += _unit_wishes(thing, counts[thing.name], lightness)
        elif isinstance(thing, Joined):
            for seamed in thing.seams:
                of_seam[seamed.seam] = seamed.seam
                leanings.append(_seam_wish(seamed, counts[thing.name], lightness))
    found = [
        meeting
        for thing in things.values()
        if isinstance(thing, Joined)
        for pairs, times in tallied([seamed.pairs for seamed in thing.seams])
        for meeting in _meetings(pairs, times * counts[thing.name], of_seam)
    ]
    seams = list(dict.fromkeys(of_seam.values()))
    return Pressings(press_all(seams, found, leanings), of_seam)


def _unit_wishes(thing: UnitThing, count: int, lightness: Mapping[str, float]) -> list[Leaning]:
    first, second = thing.recipe.unit.fabrics
    if thing.recipe.unit.kind == "geese":
        return [Leaning(thing.name, False, POINT_WEIGHT * count)]
    darker = lightness.get(first, 0.5) < lightness.get(second, 0.5)
    return [Leaning(thing.name, darker, DARK_WEIGHT * count)]


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
