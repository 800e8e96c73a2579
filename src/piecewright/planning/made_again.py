"""Things made a second time, alike but for the pressing: piles of their own, seams of their own names."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, field, replace

import msgspec

from piecewright.bench.cloth import Cloth, SeamEnd
from piecewright.planning.record import Record
from piecewright.planning.things import Gathered, Joined, Made, Seamed, Thing
from piecewright.pressing.joints import SECOND
from piecewright.sewing.stations import Station


@dataclass
class Again:
    """Makes things that stand `apart` again, each once; all others serve both pressings."""

    record: Record
    apart: Collection[str] = ()
    _made: dict[str, Thing] = field(default_factory=dict)
    _seams: dict[str, str] = field(default_factory=dict)
    _cloths: dict[int, tuple[Cloth, Cloth]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self._apart = set(self.apart)

    def second(self, made: Made) -> Made:
        """A thing for the second pressing, lying as the one for the first does."""
        return Made(self.thing(made.thing), made.place)

    def by_turns(self, rows: Sequence[Made]) -> list[Made]:
        """Like rows that are joined to one another, each second one for the second pressing.

        The seams between its blocks run through a row, so that it would clash with itself everywhere.
        """
        turned: list[Made] = []
        for row in rows:
            like = bool(turned) and turned[-1].thing is row.thing and row.thing.station is Station.ROW
            if like:
                self._apart.add(row.thing.name)
            turned.append(self.second(row) if like else row)
        return turned

    def thing(self, thing: Thing) -> Thing:
        """The thing itself, or, where it stands apart, the one that is made again."""
        if thing.name not in self._apart:
            return thing
        if thing.name not in self._made:
            for needed, _ in thing.needs:
                self.thing(self.record.things[needed])
            for seam in thing.cloth.own_seams:
                self._seams.setdefault(seam.name, self.name(thing.name) + seam.name.removeprefix(thing.name))
            self._made[thing.name] = self.record.add(self._again(thing))
        return self._made[thing.name]

    def _again(self, thing: Thing) -> Thing:
        again = replace(
            thing,
            name=self.name(thing.name),
            cloth=self._cloth(thing.cloth),
            needs=tuple((self.name(needed), count) for needed, count in thing.needs),
        )
        if isinstance(again, Gathered):
            return replace(again, sources=tuple((self.name(name), gives) for name, gives in again.sources))
        if isinstance(again, Joined):
            parts = tuple(msgspec.structs.replace(part, name=self.name(part.name)) for part in again.parts)
            return replace(again, parts=parts, seams=tuple(map(self._seamed, again.seams)))
        return again

    def name(self, name: str) -> str:
        """The name of a pile in the second pressing."""
        return name + SECOND if name in self._apart else name

    def _seam(self, name: str) -> str:
        return self._seams.get(name, name)

    def _seamed(self, seamed: Seamed) -> Seamed:
        return replace(
            seamed,
            seam=self._seam(seamed.seam),
            pairs=tuple((self._end(one), self._end(two)) for one, two in seamed.pairs),
            first=self._cloth(seamed.first),
            second=self._cloth(seamed.second),
        )

    def _end(self, end: SeamEnd) -> SeamEnd:
        return replace(end, name=self._seam(end.name))

    def _cloth(self, cloth: Cloth) -> Cloth:
        """The same cloth with the names of seams of things that stand apart; each cloth once."""
        if id(cloth) not in self._cloths:
            seams = tuple(replace(seam, name=self._seam(seam.name)) for seam in cloth.own_seams)
            parts = tuple(replace(part, cloth=self._cloth(part.cloth)) for part in cloth.parts)
            self._cloths[id(cloth)] = (cloth, replace(cloth, own_seams=seams, parts=parts, _ends={}))
        return self._cloths[id(cloth)][1]
