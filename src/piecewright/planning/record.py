"""The record of things: what has been made, under its own name, in the order in which it can be made."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TypeVar

from piecewright.bench.bench import seam_of
from piecewright.bench.cloth import SeamSize, piece
from piecewright.geometry.polygon import rectangle
from piecewright.measure.length import Length
from piecewright.measure.showing import figure
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
    ) -> Cut:
        """A piece cut from a cloth; equal ones are one pile."""
        sizes = [figure(length, self.workroom.unit) for length in (width, height)]
        shape = f"{sizes[0]} square" if width == height else f"{sizes[0]} x {sizes[1]}"
        name = f"{fabric} strip {sizes[1]}" if whole_strip else f"{fabric} {shape}"
        known = self.things.get(name)
        if isinstance(known, Cut):
            return known
        cloth = piece(fabric, rectangle(float(width), float(height)), self.seam)
        thing = Cut(name, Station.PIECE, cloth, (), fabric, width, height, may_turn, whole_strip, reserve)
        return self.add(thing)

    def add(self, thing: SomeThing) -> SomeThing:
        """Puts a thing on record under its own name."""
        self.things[thing.name] = thing
        return thing

    def free_name(self, wanted: str) -> str:
        """The name, or the name with a letter where it is taken."""
        if wanted not in self.things:
            return wanted
        letters = (f"{wanted} {a}{b}" for a in ["", *_LETTERS] for b in _LETTERS)
        return next(name for name in letters if name not in self.things)
