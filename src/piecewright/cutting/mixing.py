"""Mixed strips by column generation: a bound, and a dive to whole strips.

The linear programme over all possible strips is solved by making only the strips that pay (Gilmore and
Gomory, Operations Research 9, 1961). Its bound is Farley's (Operations Research 38, 1990): prices divided
by the best worth per length of any strip are fair prices. The dive rounds down, counts only what is still
wanted of each strip, makes new strips for the rest, and goes on. Effort is counted and never timed, so
that layouts repeat.
"""

from __future__ import annotations

import math
import random
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from piecewright.cutting.marks import Cut, CutList, Strip
from piecewright.cutting.pool import Pool
from piecewright.cutting.pricing import Allowed, Counts, Prices, Pricing
from piecewright.cutting.programme import Programme
from piecewright.cutting.settling import settled

MOST_ROUNDS, ROUNDS_FOR_A_BOUND = 80, 6
ROUNDS_IN_A_DIVE = 4
# What a linear programme counts for beside the tables of the knapsack.
EFFORT_OF_A_ROUND = 200
# How far prices are off where strips are filled one by one, as shares.
OFF_THE_PRICE = (0.8, 1.2)
OFF_THE_WORTH = (0.6, 1.0)
# Of which share a strip must be wanted at least, where only firm ones are taken.
FIRM = 0.6
# Of tall strips only so many heights are tried at a time, and how often all of them.
SOME_HEIGHTS, ALL_HEIGHTS = 8, 0.25
# What a strip must be worth above its length to be taken in, as a share; the knapsack counts in 24 bits.
PAYS = 1e-5


@dataclass(frozen=True, slots=True, eq=False)
class Sparing:
    """What a dive spares besides cloth.

    Each crosscut of way number `w` from height number `h` counts as `worth[h, w]` marks of length; where
    `allowed[h, w]` is false, there is none; strips are not made lower for their last pieces where `level`
    is true. New strips are made of the `heights` alone, where these are given.
    """

    worth: Prices | None = None
    allowed: Allowed | None = None
    level: bool = False
    heights: Allowed | None = None


CLOTH_ALONE = Sparing()


