"""Mixed strips by column generation: a bound, a dive to whole strips, and a search around what it finds.

The linear programme over all possible strips is solved by making only the strips that pay (Gilmore and
Gomory, Operations Research 9, 1961). Its bound is Farley's (Operations Research 38, 1990): prices divided
by the best worth per length of any strip are fair prices. The dive rounds down, counts only what is still
wanted of each strip, makes new strips for the rest, and goes on. Effort is counted in rounds and never in
seconds, so that layouts repeat.
"""

from __future__ import annotations

import math
import random
from collections.abc import Iterator, Sequence

import numpy as np

from piecewright.cutting.marks import Cut, CutList, Strip
from piecewright.cutting.pricing import Counts, Prices, Pricing
from piecewright.cutting.programme import Programme
from piecewright.cutting.settling import merged, pieces_of, settled

MOST_ROUNDS = 80
ROUNDS_IN_A_DIVE = 4
SEARCHES = 10
# No search is begun after so many sweeps of the knapsack: about a tenth of a second.
MOST_EFFORT = 3000
# How many strips a search takes out to lay them anew.
TAKEN_OUT = (5, 13)
# What a strip must be worth above its length to be taken in, as a share; the knapsack counts in 24 bits.
PAYS = 1e-5


class Mixing:
    """Mixed layouts for one task.

    `starts` are layouts to begin with, of which one at least holds every size. After it is made, `bound`
    is a length in marks below which there is no layout of this kind.
    """

    def __init__(self, task: CutList, starts: Sequence[Sequence[Strip]]) -> None:
        self.task = task
        self._pricing = Pricing(task)
        self._heights = self._pricing.heights
        self._size_of_way = np.zeros((len(task.ways), len(task.counts)), dtype=np.int64)
        self._size_of_way[np.arange(len(task.ways)), self._pricing.size_of] = 1
        self._near = _Pool(len(task.ways))
        self.bound = self._root(starts)

    def layouts(self) -> Iterator[list[Strip]]:
        """Layouts, each shorter than those before; whoever asks may stop when one is good enough."""
        best = self._dive(np.array(self.task.counts, dtype=np.int64))
        yield best
        chance = random.Random(0)
        for _ in range(SEARCHES):
            if self._pricing.effort > MOST_EFFORT:
                return
            kept, out = _taken_out(best, chance)
            left = np.zeros(len(self.task.counts), dtype=np.int64)
            for strip in out:
                for size, pieces in pieces_of(self.task, strip.cuts).items():
                    left[size] += pieces * strip.times
            anew = self._dive(left)
            if length(anew) <= length(out):
                shorter = length(anew) < length(out)
                best = merged([*kept, *anew])
                if shorter:
                    yield best

    def _root(self, starts: Sequence[Sequence[Strip]]) -> int:
        """Makes strips until none pays; keeps those that are worth their length or nearly; the bound."""
        wanted = np.array(self.task.counts, dtype=np.int64)
        pool, programme, bound = _Pool(len(self.task.ways)), Programme(wanted), 0.0
        for start in starts:
            pool.take_in(*self._as_arrays(start))
        programme.add(self._heights[pool.rows], self._pieces(pool.rows, pool.crosscuts))
        least, _, prices = programme.solve()
        for _ in range(MOST_ROUNDS):
            worth, crosscuts = self._pricing.best_strips(prices, wanted, clip=False)
            bound = max(bound, least / float((worth / self._heights).max()))
            paying = np.flatnonzero(worth > self._heights * (1 + PAYS))
            new = paying[pool.take_in(paying, crosscuts[paying])]
            if not len(new) or math.ceil(bound) >= least:
                break
            programme.add(self._heights[new], self._pieces(new, crosscuts[new]))
            least, _, prices = programme.solve()
        lengths = self._heights[pool.rows]
        near = lengths - self._pieces(pool.rows, pool.crosscuts) @ prices <= 0.02 * lengths
        self._near.take_in(pool.rows[near], pool.crosscuts[near])
        return math.ceil(bound * (1 - PAYS)) if self._pricing.exact else 0

    def _dive(self, left: Counts) -> list[Strip]:
        """Whole strips for what is left, fixed a few at a time."""
        counts, chosen = left.tolist(), []
        pool = _Pool(len(self.task.ways))
        pool.take_in(self._near.rows, self._near.crosscuts)
        while left.any():
            times = self._solve_rest(pool, left)
            gives = self._pieces(pool.rows, pool.crosscuts)
            take = np.floor(times + 1e-6).astype(np.int64)
            if not take.any():
                useful = (np.minimum(gives, left) > 0).any(axis=1)
                take[int(np.argmax(np.where(useful, times, -1.0)))] = 1
            for strip in np.flatnonzero(take).tolist():
                chosen.append(self._strip(int(pool.rows[strip]), pool.crosscuts[strip], int(take[strip])))
            left = np.maximum(left - take @ gives, 0)
        return settled(self.task, chosen, counts)

    def _solve_rest(self, pool: _Pool, left: Counts) -> Prices:
        """How often each strip of the pool would be cut, after taking in those that pay for what is left.

        What a strip gives beyond what is left counts for nothing.
        """
        programme, every = Programme(left), np.arange(len(self._heights))
        programme.add(self._heights[pool.rows], np.minimum(self._pieces(pool.rows, pool.crosscuts), left))
        _, times, prices = programme.solve()
        for _ in range(ROUNDS_IN_A_DIVE):
            _, crosscuts = self._pricing.best_strips(prices, left, clip=True)
            pieces = np.minimum(self._pieces(every, crosscuts), left)
            paying = np.flatnonzero(pieces @ prices > self._heights * (1 + PAYS))
            new = paying[pool.take_in(paying, crosscuts[paying])]
            if not len(new):
                break
            programme.add(self._heights[new], pieces[new])
            _, times, prices = programme.solve()
        return times

    def _pieces(self, rows: Counts, crosscuts: Counts) -> Counts:
        """What strips give of each size."""
        pieces: Counts = (crosscuts * self._pricing.stacks[rows]) @ self._size_of_way
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


