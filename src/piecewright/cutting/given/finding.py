"""Finding the columns that pay at given prices, on every frame of a task."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from piecewright.cutting.given.pricing import Side, Strips, column_of
from piecewright.cutting.given.task import Column, GivenTask
from piecewright.cutting.marks import Strip
from piecewright.cutting.pricing import Counts, Prices

# What a column must be worth above its cost to be made, as a share of all prices.
PAYS = 1e-6
# To make a column takes as long as so many thousand entries of a table.
A_COLUMN = 4


@dataclass(frozen=True, slots=True)
class Found:
    """The best columns at some prices; `worths` says what a piece or a mark of each kind can be worth."""

    task: GivenTask
    columns: tuple[Column, ...]
    values: tuple[float, ...]
    worths: Prices

    def paying(self, cloth_prices: Prices) -> list[Column]:
        """Those worth more than they cost and than their cloth is worth elsewhere."""
        found = []
        for column, value in zip(self.columns, self.values, strict=True):
            kind = self.task.frames[column.frame].kind
            cost = self.task.cost(column) - cloth_prices[kind] * self.task.amount(column)
            if value > cost + PAYS * max(1.0, abs(cost)):
                found.append(column)
        return found


class Finding:
    """The pricing of both sides of one task."""

    def __init__(self, task: GivenTask) -> None:
        self.task = task
        self._sides = [side for side in (Side(task, False), Side(task, True)) if side.any]
        self._made = 0

    @property
    def effort(self) -> int:
        """How many thousand table entries were filled; a column that is made counts as a few."""
        return sum(side.effort for side in self._sides) + self._made * A_COLUMN

    @property
    def exact(self) -> bool:
        """Whether sizes were priced as they are."""
        return all(side.exact for side in self._sides)

    def alone(self) -> list[Column]:
        """Columns to begin with: each size alone on every frame, and all sizes at the price of their area."""
        areas = self.task.areas.astype(float)
        mixed = areas / areas.max()
        prices = [mixed, *(np.where(np.arange(len(areas)) == size, 1.0, 0.0) for size in range(len(areas)))]
        return [column for each in prices for column in self.best(each, self.task.counts, False).columns]

    def best(self, prices: Prices, left: Counts, clip: bool) -> Found:
        """The best column of every frame; on long cloth the best strip of every height."""
        worths = np.zeros(len(self.task.kinds))
        columns: list[Column] = []
        values: list[float] = []
        for side in self._sides:
            strips = side.best_strips(prices, left, clip)
            if clip:
                more = self._clipped(side, strips, prices, left)
            else:
                worth, often = side.best_stacks(strips)
                more = [(column_of(side, strips, row, often[row]), worth[row]) for row in range(len(worth))]
            for row, (column, value) in enumerate(more):
                kind = self.task.frames[side.frames[row]].kind
                if self.task.kinds[kind].whole:
                    worths[kind] = max(worths[kind], value)
                    columns.append(column)
                    values.append(float(value))
            for column, value in self._single(side, strips):
                kind = self.task.frames[column.frame].kind
                worths[kind] = max(worths[kind], value / self.task.amount(column))
                columns.append(column)
                values.append(value)
        self._made += len(columns)
        return Found(self.task, tuple(columns), tuple(values), worths)

    def _single(self, side: Side, strips: Strips) -> list[tuple[Column, float]]:
        """The single strips of long cloth."""
        found = []
        for row, frame in enumerate(side.frames):
            if not self.task.kinds[self.task.frames[frame].kind].whole:
                for height in np.flatnonzero(strips.worth[row] > 0).tolist():
                    column = Column(frame, (side.strip(strips, row, height),))
                    found.append((column, float(strips.worth[row, height])))
        return found

    def _clipped(
        self, side: Side, strips: Strips, prices: Prices, left: Counts
    ) -> list[tuple[Column, float]]:
        """The same where what goes beyond `left` is worth nothing."""
        _, often = side.best_stacks(strips, _most(side, strips, left))
        found = []
        for row, frame in enumerate(side.frames):
            column = column_of(side, strips, row, often[row])
            if self.task.kinds[self.task.frames[frame].kind].whole:
                pieces = self.task.pieces(column)
                if (pieces > left).any():
                    column = self._strip_by_strip(side, row, prices, left, column)
                    pieces = self.task.pieces(column)
                found.append((column, float(np.minimum(pieces, left) @ prices)))
            else:
                found.append((column, 0.0))
        return found

    def _strip_by_strip(self, side: Side, row: int, prices: Prices, left: Counts, first: Column) -> Column:
        """A piece of cloth filled anew after every strip that takes what others counted on."""
        left, room, column = left.copy(), self.task.frames[first.frame].room, first
        kept: list[Strip] = []
        while column.strips:
            before = len(kept)
            for strip in column.strips:
                pieces = self.task.pieces(Column(column.frame, (strip,)))
                if (pieces <= left).all() or (len(kept) == before and strip is column.strips[-1]):
                    kept.append(strip)
                    room -= strip.height * strip.times
                    left = np.maximum(left - pieces, 0)
            strips = side.best_strips(prices, left, clip=True)
            rooms = np.zeros(len(side.frames), dtype=np.int64)
            rooms[row] = room
            _, often = side.best_stacks(strips, _most(side, strips, left), rooms)
            column = column_of(side, strips, row, often[row])
        return Column(first.frame, tuple(sorted(kept, key=lambda strip: -strip.height)))


def _most(side: Side, strips: Strips, left: Counts) -> Counts:
    """How often the best strip of each height is wanted, once at least where it gives anything."""
    gives = side.gives(strips)
    often = np.where(gives > 0, left // np.maximum(gives, 1), np.iinfo(np.int64).max).min(axis=2)
    most: Counts = np.where(gives.any(axis=2), np.maximum(often, 1), 0)
    return most
