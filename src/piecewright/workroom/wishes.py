"""What one wishes of the ways of making units, in words: `no bias edges`, `at most 4 alike`."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, fields

from piecewright.measure.number import shortened

WORDS = {
    "no bias edges": "no_bias",
    "no marking": "no_marking",
    "whole marks": "whole_marks",
    "upright prints": "upright",
}
"""Each wish that is said in words alone, and the field that keeps it."""

_ALIKE = re.compile(r"at most (\d{1,6}) alike")
KNOWN = (*WORDS, "at most 4 alike")


@dataclass(frozen=True)
class Wishes:
    """What is wished.

    `no_bias`: no bias edge outside a unit. `no_marking`: nothing is drawn on the cloth. `whole_marks`: starts
    are cut on the larger marks of the ruler only, no eighths. `upright`: one-way prints stand upright.
    `alike`: at most so many units alike from one batch.
    """

    no_bias: bool = False
    no_marking: bool = False
    whole_marks: bool = False
    upright: bool = False
    alike: int | None = None

    def and_also(self, other: Wishes) -> Wishes:
        """Both wishes together; of two numbers the smaller."""
        numbers = [n for n in (self.alike, other.alike) if n is not None]
        said = {
            f.name: getattr(self, f.name) or getattr(other, f.name) for f in fields(self) if f.name != "alike"
        }
        return Wishes(**said, alike=min(numbers, default=None))


def wishes_from(said: Iterable[str]) -> Wishes:
    """The wishes that words say; raises ValueError for words that are none.

    >>> wishes_from(["no bias edges", "at most 4 alike"])
    Wishes(no_bias=True, no_marking=False, whole_marks=False, upright=False, alike=4)
    """
    found = Wishes()
    for words in said:
        plain = " ".join(words.lower().split())
        number = _ALIKE.fullmatch(plain)
        if number and int(number[1]) >= 1:
            found = found.and_also(Wishes(alike=int(number[1])))
        elif plain in WORDS:
            found = found.and_also(Wishes(**{WORDS[plain]: True}))
        else:
            raise ValueError(f"expected one of the wishes {', '.join(KNOWN)}, got {shortened(words)}")
    return found
