"""A layout: how one cloth is cut, how long that is, and how good."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby

from piecewright.cutting.buying import Purchase
from piecewright.cutting.cuts import STACKS, Cuts
from piecewright.cutting.patterns import Pattern
from piecewright.cutting.sums import buying_sum, length_sums, squaring_sums, waste_sum
from piecewright.measure.length import ZERO, Length, Unit


@dataclass(frozen=True, slots=True)
class Layout:
    """How one cloth is cut; `patterns` are in the order of cutting: reserved first, then widest first.

    `length` is the bare minimum. No layout at all is shorter than `area_bound` (the area of the pieces
    over the usable width), and none that is cut in this way (`cuts_as`) than `bound`. Squaring up takes
    `squaring` of the length for each strip.
    """

    key: str
    usable_width: Length
    patterns: tuple[Pattern, ...]
    area_bound: Length
    bound: Length
    purchase: Purchase
    squaring: Length = ZERO
    cuts_as: Cuts = STACKS

    @property
    def length(self) -> Length:
        """The bare minimum: the heights of all strips together, squared up."""
        return self.purchase.length

    @property
    def buy(self) -> Length:
        """What to buy: with straightening, spare strips and shrinkage, in the steps of the shop."""
        return self.purchase.buy

    @property
    def waste(self) -> Fraction:
        """The share of the bare minimum that ends up in offcuts."""
        return 1 - self.area_bound.exact / self.length.exact if self.patterns else Fraction(0)

    @property
    def strips(self) -> int:
        """How many strips are cut."""
        return sum(pattern.times for pattern in self.patterns)

    @property
    def settings(self) -> int:
        """How many unlike strip heights there are."""
        return len({pattern.strip_height for pattern in self.patterns})

    @property
    def ruler_changes(self) -> int:
        """How often the ruler is set anew: all measures of each strip height, cut together."""
        measures: dict[Length, set[Length]] = {}
        for pattern in self.patterns:
            measures.setdefault(pattern.strip_height, set()).update(pattern.settings)
        return sum(map(len, measures.values()))

    @property
    def cuts(self) -> int:
        """How many cuts are made in all."""
        return sum(pattern.cuts for pattern in self.patterns)

    def operations(self, layers: int) -> int:
        """How many cuts are made where so many equal strips are cut together."""
        return sum(pattern.operations(layers) for pattern in self.patterns)

    @property
    def by_height(self) -> tuple[tuple[Length, tuple[Pattern, ...]], ...]:
        """The patterns in the order of cutting, those of one ruler setting together."""
        groups = groupby(self.patterns, key=lambda pattern: (pattern.reserve, pattern.strip_height))
        return tuple((height, tuple(patterns)) for (_, height), patterns in groups)

    def sum_lines(self, unit: Unit = "in") -> tuple[str, ...]:
        """The arithmetic of each figure, a line each.

        >>> from piecewright.cutting.laying import lay_out
        >>> from piecewright.cutting.wanted import Demand, Supply
        >>> from piecewright.measure.length import inches
        >>> size, cloth = inches("2 7/8"), Supply("sail", inches(40), buying_step=inches("4 1/2"))
        >>> for line in lay_out([Demand("squares", size, size, 76)], cloth).sum_lines():
        ...     print(line)
        40 / 2 7/8 = 13 squares a strip; 76 / 13 -> 6 strips; 6 x 2 7/8 = 17 1/4 in
        pieces alone: about 15 11/16 of 17 1/4 in; offcuts 9 per cent
        17 1/4 -> 4 x 4 1/2 = 18 in to buy
        """
        if not self.patterns:
            return ()
        return (
            *length_sums(self.by_height, self.usable_width, unit),
            *squaring_sums(self.strips, self.squaring, self.length, unit),
            waste_sum(self.area_bound, self.length, unit),
            buying_sum(self.purchase, unit),
        )
