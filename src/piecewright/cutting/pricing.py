"""Which strip is worth most, when every piece has a price: one bounded knapsack for all strip heights.

Gilmore and Gomory, Operations Research 13 (1965), price two-stage patterns in this way. Here each
section may hold a stack, so a price is multiplied by the pieces of a stack. Running time: heights x
usable width in marks x the number of doublings of each way; all heights are priced in the same sweep.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from piecewright.cutting.marks import CutList

Counts = NDArray[np.int64]
Prices = NDArray[np.float64]
Allowed = NDArray[np.bool_]

# More marks than this across the cloth are priced in cells: widths rounded up, so that strips still fit. For
# the bound there are more cells, up to so many in all heights together, and widths are rounded down.
MOST_CELLS = 1300
CELLS_FOR_A_BOUND, IN_ALL_HEIGHTS = 6000, 240_000
# Pieces beyond the ruler are never priced at nothing, since a strip as high must hold one.
LEAST_PRICE = 1e-6


class Pricing:
    """The knapsack for one task; its tables are kept, since it is asked many times.

    `stacks[h, w]` is the number of pieces of way `w` above each other in a strip of height number `h`,
    `costs[h]` what such a strip takes of the length. `exact` says whether widths are priced as they are,
    `effort` how many thousand entries of the tables were filled. `for_bound`, no strip is priced too low;
    strips may then be too wide.
    """

    def __init__(self, task: CutList, for_bound: bool = False) -> None:
        self.heights = np.array(task.heights, dtype=np.int64)
        self.costs: Counts = self.heights + task.squaring
        self.way_heights = np.array([way.height for way in task.ways], dtype=np.int64)
        self.size_of = np.array([way.size for way in task.ways], dtype=np.int64)
        fit: Counts = self.heights[:, None] // self.way_heights[None, :]
        self.stacks: Counts = fit if task.cuts.stacks else np.minimum(fit, 1)
        self.trims: Counts = (self.stacks * self.way_heights < self.heights[:, None]).astype(np.int64)
        self._fills: Allowed = self.stacks * self.way_heights == self.heights[:, None]
        self.low_rows: Allowed = (self._fills & (self.stacks == 1)).any(axis=1)
        self.first_height = np.searchsorted(self.heights, self.way_heights)
        self.exact, self.cells, self.way_cells = _in_cells(task, for_bound)
        self.effort = 0
        self.tall_rows = np.array([task.tall(height) for height in task.heights])
        self.tall_ways = np.array([task.tall(way.height) for way in task.ways])
        self._tall_sizes = np.zeros(len(task.counts))
        self._tall_sizes[self.size_of[self.tall_ways]] = 1.0
        self._worth = np.zeros((len(self.heights), self.cells + 1), dtype=np.float32)
        self._spare = np.zeros_like(self._worth)

    def best_strips(
        self,
        prices: Prices,
        left: Counts,
        clip: bool,
        spared: Prices | None = None,
        allowed: Allowed | None = None,
        heights: Allowed | None = None,
    ) -> tuple[Counts, Prices, Counts]:
        """The heights by number that pay at all, the worth of the best strip of each, and its crosscuts.

        A strip beyond the ruler holds at least one piece as tall, or is worth nothing. With `clip`, pieces
        beyond those still `left` are worth nothing; without it, the worth is never below that of the best
        strip. A crosscut of way `w` from height `h` is worth `spared[h, w]` less; where `allowed[h, w]` is
        false, the way is not cut from that height; of `heights`, where given, others are left out.
        """
        prices = np.maximum(prices, self._tall_sizes * LEAST_PRICE)
        priced = (prices[self.size_of] > 0) & (left[self.size_of] > 0)
        filled = (self._fills & priced).any(axis=1)
        rows = np.flatnonzero(filled if heights is None else filled & heights)
        worth, spare = self._worth[: len(rows)], self._spare[: len(rows)]
        worth[:] = 0
        doublings = self._doublings(priced, left) if len(rows) else []
        if not doublings:
            return rows[:0], np.zeros(0), np.zeros((0, len(self.way_cells)), dtype=np.int64)
        tall_ones = sum(bool(self.tall_ways[way]) for way, _, _ in doublings)
        self.effort += len(doublings) * worth.size // 1000
        taken = np.zeros((len(doublings), *worth.shape), dtype=bool)
        gains = self._gains(rows, doublings, prices, left, clip, spared)
        if allowed is not None:
            gains[~allowed[rows][:, [way for way, _, _ in doublings]]] = -1.0
        for number, (way, _, times) in enumerate(doublings):
            if number == tall_ones:
                worth[(worth == 0) & self.tall_rows[rows][:, None]] = -np.inf
            low, reach = np.searchsorted(rows, self.first_height[way]), self.way_cells[way] * times
            here, there = worth[low:, reach:], spare[low:, reach:]
            np.add(worth[low:, : self.cells + 1 - reach], gains[low:, number, None], out=there)
            np.greater(there, here, out=taken[number, low:, reach:])
            np.maximum(here, there, out=here)
        return rows, worth[:, self.cells].astype(np.float64), self._traced(doublings, taken)

    def one_way_strips(self, allowed: Allowed) -> tuple[Counts, Counts]:
        """The strips of one way alone, from every height where it is allowed."""
        rows, ways = np.nonzero(allowed)
        crosscuts = np.zeros((len(rows), len(self.way_cells)), dtype=np.int64)
        crosscuts[np.arange(len(rows)), ways] = self.cells // np.array(self.way_cells)[ways]
        return rows, crosscuts

    def _gains(
        self,
        rows: Counts,
        doublings: list[tuple[int, int, int]],
        prices: Prices,
        left: Counts,
        clip: bool,
        spared: Prices | None,
    ) -> NDArray[np.float32]:
        """What each doubling adds to a strip of each height."""
        ways, before, times = (np.array(column, dtype=np.int64) for column in zip(*doublings, strict=True))
        stacks = self.stacks[rows][:, ways]
        pieces = stacks * times
        if clip:
            pieces = np.minimum(np.maximum(left[self.size_of[ways]] - stacks * before, 0), pieces)
        gains = pieces * prices[self.size_of[ways]]
        if spared is not None:
            gains = gains - times * spared[rows][:, ways]
        return gains.astype(np.float32)

    def _doublings(self, priced: Allowed, left: Counts) -> list[tuple[int, int, int]]:
        """(way, crosscuts before, crosscuts): 1, 2, 4 and so on, up to what fits or is still wanted.

        Pieces beyond the ruler come first: a strip as high must hold one of them.
        """
        found = []
        for way in np.argsort(~self.tall_ways, kind="stable").tolist():
            size, cells = self.size_of[way], self.way_cells[way]
            if not priced[way]:
                continue
            most, before = min(self.cells // cells, int(left[size])), 0
            while before < most:
                times = min(before + 1, most - before)
                found.append((way, before, times))
                before += times
        return found

    def _traced(self, doublings: list[tuple[int, int, int]], taken: Allowed) -> Counts:
        rows = np.arange(taken.shape[1])
        at = np.full(len(rows), self.cells)
        crosscuts = np.zeros((len(rows), len(self.way_cells)), dtype=np.int64)
        for number in range(len(doublings) - 1, -1, -1):
            way, _, times = doublings[number]
            took = taken[number, rows, at]
            crosscuts[:, way] += took * times
            at -= took * (int(self.way_cells[way]) * times)
        return crosscuts


def _in_cells(task: CutList, for_bound: bool) -> tuple[bool, int, list[int]]:
    common = math.gcd(*(way.width for way in task.ways))
    width, most = task.width // common, MOST_CELLS
    if for_bound:
        most = max(most, min(CELLS_FOR_A_BOUND, IN_ALL_HEIGHTS // len(task.heights)))
    if width <= most:
        return True, width, [way.width // common for way in task.ways]
    cell = -(-task.width // most)
    up = 0 if for_bound else cell - 1
    return False, task.width // cell, [(way.width + up) // cell for way in task.ways]
