"""Numbers as people write them: `2 7/8`, `2⅞`, `2.875`; read exactly and written back."""

from __future__ import annotations

import re
import unicodedata
from fractions import Fraction

_DECIMAL = re.compile(r"[0-9]+(\.[0-9]+)?|\.[0-9]+")
_MIXED = re.compile(r"(?:([0-9]+) )?([0-9]+)/([0-9]+)")
_MOST_SIGNS = 200


def read_number(text: str) -> Fraction:
    """The exact number that a text says: a whole number, a decimal, a fraction, or whole and fraction.

    Raises ValueError on anything else, a zero under the stroke included.

    >>> read_number("2 7/8"), read_number("2⅞"), read_number("-.1")
    (Fraction(23, 8), Fraction(23, 8), Fraction(-1, 10))
    """
    plain = _plain(text) if len(text) <= _MOST_SIGNS else ""
    sign = -1 if plain.startswith("-") else 1
    plain = plain.removeprefix("-").strip()
    if _DECIMAL.fullmatch(plain):
        return sign * Fraction(plain)
    found = _MIXED.fullmatch(plain)
    if found:
        whole, above, below = int(found[1] or 0), int(found[2]), int(found[3])
        if below and (found[1] is None or above < below):
            return sign * (whole + Fraction(above, below))
    raise ValueError(f"expected a number such as 2 1/2, 2.5 or 2½, got {shortened(text)}")


def _plain(text: str) -> str:
    """The text with signs like ½ written out, one space between parts, and plain strokes and minus."""
    apart = "".join(
        f" {unicodedata.normalize('NFKC', sign)}" if "VULGAR FRACTION" in unicodedata.name(sign, "") else sign
        for sign in text
    )
    apart = apart.replace("\u2044", "/").replace("\u2212", "-")
    return re.sub(r" ?/ ?", "/", " ".join(apart.split()))


def mixed(number: Fraction) -> str:
    """A fraction as people write it: `2 7/8`, `-1/4`, `3`."""
    sign = "-" if number < 0 else ""
    whole, rest = divmod(abs(number), 1)
    if rest == 0:
        return f"{sign}{whole}"
    return f"{sign}{whole} {rest}" if whole else f"{sign}{rest}"


def decimal(number: Fraction, places: int = 9) -> str | None:
    """A fraction as an exact decimal, `6.35`, or None when it needs more places than that.

    >>> decimal(Fraction(127, 20)), decimal(Fraction(1, 3))
    ('6.35', None)
    """
    scaled = abs(number) * 10**places
    if scaled.denominator != 1:
        return None
    digits = str(scaled.numerator).rjust(places + 1, "0")
    sign = "-" if number < 0 else ""
    whole, rest = digits[: len(digits) - places], digits[len(digits) - places :].rstrip("0")
    return f"{sign}{whole}.{rest}" if rest else f"{sign}{whole}"


def is_on_inch_ruler(number: Fraction, finest: int = 64) -> bool:
    """Whether a number of inches is one of halves, quarters, eighths and so on down to 1/`finest`."""
    return finest % number.denominator == 0


def shortened(text: object) -> str:
    """What someone wrote, a text in quotes, cut off where it is long."""
    written = repr(text).lower() if isinstance(text, bool) else repr(text)
    return written if len(written) <= 42 else f"{written[:38]}...{written[-1]}"
