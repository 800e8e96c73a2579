"""Layouts on given cloth by column generation: a bound, whole layouts, a search around the best.

The bound is Lagrange's: fair prices of the pieces, less what any cloth that is there could be worth more
than it costs; where cloth is without end, prices are scaled down until none of it is (Farley, Operations
Research 38, 1990). Effort is counted in table entries and never in seconds, so that layouts repeat.
"""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence

import numpy as np

from piecewright.cutting.given.diving import Diving
from piecewright.cutting.given.finding import Finding
from piecewright.cutting.given.pool import GivenPool
from piecewright.cutting.given.programme import GivenProgramme
from piecewright.cutting.given.sequential import Sequential
from piecewright.cutting.given.settling import Use, merged, pieces_of
from piecewright.cutting.given.task import GivenTask
from piecewright.cutting.pricing import Prices

MOST_ROUNDS = 150
SEQUENCES = 24
SEARCHES = 200
# How many pieces of cloth a search takes out to lay them anew.
TAKEN_OUT = (3, 9)
# What is missing costs so many times the dearest cloth of its area.
MISSING = 50.0
NEAR = 0.02
SLIGHT = 1e-7


class GivenMixing:
    """Layouts for one task; after it is made, no layout costs less than `bound`.

    `sold_bound` bounds what is bought alone: the cost of all kinds that are not `on_hand`. `share` says how
    much of each kind the best fractional layout takes. `effort` is how much may be spent on layouts, in
    thousand table entries: 100,000 are about a second.
    """

    def __init__(self, task: GivenTask, on_hand: Sequence[bool], effort: int) -> None:
        self.task = task
        self._on_hand = np.array(on_hand, dtype=bool)
        self._finding = Finding(task)
        limits = [np.inf if kind.limit is None else float(kind.limit) for kind in task.kinds]
        self._limits: Prices = np.array(limits)
        self._missing: Prices = task.areas.astype(float) * (MISSING * self._dearest())
        self.bound, self.sold_bound = 0.0, 0.0
        self.share: Prices = np.zeros(len(task.kinds))
        self._diving = Diving(task, self._finding, self._root(), self._missing)
        self._most_effort = self._finding.effort + effort

    def layouts(self) -> Iterator[list[Use]]:
        """Layouts, each better than those before; whoever asks may stop when one is good enough."""
        chance, best = random.Random(0), None
        for uses in self._tries(chance):
            if best is None or self.order(uses) < self.order(best):
                best = uses
                yield uses
        for _ in range(SEARCHES):
            if not best or self._spent:
                return
            uses = self._searched(best, chance)
            if self.order(uses) <= self.order(best):
                better = self.order(uses) < self.order(best)
                best = uses
                if better:
                    yield uses

    def order(self, uses: Sequence[Use]) -> tuple[float, float, float]:
        """What is missing, what the cloth costs, how much of the emptiest is filled: less is better."""
        missing = float(((self.task.counts - pieces_of(self.task, uses)) * self.task.areas).sum())
        cost = sum(self.task.cost(use.column) * use.times for use in uses)
        return missing, round(cost, 6), round(min(self._filled(uses), default=0.0), 9)

    @property
    def _spent(self) -> bool:
        return self._finding.effort > self._most_effort

    def _tries(self, chance: random.Random) -> Iterator[list[Use]]:
        """Whole layouts: a dive, then one sequence after the other."""
        yield self._diving.dive(self.task.counts, self._limits, None)
        sequential = Sequential(self.task, self._finding, chance)
        for _ in range(SEQUENCES):
            if self._spent:
                return
            yield sequential.round(self.task.counts, self._limits)

    def _dearest(self) -> float:
        """The highest cost of cloth for its area."""
        kinds = self.task.kinds
        shares = [
            kinds[frame.kind].cost / (frame.length * (frame.room if kinds[frame.kind].whole else 1))
            for frame in self.task.frames
        ]
        return max(shares, default=1.0) or 1.0

    def _root(self) -> GivenPool:
        """Makes columns until none pays; keeps those that are worth their cost or nearly."""
        pool = GivenPool(self.task, self._finding.alone())
        programme = GivenProgramme(self.task.counts, self._limits, self._missing)
        programme.add(pool.costs, pool.pieces, pool.kinds, pool.amounts)
        solved = programme.solve()
        for _ in range(MOST_ROUNDS):
            found = self._finding.best(solved.prices, self.task.counts, clip=False)
            self._raise_bounds(solved.prices, found.worths)
            before = len(pool.columns)
            if not pool.take_in(found.paying(solved.cloth_prices)):
                break
            new = slice(before, None)
            programme.add(pool.costs[new], pool.pieces[new], pool.kinds[new], pool.amounts[new])
            solved = programme.solve()
            if solved.cost - self.bound < SLIGHT * max(1.0, solved.cost):
                break
        np.add.at(self.share, pool.kinds, solved.times * pool.amounts)
        spare = pool.costs - pool.pieces @ solved.prices - solved.cloth_prices[pool.kinds] * pool.amounts
        return GivenPool(self.task, pool.kept(np.flatnonzero(spare <= NEAR * (pool.costs + SLIGHT))))

    def _raise_bounds(self, prices: Prices, worths: Prices) -> None:
        """Takes the better bounds; none is known where sizes were not priced as they are."""
        if self._finding.exact:
            costs = np.array([kind.cost for kind in self.task.kinds])
            sold = np.where(self._on_hand, 0.0, costs)
            self.bound = max(self.bound, self._bound_of(prices, worths, costs))
            self.sold_bound = max(self.sold_bound, self._bound_of(prices, worths, sold))

    def _bound_of(self, prices: Prices, worths: Prices, costs: Prices) -> float:
        """The best of the bounds that these prices give, scaled down in several ways."""
        endless = np.isinf(self._limits)
        scales = costs / np.maximum(worths, 1e-12)
        top = float(min(scales[endless], default=np.inf))
        tries = {min(float(scale), top) for scale in scales} | {min(1.0, top)}
        whole, limits = float(prices @ self.task.counts), np.where(endless, 0.0, self._limits)
        bounds = [
            scale * whole - float((limits * np.maximum(scale * worths - costs, 0.0)).sum()) for scale in tries
        ]
        return max(bounds) * (1 - SLIGHT)

    def _searched(self, uses: Sequence[Use], chance: random.Random) -> list[Use]:
        """Some pieces of cloth taken out by chance, the least filled among them, and laid anew."""
        amount = min(chance.randint(*TAKEN_OUT), sum(use.times for use in uses))
        taken = [0] * len(uses)
        taken[int(np.argmin(self._filled(uses)))] = 1
        while sum(taken) < amount:
            number = chance.randrange(len(uses))
            taken[number] += taken[number] < uses[number].times
        kept = [Use(use.column, use.times - out) for use, out in zip(uses, taken, strict=True)]
        kept = [use for use in kept if use.times]
        left, limits = self.task.counts - pieces_of(self.task, kept), self._limits.copy()
        for use in kept:
            limits[self.task.frames[use.column.frame].kind] -= self.task.amount(use.column) * use.times
        if chance.random() < 0.5:
            anew = self._diving.dive(left, limits, chance)
        else:
            anew = Sequential(self.task, self._finding, chance).round(left, limits)
        return merged([*kept, *anew])

    def _filled(self, uses: Sequence[Use]) -> list[float]:
        """For each use how much area of pieces its cloth holds for its cost."""
        return [
            float(self.task.pieces(use.column) @ self.task.areas) / max(self.task.cost(use.column), 1e-12)
            for use in uses
        ]
