"""One piece of cloth after the other, each as valuable as can be, with prices that learn from the last round.

Sequential value correction (Belov and Scheithauer, Computational Optimization and Applications 35, 2006):
pieces that end up on badly filled cloth become dearer, so that the next round cuts them earlier.
"""

from __future__ import annotations

import random
from typing import NamedTuple

import numpy as np

from piecewright.cutting.given.finding import Finding
from piecewright.cutting.given.settling import Use, settled
from piecewright.cutting.given.task import Column, GivenTask
from piecewright.cutting.pricing import Counts, Prices

# A larger piece is worth a little more than its area.
GROWTH = 1.02
# How much faster than by its count a price may be held back, by chance.
HELD = 1.5


class _Choice(NamedTuple):
    rate: float
    column: Column
    kind: int
    amount: int


class Sequential:
    """Rounds over one task; prices are kept from round to round."""

    def __init__(self, task: GivenTask, finding: Finding, chance: random.Random) -> None:
        self._task, self._finding, self._chance = task, finding, chance
        self._areas = task.areas / task.areas.max()
        self._prices: Prices = self._areas**GROWTH

    def round(self, left: Counts, limits: Prices) -> list[Use]:
        """Cloth for what is left, within what each kind still has."""
        wanted, limits = left, limits.copy()
        chosen: list[Use] = []
        while left.any():
            choice = self._best(left, limits)
            if choice is None:
                break
            gives = np.minimum(self._task.pieces(choice.column), left)
            some = gives > 0
            times = max(1, int((left[some] // gives[some]).min()))
            times = int(min(times, np.floor(limits[choice.kind] / choice.amount)))
            chosen.append(Use(choice.column, times))
            limits[choice.kind] -= times * choice.amount
            self._correct(choice.column, gives, times, wanted + left)
            left = left - times * gives
        return settled(self._task, chosen, wanted)

    def _best(self, left: Counts, limits: Prices) -> _Choice | None:
        """The column worth most for its cost."""
        best = None
        found = self._finding.best(self._prices, left, clip=True)
        for column, value in zip(found.columns, found.values, strict=True):
            kind, amount = self._task.frames[column.frame].kind, self._task.amount(column)
            rate = value / max(self._task.cost(column), 1e-12)
            if value > 0 and limits[kind] >= amount and (best is None or rate > best.rate):
                best = _Choice(rate, column, kind, amount)
        return best

    def _correct(self, column: Column, gives: Counts, times: int, counts: Counts) -> None:
        """Prices move towards what the cloth took for each piece; rare pieces move faster."""
        taken = self._area(column) / float(gives @ self._task.areas)
        for size in np.flatnonzero(gives).tolist():
            held = self._chance.uniform(1.0, HELD) * counts[size] / (gives[size] * times)
            fair = taken * self._areas[size] ** GROWTH
            self._prices[size] = (held * self._prices[size] + fair) / (held + 1)

    def _area(self, column: Column) -> float:
        frame = self._task.frames[column.frame]
        if self._task.kinds[frame.kind].whole:
            return float(frame.length * frame.room)
        return float(frame.length * self._task.amount(column))
