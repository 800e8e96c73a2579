"""Pressing directions as a small integer programme, solved and proven by HiGHS.

One yes-or-no for each distinct seam: is it pressed towards its first cloth? Where two seams meet they
should lie opposite. Then come bulk and the dark side, as weights that never outweigh a meeting.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

import highspy
import numpy as np
from numpy.typing import NDArray

from piecewright.problems import Problem, Refused
from piecewright.solver import QuietSolver


@dataclass(frozen=True)
class Meeting:
    """Two seams that meet at `count` places of the quilt; they nest when both are pressed alike
    (both towards the first, or both towards the second cloth) if `alike`, else when not.
    """

    one: str
    other: str
    alike: bool
    count: int = 1


@dataclass(frozen=True)
class Leaning:
    """A wish: press a seam towards its first cloth (`to_first`) or its second; weight below 1."""

    seam: str
    to_first: bool
    weight: float


@dataclass(frozen=True)
class Directions:
    """For each seam whether it is pressed towards its first cloth; places that nest and that clash.

    `cost` is that of this answer, `bound` what no answer can be below; equal when proven best.
    """

    to_first: Mapping[str, bool]
    nesting: int
    clashing: int
    cost: float
    bound: float

    @property
    def proven(self) -> bool:
        """Whether no other pressing is better."""
        return self.cost - self.bound <= 1e-6 * max(1.0, abs(self.cost))


def press_all(
    seams: Iterable[str],
    meetings: Iterable[Meeting],
    leanings: Iterable[Leaning],
    fixed: Mapping[str, bool] | None = None,
) -> Directions:
    """The best direction for every seam; those that are `fixed` are pressed to their first cloth, or not.

    The cost of a clash at one place is 1; leanings are scaled so that all together weigh less than one.
    """
    number = {seam: k for k, seam in enumerate(dict.fromkeys(seams))}
    pairs: dict[tuple[int, int, bool], int] = {}
    fixed_nest = fixed_clash = 0
    for meeting in meetings:
        a, b = sorted((number[meeting.one], number[meeting.other]))
        if a == b:
            fixed_nest += meeting.count * meeting.alike
            fixed_clash += meeting.count * (not meeting.alike)
        else:
            key = (a, b, meeting.alike)
            pairs[key] = pairs.get(key, 0) + meeting.count
    wishes = np.zeros(len(number))
    for leaning in leanings:
        wishes[number[leaning.seam]] += -leaning.weight if leaning.to_first else leaning.weight
    wishes *= 0.9 / max(np.abs(wishes).sum(), 1e-9)
    held = {number[seam]: to_first for seam, to_first in (fixed or {}).items()}
    chosen, cost, bound = _solve(len(number), pairs, wishes, held)
    clashing = fixed_clash + sum(
        count for (a, b, alike), count in pairs.items() if (chosen[a] == chosen[b]) != alike
    )
    total = fixed_nest + fixed_clash + sum(pairs.values())
    return Directions(
        {seam: bool(chosen[k]) for seam, k in number.items()}, total - clashing, clashing, cost, bound
    )


def _solve(
    seams: int,
    pairs: Mapping[tuple[int, int, bool], int],
    wishes: NDArray[np.float64],
    held: Mapping[int, bool],
) -> tuple[list[int], float, float]:
    """Least clashes plus wishes; each pair of seams has a variable that is 1 where they clash."""
    if seams == 0:
        return [], 0.0, 0.0
    solver: Any = QuietSolver(mip_rel_gap=0.0)
    for k in range(seams + len(pairs)):
        least, most = (float(held[k]),) * 2 if k in held else (0.0, 1.0)
        solver.addVar(least, most)
    columns = np.arange(seams, dtype=np.int32)
    solver.changeColsIntegrality(seams, columns, np.full(seams, 1, dtype=np.uint8))
    costs = np.concatenate([wishes, np.array(list(pairs.values()), dtype=float)])
    solver.changeColsCost(len(costs), np.arange(len(costs), dtype=np.int32), costs)
    for k, (a, b, alike) in enumerate(pairs):
        clash = seams + k
        indices = np.array([a, b, clash], dtype=np.int32)
        if alike:
            solver.addRow(-highspy.kHighsInf, 0.0, 3, indices, np.array([1.0, -1.0, -1.0]))
            solver.addRow(-highspy.kHighsInf, 0.0, 3, indices, np.array([-1.0, 1.0, -1.0]))
        else:
            solver.addRow(-highspy.kHighsInf, 1.0, 3, indices, np.array([1.0, 1.0, -1.0]))
            solver.addRow(1.0, highspy.kHighsInf, 3, indices, np.array([1.0, 1.0, 1.0]))
    solver.run()
    if solver.getModelStatus() != highspy.HighsModelStatus.kOptimal:
        raise Refused(Problem("no pressing plan was found", do="Report this with the quilt file."))
    info = solver.getInfo()
    values = solver.getSolution().col_value
    return [round(values[k]) for k in range(seams)], info.objective_function_value, info.mip_dual_bound
