"""How the figures of finishing are written: shares, long lengths, factors.

Terms:
- *share*: part of a whole as it was typed; 0.03 is 3 per cent;
- *run*: a long length of thread, stitching or binding, float inches.
"""

from __future__ import annotations

from fractions import Fraction

from piecewright.measure.length import MM_PER_INCH, Length, Unit, inches, mm
from piecewright.measure.showing import figure, show
from piecewright.problems import Problem, Refused

YARD = inches(36)
METRE = mm(1000)


def measure_of(unit: Unit) -> Length:
    """The measure in which cloth is priced: a yard, or a metre."""
    return YARD if unit == "in" else METRE


def share_of(share: float) -> Fraction:
    """A share exactly as typed; 0.05 is 1/20."""
    return Fraction(str(share))


def share_words(share: float | Fraction) -> str:
    """A share in per cent: `3 per cent`, `2.9 per cent`."""
    return f"{round(100 * float(share), 1):g} per cent"


def run_words(run: float, unit: Unit) -> str:
    """A run in whole yards or metres, in inches or centimetres while it is short: `about 620 yd`.

    >>> run_words(1000.0, "in"), run_words(20.0, "cm")
    ('about 28 yd', 'about 51 cm')
    """
    measure = float(measure_of(unit))
    if run >= 2 * measure:
        return f"about {round(run / measure):,} {'yd' if unit == 'in' else 'm'}"
    return f"about {run_figure(run, unit)}"


def run_figure(run: float, unit: Unit) -> str:
    """A run in inches or centimetres, as sums have it: `1,234 in`."""
    return f"{round(in_unit(run, unit)):,} {unit}"


def in_unit(run: float, unit: Unit) -> float:
    """So many inches, in inches or centimetres."""
    return run if unit == "in" else run * float(MM_PER_INCH) / 10


def size_words(size: tuple[Length, Length], unit: Unit) -> str:
    """A size as people write it: `60 x 72 in`."""
    return f"{figure(size[0], unit)} x {show(size[1], unit)}"


def about_size(size: tuple[Length, Length], unit: Unit) -> str:
    """A size that cloth keeps only roughly, to 1/4 in or half a centimetre: `about 53 1/2 x 62 in`.

    >>> about_size((inches("53 2/5"), inches("62 1/12")), "in")
    'about 53 1/2 x 62 in'
    """
    step = inches("1/4") if unit == "in" else mm(5)
    width, height = (figure(step * round(side.exact / step.exact), unit) for side in size)
    return f"about {width} x {height} {unit}"


def refuse_share(share: float, what: str) -> None:
    """Raises Refused unless a share is from 0 to less than 1."""
    if not 0 <= share < 1:
        said = f"expected {what} as a share from 0 to less than 1, got {share:g}."
        raise Refused(Problem(said, do="Write 3 per cent as 0.03."))


def refuse_none(length: Length, what: str, unit: Unit) -> None:
    """Raises Refused unless a length is more than nothing."""
    if not length.exact > 0:
        said = f"expected {what} above 0, got {show(length, unit)}."
        raise Refused(Problem(said, do="Write the length that is meant."))
