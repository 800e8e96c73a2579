"""Showing lengths as a ruler has them: `2 7/8 in`, `6.7 cm`, `1 3/8 yd`.

A length is shown exactly when a ruler of the unit can show it: 64ths of an inch, tenths of a millimetre.
All else (made in the other unit, or computed) goes to the nearest 1/16 in or 1 mm, after the word *about*.
"""

from __future__ import annotations

import re
import unicodedata
from fractions import Fraction

from piecewright.measure.length import MM_PER_INCH, Length, Unit
from piecewright.measure.number import decimal, is_on_inch_ruler, mixed
from piecewright.measure.tolerance import AS_DRAWN

# The finest marks that people measure with; what is not on one of them is "about".
_SHOWN_STEP: dict[Unit, Fraction] = {"in": Fraction(1, 16), "cm": Fraction(1, 10)}
_EIGHTH_YARD = Length(Fraction(9, 2))
_CENTIMETRE = Length(10 / MM_PER_INCH)


def show(length: Length, unit: Unit) -> str:
    """The length in words of a unit: `2 7/8 in`, `6.7 cm`, `about 2 5/8 in`.

    >>> from piecewright.measure.length import inches, mm
    >>> show(inches("2 7/8"), "in"), show(inches("2 7/8"), "cm"), show(mm(67), "cm"), show(mm(67), "in")
    ('2 7/8 in', 'about 7.3 cm', '6.7 cm', 'about 2 5/8 in')
    """
    return f"{figure(length, unit)} {unit}"


def figure(length: Length, unit: Unit) -> str:
    """The same without the unit: `2 7/8`, `6.7`, `about 2 5/8`."""
    number = _in_unit(length, unit)
    if unit == "in" and is_on_inch_ruler(number):
        return mixed(number)
    exact = decimal(number, 2) if unit == "cm" else None
    return exact if exact is not None else _about(number, unit)


def show_float(size: float, unit: Unit) -> str:
    """A computed size (float inches) on the nearest mark: `about 4 1/4 in`, or `4 1/4 in` when it is so."""
    return f"{figure_float(size, unit)} {unit}"


def figure_float(size: float, unit: Unit) -> str:
    """The same without the unit. A size within 1/1000 in of a mark is on it."""
    number = _in_unit(Length(Fraction(size)), unit)
    nearest = _nearest(number, unit)
    if abs(number - nearest) <= _in_unit(Length(Fraction(AS_DRAWN)), unit):
        return _written(nearest, unit)
    return _about(number, unit)


def show_exact(size: float, unit: Unit) -> str:
    """A computed size (float inches) to the last figure that means anything: `2.8536 in`, `7.061 cm`."""
    if unit == "in":
        return f"{size:.4f} in"
    return f"{size * float(MM_PER_INCH) / 10:.3f} cm"


def show_yards(length: Length) -> str:
    """A length of cloth in yards and eighths: `1 3/8 yd`, `about 2 yd`."""
    return _in_steps(length, _EIGHTH_YARD, Fraction(1, 8), "yd")


def show_metres(length: Length) -> str:
    """A length of cloth in metres and centimetres: `1.3 m`, `about 1.26 m`."""
    return _in_steps(length, _CENTIMETRE, Fraction(1, 100), "m")


def show_cloth(length: Length, unit: Unit) -> str:
    """A length of cloth as shops sell it where the unit is used: yards for inches, metres for centimetres."""
    return show_yards(length) if unit == "in" else show_metres(length)


def typeset(text: str) -> str:
    """The text with fractions as single signs where there is one: `2⅞ in`; sixteenths stay `2 5/16 in`.

    >>> typeset("cut 6 strips 2 7/8 in x WOF, then 1/4 in off, 2 5/16 in left")
    'cut 6 strips 2⅞ in x WOF, then ¼ in off, 2 5/16 in left'
    """
    return _FRACTION.sub(lambda found: _ONE_SIGN.get(found[1], found[0]) if found[1] else found[0], text)


_ONE_SIGN = {unicodedata.normalize("NFKC", sign).replace("\u2044", "/"): sign for sign in "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"}
_FRACTION = re.compile(r"(?:(?<=\d) )?(?<![\d/.])(\d/\d)(?![\d/])")


def _in_unit(length: Length, unit: Unit) -> Fraction:
    return length.exact if unit == "in" else length.in_mm / 10


def _nearest(number: Fraction, unit: Unit) -> Fraction:
    step = _SHOWN_STEP[unit]
    return round(number / step) * step


def _about(number: Fraction, unit: Unit) -> str:
    nearest = _nearest(number, unit)
    if nearest == 0 and number != 0:
        return f"under {_written(_SHOWN_STEP[unit], unit)}"
    return f"about {_written(nearest, unit)}"


def _written(number: Fraction, unit: Unit) -> str:
    return mixed(number) if unit == "in" else decimal(number) or mixed(number)


def _in_steps(length: Length, step: Length, share: Fraction, word: str) -> str:
    steps = length.exact / step.exact
    number = round(steps) * share
    about = "" if steps.denominator == 1 else "about "
    return f"{about}{mixed(number) if word == 'yd' else decimal(number, 2)} {word}"
