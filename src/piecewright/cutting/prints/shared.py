"""An assortment shared out over its prints: the answer, with how good it is."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from piecewright.cutting.layout import Layout
from piecewright.measure.length import ZERO, Length


@dataclass(frozen=True, slots=True)
class PrintShare:
    """So many `prints` that are all cut alike: `pieces` by size from each, laid out on a length of it.

    `alike` is the most that any size gives; `fits` names the smallest precuts that hold it all, if any do.
    """

    prints: int
    pieces: tuple[tuple[str, int], ...]
    layout: Layout
    alike: int
    fits: tuple[str, ...] = ()

    @property
    def count(self) -> int:
        """How many pieces are cut from each."""
        return sum(count for _, count in self.pieces)


@dataclass(frozen=True, slots=True)
class SharedOut:
    """Every piece of an assortment, print by print, those with most pieces first.

    With fewer prints than `least_prints` the wish cannot be kept. Shared out in this way no less can be
    bought than `least_buy`. `as_one` is the assortment laid out as a single cloth. `prints_at` has the print
    of every place, counted from 0, where places are known; `clashes` says how often alike ones still touch,
    or are too many in a block. Of several prints nothing is spared: another stands in.
    """

    key: str
    shares: tuple[PrintShare, ...]
    least_prints: int
    least_buy: Length
    as_one: Layout
    prints_at: tuple[int, ...] = ()
    clashes: int = 0

    @property
    def prints(self) -> int:
        """How many prints are used."""
        return sum(share.prints for share in self.shares)

    @property
    def alike(self) -> int:
        """The most alike that come from one print."""
        return max((share.alike for share in self.shares), default=0)

    @property
    def strips(self) -> int:
        """How many strips are cut from all prints together, short ones too."""
        return sum(share.layout.strips * share.prints for share in self.shares)

    @property
    def length(self) -> Length:
        """The bare minimum of all prints together."""
        return sum((share.layout.length * share.prints for share in self.shares), ZERO)

    @property
    def buy(self) -> Length:
        """What is bought of all prints together."""
        return sum((share.layout.buy * share.prints for share in self.shares), ZERO)

    @property
    def costs_more(self) -> Length:
        """What the variety costs: so much more is bought than of a single cloth with its spare strips."""
        return self.buy - self.as_one.buy

    def each(self) -> Iterator[PrintShare]:
        """The share of every single print, in order."""
        for share in self.shares:
            yield from [share] * share.prints
