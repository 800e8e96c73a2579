"""Less work from as much cloth: strips that are cut together, fewer trims, fewer ruler settings."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence

import numpy as np

from piecewright.cutting.marks import Strip
from piecewright.cutting.mixing import Mixing, Sparing
from piecewright.cutting.pricing import Allowed, Counts, Prices
from piecewright.cutting.settling import counts_of, merged

Score = Callable[[list[Strip]], tuple[float, ...]]

# What a trimmed crosscut may count for, as a share of the mean strip height; and trims that hardly count.
TRIMS = (0.0, 0.003, 0.02, 0.1, 0.3)
RARE_TRIMS = 0.02
# What a setting that is hardly used may count for, in mean strip heights, and how often it is weighed.
SETTINGS = (0.1, 0.3, 0.03, 1.0)
REWEIGHTED = 4


def together(
    mixing: Mixing, counts: Sequence[int], layers: int, limit: float, sparing: Sparing
) -> list[Strip] | None:
    """Strips in whole multiples of the layers, and singly what is left; None once they exceed the limit."""
    share = mixing.dive([count // layers for count in counts], limit / layers, sparing, firm=layers > 1)
    if share is None:
        return None
    stacked = [strip._replace(times=strip.times * layers) for strip in share]
    given = counts_of(mixing.task, stacked)
    left = [count - got for count, got in zip(counts, given, strict=True)]
    rest = mixing.dive(left, limit - mixing.counted(stacked, sparing), sparing)
    return None if rest is None else merged([*stacked, *rest])


def handier(mixing: Mixing, limit: float, layers: int, effort: int) -> Iterator[list[Strip]]:
    """Layouts within the limit that spare trims or are cut in layers; the first are whole at least."""
    until = mixing.effort + effort
    for trim in TRIMS:
        sparing = Sparing(trims_count(mixing, trim) if trim else None)
        for together_with in sorted({1, layers}):
            if trim and mixing.effort > until:
                return
            found = together(mixing, mixing.task.counts, together_with, limit, sparing)
            if found is not None:
                yield found


def on_few_settings(mixing: Mixing, layers: int, effort: int) -> Iterator[list[Strip]]:
    """Layouts that keep to fewer and fewer settings, whatever cloth that takes.

    A setting costs the less the more it was used the last time, so that rare ones drop out (reweighting, as
    Candes, Wakin and Boyd, Journal of Fourier Analysis and Applications 14, 2008, do for sparse solutions).
    """
    until = mixing.effort + effort
    for setting in SETTINGS:
        for together_with in sorted({1, layers}, reverse=True):
            worth = trims_count(mixing, RARE_TRIMS)
            for _ in range(REWEIGHTED):
                if mixing.effort > until:
                    return
                found = together(
                    mixing, mixing.task.counts, together_with, math.inf, Sparing(worth, None, True)
                )
                if found is None:
                    break
                yield found
                worth = trims_count(mixing, RARE_TRIMS)
                worth += setting * _middle(mixing) / (_crosscuts(mixing, found) + 1)


def fewer_settings(
    mixing: Mixing, start: list[Strip], score: Score, limit: float, layers: int, effort: int
) -> Iterator[list[Strip]]:
    """Layouts, each better than all before: one setting after another is tried to be done without.

    A way that is cut from a strip height is a setting; so is the height. Those with the fewest crosscuts go
    first.
    """
    best, until = start, mixing.effort + effort
    improved = True
    while improved and mixing.effort < until:
        improved = False
        for without in _settings_of(mixing, best):
            if mixing.effort >= until:
                return
            used = _crosscuts(mixing, best) > 0
            if not (used & without).any():
                continue
            for together_with in sorted({1, layers}, reverse=True):
                found = together(
                    mixing, mixing.task.counts, together_with, limit, Sparing(None, used & ~without, True)
                )
                if found is not None and score(found) < score(best):
                    best, improved = found, True
                    yield best
                    break


def _middle(mixing: Mixing) -> float:
    return sum(mixing.task.heights) / len(mixing.task.heights)


def trims_count(mixing: Mixing, share: float) -> Prices:
    """Every trimmed crosscut counts as this share of the mean strip height."""
    return share * _middle(mixing) * mixing.trims


def _crosscuts(mixing: Mixing, strips: Sequence[Strip]) -> Counts:
    """How many crosscuts of which way are made from which height."""
    heights = mixing.task.heights
    crosscuts = np.zeros((len(heights), len(mixing.task.ways)), dtype=np.int64)
    for strip in strips:
        for cut in strip.cuts:
            crosscuts[heights.index(strip.height), cut.way] += cut.crosscuts * strip.times
    return crosscuts


def _settings_of(mixing: Mixing, strips: Sequence[Strip]) -> list[Allowed]:
    """Every height with all its ways, and every way in its height; those with the fewest crosscuts first."""
    crosscuts = _crosscuts(mixing, strips)
    masks = []
    for row in np.flatnonzero(crosscuts.any(axis=1)):
        whole = np.zeros(crosscuts.shape, dtype=bool)
        whole[row] = True
        masks.append((int(crosscuts[row].sum()), whole))
        for way in np.flatnonzero(crosscuts[row]):
            one = np.zeros_like(whole)
            one[row, way] = True
            masks.append((int(crosscuts[row, way]), one))
    return [mask for _, mask in sorted(masks, key=lambda entry: entry[0])]
