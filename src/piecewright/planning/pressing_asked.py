"""What the pressing programme is asked about the things of a plan."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from piecewright.bench.cloth import Cloth, SeamEnd, Towards
from piecewright.planning.crossings import Crossing, Divided, as_written, in_stretches, is_whole, stretch_at
from piecewright.planning.pressing_wishes import (
    by_turns,
    in_one_go,
    seam_leanings,
    spins,
    unit_leaning,
)
from piecewright.planning.things import Gathered, Joined, Thing, ThingThere, UnitThing
from piecewright.pressing.programme import (
    Bulk,
    Leaning,
    Likeness,
    Meeting,
    Opening,
    Programme,
    Segment,
    Spin,
)
from piecewright.pressing.weights import OPEN, PIN
from piecewright.sewing.stations import Station

Crossings = Mapping[str, tuple[tuple[Crossing, ...], ...]]


@dataclass(frozen=True)
class Asked:
    """The things of a plan and how one irons: `may_spin` lets a seam inside a block change side.

    `bulk` tells for stretches of seams what it costs to press one to a side, for one thing of its kind; the
    seams on either side are not counted for these.
    """

    things: Mapping[str, Thing]
    counts: Mapping[str, int]
    lightness: Mapping[str, float]
    crossings: Crossings
    may_spin: bool = False
    bulk: Bulk = field(default_factory=dict)


def seams_of(asked: Asked) -> dict[str, Divided]:
    """Every seam that the plan decides on, in its stretches; all seams of a unit are one."""
    shared = _shared(asked.things)
    found: dict[str, Divided] = {}
    for thing in asked.things.values():
        if isinstance(thing, Joined):
            for number, (seamed, places) in enumerate(
                zip(thing.seams, asked.crossings[thing.name], strict=True)
            ):
                whole = not asked.may_spin or not _may_change(thing, number)
                found[seamed.seam] = in_stretches(seamed.seam, places, whole)
        elif isinstance(thing, UnitThing) and not thing.recipe.method.pressed_as_written:
            name = shared.get(thing.name, thing.name)
            found |= {seam.name: Divided(seam.name, (name,), ()) for seam in thing.cloth.own_seams}
    return found


def _may_change(thing: Joined, number: int) -> bool:
    """Whether a seam runs inside a block, straight and from end to end."""
    parts = [part for part in thing.parts for _ in range(part.count)]
    joins = number + 1 < len(parts)
    return thing.station <= Station.BLOCK and joins and is_whole(thing, number, parts[number].exit)


def _shared(things: Mapping[str, Thing]) -> dict[str, str]:
    """For units that are gathered and pressed alike: the name they share in the programme."""
    return {
        source: thing.name
        for thing in things.values()
        if isinstance(thing, Gathered) and thing.alike
        for source, _ in thing.sources
    }


def programme_of(asked: Asked, of_seam: Mapping[str, Divided]) -> Programme:
    """The programme: what meets, what is fixed, and what one wishes."""
    writing = _Writing(asked, of_seam)
    shared = _shared(asked.things)
    for thing in asked.things.values():
        if isinstance(thing, Joined):
            writing.joined(thing)
        elif isinstance(thing, UnitThing) and not thing.recipe.method.pressed_as_written:
            writing.unit(thing, shared.get(thing.name, thing.name))
        elif isinstance(thing, UnitThing | ThingThere) and thing.name in shared:
            writing.others_of_its_pile(thing.cloth, shared[thing.name])
    decided = dict.fromkeys(name for seam in of_seam.values() for name in seam.segments)
    fixed = {name: way for name, way in writing.fixed.items() if name in decided or name in writing.written}
    return Programme(
        tuple(dict.fromkeys((*decided, *fixed))),
        tuple(writing.meetings),
        tuple(writing.leanings),
        tuple(writing.likenesses),
        tuple(writing.spins),
        tuple(writing.openings),
        fixed,
        writing.bulk,
        PIN,
    )


@dataclass
class _Writing:
    """The programme while it is written; `written` are the sides that the plan does not decide on."""

    asked: Asked
    of_seam: Mapping[str, Divided]
    leanings: list[Leaning] = field(default_factory=list)
    likenesses: list[Likeness] = field(default_factory=list)
    meetings: list[Meeting] = field(default_factory=list)
    spins: list[Spin] = field(default_factory=list)
    openings: list[Opening] = field(default_factory=list)
    fixed: dict[Segment, bool] = field(default_factory=dict)
    written: set[Segment] = field(default_factory=set)
    bulk: dict[tuple[Segment, Towards], float] = field(default_factory=dict)

    def segment_of(self, end: SeamEnd) -> Segment | None:
        """The stretch that runs out at an end; what is as written is fixed so."""
        written = as_written(self.of_seam, [end])
        self.fixed |= written
        self.written |= written.keys()
        return stretch_at(self.of_seam, end)

    def joined(self, thing: Joined) -> None:
        count = self.asked.counts[thing.name]
        seams = [self.of_seam[seamed.seam] for seamed in thing.seams]
        for seamed, divided in zip(thing.seams, seams, strict=True):
            layers = {key: weight for key, weight in self.asked.bulk.items() if key[0] in divided.segments}
            self.bulk |= {key: weight * count for key, weight in layers.items()}
            self.leanings += seam_leanings(seamed, divided, count, self.asked.lightness, bool(layers))
            self.openings.append(Opening(divided.segments, OPEN * count))
            self.spins += spins(divided, self.segment_of, count)
        # A seam that closes a ring is no seam of a row.
        row = seams[: sum(part.count for part in thing.parts) - 1]
        self.likenesses += [*in_one_go(row, count), *by_turns(thing, self.segment_of, count)]
        for places in self.asked.crossings[thing.name]:
            for place in places:
                for one, two in place.pairs:
                    names = self.segment_of(one), self.segment_of(two)
                    if names[0] is not None and names[1] is not None:
                        alike = one.first_is_ahead == two.first_is_ahead
                        self.meetings.append(Meeting(names[0], names[1], alike, count))

    def unit(self, thing: UnitThing, name: Segment) -> None:
        count = self.asked.counts[thing.name]
        if thing.cloth.own_seams:
            self.leanings.append(unit_leaning(thing, name, count, self.asked.lightness))
            if all(name not in opening.segments for opening in self.openings):
                self.openings.append(Opening((name,), OPEN * count))

    def others_of_its_pile(self, cloth: Cloth, name: Segment) -> None:
        """Some of a pile are pressed already, or as their way is written: the others are pressed as these."""
        ways = {seam.pressed[0] for seam in cloth.seams if set(seam.pressed) in ({"first"}, {"second"})}
        if len(ways) == 1:
            self.fixed[name] = ways == {"first"}
