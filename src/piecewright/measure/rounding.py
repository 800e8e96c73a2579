"""The one crossing from computed sizes (float inches) to lengths on a ruler."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from piecewright.measure.length import MM_PER_INCH, Length, Unit
from piecewright.measure.tolerance import ROUNDING_SLACK

PLAIN = 1000  # The largest denominator of a plain fraction.
FINEST = 2**32


@dataclass(frozen=True, slots=True)
class Ruler:
    """A ruler: its unit, and the step between the marks one cuts on, in that unit (inches or millimetres)."""

    unit: Unit
    step: Fraction

    @property
    def mark(self) -> Length:
        """The distance between two marks."""
        return self._at(1)

    def _at(self, marks: int) -> Length:
        exact = self.step * marks
        return Length(exact if self.unit == "in" else exact / MM_PER_INCH)

    def _marks(self, size: float) -> float:
        return (size if self.unit == "in" else size * float(MM_PER_INCH)) / float(self.step)

    def shows(self, length: Length) -> bool:
        """Whether the length lies on a mark."""
        return (length.exact / self.mark.exact).denominator == 1


def round_up(size: float, ruler: Ruler) -> Length:
    """The smallest marked length of the ruler that is not below `size` (inches).

    A millimetre ruler is rounded in millimetres, so 67 mm stays 67 mm; a hair above a mark
    (`ROUNDING_SLACK` of a step) counts as on it.

    >>> round_up(2.853553, Ruler("in", Fraction(1, 8)))
    inches('2 7/8')
    """
    return ruler._at(math.ceil(ruler._marks(size) - ROUNDING_SLACK))


def round_down(size: float, ruler: Ruler) -> Length:
    """The largest marked length of the ruler that is not above `size` (inches)."""
    return ruler._at(math.floor(ruler._marks(size) + ROUNDING_SLACK))


def exactly(size: float) -> Length:
    """The exact length meant by a computed size: a 64th of an inch or a tenth of a millimetre near it.

    A size that is neither is a plain fraction such as a third, or else the nearest of `FINEST` parts of an
    inch, so that many such sizes still have a common mark.

    >>> exactly(4 / 3), float(exactly(2**0.5)) - 2**0.5 < 1e-9
    (inches('1 1/3'), True)
    """
    for step in (Fraction(1, 64), Fraction(1, 10) / MM_PER_INCH):
        marks = round(size / float(step))
        if abs(marks * float(step) - size) < ROUNDING_SLACK * float(step):
            return Length(marks * step)
    plain = Fraction(size).limit_denominator(PLAIN)
    if abs(float(plain) - size) < 1 / FINEST:
        return Length(plain)
    return Length(Fraction(round(size * FINEST), FINEST))
