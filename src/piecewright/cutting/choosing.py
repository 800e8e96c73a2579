"""The shortest choice among strips that a search made: a small integer programme.

A search lays a few strips anew at a time and keeps the rest; here all strips are chosen at once, out of those
that were made so far. Solved by HiGHS on one thread, up to so many nodes, so that choices repeat.
"""

from __future__ import annotations

from typing import Any

import highspy
import numpy as np

from piecewright.cutting.marks import Strip
from piecewright.cutting.mixing import Mixing
from piecewright.cutting.pricing import Counts
from piecewright.cutting.settling import merged, pieces_of, settled
from piecewright.solver import QuietSolver

# So many strips are chosen from, those that lose least cloth at fair prices, in so many nodes.
MOST_STRIPS, MOST_NODES = 90, 60
# What a step of the simplex method counts for beside the tables of the knapsack.
EFFORT_OF_A_STEP = 50
NOTHING = np.zeros(0, dtype=np.int32)


def shorter_choice(mixing: Mixing, than: list[Strip]) -> list[Strip] | None:
    """Strips chosen anew that take less length than the ones there are; None where none were found."""
    task = mixing.task
    strips, gives = _fair(mixing)
    lengths = np.array([strip.height + task.squaring for strip in strips], dtype=np.int64)
    solver: Any = QuietSolver(
        mip_max_nodes=MOST_NODES, mip_abs_gap=0.999, objective_target=float(mixing.bound)
    )
    _rows(solver, np.array(task.counts, dtype=float), np.inf)
    _rows(solver, np.array([-np.inf]), float(task.length(than) - 1))
    _whole_columns(solver, lengths, np.hstack([gives, lengths[:, None]]))
    solver.run()
    info = solver.getInfo()
    mixing.spend(EFFORT_OF_A_STEP * max(int(info.simplex_iteration_count), 0))
    if info.primal_solution_status != highspy.kSolutionStatusFeasible:
        return None
    times = np.rint(np.array(solver.getSolution().col_value)).astype(np.int64).tolist()
    chosen = [strip._replace(times=often) for strip, often in zip(strips, times, strict=True) if often]
    return merged(settled(task, sorted(chosen, key=lambda strip: -strip.times), task.counts))


def _fair(mixing: Mixing) -> tuple[list[Strip], Counts]:
    """The strips made so far that lose least at fair prices, and what each gives of each size."""
    task, strips = mixing.task, list(mixing.made)
    gives = np.zeros((len(strips), len(task.counts)), dtype=np.int64)
    for number, strip in enumerate(strips):
        for size, pieces in pieces_of(task, strip.cuts).items():
            gives[number, size] = pieces
    lost = [strip.height + task.squaring for strip in strips] - gives @ mixing.prices
    keep = np.sort(np.argsort(lost, kind="stable")[:MOST_STRIPS])
    return [strips[number] for number in keep], gives[keep]


def _rows(solver: Any, least: Any, most: float) -> None:
    solver.addRows(len(least), least, np.full(len(least), most), 0, NOTHING, NOTHING, np.zeros(0))


def _whole_columns(solver: Any, costs: Counts, entries: Counts) -> None:
    """Adds columns of whole numbers: their costs and, a row for each, what they give of each row."""
    count = len(costs)
    columns, rows = np.nonzero(entries)
    begins = np.searchsorted(columns, np.arange(count)).astype(np.int32)
    values = (len(columns), begins, rows.astype(np.int32), entries[columns, rows].astype(float))
    solver.addCols(count, costs.astype(float), np.zeros(count), np.full(count, highspy.kHighsInf), *values)
    whole = np.full(count, highspy.HighsVarType.kInteger)
    solver.changeColsIntegrality(count, np.arange(count, dtype=np.int32), whole)
