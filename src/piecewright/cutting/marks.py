"""The same task in whole numbers: every length as a count of the finest mark that measures them all."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from piecewright.cutting.wanted import Demand, Supply, lies


class Way(NamedTuple):
    """One way a piece of size number `size` may lie; width and height in marks."""

    size: int
    width: int
    height: int
    turned: bool


class Cut(NamedTuple):
    """Crosscuts of way number `way` in a strip, each a stack of so many pieces."""

    way: int
    crosscuts: int
    stack: int


class Strip(NamedTuple):
    """`times` strips of one height in marks, all cut alike."""

    height: int
    cuts: tuple[Cut, ...]
    times: int


@dataclass(frozen=True, slots=True)
class CutList:
    """The pieces wanted in whole numbers: the mark in inches, the usable width, counts, ways to lie."""

    mark: Fraction
    width: int
    counts: tuple[int, ...]
    ways: tuple[Way, ...]

    @property
    def heights(self) -> tuple[int, ...]:
        """The heights a strip may have, ascending: those of the pieces as they may lie."""
        return tuple(sorted({way.height for way in self.ways}))

    def ways_of(self, size: int) -> list[tuple[int, Way]]:
        """The ways of one size with their numbers."""
        return [(number, way) for number, way in enumerate(self.ways) if way.size == size]


def in_marks(demands: Sequence[Demand], supply: Supply) -> CutList:
    """The demands in whole numbers of their finest common mark; the rest of the width is dropped."""
    lying = [(size, lie) for size, demand in enumerate(demands) for lie in lies(demand, supply)]
    mark = _finest([side.exact for _, lie in lying for side in (lie.width, lie.height)])
    ways = tuple(
        Way(size, int(lie.width.exact / mark), int(lie.height.exact / mark), lie.turned)
        for size, lie in lying
    )
    width = int(supply.usable_width.exact // mark)
    return CutList(mark, width, tuple(demand.count for demand in demands), ways)


def _finest(lengths: Sequence[Fraction]) -> Fraction:
    """The longest length of which all are whole multiples."""
    parts = math.lcm(*(length.denominator for length in lengths))
    return Fraction(math.gcd(*(int(length * parts) for length in lengths)), parts)
