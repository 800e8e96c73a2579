"""What comes of cutting an assortment from the prints on hand: the prints to take, and what is bought."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from piecewright.cutting.given.layout import CutGiven, Leftover
from piecewright.cutting.prints.shared import SharedOut


@dataclass(frozen=True, slots=True)
class PrintCut:
    """One print on hand: the pieces by size that come from it, how its cloth is cut, and what is left."""

    fabric: str
    pieces: tuple[tuple[str, int], ...]
    used: tuple[CutGiven, ...]
    leftovers: tuple[Leftover, ...]
    alike: int


@dataclass(frozen=True, slots=True)
class FromPrints:
    """The prints to take from those on hand, and what is `bought` besides in prints that are new.

    With fewer prints than `least_prints` the pieces cannot be had from those on hand. `prints_at` and
    `clashes` are as in SharedOut; they are told where nothing is bought.
    """

    prints: tuple[PrintCut, ...]
    least_prints: int
    bought: SharedOut | None = None
    prints_at: tuple[int, ...] = ()
    clashes: int = 0

    @property
    def alike(self) -> int:
        """The most alike that come from one print."""
        own = max((one.alike for one in self.prints), default=0)
        return max(own, self.bought.alike if self.bought else 0)

    @property
    def area_used(self) -> Fraction:
        """The area of cloth on hand that is taken, in square inches."""
        return sum((cut.area for one in self.prints for cut in one.used), Fraction(0))
