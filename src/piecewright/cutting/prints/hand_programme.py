"""Which prints on hand to take, and what is cut from each: a programme over shares of all stocks.

Shares that pay at the prices of the fractional answer are added, round by round; then whole prints are
taken: nothing lacking first, then as many prints as wished or the fewest, then the least cloth cut into.
"""

from __future__ import annotations

import random
from collections.abc import Sequence
from typing import Any, NamedTuple

import highspy
import numpy as np

from piecewright.cutting.pricing import Counts, Prices
from piecewright.cutting.prints.stock import HandShare, Stock
from piecewright.solver import QuietSolver

ROUNDS = 15
# Shares are made at so many prices near the last ones too: whole prints need other shares than parts of them.
SWAYED = 6
MOST_NODES = 1_500
GAP = 1e-9
# Against the area of all pieces: a piece that is lacking, and a print that is not taken or is too many.
LACKING, A_PRINT = 1000.0, 10.0


class Taken(NamedTuple):
    """The shares that are taken, with the number of their stock; what is lacking of each size."""

    shares: tuple[tuple[int, HandShare], ...]
    lacking: Counts


def take_shares(
    stocks: Sequence[Stock], wanted: Counts, most: Counts, together: Counts, prints: int | None
) -> Taken:
    """The best shares with at most so many pieces of each size from one print, in whole sets."""
    if not stocks:
        return Taken((), wanted.copy())
    programme = _HandProgramme(stocks, wanted, together, prints)
    small = [np.where(np.arange(len(most)) == size, together, 0) for size in range(len(most))]
    for number, stock in enumerate(stocks):
        for size in range(len(most)):
            alone = np.where(np.arange(len(most)) == size, 1.0, 0.0)
            for limit in (most, np.minimum(small[size], most)):
                programme.add(number, stock.share(alone, limit))
        programme.add(number, stock.share(stock.task.areas.astype(float), most))
    prices = np.ones(len(most))
    for _ in range(ROUNDS):
        prices, worths = programme.prices()
        before = programme.count
        for number, stock in enumerate(stocks):
            share = stock.share(prices, most)
            if share is not None and programme.value(share, prices) > worths[number] + 1e-7:
                programme.add(number, share)
        if programme.count == before:
            break
    chance = random.Random(0)
    for _ in range(SWAYED):
        swayed = prices * np.array([chance.uniform(0.5, 1.5) for _ in prices])
        for number, stock in enumerate(stocks):
            programme.add(number, stock.share(swayed, most))
    return programme.whole()


class _HandProgramme:
    def __init__(self, stocks: Sequence[Stock], wanted: Counts, together: Counts, prints: int | None) -> None:
        self._stocks, self._wanted, self._together, self._prints = stocks, wanted, together, prints
        self._sets = -(-wanted // together)
        areas = stocks[0].task.areas * float(stocks[0].task.mark) ** 2 * together
        self._areas: Prices = areas.astype(np.float64)
        self._whole = float(self._areas @ self._sets) or 1.0
        self._seen: set[tuple[int, tuple[int, ...]]] = set()
        self.shares: list[tuple[int, HandShare]] = []

    @property
    def count(self) -> int:
        """How many shares there are to take from."""
        return len(self.shares)

    def add(self, stock: int, share: HandShare | None) -> None:
        """Adds a share that is new and gives a whole set of anything."""
        if share is None or not self.sets(share).any():
            return
        if (stock, share.pieces) not in self._seen:
            self._seen.add((stock, share.pieces))
            self.shares.append((stock, share))

    def sets(self, share: HandShare) -> Counts:
        """The whole sets that a share gives."""
        return np.array(share.pieces, dtype=np.int64) // self._together

    def value(self, share: HandShare, prices: Prices) -> float:
        """What a share is worth, less its own cost."""
        return float(self.sets(share) @ (prices * self._together)) - self._cost(share)

    def prices(self) -> tuple[Prices, Prices]:
        """Of the fractional answer: what a piece of each size is worth, and a print of each stock."""
        solver = self._solver(integer=False)
        solver.run()
        duals = np.array(solver.getSolution().row_dual)
        sizes, stocks = len(self._wanted), len(self._stocks)
        all_prints = float(duals[sizes + stocks])
        worths = -np.minimum(duals[sizes : sizes + stocks], 0.0) - all_prints
        return np.maximum(duals[:sizes], 0.0) / self._together, worths

    def whole(self) -> Taken:
        """The answer in whole prints."""
        solver = self._solver(integer=True)
        solver.run()
        values = solver.getSolution().col_value
        taken = [one for k, one in enumerate(self.shares) for _ in range(round(values[k]))]
        got = sum((self.sets(share) for _, share in taken), np.zeros_like(self._sets))
        lacking = np.maximum(self._wanted - got * self._together, 0)
        return Taken(tuple(taken), lacking)

    def _cost(self, share: HandShare) -> float:
        print_cost = A_PRINT * self._whole if self._prints is None else 0.0
        return share.area + print_cost

    def _solver(self, integer: bool) -> Any:
        """Rows: sizes, stocks, all prints. Columns: shares, what is lacking, prints that are lacking."""
        solver: Any = QuietSolver(mip_rel_gap=GAP, mip_abs_gap=GAP, mip_max_nodes=MOST_NODES)
        shares, sizes, stocks = self.count, len(self._sets), len(self._stocks)
        count = shares + sizes + 1
        lacking = self._areas * LACKING
        cost = [*(self._cost(share) for _, share in self.shares), *lacking, A_PRINT * self._whole]
        number_of = [float(len(self._stocks[stock].prints)) for stock, _ in self.shares]
        upper = np.array([*number_of, *self._sets.astype(float), float(self._prints or 0)])
        every = np.arange(count, dtype=np.int32)
        solver.addVars(count, np.zeros(count), upper)
        solver.changeColsCost(count, every, np.array(cost))
        if integer:
            solver.changeColsIntegrality(count, every, np.full(count, highspy.HighsVarType.kInteger))
        table = np.array([self.sets(share) for _, share in self.shares], dtype=float).reshape(shares, sizes)
        for size in range(sizes):
            columns = [*np.flatnonzero(table[:, size]).tolist(), shares + size]
            self._row(
                solver, float(self._sets[size]), highspy.kHighsInf, columns, [*table[columns[:-1], size], 1.0]
            )
        for stock in range(stocks):
            own = [k for k, (number, _) in enumerate(self.shares) if number == stock]
            most = float(len(self._stocks[stock].prints))
            self._row(solver, -highspy.kHighsInf, most, own, [1.0] * len(own))
        least, most = (float(self._prints),) * 2 if self._prints is not None else (0.0, highspy.kHighsInf)
        columns = [*range(shares), count - 1]
        self._row(solver, least, most, columns, [1.0] * len(columns))
        return solver

    @staticmethod
    def _row(solver: Any, least: float, most: float, columns: Sequence[int], values: Sequence[float]) -> None:
        solver.addRow(least, most, len(columns), np.array(columns, dtype=np.int32), np.array(values))
