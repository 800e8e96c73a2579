"""Columns made so far, none alike, with what each gives, takes and costs, side by side in tables."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from piecewright.cutting.given.task import Column, GivenTask
from piecewright.cutting.pricing import Counts, Prices


class GivenPool:
    """A growing set of columns for one task."""

    def __init__(self, task: GivenTask, columns: Iterable[Column] = ()) -> None:
        self._task = task
        self._seen: set[Column] = set()
        self.columns: list[Column] = []
        self.pieces: Counts = np.zeros((0, len(task.counts)), dtype=np.int64)
        self.kinds: Counts = np.zeros(0, dtype=np.int64)
        self.amounts: Counts = np.zeros(0, dtype=np.int64)
        self.costs: Prices = np.zeros(0)
        self.take_in(columns)

    def take_in(self, columns: Iterable[Column]) -> int:
        """Takes in those that are new; gives how many that were."""
        new = [column for column in dict.fromkeys(columns) if column not in self._seen and column.strips]
        if not new:
            return 0
        task = self._task
        self._seen.update(new)
        self.columns += new
        kinds = [task.frames[column.frame].kind for column in new]
        self.pieces = np.vstack([self.pieces, *(task.pieces(column)[None, :] for column in new)])
        self.kinds = np.append(self.kinds, np.array(kinds, dtype=np.int64))
        self.amounts = np.append(self.amounts, np.array([task.amount(column) for column in new]))
        self.costs = np.append(self.costs, np.array([task.cost(column) for column in new]))
        return len(new)

    def kept(self, which: Counts) -> list[Column]:
        """The columns at these places."""
        return [self.columns[number] for number in which.tolist()]
