"""A cutting list: the fabrics that someone wants pieces cut from, as they stand in a file.

*Items* are the pieces of a fabric; its *supply* is the bolt that they are cut from.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from piecewright.cutting.spare import NOTHING_SPARE, Spare, with_spare
from piecewright.cutting.wanted import Demand, Supply
from piecewright.measure.length import ZERO, Length, Unit


@dataclass(frozen=True, slots=True)
class Item:
    """Equal pieces of a list. A `lengthwise` piece has its longer side along the selvedge and never turns."""

    name: str
    width: Length
    height: Length
    count: int
    may_turn: bool = True
    lengthwise: bool = False


@dataclass(frozen=True, slots=True)
class Motif:
    """How far a printed motif repeats across and along the cloth; nothing where it need not be met."""

    across: Length = ZERO
    along: Length = ZERO


@dataclass(frozen=True, slots=True)
class ListedFabric:
    """One fabric of a list: its items, the bolt, and the wishes that hold for it.

    `selvedge` goes off each side of the bolt and `shrinkage_across` is a share of what is left.
    """

    name: str
    items: tuple[Item, ...]
    supply: Supply
    selvedge: Length = ZERO
    shrinkage_across: float = 0.0
    one_way: bool = False
    motif: Motif = Motif()
    spare: Spare = NOTHING_SPARE

    @property
    def bolt(self) -> Supply:
        """The bolt as it is cut: less selvedges and shrinkage, and a repeat to find the first motif."""
        share = replace(self.supply, shrinkage=self.shrinkage_across).share_left
        usable = (self.supply.usable_width - self.selvedge * 2) * share - self.motif.across
        return replace(
            self.supply,
            key=self.name,
            usable_width=usable,
            straightening=self.supply.straightening + self.motif.along,
            spare_length=self.supply.spare_length + self.spare.length,
        )

    @property
    def demands(self) -> list[Demand]:
        """What is cut: the items as they may lie, whole motifs, with those to spare."""
        return with_spare([self._demand(item) for item in self.items], self.spare)

    def _demand(self, item: Item) -> Demand:
        width, height = item.width, item.height
        if item.lengthwise and width > height:
            width, height = height, width
        fixed = item.lengthwise or self.one_way or bool(self.motif.across or self.motif.along)
        width, height = _whole(width, self.motif.across), _whole(height, self.motif.along)
        return Demand(item.name, width, height, item.count, item.may_turn and not fixed)


@dataclass(frozen=True, slots=True)
class CuttingList:
    """All fabrics of a list, and the unit it is written in."""

    unit: Unit
    fabrics: tuple[ListedFabric, ...]


def rough_sizes(fabric: ListedFabric) -> Sequence[tuple[Item, Demand]]:
    """The items that are cut larger, to whole repeats of the motif, and trimmed around it."""
    pairs = list(zip(fabric.items, fabric.demands, strict=True))
    sizes = [({item.width, item.height}, {demand.width, demand.height}) for item, demand in pairs]
    return [pair for pair, (own, cut) in zip(pairs, sizes, strict=True) if own != cut]


def _whole(side: Length, repeat: Length) -> Length:
    return repeat * -(-side.exact // repeat.exact) if repeat else side
