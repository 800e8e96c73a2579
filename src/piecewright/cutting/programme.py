"""The linear programme over the strips made so far, solved by HiGHS on one thread with a fixed seed."""

from __future__ import annotations

import math
from typing import Any

import highspy
import numpy as np

from piecewright.cutting.pricing import Counts, Prices
from piecewright.solver import QuietSolver

LARGEST = 1e5


class Programme:
    """Least length of strips that give all pieces still `left`; strips may be cut a fraction of a time."""

    def __init__(self, left: Counts) -> None:
        self._solver: Any = QuietSolver(presolve="off", solver="simplex")
        nothing = np.zeros(0, dtype=np.int32)
        no_limit = np.full(len(left), highspy.kHighsInf)
        self._scale = 0.0
        self._solver.addRows(len(left), left.astype(float), no_limit, 0, nothing, nothing, np.zeros(0))

    def add(self, lengths: Counts | Prices, pieces: Counts) -> None:
        """Adds strips: their heights and, a row for each strip, what they give of each size."""
        if not self._scale:
            # Marks may be very fine; the solver wants figures of a middling size.
            self._scale = max(1.0, float(lengths.max()) / LARGEST) if len(lengths) else 0.0
        strips, sizes = np.nonzero(pieces)
        begins = np.searchsorted(strips, np.arange(len(lengths))).astype(np.int32)
        none, no_limit = np.zeros(len(lengths)), np.full(len(lengths), highspy.kHighsInf)
        entries = (len(strips), begins, sizes.astype(np.int32), pieces[strips, sizes].astype(float))
        self._solver.addCols(len(lengths), lengths / (self._scale or 1.0), none, no_limit, *entries)

    def solve(self) -> tuple[float, Prices, Prices]:
        """The least length, how often each strip is cut, and the price of a piece of each size.

        The length is infinite where the strips do not give all that is left.
        """
        self._solver.run()
        solution = self._solver.getSolution()
        scale = self._scale or 1.0
        least = float(self._solver.getInfo().objective_function_value) * scale
        if self._solver.getModelStatus() != highspy.HighsModelStatus.kOptimal:
            least = math.inf
        return least, np.array(solution.col_value), np.maximum(np.array(solution.row_dual), 0.0) * scale
