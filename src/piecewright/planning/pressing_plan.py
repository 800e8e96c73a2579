"""The pressing of all things: what the programme is asked of them, and what its answer says of each seam."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from piecewright.bench.cloth import SeamEnd, SeamSize, Towards
from piecewright.bench.joining import Meet
from piecewright.bench.steps import Pressing, SideChange
from piecewright.planning.bulk_weights import bulk_weights
from piecewright.planning.crossings import Crossing, Divided, crossings_of
from piecewright.planning.pressing_asked import Asked, Crossings, programme_of, seams_of
from piecewright.planning.things import Joined, Seamed, Thing
from piecewright.pressing.directions import Directions, press, press_open_all
from piecewright.pressing.programme import Bulk, Segment
from piecewright.workroom.workroom import PressOpen


@dataclass(frozen=True)
class Pressings:
    """The side of every seam; `of_seam` tells the stretches of each seam that the plan decides on.

    `crossings` are those on the seams of each joined thing, by its name.
    """

    directions: Directions
    of_seam: Mapping[str, Divided]
    crossings: Crossings

    def towards(self, seam: str) -> Towards:
        """Which cloth a seam is pressed to, or open; where it changes side, at its start."""
        return self.side(self.of_seam[seam].segments[0])

    def side(self, name: Segment) -> Towards:
        """Which cloth a stretch of a seam is pressed to, or open."""
        if name in self.directions.opened:
            return "open"
        return "first" if self.directions.to_first[name] else "second"

    def pressing(self, seam: str) -> tuple[Pressing, tuple[SideChange, ...]]:
        """What a press step says of a seam: its sides in turn, and where it changes from one to the next."""
        divided = self.of_seam[seam]
        sides = [self.side(name) for name in divided.segments]
        turns = [k for k in range(1, len(sides)) if sides[k] != sides[k - 1]]
        towards = (sides[0], *(sides[k] for k in turns))
        changes = tuple(SideChange(seam, divided.places[k - 1].at) for k in turns)
        return Pressing(seam, towards), changes

    def nesting(self, thing: Joined) -> tuple[int, int]:
        """How many places nest where one of this thing is joined, and how many do not, open ones included."""
        return self.nesting_of([pair for seamed in thing.seams for pair in seamed.pairs])

    def nesting_of(self, pairs: Sequence[Meet]) -> tuple[int, int]:
        """Of pairs that meet, how many nest and how many do not."""
        nested = sum(map(self._nests, pairs))
        return nested, len(pairs) - nested

    def clashes(self, seamed: Seamed) -> list[float]:
        """Where on a seam the meeting seams clash: inches from the start of the first cloth's side."""
        return [pair[0].at for pair in seamed.pairs if not self._nests(pair)]

    def to_pin(self, thing: Joined, number: int) -> list[Crossing]:
        """The crossings on seam number so-and-so (from 0) where not all seams nest."""
        places = self.crossings[thing.name][number]
        return [place for place in places if not all(map(self._nests, place.pairs))]

    def is_open(self, place: Crossing) -> bool:
        """Whether something that meets there is pressed open, or not pressed to a side."""
        return any(not self._leans(end) for pair in place.pairs for end in pair)

    def pressed_round(self, thing: Joined, number: int) -> list[Crossing]:
        """The crossings of six seams and more on a seam where all are pressed one way round."""
        places = self.crossings[thing.name][number]
        return [place for place in places if len(place.pairs) > 1 and self._goes_round(place)]

    def spun(self, thing: Joined, number: int) -> list[Crossing]:
        """The crossings at which a seam changes side."""
        divided = self.of_seam[thing.seams[number].seam]
        sides = [self.side(name) for name in divided.segments]
        return [place for k, place in enumerate(divided.places) if sides[k] != sides[k + 1]]

    def _goes_round(self, place: Crossing) -> bool:
        return abs(sum(map(self._leans, place.ends))) == len(place.ends)

    def _nests(self, pair: Meet) -> bool:
        one, two = map(self._leans, pair)
        return one * two == 1

    def _leans(self, end: SeamEnd) -> int:
        """As on the bench, with what the plan decides."""
        if end.name not in self.of_seam:
            return end.leans
        side = self.side(self.of_seam[end.name].running_out(end))
        if side == "open":
            return 0
        return 1 if (side == "first") == end.first_is_ahead else -1


def plan_pressing(
    things: Mapping[str, Thing],
    counts: Mapping[str, int],
    lightness: Mapping[str, float],
    press_open: PressOpen = "never",
    may_spin: bool = False,
    bulk: Bulk | None = None,
    seam: SeamSize | None = None,
) -> Pressings:
    """The best pressing for all seams; `lightness` is that of each cloth, from 0 to 1.

    `may_spin`: seams inside a block may change side where all can go round one way. `bulk`: what the layers
    of one thing cost for a stretch of a seam and a side; with a `seam` they are counted.
    """
    crossings = {t.name: crossings_of(t) for t in things.values() if isinstance(t, Joined)}
    asked = Asked(things, counts, lightness, crossings, may_spin, bulk or {})
    of_seam = seams_of(asked)
    if seam is not None:
        asked = replace(asked, bulk=bulk_weights(things, of_seam, seam))
    programme = programme_of(asked, of_seam)
    if press_open == "never":
        programme = replace(programme, openings=())
    directions = press_open_all(programme) if press_open == "always" else press(programme)
    return Pressings(directions, of_seam, crossings)