class _Pool:
    """Strips made so far: the number of the height, the crosscuts of each way; no two alike."""

    def __init__(self, ways: int) -> None:
        self.rows: Counts = np.zeros(0, dtype=np.int64)
        self.crosscuts: Counts = np.zeros((0, ways), dtype=np.int64)
        self._seen: set[tuple[int, bytes]] = set()

    def take_in(self, rows: Counts, crosscuts: Counts) -> Counts:
        """Takes in strips that are new and not empty; gives their positions in what came."""
        new = []
        for position, (row, counts) in enumerate(zip(rows.tolist(), crosscuts, strict=True)):
            key = (row, counts.tobytes())
            if key not in self._seen and counts.any():
                self._seen.add(key)
                new.append(position)
        self.rows = np.concatenate([self.rows, rows[new]])
        self.crosscuts = np.concatenate([self.crosscuts, crosscuts[new]])
        return np.array(new, dtype=np.int64)


def length(strips: Sequence[Strip]) -> int:
    """The length of cloth that strips take, in marks."""
    return sum(strip.height * strip.times for strip in strips)


def _taken_out(strips: Sequence[Strip], chance: random.Random) -> tuple[list[Strip], list[Strip]]:
    """Strips that stay, and some single strips taken out by chance."""
    amount = min(chance.randint(*TAKEN_OUT), sum(strip.times for strip in strips))
    taken = [0] * len(strips)
    while sum(taken) < amount:
        number = chance.randrange(len(strips))
        taken[number] += taken[number] < strips[number].times
    pairs = list(zip(strips, taken, strict=True))
    kept = [strip._replace(times=strip.times - out) for strip, out in pairs if strip.times > out]
    return kept, [strip._replace(times=out) for strip, out in pairs if out]
