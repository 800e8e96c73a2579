"""A small integer programme for HiGHS, told in terms: a number, and columns with factors.

One model is solved for one objective after another: what an earlier one came to is kept as a limit.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

import highspy
import numpy as np

from piecewright.problems import Problem, Refused
from piecewright.solver import QuietSolver

MOST_NODES = 20_000
"""So many branches are looked at for one answer; then the best so far is taken, and its bound told."""

SLACK = 1e-6


@dataclass(frozen=True)
class Term:
    """A number plus columns, each with its factor."""

    number: float = 0.0
    columns: tuple[tuple[int, float], ...] = ()

    def __add__(self, other: Term) -> Term:
        return Term(self.number + other.number, self.columns + other.columns)

    def times(self, factor: float) -> Term:
        """The term taken so many times."""
        return Term(self.number * factor, tuple((c, f * factor) for c, f in self.columns))

    def __sub__(self, other: Term) -> Term:
        return self + other.times(-1.0)

    @property
    def negated(self) -> Term:
        """One less the term: no for yes."""
        return Term(1.0) - self


@dataclass(frozen=True)
class Solved:
    """The value of each column; what it costs, and what no answer can cost less than."""

    values: tuple[float, ...]
    cost: float
    bound: float

    def yes(self, term: Term) -> bool:
        """Whether a yes-or-no term is a yes."""
        return term.number + sum(f * self.values[c] for c, f in term.columns) > 0.5


@dataclass
class Model:
    """Columns from 0 to 1 and rows that hold sums of them to at most a number."""

    whole: list[bool] = field(default_factory=list)
    rows: list[tuple[tuple[tuple[int, float], ...], float]] = field(default_factory=list)

    def yes_or_no(self) -> Term:
        """A new column that is 0 or 1."""
        return self._column(True)

    def share(self) -> Term:
        """A new column from 0 to 1, which comes out whole where the others are."""
        return self._column(False)

    def _column(self, whole: bool) -> Term:
        self.whole.append(whole)
        return Term(0.0, ((len(self.whole) - 1, 1.0),))

    def at_most(self, term: Term, number: float) -> None:
        """Holds a term to at most a number."""
        merged: dict[int, float] = {}
        for column, factor in term.columns:
            merged[column] = merged.get(column, 0.0) + factor
        self.rows.append((tuple(merged.items()), number - term.number))

    def least(self, objective: Term, start: Sequence[float] | None = None) -> Solved | None:
        """The answer that costs least, or None where there is none; `start` is an answer to begin with."""
        solver: Any = QuietSolver(mip_rel_gap=0.0, mip_max_nodes=MOST_NODES)
        count = len(self.whole)
        solver.addVars(count, np.zeros(count), np.ones(count))
        whole = np.flatnonzero(self.whole).astype(np.int32)
        if len(whole):
            solver.changeColsIntegrality(len(whole), whole, np.full(len(whole), 1, dtype=np.uint8))
        costs = np.zeros(count)
        for column, factor in objective.columns:
            costs[column] += factor
        solver.changeColsCost(count, np.arange(count, dtype=np.int32), costs)
        self._add_rows(solver)
        if start is not None:
            solution = highspy.HighsSolution()
            solution.col_value = list(start)
            solver.setSolution(solution)
        solver.run()
        return self._solved(solver, objective.number, bool(len(whole)))

    def _add_rows(self, solver: Any) -> None:
        starts = np.cumsum([0, *(len(columns) for columns, _ in self.rows)])[:-1].astype(np.int32)
        indices = np.array([c for columns, _ in self.rows for c, _ in columns], dtype=np.int32)
        factors = np.array([f for columns, _ in self.rows for _, f in columns], dtype=float)
        upper = np.array([number for _, number in self.rows], dtype=float)
        lower = np.full(len(self.rows), -highspy.kHighsInf)
        if self.rows:
            solver.addRows(len(self.rows), lower, upper, len(indices), starts, indices, factors)

    def _solved(self, solver: Any, number: float, mixed: bool) -> Solved | None:
        status, info = solver.getModelStatus(), solver.getInfo()
        if status == highspy.HighsModelStatus.kInfeasible:
            return None
        if info.primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
            what = f"no pressing plan was found ({solver.modelStatusToString(status)})"
            raise Refused(Problem(what, do="Report this with the quilt file."))
        cost = info.objective_function_value
        bound = info.mip_dual_bound if mixed else cost
        return Solved(tuple(solver.getSolution().col_value), cost + number, bound + number)


def summed(parts: Sequence[tuple[Term, float]]) -> Term:
    """The sum of terms, each taken so many times."""
    number, columns = 0.0, []
    for term, weight in parts:
        number += term.number * weight
        columns += [(column, factor * weight) for column, factor in term.columns]
    return Term(number, tuple(columns))
