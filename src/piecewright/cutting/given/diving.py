"""From a linear programme to whole pieces of cloth: fix a few, make new columns for the rest, go on."""

from __future__ import annotations

import random

import numpy as np
from numpy.typing import NDArray

from piecewright.cutting.given.finding import Finding
from piecewright.cutting.given.pool import GivenPool
from piecewright.cutting.given.programme import GivenProgramme
from piecewright.cutting.given.settling import Use, settled
from piecewright.cutting.given.task import GivenTask
from piecewright.cutting.pricing import Counts, Prices

ROUNDS_IN_A_DIVE = 3
WHOLE = 1e-6


class Diving:
    """Dives over one task, each from the columns that were worth their cost before."""

    def __init__(self, task: GivenTask, finding: Finding, near: GivenPool, missing: Prices) -> None:
        self._task, self._finding, self._near, self._missing = task, finding, near, missing
        self._piecewise = np.array([kind.whole for kind in task.kinds], dtype=bool)

    def dive(self, left: Counts, limits: Prices, chance: random.Random | None) -> list[Use]:
        """Cloth for what is left, within what each kind still has; by chance, where one is given."""
        wanted, limits = left, limits.copy()
        pool = GivenPool(self._task, self._near.columns)
        chosen: list[Use] = []
        while left.any():
            times, gives = self._solve_rest(pool, left, limits)
            useful = (gives > 0).any(axis=1) & (pool.amounts <= limits[pool.kinds])
            if not useful.any():
                break
            for number in self._next(times, gives, pool, useful, chance):
                often = max(1.0, np.floor(times[number] + WHOLE))
                count = int(min(often, np.floor(limits[pool.kinds[number]] / pool.amounts[number])))
                if count and (np.minimum(pool.pieces[number], left) > 0).any():
                    chosen.append(Use(pool.columns[number], count))
                    limits[pool.kinds[number]] -= count * pool.amounts[number]
                    left = np.maximum(left - count * pool.pieces[number], 0)
        return settled(self._task, chosen, wanted)

    def _next(
        self,
        times: Prices,
        gives: Counts,
        pool: GivenPool,
        useful: NDArray[np.bool_],
        chance: random.Random | None,
    ) -> list[int]:
        """The columns to fix: strips that are cut whole times, else what is cut most, else the fullest."""
        strips = np.flatnonzero(useful & (times >= 1 - WHOLE) & ~self._piecewise[pool.kinds])
        if len(strips):
            return [int(number) for number in strips]
        weight = np.where(useful, times, -1.0)
        if weight.max() <= WHOLE:
            weight = np.where(useful, (gives @ self._task.areas) / pool.costs.clip(1e-12), -1.0)
        if chance is not None:
            weight = weight * np.array([chance.uniform(0.7, 1.0) for _ in range(len(weight))])
        return [int(np.argmax(weight))]

    def _solve_rest(self, pool: GivenPool, left: Counts, limits: Prices) -> tuple[Prices, Counts]:
        """How often each column would be cut, after making those that pay for what is left."""
        programme = GivenProgramme(left, limits, self._missing)
        gives = np.minimum(pool.pieces, left)
        programme.add(pool.costs, gives, pool.kinds, pool.amounts)
        solved = programme.solve()
        for _ in range(ROUNDS_IN_A_DIVE):
            found = self._finding.best(solved.prices, left, clip=True)
            before = len(pool.columns)
            if not pool.take_in(found.paying(solved.cloth_prices)):
                break
            more = np.minimum(pool.pieces[before:], left)
            programme.add(pool.costs[before:], more, pool.kinds[before:], pool.amounts[before:])
            gives = np.vstack([gives, more])
            solved = programme.solve()
        return solved.times, gives
