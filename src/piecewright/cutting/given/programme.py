"""The linear programme over cut pieces of cloth: every piece of the quilt is there, no cloth is used twice.

What cannot be had at all is *missing*, at a price above any cloth, so that there is always an answer.
"""

from __future__ import annotations

from typing import Any, NamedTuple

import highspy
import numpy as np

from piecewright.cutting.pricing import Counts, Prices
from piecewright.solver import QuietSolver


class Solved(NamedTuple):
    """The least cost, how often each column is cut, and the prices of pieces and of cloth."""

    cost: float
    times: Prices
    prices: Prices
    cloth_prices: Prices


class GivenProgramme:
    """Least cost of the pieces still `left` from what each kind of cloth still has (`limits`)."""

    def __init__(self, left: Counts, limits: Prices, missing: Prices) -> None:
        self._solver: Any = QuietSolver(presolve="off", solver="simplex")
        self._sizes, none = len(left), np.zeros(0, dtype=np.int32)
        least = np.concatenate([left.astype(float), np.full(len(limits), -highspy.kHighsInf)])
        most = np.concatenate([np.full(len(left), highspy.kHighsInf), limits])
        self._solver.addRows(len(least), least, most, 0, none, none, np.zeros(0))
        every = np.arange(self._sizes, dtype=np.int32)
        self._columns(missing, every, every, np.ones(self._sizes))

    def add(self, costs: Prices, pieces: Counts, kinds: Counts, amounts: Counts) -> None:
        """Adds columns: what each costs, gives of each size, and takes of which kind of cloth."""
        entries = np.hstack([pieces, np.zeros((len(costs), int(kinds.max(initial=0)) + 1), dtype=np.int64)])
        entries[np.arange(len(costs)), self._sizes + kinds] = amounts
        columns, rows = np.nonzero(entries)
        begins = np.searchsorted(columns, np.arange(len(costs))).astype(np.int32)
        self._columns(costs, begins, rows.astype(np.int32), entries[columns, rows].astype(float))

    def _columns(self, costs: Prices, begins: Any, rows: Any, values: Prices) -> None:
        none, no_limit = np.zeros(len(costs)), np.full(len(costs), highspy.kHighsInf)
        self._solver.addCols(len(costs), costs, none, no_limit, len(rows), begins, rows, values)

    def solve(self) -> Solved:
        """The answer; columns in the order in which they were added."""
        self._solver.run()
        solution = self._solver.getSolution()
        duals = np.array(solution.row_dual)
        return Solved(
            float(self._solver.getInfo().objective_function_value),
            np.array(solution.col_value)[self._sizes :],
            np.maximum(duals[: self._sizes], 0.0),
            np.minimum(duals[self._sizes :], 0.0),
        )
