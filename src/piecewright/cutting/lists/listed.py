"""A cutting list: the fabrics that someone wants pieces cut from, as they stand in a file.

*Items* are the pieces of a fabric. They come from the *bolts*, *pieces* and *packs* that the list supplies
for the fabric or for its *stand-ins*, and from the shelf.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from piecewright.cutting.given.cloth import Given, Pack
from piecewright.cutting.lists.spare import NOTHING_SPARE, Spare, with_spare
from piecewright.cutting.shapes.splitting import cut_from
from piecewright.cutting.shapes.wanted import ShapeCut, ShapeDemand
from piecewright.cutting.wanted import Demand, Supply
from piecewright.measure.length import ZERO, Length, Unit

UNNAMED = "cloth"


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
class ListedBolt:
    """A bolt of the fabric `supply.key` that may be bought from; `price` is that of a buying step, if known.

    `selvedge` goes off each side of the bolt and `shrinkage_across` is a share of what is left.
    """

    supply: Supply
    selvedge: Length = ZERO
    shrinkage_across: float = 0.0
    price: Fraction | None = None

    @property
    def fabric(self) -> str:
        """The name of its fabric."""
        return self.supply.key


@dataclass(frozen=True, slots=True)
class ListedFabric:
    """One fabric of a list: its items, its bolt, and the wishes that hold for it.

    `stand_ins` are fabrics that may be taken for it. Where it `may_buy` nothing, it comes from what is there.
    It `says_bolt` where its entry tells of one outright: by a width, or that it may buy.
    """

    name: str
    items: tuple[Item, ...]
    supply: Supply
    selvedge: Length = ZERO
    shrinkage_across: float = 0.0
    one_way: bool = False
    motif: Motif = Motif()
    spare: Spare = NOTHING_SPARE
    price: Fraction | None = None
    stand_ins: tuple[str, ...] = ()
    may_buy: bool = True
    says_bolt: bool = False
    shapes: tuple[ShapeDemand, ...] = ()

    @property
    def fabrics(self) -> tuple[str, ...]:
        """The fabrics that it may be cut from, its own first."""
        return (self.name, *self.stand_ins)

    @property
    def own_bolt(self) -> ListedBolt:
        """The bolt of its own name."""
        return ListedBolt(self.supply, self.selvedge, self.shrinkage_across, self.price)

    @property
    def bolt(self) -> Supply:
        """The bolt of its own name as it is cut."""
        return self.cut_from(self.own_bolt)

    def cut_from(self, bolt: ListedBolt) -> Supply:
        """A bolt as it is cut: less selvedges and shrinkage, and a repeat to find the first motif.

        Cloth that is cut on the repeat is not squared up between strips: that would lose the repeat.
        """
        supply = bolt.supply
        share = replace(supply, shrinkage=bolt.shrinkage_across).share_left
        return replace(
            supply,
            usable_width=(supply.usable_width - bolt.selvedge * 2) * share - self.motif.across,
            straightening=supply.straightening + self.motif.along,
            squaring=ZERO if self.motif.along else supply.squaring,
            spare_length=supply.spare_length + self.spare.length,
        )

    def cut_from_given(self, given: Given) -> Given:
        """A piece of cloth as it is cut: less a repeat each way to find the first motif."""
        width, height = given.width - self.motif.across, given.height - self.motif.along
        return replace(given, width=width, height=height)

    @property
    def demands(self) -> list[Demand]:
        """What is cut: the items as they may lie, whole motifs, with those to spare."""
        return [*self.item_demands, *(one for cut in self.shape_cuts for one in cut.demands)]

    @property
    def item_demands(self) -> list[Demand]:
        """The same of the items alone."""
        return with_spare([self._demand(item) for item in self.items], self.spare)

    @property
    def shape_cuts(self) -> tuple[ShapeCut, ...]:
        """What the shapes are cut from, with those to spare; upright where the print is one-way."""
        return tuple(
            cut_from(self._upright(shape), self.bolt) for shape in with_spare(self.shapes, self.spare)
        )

    def _upright(self, shape: ShapeDemand) -> ShapeDemand:
        return replace(shape, turning="none") if self.one_way else shape

    def _demand(self, item: Item) -> Demand:
        width, height = item.width, item.height
        if item.lengthwise and width > height:
            width, height = height, width
        fixed = item.lengthwise or self.one_way or bool(self.motif.across or self.motif.along)
        width, height = _whole(width, self.motif.across), _whole(height, self.motif.along)
        return Demand(item.name, width, height, item.count, item.may_turn and not fixed)


@dataclass(frozen=True, slots=True)
class CuttingList:
    """All fabrics of a list, the cloth it supplies for them, and the unit it is written in.

    `given` is on hand; `packs` and `bolts` may be bought; `shelf` is the file of more cloth on hand, if any.
    """

    unit: Unit
    fabrics: tuple[ListedFabric, ...]
    given: tuple[Given, ...] = ()
    packs: tuple[Pack, ...] = ()
    bolts: tuple[ListedBolt, ...] = ()
    title: str = ""
    shelf: str = ""


def rough_sizes(fabric: ListedFabric) -> Sequence[tuple[Item, Demand]]:
    """The items that are cut larger, to whole repeats of the motif, and trimmed around it."""
    pairs = list(zip(fabric.items, fabric.item_demands, strict=True))
    sizes = [({item.width, item.height}, {demand.width, demand.height}) for item, demand in pairs]
    return [pair for pair, (own, cut) in zip(pairs, sizes, strict=True) if own != cut]


def _whole(side: Length, repeat: Length) -> Length:
    return repeat * -(-side.exact // repeat.exact) if repeat else side
