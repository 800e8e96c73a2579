"""Sensible sizes in the other system: near the converted one, and on marks that one likes to cut on.

People who redraft count an inch as 2.5 cm; to convert, it is 2.54. Anything from the one to the other is as
good; outside, what is off counts against a size, and so does a mark that is less plain. The weights are ours.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from fractions import Fraction

from piecewright.design.whole_marks import scale_step
from piecewright.measure.length import MM_PER_INCH, Length, Unit, inches, mm

# Twenty-five millimetres for an inch, as people redraft.
ROUND_MM = Fraction(25)

Marks = Sequence[tuple[Length, float]]

# Marks with what counts against them, as a share of the size.
CELL_MARKS: dict[Unit, Marks] = {
    "in": ((inches(1), 0.0), (inches("1/2"), 0.005), (inches("1/4"), 0.01), (inches("1/8"), 0.03)),
    "cm": ((mm(10), 0.0), (mm(5), 0.005), (mm(1), 0.045)),
}
STRIP_MARKS: dict[Unit, Marks] = {
    "in": ((inches("1/2"), 0.0), (inches("1/4"), 0.025), (inches("1/8"), 0.06)),
    "cm": ((mm(10), 0.0), (mm(5), 0.025), (mm(1), 0.06)),
}


def sensible_factor(sizes: Iterable[Length], unit: Unit, marks: Marks) -> Fraction:
    """By what all the sizes are multiplied to be sensible ones of a unit; each lands on a mark.

    >>> 12 * sensible_factor([inches(12), inches(4)], "cm", CELL_MARKS["cm"]) * MM_PER_INCH
    Fraction(300, 1)
    """
    together = list(sizes)
    low, high = _between(unit)
    found = []
    for mark, against in marks:
        step = scale_step(together, mark)
        for end in (low, high):
            below = math.floor(end / step)
            found += [(_off(step * k, low, high) + against, step * k) for k in (below, below + 1) if k > 0]
    return min(found)[1]


def sensible(length: Length, unit: Unit, marks: Marks) -> Length:
    """One length by itself: 4 1/2 in becomes 11 cm. Zero stays zero.

    >>> sensible(inches("4 1/2"), "cm", STRIP_MARKS["cm"]).in_mm
    Fraction(110, 1)
    """
    return length * sensible_factor([length], unit, marks) if length else length


def nearest(length: Length, step: Length) -> Length:
    """The nearest multiple of a step that is not zero."""
    return step * max(1, round(length.exact / step.exact))


def _between(unit: Unit) -> tuple[Fraction, Fraction]:
    """The factors within which a size is as near as can be: lengths are exact, so 1 is to convert."""
    rounder = ROUND_MM / MM_PER_INCH if unit == "cm" else MM_PER_INCH / ROUND_MM
    return min(rounder, Fraction(1)), max(rounder, Fraction(1))


def _off(factor: Fraction, low: Fraction, high: Fraction) -> float:
    if factor < low:
        return float((low - factor) / low)
    return float((factor - high) / high) if factor > high else 0.0
