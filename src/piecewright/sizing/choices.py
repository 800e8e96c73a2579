"""What a search for a size may choose from: sizes of blocks, numbers of them, widths of strips.

Blocks only in sizes whose units a ruler shows; strips on half inches or whole centimetres.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from fractions import Fraction

from piecewright.design.model import Design, finished_size
from piecewright.design.reader import default_mark
from piecewright.design.whole_marks import scale_step
from piecewright.measure.length import Length, Unit, inches, mm
from piecewright.measure.tolerance import WELD
from piecewright.sizing.parity import CountWish
from piecewright.sizing.resizing import cell_sizes, with_blocks, with_counts, with_strips

# The marks on which units of a changed block may lie, the plainest first.
BLOCK_MARKS: dict[Unit, tuple[Length, ...]] = {
    "in": (inches("1/2"), inches("1/4"), inches("1/8")),
    "cm": (mm(10), mm(5), mm(1)),
}
STRIP_STEP: dict[Unit, Length] = {"in": inches("1/2"), "cm": mm(10)}
MOST_BORDER: dict[Unit, Length] = {"in": inches(12), "cm": mm(300)}
MOST_SASHING: dict[Unit, Length] = {"in": inches(4), "cm": mm(100)}
LEAST_FACTOR, MOST_FACTOR = Fraction(2, 3), Fraction(3, 2)
MOST_BLOCKS = 1_000
ENOUGH_SIZES = 5


def block_factors(design: Design) -> tuple[Fraction, ...]:
    """By which the blocks may be scaled, 1 among them: from two thirds to half as large again.

    The plainest marks that offer some choice are taken.
    """
    sizes, found = cell_sizes(design), [Fraction(1)]
    for mark in (*BLOCK_MARKS[design.unit][:-1], default_mark(design.unit)):
        step = scale_step(sizes, mark)
        ks = range(math.ceil(LEAST_FACTOR / step), math.floor(MOST_FACTOR / step) + 1)
        found = sorted({Fraction(1), *(step * k for k in ks if k > 0)})
        if len(found) >= ENOUGH_SIZES:
            break
    return tuple(found)


def widths_to_try(now: Length, most: Length, unit: Unit) -> tuple[Length, ...]:
    """The widths a strip may have, the one it has now among them."""
    step = STRIP_STEP[unit]
    return tuple(sorted({now, *(step * k for k in range(1, max(most, now * 2) // step + 1))}))


def border_widths(design: Design) -> tuple[tuple[Length, ...], ...]:
    """The widths of all borders together: the outermost changes, those inside stay."""
    now = tuple(border.width for border in design.borders)
    if not now:
        return ((),)
    tries = widths_to_try(now[-1], MOST_BORDER[design.unit], design.unit)
    return tuple((*now[:-1], width) for width in tries)


def sashing_widths(design: Design) -> tuple[Length | None, ...]:
    """The widths the sashing may have; None alone where there is none."""
    if design.sashing is None:
        return (None,)
    return widths_to_try(design.sashing.width, MOST_SASHING[design.unit], design.unit)


@dataclass(frozen=True)
class Reach:
    """How far the middle (all but the borders) reaches in one direction with so many blocks, in inches."""

    first: float
    each: float

    def of(self, count: int) -> float:
        """With so many blocks."""
        return self.first + self.each * (count - 1)

    def near(self, wanted: float, wish: CountWish, now: int) -> tuple[int, ...]:
        """The two counts that come nearest a wanted reach and suit the wish; and the one there is now."""
        if self.each <= WELD:
            return (now,)
        about = min(max(1, round((wanted - self.first) / self.each) + 1), MOST_BLOCKS)
        near = {n + more for n in wish.near(about) for more in (-wish.step, 0, wish.step)}
        ranked = sorted((n for n in near if n >= 1), key=lambda n: (abs(self.of(n) - wanted), n))
        return tuple(dict.fromkeys((*ranked[:2], now)))


def reaches(design: Design, factor: Fraction, sashing: Length | None) -> tuple[Reach, Reach]:
    """The reaches across and down with other blocks and sashing."""
    bare = with_strips(with_blocks(replace(design, borders=()), factor), sashing, ())
    one, two = (finished_size(with_counts(bare, n, n)) for n in (1, 2))
    across, down = (Reach(float(one[i]), float(two[i] - one[i])) for i in (0, 1))
    return across, down
