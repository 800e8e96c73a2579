"""From cut pieces of cloth that give enough to those that give exactly what is wanted."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from piecewright.cutting.given.task import Column, GivenTask
from piecewright.cutting.marks import Cut, Strip
from piecewright.cutting.pricing import Counts


class Use(NamedTuple):
    """So many pieces of cloth cut in one way."""

    column: Column
    times: int


def settled(task: GivenTask, uses: Sequence[Use], wanted: Counts) -> list[Use]:
    """The uses without any piece beyond those wanted; the fullest cloth first, so that the last is freed."""
    left, exact = wanted.copy(), list[Use]()
    for use in sorted(uses, key=lambda use: -_fullness(task, use.column)):
        times = use.times
        while times:
            gives = task.pieces(use.column)
            wanted_all = gives > 0
            alike = min(times, int((left[wanted_all] // gives[wanted_all]).min()))
            column = use.column if alike else _trimmed(task, use.column, left)
            alike = max(alike, 1)
            if not column.strips:
                break
            left = left - task.pieces(column) * alike
            exact.append(Use(column, alike))
            times -= alike
    return merged(exact)


def merged(uses: Sequence[Use]) -> list[Use]:
    """Equal uses taken together, in the order in which they first come."""
    times: dict[Column, int] = {}
    for use in uses:
        times[use.column] = times.get(use.column, 0) + use.times
    return [Use(column, often) for column, often in times.items()]


def _fullness(task: GivenTask, column: Column) -> float:
    return float(task.pieces(column) @ task.areas) / max(task.cost(column), 1e-12)


def _trimmed(task: GivenTask, column: Column, left: Counts) -> Column:
    """One column without what is not wanted any more; its strips may become lower, or go."""
    still, along = left.copy(), task.frames[column.frame].along
    heights: dict[tuple[int, tuple[Cut, ...]], int] = {}
    for strip in column.strips:
        for _ in range(strip.times):
            cuts = _wanted_cuts(task, along, strip.cuts, still)
            if cuts:
                stacks = (task.ways[along][cut.way].height * cut.stack for cut in cuts)
                key = (max(stacks), cuts)
                heights[key] = heights.get(key, 0) + 1
    strips = [Strip(height, cuts, times) for (height, cuts), times in heights.items()]
    return Column(column.frame, tuple(sorted(strips, key=lambda strip: -strip.height)))


def _wanted_cuts(task: GivenTask, along: bool, cuts: Sequence[Cut], still: Counts) -> tuple[Cut, ...]:
    """The cuts that are still wanted: whole stacks, then one lower stack; counted off `still`."""
    kept: list[Cut] = []
    for cut in cuts:
        size = task.ways[along][cut.way].size
        pieces = min(int(still[size]), cut.crosscuts * cut.stack)
        still[size] -= pieces
        whole, rest = divmod(pieces, cut.stack)
        kept += [Cut(cut.way, whole, cut.stack)] if whole else []
        kept += [Cut(cut.way, 1, rest)] if rest else []
    return tuple(kept)


def pieces_of(task: GivenTask, uses: Sequence[Use]) -> Counts:
    """How many pieces of each size the uses give."""
    nothing = np.zeros_like(task.counts)
    return sum((task.pieces(use.column) * use.times for use in uses), nothing)
