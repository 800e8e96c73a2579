"""A small search: which few changes bring a design to a wanted size.

Every block size of whole marks, every width of sashing and outer border in plain steps is gone through; for
each the numbers of blocks that come nearest. What is kept is the best answer for each set of things changed.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from piecewright.design.model import Design
from piecewright.design.reader import LARGEST_QUILT, default_mark
from piecewright.measure.length import ZERO, Length
from piecewright.measure.reading import in_range
from piecewright.measure.tolerance import WELD
from piecewright.sizing.answer import Answer, Target, answer_for
from piecewright.sizing.choices import Reach, block_factors, border_widths, reaches, sashing_widths
from piecewright.sizing.parity import CountWish, kept_wishes
from piecewright.sizing.too_small import refuse_too_small

A_HANDFUL = 6
NEAREST_ONLY = 3

# How a change weighs against being off by the tolerance: doubling a block counts as three times that.
BLOCK_WEIGHT, STRIP_WEIGHT, COUNT_WEIGHT = 3.0, 1.0, 0.05


@dataclass(frozen=True)
class _Try:
    """One choice of everything, and what speaks against it: how far it is off, and how much it changes."""

    factor: Fraction
    counts: tuple[int, int]
    sashing: Length | None
    borders: tuple[Length, ...]
    off: tuple[float, float]
    cost: float


_Named = tuple[frozenset[str], _Try]


def answers(design: Design, target: Target, most: int = A_HANDFUL) -> tuple[Answer, ...]:
    """Good ways to bring a design to a target, the fewest changes first, then the nearest.

    Where none is within the tolerance, the nearest ones, with `fits` False. Counts keep to what the
    arrangement wishes, but for a direction in which the design itself does not. Raises Refused where the
    target is smaller than the smallest quilt of this design, ValueError for a target that is none.
    """
    for name, side in (("width", target.width), ("height", target.height)):
        in_range(side, default_mark(design.unit), LARGEST_QUILT[design.unit], f"a {name}", design.unit)
    wishes = kept_wishes(design)
    best: dict[tuple[frozenset[str], Fraction], _Try] = {}
    for one in _tries(design, target, wishes):
        key = (_changed(design, one), one.factor)
        if key not in best or one.cost < best[key].cost:
            best[key] = one
    all_of_them = [(what, one) for (what, _), one in best.items()]
    fitting = [pair for pair in all_of_them if max(pair[1].off) <= float(target.tolerance) + WELD]
    if not fitting:
        nearest = _nearest(all_of_them)[:NEAREST_ONLY]
        refuse_too_small(design, target, wishes, _answered(design, target, nearest[:1]))
        return _answered(design, target, nearest)
    return _answered(design, target, _handful(fitting, most))


def _answered(design: Design, target: Target, tries: Sequence[_Try]) -> tuple[Answer, ...]:
    return tuple(
        answer_for(design, target, one.factor, one.counts, (one.sashing, one.borders)) for one in tries
    )


def _nearest(tries: Sequence[_Named]) -> list[_Try]:
    """The nearest, of equally near ones those with the fewest changes."""
    ranked = sorted(tries, key=lambda pair: (round(sum(pair[1].off), 6), len(pair[0]), pair[1].cost))
    return [one for _, one in ranked]


def _handful(tries: Sequence[_Named], most: int) -> list[_Try]:
    """The best for each set of changes, filled up with the next best; the fewest changes first."""
    kept = [pair for pair in tries if not _outdone(pair, tries)]
    kept.sort(key=lambda pair: pair[1].cost)
    first: dict[frozenset[str], _Named] = {}
    for pair in kept:
        first.setdefault(pair[0], pair)
    chosen = [*first.values(), *(pair for pair in kept if first[pair[0]] is not pair)][:most]
    chosen.sort(key=lambda pair: (len(pair[0]), pair[1].cost))
    return [one for _, one in chosen]


def _outdone(pair: _Named, all_of_them: Sequence[_Named]) -> bool:
    """Whether another changes only some of the same things and comes as near."""
    what, one = pair
    return any(other < what and sum(it.off) <= sum(one.off) + WELD for other, it in all_of_them)


def _tries(design: Design, target: Target, wishes: tuple[CountWish, CountWish]) -> Iterator[_Try]:
    wanted = (float(target.width), float(target.height))
    all_borders = [(borders, 2 * float(sum(borders, ZERO))) for borders in border_widths(design)]
    for factor in block_factors(design):
        for sashing in sashing_widths(design):
            both = reaches(design, factor, sashing)
            for borders, edge in all_borders:
                left = (wanted[0] - edge, wanted[1] - edge)
                for counts, off in _counts(design, both, left, wishes):
                    weight = _weight(design, factor, counts, sashing, borders)
                    cost = sum(off) / float(target.tolerance) + weight
                    yield _Try(factor, counts, sashing, borders, off, cost)


def _counts(
    design: Design,
    both: tuple[Reach, Reach],
    left: tuple[float, float],
    wishes: tuple[CountWish, CountWish],
) -> Iterator[tuple[tuple[int, int], tuple[float, float]]]:
    """Numbers of blocks that come near what is left for the middle, and how far off each is."""
    now = (design.setting.across, design.setting.down)
    for across in both[0].near(left[0], wishes[0], now[0]):
        for down in both[1].near(left[1], wishes[1], now[1]):
            yield (across, down), (abs(both[0].of(across) - left[0]), abs(both[1].of(down) - left[1]))


def _weight(
    design: Design,
    factor: Fraction,
    counts: tuple[int, int],
    sashing: Length | None,
    borders: tuple[Length, ...],
) -> float:
    """How much a change is, so that of equally near answers the mildest is taken."""
    weight = BLOCK_WEIGHT * abs(math.log2(factor))
    if sashing is not None and design.sashing is not None:
        weight += STRIP_WEIGHT * abs(math.log2(sashing.exact / design.sashing.width.exact))
    for width, border in zip(borders, design.borders, strict=True):
        weight += STRIP_WEIGHT * abs(math.log2(width.exact / border.width.exact))
    more = abs(counts[0] - design.setting.across) + abs(counts[1] - design.setting.down)
    return weight + COUNT_WEIGHT * more


def _changed(design: Design, one: _Try) -> frozenset[str]:
    """What a choice changes."""
    setting, sashing = design.setting, design.sashing
    said = {
        "blocks": one.factor != 1,
        "number": one.counts != (setting.across, setting.down),
        "sashing": sashing is not None and one.sashing != sashing.width,
        "borders": one.borders != tuple(border.width for border in design.borders),
    }
    return frozenset(what for what, is_so in said.items() if is_so)