class Mixing:
    """Mixed layouts for one task.

    `starts` are layouts to begin with, of which one at least holds every size. After it is made, `bound`
    is a length in marks below which there is no layout of this kind, and `prices` are fair prices of a piece
    of each size. `effort` is what was done so far, `made` are the strips that came up on the way, each once.
    """

    def __init__(self, task: CutList, starts: Sequence[Sequence[Strip]]) -> None:
        self.task = task
        self._pricing = Pricing(task)
        self._heights, self._costs = self._pricing.heights, self._pricing.costs
        self._size_of_way = np.zeros((len(task.ways), len(task.counts)), dtype=np.int64)
        self._size_of_way[np.arange(len(task.ways)), self._pricing.size_of] = 1
        self._widths = np.array([way.width for way in task.ways], dtype=np.int64)
        self._near = Pool(len(task.ways))
        self._areas = np.zeros(len(task.counts))
        self._areas[self._pricing.size_of] = [float(way.width * way.height) for way in task.ways]
        self._rounds, self._besides = 0.0, 0
        self.made: dict[Strip, None] = {}
        self.prices = np.zeros(len(task.counts))
        self.bound = self._root(starts)

    @property
    def effort(self) -> int:
        """What was done so far: table entries in thousands, and something for each linear programme."""
        return self._pricing.effort + int(EFFORT_OF_A_ROUND * self._rounds) + self._besides

    def spend(self, effort: int) -> None:
        """Takes note of effort that was spent elsewhere."""
        self._besides += effort

    @property
    def low_heights(self) -> Allowed:
        """Which heights are those of one piece."""
        return self._pricing.low_rows

    def some_heights(self, chance: random.Random) -> Allowed:
        """The heights of one piece, and a few of the others by chance, or now and then all of them."""
        others = ~self._pricing.low_rows
        share = SOME_HEIGHTS / max(int(others.sum()), SOME_HEIGHTS)
        share = 1.0 if chance.random() < ALL_HEIGHTS else share
        return np.array([not other or chance.random() < share for other in others.tolist()])

    def dive(
        self,
        counts: Sequence[int],
        limit: float = math.inf,
        sparing: Sparing = CLOTH_ALONE,
        firm: bool = False,
    ) -> list[Strip] | None:
        """Whole strips for so many of each size, fixed a few at a time; None once they exceed the limit.

        A `firm` dive takes no strip of which less than half would be wanted, and may leave pieces over.
        """
        left = np.array(counts, dtype=np.int64)
        chosen, taken = [], 0.0
        pool = self._near.allowed(sparing.allowed)
        if sparing.allowed is not None:
            pool.take_in(*self._pricing.one_way_strips(sparing.allowed))
        while left.any():
            least, times = self._solve_rest(pool, left, sparing)
            if not taken + least <= limit + 1e-6 or math.isinf(least):
                return None
            self._note(pool, np.flatnonzero(times > 1e-6))
            gives = self._gives(pool.rows, pool.crosscuts, left)
            take = np.floor(times + 1e-6).astype(np.int64)
            if not take.any():
                useful = np.where(gives.any(axis=1), times, -1.0)
                if firm and useful.max() < FIRM:
                    break
                take[int(np.argmax(useful))] = 1
            if not (take @ gives).any():
                return None
            for strip in np.flatnonzero(take).tolist():
                chosen.append(self._strip(int(pool.rows[strip]), pool.crosscuts[strip], int(take[strip])))
            taken += float(take @ self._spared(pool.rows, pool.crosscuts, sparing))
            left = np.maximum(left - take @ gives, 0)
        wanted = [count - over for count, over in zip(counts, left.tolist(), strict=True)] if firm else counts
        return self._noted(settled(self.task, chosen, wanted, lower=not sparing.level))

    @property
    def trims(self) -> Prices:
        """`trims[h, w]` is 1 where a crosscut of way `w` from height number `h` must be trimmed, else 0."""
        return self._pricing.trims.astype(np.float64)

    def one_by_one(
        self, counts: Sequence[int], limit: float, sparing: Sparing, chance: random.Random
    ) -> list[Strip] | None:
        """Whole strips, always the one worth most for its length, at prices a little off the fair ones.

        None once they exceed the limit. Much quicker than a dive, and never the same twice.
        """
        left = np.array(counts, dtype=np.int64)
        prices = self._areas * np.array([chance.uniform(*OFF_THE_PRICE) for _ in counts])
        chosen, taken = [], 0.0
        while left.any():
            self._rounds += 0.25
            rows, _, crosscuts = self._pricing.best_strips(
                prices, left, True, sparing.worth, sparing.allowed, sparing.heights
            )
            gives = self._gives(rows, crosscuts, left)
            costs = self._spared(rows, crosscuts, sparing)
            if not gives.any() or taken + costs.min() > limit:
                return None
            off = np.array([chance.uniform(*OFF_THE_WORTH) for _ in rows])
            best = int(np.argmax(gives @ prices / costs * off))
            chosen.append(self._strip(int(rows[best]), crosscuts[best], 1))
            taken += float(costs[best])
            left = left - gives[best]
        return self._noted(settled(self.task, chosen, counts, lower=not sparing.level))

    def counted(self, strips: Sequence[Strip], sparing: Sparing) -> float:
        """The length of the strips, and what their crosscuts count for besides."""
        length = float(self.task.length(strips))
        if sparing.worth is None or not strips:
            return length
        rows, crosscuts = self._as_arrays(strips)
        each = (crosscuts * sparing.worth[rows]).sum(axis=1)
        return length + float(each @ [strip.times for strip in strips])

    def _root(self, starts: Sequence[Sequence[Strip]]) -> int:
        """Makes strips until none pays; keeps those that are worth their length or nearly; the bound."""
        pool, programme = Pool(len(self.task.ways)), Programme(np.array(self.task.counts, dtype=np.int64))
        for start in starts:
            pool.take_in(*self._as_arrays(start))
        programme.add(self._costs[pool.rows], self._pieces(pool.rows, pool.crosscuts))
        bound = self._grown(pool, programme, self._pricing, MOST_ROUNDS)
        if not self._pricing.exact:
            pricing = Pricing(self.task, for_bound=True)
            bound = self._grown(pool, programme, pricing, ROUNDS_FOR_A_BOUND) if all(pricing.way_cells) else 0
            self._besides += pricing.effort
        lengths = self._costs[pool.rows]
        near = lengths - self._pieces(pool.rows, pool.crosscuts) @ self.prices <= 0.02 * lengths
        self._near.take_in(pool.rows[near], pool.crosscuts[near])
        self._note(pool, np.flatnonzero(near))
        return math.ceil(bound * (1 - PAYS))

    def _grown(self, pool: Pool, programme: Programme, pricing: Pricing, rounds: int) -> float:
        """Takes strips in until none pays or so many rounds are over; the best bound, and fair prices."""
        wanted, bound = np.array(self.task.counts, dtype=np.int64), 0.0
        least, _, self.prices = programme.solve()
        for _ in range(rounds):
            self._rounds += 1
            rows, worth, crosscuts = pricing.best_strips(self.prices, wanted, clip=False)
            bound = max(bound, least / float((worth / self._costs[rows]).max()))
            paying = (worth > self._costs[rows] * (1 + PAYS)) & (crosscuts @ self._widths <= self.task.width)
            new = pool.take_in(rows[paying], crosscuts[paying])
            if not len(new) or math.ceil(bound) >= least:
                break
            programme.add(self._costs[pool.rows[-len(new) :]], self._pieces(*pool.last(len(new))))
            least, _, self.prices = programme.solve()
        return bound

    def _note(self, pool: Pool, which: Counts) -> None:
        self._noted([self._strip(int(pool.rows[one]), pool.crosscuts[one], 1) for one in which])

    def _noted(self, strips: list[Strip]) -> list[Strip]:
        for strip in strips:
            self.made.setdefault(Strip(strip.height, tuple(sorted(strip.cuts)), 1))
        return strips

    def _solve_rest(self, pool: Pool, left: Counts, sparing: Sparing) -> tuple[float, Prices]:
        """The least length for what is left, and how often each strip of the pool would be cut.

        First the strips that pay are taken in. What a strip gives beyond what is left counts for nothing.
        """
        self._rounds += 1
        programme = Programme(left)
        programme.add(
            self._spared(pool.rows, pool.crosscuts, sparing),
            self._gives(pool.rows, pool.crosscuts, left),
        )
        least, times, prices = programme.solve()
        if math.isinf(least):
            return least, times
        for _ in range(ROUNDS_IN_A_DIVE):
            self._rounds += 1
            rows, _, crosscuts = self._pricing.best_strips(
                prices, left, True, sparing.worth, sparing.allowed, sparing.heights
            )
            pieces = self._gives(rows, crosscuts, left)
            costs = self._spared(rows, crosscuts, sparing)
            paying = np.flatnonzero(pieces @ prices > costs * (1 + PAYS))
            new = paying[pool.take_in(rows[paying], crosscuts[paying])]
            if not len(new):
                break
            programme.add(costs[new], pieces[new])
            least, times, prices = programme.solve()
        return least, times

    def _spared(self, rows: Counts, crosscuts: Counts, sparing: Sparing) -> Prices:
        """What strips count for: their length, and what is spared of crosscuts."""
        costs = self._costs[rows].astype(np.float64)
        return costs if sparing.worth is None else costs + (crosscuts * sparing.worth[rows]).sum(axis=1)

    def _pieces(self, rows: Counts, crosscuts: Counts) -> Counts:
        """What strips give of each size."""
        pieces: Counts = (crosscuts * self._pricing.stacks[rows]) @ self._size_of_way
        return pieces

    def _gives(self, rows: Counts, crosscuts: Counts, left: Counts) -> Counts:
        """What strips give of what is left; nothing from beyond the ruler without a piece as tall."""
        pieces = np.minimum(self._pieces(rows, crosscuts), left)
        tall_and_left = self._pricing.tall_ways & (left[self._pricing.size_of] > 0)
        pieces[self._pricing.tall_rows[rows] & ~crosscuts[:, tall_and_left].any(axis=1)] = 0
        return pieces

    def _as_arrays(self, strips: Sequence[Strip]) -> tuple[Counts, Counts]:
        rows = np.searchsorted(self._heights, [strip.height for strip in strips])
        crosscuts = np.zeros((len(strips), len(self.task.ways)), dtype=np.int64)
        for number, strip in enumerate(strips):
            for cut in strip.cuts:
                crosscuts[number, cut.way] += cut.crosscuts
        return rows.astype(np.int64), crosscuts

    def _strip(self, row: int, crosscuts: Counts, times: int) -> Strip:
        stacks = self._pricing.stacks[row]
        ways = np.flatnonzero(crosscuts).tolist()
        return Strip(
            int(self._heights[row]),
            tuple(Cut(way, int(crosscuts[way]), int(stacks[way])) for way in ways),
            times,
        )
