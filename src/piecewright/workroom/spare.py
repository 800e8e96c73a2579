"""Cloth to spare for mistakes, as a person wishes for it: "one extra of each", "5 %", "1/4 yd"."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from piecewright.measure.length import ZERO, Length, Unit
from piecewright.measure.number import read_number, shortened
from piecewright.measure.reading import read_length

_WORDS = {"one": 1, "two": 2, "three": 3}
_EACH = re.compile(r"(\w+) (?:extra|more|spare)(?: of each)?", re.IGNORECASE)
_SHARE = re.compile(r"([0-9. /]+?)\s*(?:%|per cent)", re.IGNORECASE)
MOST_EXTRA = 1000
MOST_LENGTH = Length(Fraction(3600))


@dataclass(frozen=True, slots=True)
class Spare:
    """So many pieces more of each size, a share of each count, or a length of cloth."""

    of_each: int = 0
    share: Fraction = Fraction(0)
    length: Length = ZERO


NOTHING_SPARE = Spare()


def read_spare(text: str, unit: Unit) -> Spare:
    """The wish as typed; raises ValueError where it is none of the three kinds.

    >>> read_spare("one extra of each", "in").of_each, read_spare("1/4 yd", "in").length
    (1, inches('9'))
    """
    plain = text.strip()
    each, share = _EACH.fullmatch(plain), _SHARE.fullmatch(plain)
    try:
        if each:
            return Spare(of_each=int(_within(_number(each[1]), MOST_EXTRA)))
        if share:
            return Spare(share=_within(read_number(share[1]), 100) / 100)
        length = read_length(plain, unit)
    except ValueError:
        length = -MOST_LENGTH
    if not ZERO <= length <= MOST_LENGTH:
        got = f"got {shortened(text)}"
        raise ValueError(f'expected something to spare such as "one extra of each", "5 %" or "1/4 yd", {got}')
    return Spare(length=length)


def _number(word: str) -> int:
    return _WORDS[word.lower()] if word.lower() in _WORDS else int(word)


def _within(number: Fraction | int, most: int) -> Fraction:
    if not 0 <= number <= most:
        raise ValueError("too many")
    return Fraction(number)
