"""How many batches of which way: an integer programme over all units that are wanted, at once.

Terms:
- *want*: a unit and how many of it;
- *offer*: one batch of a way: what it gives of each want, what it costs, what it takes from the shelf;
- *stack of cloth on hand*: so many equal pieces, each of which gives so many starts of a size;
- *mix*: how often each offer is taken.

Least total cost such that every want is met: cost of every batch, and a little for every way that has to be
set up at all. HiGHS solves it; value and bound stand in the answer.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import ceil, inf

import highspy
import numpy as np

from piecewright.problems import Problem, Refused
from piecewright.solver import QuietSolver

LARGEST_COUNT = 1e9
GAP = 1e-9


@dataclass(frozen=True)
class Offer:
    """One batch of a way: units it `gives` by want, its `cost`, and `sets_up`, paid once if it is taken.

    `takes` has an entry for each of its starts: the stock it is cut from, and the share of a piece it takes.
    """

    name: str
    gives: Mapping[int, int]
    cost: float
    sets_up: float = 0.0
    takes: tuple[tuple[int, float], ...] = ()


@dataclass(frozen=True)
class Mix:
    """How often each offer is taken; the total cost, and the cost that none can better."""

    times: tuple[int, ...]
    cost: float
    bound: float
    proven: bool


def best_mix(wanted: Sequence[int], offers: Sequence[Offer], stock: Sequence[int] = ()) -> Mix:
    """The cheapest mix that gives at least what is wanted, from at most so many pieces of each stock.

    Raises Refused when no mix does. Whole pieces: the shares that one offer takes of a stock are rounded up
    to whole pieces, for a piece once cut into starts of one size gives no others.
    """
    if not wanted:
        return Mix((0,) * len(offers), 0.0, 0.0, True)
    _refuse_unserved(wanted, offers)
    shares = [(k, at, share) for k, offer in enumerate(offers) for at, share in offer.takes]
    solver = QuietSolver(mip_rel_gap=GAP, mip_abs_gap=GAP)
    batches, taken, pieces = len(offers), len(offers), len(shares)
    cost = [o.cost for o in offers] + [o.sets_up for o in offers] + [0.0] * pieces
    most = [_most(offer, wanted) for offer in offers]
    upper = [float(m) for m in most] + [1.0] * taken + [float(stock[at]) for _, at, _ in shares]
    count = batches + taken + pieces
    solver.addVars(count, np.zeros(count), np.array(upper))
    solver.changeColsCost(count, np.arange(count, dtype=np.int32), np.array(cost))
    whole = np.full(count, highspy.HighsVarType.kInteger)
    solver.changeColsIntegrality(count, np.arange(count, dtype=np.int32), whole)
    for want, number in enumerate(wanted):
        _row(solver, number, inf, {k: o.gives[want] for k, o in enumerate(offers) if o.gives.get(want)})
    for k, offer in enumerate(offers):
        if offer.sets_up > 0:
            _row(solver, -inf, 0.0, {k: 1.0, batches + k: -float(most[k])})
    for n, (k, _, share) in enumerate(shares):
        _row(solver, -inf, 0.0, {k: share, batches + taken + n: -1.0})
    for at, there in enumerate(stock):
        of_it = {batches + taken + n: 1.0 for n, (_, other, _) in enumerate(shares) if other == at}
        if of_it:
            _row(solver, -inf, float(there), of_it)
    solver.run()
    if solver.getModelStatus() == highspy.HighsModelStatus.kInfeasible:
        raise Refused(Problem("what is on hand does not suffice", do="Add pieces, or want fewer."))
    info, solution = solver.getInfo(), solver.getSolution()
    times = tuple(round(solution.col_value[k]) for k in range(batches))
    proven = solver.getModelStatus() == highspy.HighsModelStatus.kOptimal
    return Mix(times, info.objective_function_value, info.mip_dual_bound, proven)


def _most(offer: Offer, wanted: Sequence[int]) -> int:
    """More batches than this of one offer serve nothing."""
    return max(ceil(wanted[want] / each) for want, each in offer.gives.items() if each)


def _refuse_unserved(wanted: Sequence[int], offers: Sequence[Offer]) -> None:
    for want, number in enumerate(wanted):
        if number > LARGEST_COUNT or (number and not any(offer.gives.get(want) for offer in offers)):
            raise Refused(Problem(f"no way gives want {want}", do="Allow another way."))


def _row(solver: QuietSolver, least: float, most: float, entries: Mapping[int, float]) -> None:
    columns = np.array(list(entries), dtype=np.int32)
    values = np.array(list(entries.values()), dtype=float)
    solver.addRow(least, most, len(columns), columns, values)
