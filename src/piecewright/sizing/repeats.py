"""Pieced borders: whole repeats along both sides of what they go round, by a coping strip or a small change.

Terms:
- *repeat*: the length of one unit of a pieced border, finished;
- *inner side*: how long the border is without its corners: the side of what it goes round;
- *coping strip*: a plain strip sewn round first, so that whole repeats fit.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from piecewright.design.model import Design, finished_size
from piecewright.design.whole_marks import scale_step
from piecewright.measure.length import ZERO, Length, Unit, inches, mm
from piecewright.measure.showing import show
from piecewright.problems import Problem, Refused
from piecewright.sizing.resizing import cell_sizes, with_blocks

Size = tuple[Length, Length]

# A narrower strip is mostly seam: common practice, no source.
LEAST_COPING: dict[Unit, Length] = {"in": inches("1/2"), "cm": mm(10)}
# No more than this share of the repeat or the block is changed to make repeats fit.
SMALL_CHANGE = Fraction(1, 8)


@dataclass(frozen=True)
class Coping:
    """Coping strips: `side` is the finished width of the left and right ones, `end` of those above and below.

    With them `across` and `down` repeats fit exactly, and a square in each corner.
    """

    repeat: Length
    across: int
    down: int
    side: Length
    end: Length

    def cut(self, take_up: Length) -> tuple[Length, Length]:
        """The widths the strips are cut: a seam on each side more. Zero stays: there is no strip."""
        side, end = (width + take_up * 2 if width else ZERO for width in (self.side, self.end))
        return side, end

    @property
    def is_needed(self) -> bool:
        """Whether there is any strip at all."""
        return bool(self.side or self.end)

    def words(self, unit: Unit, take_up: Length) -> str:
        """How to cope, in a sentence."""
        fits = f"{self.across} x {self.down} repeats of {show(self.repeat, unit)} fit"
        if not self.is_needed:
            return f"{fits} as it is"
        side, end = self.cut(take_up)
        if self.side == self.end:
            return f"{fits} with a coping strip {show(self.side, unit)} finished, cut {show(side, unit)}"
        strips = [
            f"{show(width, unit)} {where} (cut {show(raw, unit)})" if width else f"none {where}"
            for width, raw, where in ((self.side, side, "on the sides"), (self.end, end, "above and below"))
        ]
        return f"{fits} with coping strips {', '.join(strips)}"


@dataclass(frozen=True)
class RepeatSize:
    """A length of the repeat of which whole ones fit both ways without a coping strip."""

    repeat: Length
    across: int
    down: int


def coping(inner: Size, repeat: Length, least: Length = LEAST_COPING["in"]) -> Coping:
    """The narrowest coping strips, none narrower than `least`, so that whole repeats fit both ways.

    Raises Refused for a repeat that is no length, or a side that is none.

    >>> coping((inches(46), inches(50)), inches(5))
    Coping(repeat=inches('5'), across=10, down=10, side=inches('2'), end=inches('0'))
    """
    if repeat <= ZERO or min(inner) <= ZERO:
        got = f"a repeat of {repeat} along {inner[0]} x {inner[1]}"
        what = f"expected a repeat and sides longer than 0, got {got}."
        raise Refused(Problem(what, do="Give finished lengths."))
    (across, side), (down, end) = (_coped(length, repeat, least) for length in inner)
    return Coping(repeat, across, down, side, end)


def _coped(length: Length, repeat: Length, least: Length) -> tuple[int, Length]:
    """How many repeats, and how wide the strip at each end of the length is."""
    if not length % repeat:
        return length // repeat, ZERO
    count = math.ceil((length + least * 2).exact / repeat.exact)
    return count, (repeat * count - length) / 2


def repeats_that_fit(inner: Size, repeat: Length, mark: Length) -> tuple[RepeatSize, ...]:
    """The repeats on marks of the ruler, near the one that is wished, that fit whole in both directions.

    The nearest comes first; only small changes are offered. Empty where there is none.
    """
    both = _common_part(inner)
    least, most = repeat * (1 - SMALL_CHANGE), repeat * (1 + SMALL_CHANGE)
    parts = range(max(1, math.ceil(both.exact / most.exact)), math.floor(both.exact / least.exact) + 1)
    found = [
        RepeatSize(both / number, inner[0] // (both / number), inner[1] // (both / number))
        for number in parts
        if not (both / number) % mark
    ]
    return tuple(sorted(found, key=lambda one: abs((one.repeat - repeat).exact)))


def blocks_that_fit(design: Design, repeat: Length, mark: Length) -> tuple[Size, ...]:
    """The block sizes near the design's own with which whole repeats fit its sides in both directions.

    Every unit of the blocks stays on a mark of the ruler. What the repeats go round is the middle with the
    borders that the design has. The nearest size comes first.
    """
    step = scale_step(cell_sizes(design), mark)
    sizes = []
    for factor in _near_one(step):
        width, height = finished_size(with_blocks(design, factor))
        if not width % repeat and not height % repeat:
            sizes.append((abs(factor - 1), (design.block_width * factor, design.block_height * factor)))
    return tuple(size for _, size in sorted(sizes, key=lambda one: one[0]))


def check_repeats(inner: Size, repeat: Length, unit: Unit, take_up: Length, mark: Length) -> list[Problem]:
    """Notes where a pieced border does not come out in whole repeats, with what makes it fit."""
    found = []
    for length, words in zip(inner, ("across", "down"), strict=True):
        if length % repeat:
            over = f"{length // repeat} repeats of {show(repeat, unit)} and {show(length % repeat, unit)}"
            found.append(f"{show(length, unit)} {words} are {over}")
    if not found:
        return []
    ways = [coping(inner, repeat, LEAST_COPING[unit]).words(unit, take_up)]
    ways += [f"repeats of {show(one.repeat, unit)} fit" for one in repeats_that_fit(inner, repeat, mark)[:1]]
    what = f"a pieced border wants whole repeats and a square in each corner; {', '.join(found)}."
    ways[0] = f"{ways[0][:1].upper()}{ways[0][1:]}"
    return [Problem(what, do=f"{'; or '.join(ways)}.", weight="note")]


def inner_side(design: Design, border: int) -> Size:
    """The sides that a border (0 is the innermost) goes round."""
    return finished_size(replace(design, borders=design.borders[:border]))


def _near_one(step: Fraction) -> Iterator[Fraction]:
    for k in range(math.ceil((1 - SMALL_CHANGE) / step), math.floor((1 + SMALL_CHANGE) / step) + 1):
        if k > 0:
            yield step * k


def _common_part(size: Size) -> Length:
    """The longest length of which both sides are whole multiples."""
    one, other = size[0].exact, size[1].exact
    under = math.lcm(one.denominator, other.denominator)
    return Length(Fraction(math.gcd(int(one * under), int(other * under)), under))
