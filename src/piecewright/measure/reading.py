"""Reading what a person types: `2 1/2`, `2½`, `6.5 cm`, `65 mm`, `2 x 4`. All of it exact.

Units are read here and nowhere further in: what comes out is a `Length`.
"""

from __future__ import annotations

import re
from fractions import Fraction

from piecewright.measure.length import MM_PER_INCH, Length, Unit
from piecewright.measure.number import read_number, shortened
from piecewright.measure.showing import show

_INCHES_IN = {
    **dict.fromkeys(("in", "inch", "inches", '"', "″", "”", "''"), Fraction(1)),
    **dict.fromkeys(("yd", "yard", "yards"), Fraction(36)),
    "mm": 1 / MM_PER_INCH,
    "cm": 10 / MM_PER_INCH,
    "m": 1000 / MM_PER_INCH,
}
_NUMBER_AND_UNIT = re.compile(r"""(.*?)\s*([A-Za-z]+\.?|"|″|”|'')?""", re.DOTALL)
_MANY_DIGITS = re.compile(r"[0-9]{10}")
_HOW = "write it as 2 1/2, 2.5, 2½, 6.5 cm or 65 mm"


def read_length(text: str | int | float, unit: Unit) -> Length:
    """The exact length that was typed; without a unit of its own it counts in `unit`.

    Decimals are read from their text, so 0.1 is one tenth. Raises ValueError, one sentence long, on anything
    that is no length: empty text, a zero under the stroke, nan, inf, ten digits or more in a row.
    A sign is read; whether a length may be negative or zero is for `in_range`.

    >>> read_length("2 1/2", "in"), read_length(2.5, "in"), read_length("2½", "in")
    (inches('2 1/2'), inches('2 1/2'), inches('2 1/2'))
    >>> read_length("6.5 cm", "in").in_mm, read_length(6.5, "cm").in_mm
    (Fraction(65, 1), Fraction(65, 1))
    """
    number, own_unit = _parted(text)
    return _length(text, number, own_unit or unit)


def read_size(text: str, unit: Unit) -> tuple[Length, Length]:
    """Width and height as typed: `2 x 4`, `4 1/2 x 2`, `5 x 10 cm`; `2` is a square.

    A unit behind the second number alone counts for both. Raises ValueError on anything else.
    """
    sides = re.split(r"[xX×]", text) if isinstance(text, str) else [text]
    if len(sides) == 1:
        side = read_length(text, unit)
        return side, side
    if len(sides) > 2:
        raise ValueError(f"expected a size such as 2 x 4, got {shortened(text)}; write width x height")
    (wide, wide_unit), (high, high_unit) = _parted(sides[0]), _parted(sides[1])
    both = high_unit or unit
    return _length(text, wide, wide_unit or both), _length(text, high, high_unit or unit)


def in_range(length: Length, least: Length, most: Length, what: str, unit: Unit = "in") -> Length:
    """The same length; raises ValueError when it is below `least` or above `most`.

    >>> in_range(read_length("0", "in"), read_length("1/4", "in"), read_length("24", "in"), "a block")
    Traceback (most recent call last):
    ValueError: expected a block from 1/4 in to 24 in, got 0 in
    """
    if least <= length <= most:
        return length
    bounds = f"from {show(least, unit)} to {show(most, unit)}"
    raise ValueError(f"expected {what} {bounds}, got {show(length, unit)}")


def _parted(text: str | int | float) -> tuple[str, str]:
    """The number and the unit, both as text; the unit may be empty."""
    if not isinstance(text, str | int | float):
        raise ValueError(f"expected a length, got {shortened(text)}; {_HOW}")
    # A float as it was typed: repr gives the shortest text that means it.
    written = text if isinstance(text, str) else _written(text)
    found = _NUMBER_AND_UNIT.fullmatch(written.strip())
    if found is None:
        raise ValueError(f"expected a length, got {shortened(text)}; {_HOW}")
    return found[1], (found[2] or "").lower().rstrip(".")


def _written(number: int | float) -> str:
    if isinstance(number, int) and abs(number) >= 10**9:
        raise ValueError("expected a length, got a whole number of ten digits or more; check the digits")
    return repr(number)


def _length(text: object, number: str, unit: str) -> Length:
    if unit not in _INCHES_IN and re.search(r"\d", number):
        raise ValueError(f"expected a length in inches, cm, mm, yd or m, got {shortened(text)}; {_HOW}")
    if _MANY_DIGITS.search(number):
        raise ValueError(f"expected a length of a few digits, got {shortened(text)}; {_HOW}")
    try:
        return Length(read_number(number) * _INCHES_IN[unit])
    except (ValueError, KeyError) as error:
        how = "write a point, not a comma" if "," in number else _HOW
        raise ValueError(f"expected a length, got {shortened(text)}; {how}") from error
