"""Whole-mark sizes: which sizes of a block give units that a ruler shows."""

from __future__ import annotations

import math
from collections.abc import Iterable
from fractions import Fraction

from piecewright.measure.length import Length


def scale_step(sizes: Iterable[Length], mark: Length) -> Fraction:
    """The smallest factor that puts every size on a mark of the ruler; the others are its multiples.

    >>> from piecewright.measure.length import inches
    >>> scale_step([inches(10) / 3], inches("1/8"))
    Fraction(3, 80)
    """
    top, bottom = 1, 0
    for size in set(sizes):
        factor = mark.exact / size.exact
        top, bottom = math.lcm(top, factor.numerator), math.gcd(bottom, factor.denominator)
    return Fraction(top, bottom)


def whole_factors(step: Fraction, size: Length, whole: Length) -> list[Fraction]:
    """The factors to change a size by, smallest first: the nearest on marks, the nearest to whole sizes.

    `step` is what `scale_step` gave; `whole` is one inch or one centimetre.
    """
    on_marks = _around(step)
    on_whole = _around(scale_step([size], whole), step)
    return sorted({*on_marks, *on_whole})


def _around(step: Fraction, also: Fraction | None = None) -> list[Fraction]:
    """The nearest multiples of the step below and above 1 (of both steps where there are two)."""
    if also is not None:
        step = Fraction(
            math.lcm(step.numerator, also.numerator), math.gcd(step.denominator, also.denominator)
        )
    below = math.floor(1 / step)
    return [step * k for k in (below, below + 1) if k > 0]
