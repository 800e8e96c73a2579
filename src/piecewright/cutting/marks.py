"""The same task in whole numbers: every length as a count of the finest mark that measures them all."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from piecewright.cutting.cuts import STACKS, Cuts
from piecewright.cutting.wanted import Demand, Supply, lies

# Strips as high as several pieces are tried up to so many heights, lower stacks first.
MOST_HEIGHTS = 120


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
    """The pieces wanted in whole numbers: the mark in inches, the usable width, counts, ways to lie.

    `heights` are those a strip may have, ascending. A strip higher than `ruler` must hold a piece that is.
    `squaring` is what squaring up takes of the length, once for each strip.
    """

    mark: Fraction
    width: int
    counts: tuple[int, ...]
    ways: tuple[Way, ...]
    heights: tuple[int, ...]
    cuts: Cuts = STACKS
    ruler: int | None = None
    squaring: int = 0

    def ways_of(self, size: int) -> list[tuple[int, Way]]:
        """The ways of one size with their numbers."""
        return [(number, way) for number, way in enumerate(self.ways) if way.size == size]

    def stack(self, strip_height: int, way: Way) -> int:
        """How many pieces of a way stand above each other in a strip; none where they are too tall."""
        fit = strip_height // way.height
        return fit if self.cuts.stacks else min(fit, 1)

    def tall(self, height: int) -> bool:
        """Whether a piece or strip of this height reaches beyond the ruler."""
        return self.ruler is not None and height > self.ruler

    def length(self, strips: Sequence[Strip]) -> int:
        """The length of cloth that strips take, with squaring up."""
        return sum((strip.height + self.squaring) * strip.times for strip in strips)


def in_marks(demands: Sequence[Demand], supply: Supply, cuts: Cuts = STACKS) -> CutList:
    """The demands in whole numbers of their finest common mark; the rest of the width is dropped."""
    lying = [(size, lie) for size, demand in enumerate(demands) for lie in lies(demand, supply)]
    sides = [side.exact for _, lie in lying for side in (lie.width, lie.height)]
    mark = finest([*sides, supply.squaring.exact])
    ways = tuple(
        Way(size, int(lie.width.exact / mark), int(lie.height.exact / mark), lie.turned)
        for size, lie in lying
    )
    ruler = int(supply.ruler_length.exact // mark) if supply.ruler_length is not None else None
    counts = tuple(demand.count for demand in demands)
    return CutList(
        mark=mark,
        width=int(supply.usable_width.exact // mark),
        counts=counts,
        ways=ways,
        heights=_heights(ways, counts, cuts, ruler),
        cuts=cuts,
        ruler=ruler,
        squaring=int(supply.squaring.exact / mark),
    )


def _heights(ways: Sequence[Way], counts: Sequence[int], cuts: Cuts, ruler: int | None) -> tuple[int, ...]:
    """As high as one piece; in tall strips also as high as stacks of equal pieces up to the ruler.

    Equal stacks are enough: a strip that no stack fills is only a lower strip with a trim.
    """
    if cuts.tall and ruler is not None:
        return stack_heights(ways, counts, ruler, MOST_HEIGHTS)
    return tuple(sorted({way.height for way in ways}))


def stack_heights(ways: Sequence[Way], counts: Sequence[int], room: int, most: int) -> tuple[int, ...]:
    """As high as a piece, or as stacks of equal pieces within the room: up to so many, lower stacks first."""
    heights = {way.height for way in ways}
    stacks = sorted(
        (stack, stack * way.height)
        for way in set(ways)
        for stack in range(2, min(room // way.height, counts[way.size]) + 1)
    )
    for _, height in stacks:
        if len(heights) < most:
            heights.add(height)
    return tuple(sorted(heights))


def finest(lengths: Sequence[Fraction]) -> Fraction:
    """The longest length of which all are whole multiples."""
    parts = math.lcm(*(length.denominator for length in lengths))
    return Fraction(math.gcd(*(int(length * parts) for length in lengths)), parts)
