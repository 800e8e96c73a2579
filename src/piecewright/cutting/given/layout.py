"""What comes of cutting from given cloth: the cut pieces of cloth, what is bought, what is left."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction

from piecewright.cutting.given.cloth import Pack
from piecewright.cutting.layout import Layout
from piecewright.cutting.patterns import Pattern
from piecewright.measure.length import ZERO, Length


@dataclass(frozen=True, slots=True)
class CutGiven:
    """`times` equal given pieces of cloth, all cut alike.

    Where they are cut `along`, strips run along the length of the cloth: then widths in the patterns are
    measured along the length, and heights across. A section that is `turned` holds pieces whose own width
    lies along the length of the cloth, whichever way the strips run. Of cloth that is cut `like_a_bolt`
    only the length of its strips is taken; the rest stays whole.
    """

    name: str
    fabric: str
    width: Length
    height: Length
    along: bool
    patterns: tuple[Pattern, ...]
    times: int = 1
    like_a_bolt: bool = False

    @property
    def strip_length(self) -> Length:
        """How long each strip is."""
        return self.height if self.along else self.width

    @property
    def room(self) -> Length:
        """What all strips together may take."""
        return self.width if self.along else self.height

    @property
    def filled(self) -> Length:
        """What all strips together take."""
        return sum((pattern.length for pattern in self.patterns), ZERO)

    @property
    def area(self) -> Fraction:
        """The area of cloth that is taken, in square inches."""
        taken = self.filled if self.like_a_bolt else self.room
        return self.strip_length.exact * taken.exact * self.times

    @property
    def cuts(self) -> int:
        """How many cuts are made in all."""
        return self.times * sum(pattern.cuts for pattern in self.patterns)

    @property
    def strips(self) -> int:
        """How many strips are cut."""
        return self.times * sum(pattern.times for pattern in self.patterns)

    def operations(self, layers: int) -> int:
        """How many cuts are made where equal pieces of cloth, then equal strips, are cut together."""
        if self.like_a_bolt:
            return self.times * sum(pattern.operations(layers) for pattern in self.patterns)
        together = -(-self.times // layers)
        return sum(
            together * pattern.times
            + -(-self.times * pattern.times // layers) * (pattern.cuts // pattern.times - 1)
            for pattern in self.patterns
        )


@dataclass(frozen=True, slots=True)
class Leftover:
    """`count` equal rectangles that are left of a cloth, as it lay: width across, height along."""

    fabric: str
    width: Length
    height: Length
    count: int = 1


@dataclass(frozen=True, slots=True)
class FromShelf:
    """How the pieces are cut from what is there, and what is bought besides.

    `used` are cut pieces from the shelf and from packs. `cost` is that of what is bought: money where all
    that may be bought has a price, else square inches of cloth. Nothing that is cut in this way is bought
    for less than `least_cost`, nor, where nothing is bought, cut from less cloth than `least_area` (square
    inches). The pieces alone fill `area`.
    """

    used: tuple[CutGiven, ...]
    packs: tuple[tuple[Pack, int], ...]
    bought: Layout | None
    leftovers: tuple[Leftover, ...]
    cost: Fraction
    least_cost: Fraction
    area: Fraction
    least_area: Fraction
    priced: bool = False

    @property
    def count_used(self) -> Counter[str]:
        """How many pieces of each given cloth are cut, by its name."""
        found: Counter[str] = Counter()
        for cut in self.used:
            found[cut.name] += cut.times
        return found

    @property
    def area_used(self) -> Fraction:
        """The area of all given cloth that is taken, in square inches."""
        return sum((cut.area for cut in self.used), Fraction(0))

    @property
    def cuts(self) -> int:
        """How many cuts are made in all."""
        return sum(cut.cuts for cut in self.used) + (self.bought.cuts if self.bought else 0)

    @property
    def strips(self) -> int:
        """How many strips are cut."""
        return sum(cut.strips for cut in self.used) + (self.bought.strips if self.bought else 0)

    def operations(self, layers: int) -> int:
        """How many cuts are made where so many layers of equal cloth are cut together."""
        given = sum(cut.operations(layers) for cut in self.used)
        return given + (self.bought.operations(layers) if self.bought else 0)

    @property
    def ruler_changes(self) -> int:
        """How often the ruler is set anew: each way of cutting a given piece for itself, then the bolt."""
        given = sum(len(pattern.settings) for cut in self.used for pattern in cut.patterns)
        return given + (self.bought.ruler_changes if self.bought else 0)
