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

# More marks than this across the cloth are priced in cells: widths rounded up, so that strips still fit.
MOST_CELLS = 1300


class Pricing:
    """The knapsack for one task; its tables are kept, since it is asked many times.

    `stacks[h, w]` is the number of pieces of way `w` above each other in a strip of height number `h`.
    `exact` says whether widths are priced as they are, `effort` how many sweeps over its table were made.
    """

    def __init__(self, task: CutList) -> None:
        self.heights = np.array(task.heights, dtype=np.int64)
        self.way_heights = np.array([way.height for way in task.ways], dtype=np.int64)
        self.size_of = np.array([way.size for way in task.ways], dtype=np.int64)
        self.stacks: Counts = self.heights[:, None] // self.way_heights[None, :]
        self.first_height = np.searchsorted(self.heights, self.way_heights)
        self.exact, self.cells, self.way_cells = _in_cells(task)
        self.effort = 0
        self._worth = np.zeros((len(self.heights), self.cells + 1), dtype=np.float32)
        self._spare = np.zeros_like(self._worth)

    def best_strips(self, prices: Prices, left: Counts, clip: bool) -> tuple[Prices, Counts]:
        """For each height the worth of the best strip and its crosscuts of each way.

        With `clip`, pieces beyond those still `left` are worth nothing; without it, the worth is never
        below that of the best strip.
        """
        worth = self._worth
        worth[:] = 0
        doublings = self._doublings(prices, left)
        self.effort += len(doublings)
        taken = np.zeros((len(doublings), *worth.shape), dtype=bool)
        for number, (way, before, times) in enumerate(doublings):
            low, reach = self.first_height[way], int(self.way_cells[way]) * times
            pieces = self.stacks[low:, way] * times
            if clip:
                still = left[self.size_of[way]] - self.stacks[low:, way] * before
                pieces = np.minimum(np.maximum(still, 0), pieces)
            gain = (pieces * prices[self.size_of[way]]).astype(np.float32)
            here, there = worth[low:, reach:], self._spare[low:, reach:]
            np.add(worth[low:, : self.cells + 1 - reach], gain[:, None], out=there)
            np.greater(there, here, out=taken[number, low:, reach:])
            np.maximum(here, there, out=here)
        return worth[:, self.cells].astype(np.float64), self._traced(doublings, taken)

    def _doublings(self, prices: Prices, left: Counts) -> list[tuple[int, int, int]]:
        """(way, crosscuts before, crosscuts): 1, 2, 4 and so on, up to what fits or is still wanted."""
        found = []
        for way, cells in enumerate(self.way_cells):
            size = self.size_of[way]
            if prices[size] <= 0:
                continue
            most, before = min(self.cells // int(cells), int(left[size])), 0
            while before < most:
                times = min(before + 1, most - before)
                found.append((way, before, times))
                before += times
        return found

    def _traced(self, doublings: list[tuple[int, int, int]], taken: NDArray[np.bool_]) -> Counts:
        rows = np.arange(len(self.heights))
        at = np.full(len(rows), self.cells)
        crosscuts = np.zeros((len(rows), len(self.way_cells)), dtype=np.int64)
        for number in range(len(doublings) - 1, -1, -1):
            way, _, times = doublings[number]
            took = taken[number, rows, at]
            crosscuts[:, way] += took * times
            at -= took * (int(self.way_cells[way]) * times)
        return crosscuts


def _in_cells(task: CutList) -> tuple[bool, int, list[int]]:
    common = math.gcd(*(way.width for way in task.ways))
    width = task.width // common
    if width <= MOST_CELLS:
        return True, width, [way.width // common for way in task.ways]
    cell = -(-task.width // MOST_CELLS)
    return False, task.width // cell, [-(-way.width // cell) for way in task.ways]
