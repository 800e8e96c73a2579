"""The record of things: what has been made, under its own name, in the order in which it can be made."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import TypeVar

from piecewright.bench.bench import seam_of
from piecewright.bench.cloth import SeamSize, piece
from piecewright.geometry.polygon import rectangle
from piecewright.measure.length import Length
from piecewright.measure.showing import figure
from piecewright.measure.tolerance import AS_DRAWN
from piecewright.planning.cloths import Cloths
from piecewright.planning.things import Cut, Thing
from piecewright.sewing.stations import Station
from piecewright.workroom.workroom import Workroom

SomeThing = TypeVar("SomeThing", bound=Thing)

_LETTERS = tuple("BCDEFGHIJKLMNOPQRSTUVWXYZ")


@dataclass
class Record:
    """Things by name; each is put on record once."""

    workroom: Workroom
    cloths: Cloths
    things: dict[str, Thing] = field(default_factory=dict, kw_only=True)

    @property
    def seam(self) -> SeamSize:
        """What a seam takes."""
        return seam_of(self.workroom)

    def cut(
        self,
        fabric: str,
        width: Length,
        height: Length,
        may_turn: bool = True,
        whole_strip: bool = False,
        reserve: bool = False,
        slack: float = AS_DRAWN / 2,
    ) -> Cut:
        """A piece cut from a cloth; those that are equal, but for so many inches of slack, are one pile."""
        sizes = [figure(length, self.workroom.unit) for length in (width, height)]
        shape = f"{sizes[0]} square" if width == height else f"{sizes[0]} x {sizes[1]}"
        wanted = f"{fabric} strip {sizes[1]}" if whole_strip else f"{fabric} {shape}"
        for name in _names(wanted):
            known = self.things.get(name)
            if isinstance(known, Cut) and _is_near(known, width, height, slack):
                return known
            if known is None:
                break
        cloth = piece(fabric, rectangle(float(width), float(height)), self.seam)
        thing = Cut(name, Station.PIECE, cloth, (), fabric, width, height, may_turn, whole_strip, reserve)
        return self.add(thing)

    def add(self, thing: SomeThing) -> SomeThing:
        """Puts a thing on record under its own name."""
        self.things[thing.name] = thing
        return thing

    def free_name(self, wanted: str) -> str:
        """The name, or the name with a letter where it is taken."""
        return next(name for name in _names(wanted) if name not in self.things)


def _names(wanted: str) -> Iterator[str]:
    """The name, then the name with each letter that it may have where others are called so already."""
    yield wanted
    yield from (f"{wanted} {a}{b}" for a in ("", *_LETTERS) for b in _LETTERS)


def _is_near(known: Cut, width: Length, height: Length, slack: float) -> bool:
    off = max(abs(float(known.width - width)), abs(float(known.height - height)))
    return off <= slack
