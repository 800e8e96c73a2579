"""How many prints take which share: an integer programme, one wish after the other.

Least bought first; of equal ones the fewest strips, then the fewest unlike shares, then the evenest.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import highspy
import numpy as np

from piecewright.solver import QuietSolver

GAP = 1e-9
MOST_NODES = 3_000
SLACK = 1e-6


@dataclass(frozen=True, slots=True)
class Choice:
    """One share: its sets by size; what is bought for it in steps, and the least that might be; strips; how
    far it is from the even share."""

    sets: tuple[int, ...]
    steps: int
    least_steps: int
    strips: int
    uneven: float


@dataclass(frozen=True, slots=True)
class Chosen:
    """How many prints take each share; no choice buys fewer than `least_steps`."""

    times: tuple[int, ...]
    least_steps: int


def choose_shares(
    choices: Sequence[Choice], sets: Sequence[int], prints: int, strips_first: bool = False
) -> Chosen | None:
    """The best shares for so many prints; None where these shares do not come out at these sets."""
    programme = _Programme(choices, sets, prints)
    least = programme.bound([float(choice.least_steps) for choice in choices])
    if least is None:
        return None
    wishes = [[float(choice.steps) for choice in choices], [float(choice.strips) for choice in choices]]
    for wish in reversed(wishes) if strips_first else wishes:
        programme.keep_least(wish, 0.0)
    programme.keep_least([0.0] * len(choices), 1.0)
    times = programme.keep_least([choice.uneven for choice in choices], 0.0)
    return Chosen(times, least)


class _Programme:
    """So many prints take each share (whole numbers), and whether any does (yes or no)."""

    def __init__(self, choices: Sequence[Choice], sets: Sequence[int], prints: int) -> None:
        self._count = count = len(choices)
        self._solver: Any = QuietSolver(mip_rel_gap=GAP, mip_abs_gap=GAP, mip_max_nodes=MOST_NODES)
        upper = np.concatenate([np.full(count, float(prints)), np.ones(count)])
        self._every = np.arange(2 * count, dtype=np.int32)
        self._solver.addVars(2 * count, np.zeros(2 * count), upper)
        whole = np.full(2 * count, highspy.HighsVarType.kInteger)
        self._solver.changeColsIntegrality(2 * count, self._every, whole)
        self._row(float(prints), float(prints), dict.fromkeys(range(count), 1.0))
        for size, number in enumerate(sets):
            entries = {k: float(c.sets[size]) for k, c in enumerate(choices) if c.sets[size]}
            self._row(float(number), float(number), entries)
        for k in range(count):
            self._row(-highspy.kHighsInf, 0.0, {k: 1.0, count + k: -float(prints)})

    def bound(self, costs: Sequence[float]) -> int | None:
        """What the shares cost at least, in whole numbers; None where none come out."""
        if not self._solve([*costs, *[0.0] * self._count]):
            return None
        return int(np.ceil(self._solver.getInfo().mip_dual_bound - SLACK))

    def keep_least(self, costs: Sequence[float], unlike: float) -> tuple[int, ...]:
        """The shares with the least of this cost, which is kept from now on."""
        whole = [*costs, *[unlike] * self._count]
        self._solve(whole)
        least = float(self._solver.getInfo().objective_function_value)
        self._row(-highspy.kHighsInf, least + SLACK, {k: c for k, c in enumerate(whole) if c})
        values = self._solver.getSolution().col_value
        return tuple(round(values[k]) for k in range(self._count))

    def _solve(self, costs: Sequence[float]) -> bool:
        self._solver.changeColsCost(2 * self._count, self._every, np.array(costs, dtype=float))
        self._solver.run()
        return bool(self._solver.getModelStatus() != highspy.HighsModelStatus.kInfeasible)

    def _row(self, least: float, most: float, entries: dict[int, float]) -> None:
        if entries or not least <= 0.0 <= most:
            columns = np.array(list(entries), dtype=np.int32)
            values = np.array(list(entries.values()), dtype=float)
            self._solver.addRow(least, most, len(columns), columns, values)
