"""From strips that give enough to strips that give exactly what is wanted."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from piecewright.cutting.marks import Cut, CutList, Strip
from piecewright.cutting.shelves import first_fit, low, some


def settled(task: CutList, strips: Sequence[Strip], counts: Sequence[int], lower: bool = True) -> list[Strip]:
    """The strips without any piece beyond `counts`; with `lower`, one that loses pieces may become lower.

    A strip beyond the ruler that would lose its last tall piece is left out, and what else it held is laid
    anew by first fit.
    """
    left, exact = list(counts), []
    for strip in strips:
        times = strip.times
        while times:
            cuts = tuple(cut for cut in strip.cuts if left[task.ways[cut.way].size])
            if not cuts or not _within_ruler(task, strip.height, cuts):
                break
            gives = pieces_of(task, cuts)
            alike = min(times, *(left[size] // pieces for size, pieces in gives.items()))
            if not alike:
                alike, cuts = 1, _last_pieces(task, cuts, left)
                if not _within_ruler(task, strip.height, cuts):
                    break
                gives = pieces_of(task, cuts)
            for size, pieces in gives.items():
                left[size] -= alike * pieces
            height = _lowered(task, strip.height, cuts) if lower else strip.height
            exact.append(Strip(height, cuts, alike))
            times -= alike
    return exact + (first_fit(replace(task, counts=tuple(left)), low) if any(left) else [])


def pieces_of(task: CutList, cuts: Sequence[Cut]) -> dict[int, int]:
    """How many pieces of each size one strip with these crosscuts gives."""
    gives: dict[int, int] = {}
    for cut in cuts:
        size = task.ways[cut.way].size
        gives[size] = gives.get(size, 0) + cut.crosscuts * cut.stack
    return gives


def counts_of(task: CutList, strips: Sequence[Strip]) -> list[int]:
    """How many pieces of each size the strips give."""
    counts = [0] * len(task.counts)
    for strip in strips:
        for size, pieces in pieces_of(task, strip.cuts).items():
            counts[size] += pieces * strip.times
    return counts


def merged(strips: Sequence[Strip]) -> list[Strip]:
    """Equal strips taken together, in the order in which they first come."""
    times: dict[tuple[int, tuple[Cut, ...]], int] = {}
    for strip in strips:
        key = (strip.height, tuple(sorted(strip.cuts)))
        times[key] = times.get(key, 0) + strip.times
    return [Strip(height, cuts, often) for (height, cuts), often in times.items()]


def _within_ruler(task: CutList, height: int, cuts: Sequence[Cut]) -> bool:
    return not task.tall(height) or any(task.tall(task.ways[cut.way].height) for cut in cuts)


def _last_pieces(task: CutList, cuts: Sequence[Cut], left: Sequence[int]) -> tuple[Cut, ...]:
    still = list(left)
    kept: list[Cut] = []
    for cut in cuts:
        size = task.ways[cut.way].size
        pieces = min(still[size], cut.crosscuts * cut.stack)
        still[size] -= pieces
        kept += some(cut, pieces) if pieces else ()
    return tuple(kept)


def _lowered(task: CutList, height: int, cuts: Sequence[Cut]) -> int:
    stacked = max(task.ways[cut.way].height * cut.stack for cut in cuts)
    return min(other for other in task.heights if stacked <= other <= height)
