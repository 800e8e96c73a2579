"""Coordinates of patches: numbers, fractions, and `a + b sqrt 2` (or 3), as a person types them."""

from __future__ import annotations

import math
import re

from piecewright.measure.number import read_number, shortened

MOST = 10_000

_TERM = re.compile(
    r"\s*(?P<sign>[+-]?)\s*(?P<number>[^+a-z-]*?)\s*(?P<root>(?:sqrt\s*[23])?)\s*(?=[+-]|$)", re.ASCII
)


def read_coordinate(value: str | int | float) -> float:
    """The number that a coordinate names.

    Raises ValueError when it is anything else, or farther than `MOST` from 0.

    >>> read_coordinate("6 - 3 sqrt 2")
    1.7573593128807143
    """
    text = str(value).replace("\u2212", "-").strip()
    terms: list[float] = []
    at = 0
    while at < len(text):
        found = _TERM.match(text, at)
        if found is None or found.end() == at:
            raise _unread(value)
        terms.append(_value(found, value))
        at = found.end()
    total = sum(terms)
    if not terms or not abs(total) <= MOST:
        raise _unread(value)
    return total


def _value(term: re.Match[str], whole: str | int | float) -> float:
    if not (term["number"] or term["root"]):
        raise _unread(whole)
    try:
        number = float(read_number(term["number"] or "1"))
    except ValueError:
        raise _unread(whole) from None
    root = math.sqrt(int(term["root"][-1])) if term["root"] else 1.0
    return -number * root if term["sign"] == "-" else number * root


def _unread(value: str | int | float) -> ValueError:
    return ValueError(f"expected a coordinate such as 3, 1/2 or 6 - 3 sqrt 2, got {shortened(value)}.")
