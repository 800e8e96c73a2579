"""How many prints it takes to keep places apart: a colouring, and how few can be proven to do.

*DSATUR* (Brelaz, Communications of the ACM 22, 1979) gives a print to the place with fewest left to choose
from; places that all touch each other (a clique) need a print each; small patterns are proven by HiGHS.
"""

from __future__ import annotations

import heapq
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

import highspy
import numpy as np

from piecewright.cutting.prints.wish import Places
from piecewright.solver import QuietSolver

MOST_PROVEN = 80
"""Patterns with more places are not proven by the solver."""
MOST_NODES = 5_000
CLIQUES_TRIED = 300


@dataclass(frozen=True)
class Apart:
    """Places with what touches each, and the blocks that each lies in."""

    places: Places
    beside: tuple[frozenset[int], ...]
    blocks_at: tuple[tuple[int, ...], ...]

    @property
    def most_in_block(self) -> int:
        """How many of a block may be alike; all of them where nothing is said."""
        return self.places.most_in_block or len(self.places.sizes)

    def clashes(self, prints_at: Sequence[int]) -> int:
        """How many pairs touch that are alike, and how many are too many in a block."""
        pairs = {tuple(sorted(pair)) for pair in self.places.touching}
        alike = sum(prints_at[one] == prints_at[other] for one, other in pairs)
        blocks = (Counter(prints_at[k] for k in set(block)) for block in self.places.blocks)
        over = sum(max(n - self.most_in_block, 0) for block in blocks for n in block.values())
        return alike + over


def apart_of(places: Places) -> Apart:
    """The places made ready."""
    beside: list[set[int]] = [set() for _ in places.sizes]
    for one, other in places.touching:
        beside[one].add(other)
        beside[other].add(one)
    blocks_at: list[list[int]] = [[] for _ in places.sizes]
    for number, block in enumerate(places.blocks):
        for place in set(block):
            blocks_at[place].append(number)
    return Apart(places, tuple(map(frozenset, beside)), tuple(map(tuple, blocks_at)))


def fewest_apart(apart: Apart) -> tuple[int, int]:
    """The least number of prints that is proven to be needed, and one that does."""
    if not apart.places.sizes:
        return 0, 0
    least = max(1, _largest_clique(apart), _fullest_block(apart))
    does = max(coloured(apart)) + 1
    while least < does and len(apart.places.sizes) <= MOST_PROVEN:
        found = _can_do_with(apart, least)
        if found is None:
            break
        if found:
            return least, least
        least += 1
    return least, does


def coloured(apart: Apart) -> list[int]:
    """A print for every place, as few as DSATUR takes; nothing clashes."""
    count = len(apart.places.sizes)
    prints_at, inside = [-1] * count, [Counter[int]() for _ in apart.places.blocks]
    tightest = Tightest(apart.beside)
    for _ in range(count):
        place = tightest.take()
        full = {p for b in apart.blocks_at[place] for p, n in inside[b].items() if n >= apart.most_in_block}
        mine = next(p for p in range(count) if p not in tightest.shut[place] and p not in full)
        prints_at[place] = mine
        tightest.give(place, mine)
        for block in apart.blocks_at[place]:
            inside[block][mine] += 1
    return prints_at


class Tightest:
    """The places in turn: next comes the one beside most unlike prints, then the one with most beside it."""

    def __init__(self, beside: Sequence[frozenset[int]]) -> None:
        self._beside = beside
        self.shut: list[set[int]] = [set() for _ in beside]
        self._done = [False] * len(beside)
        self._waiting = [(0, -len(near), place) for place, near in enumerate(beside)]
        heapq.heapify(self._waiting)

    def take(self) -> int:
        """The next place; IndexError when all are taken."""
        while True:
            shut, _, place = heapq.heappop(self._waiting)
            if not self._done[place] and -shut == len(self.shut[place]):
                self._done[place] = True
                return place

    def give(self, place: int, mine: int) -> None:
        """Shuts a print out from all places beside this one."""
        for other in self._beside[place]:
            if mine not in self.shut[other]:
                self.shut[other].add(mine)
                entry = (-len(self.shut[other]), -len(self._beside[other]), other)
                heapq.heappush(self._waiting, entry)


def _largest_clique(apart: Apart) -> int:
    """A large set of places that all touch each other, found place by place."""
    order = sorted(range(len(apart.beside)), key=lambda k: -len(apart.beside[k]))
    best = 0
    for first in order[:CLIQUES_TRIED]:
        size, both = 1, set(apart.beside[first])
        while both:
            among = both
            place = max(among, key=lambda k: (len(apart.beside[k] & among), -k))
            both, size = both & apart.beside[place], size + 1
        best = max(best, size)
    return best


def _fullest_block(apart: Apart) -> int:
    sizes = (len(set(block)) for block in apart.places.blocks)
    return max((-(-size // apart.most_in_block) for size in sizes), default=0)


def _can_do_with(apart: Apart, prints: int) -> bool | None:
    """Whether so many prints do; None where the solver gives up."""
    count = len(apart.places.sizes)
    solver = QuietSolver(mip_max_nodes=MOST_NODES)
    total = count * prints
    every = np.arange(total, dtype=np.int32)
    solver.addVars(total, np.zeros(total), np.ones(total))
    solver.changeColsIntegrality(total, every, np.full(total, highspy.HighsVarType.kInteger))

    def row(least: float, most: float, columns: Sequence[int]) -> None:
        solver.addRow(least, most, len(columns), np.array(columns, dtype=np.int32), np.ones(len(columns)))

    for place in range(count):
        row(1.0, 1.0, [place * prints + p for p in range(prints)])
        # Prints may be named in the order in which they first come, so that none is tried twice.
        row(0.0, 0.0, [place * prints + p for p in range(place + 1, prints)])
    for p in range(prints):
        for one, other in apart.places.touching:
            row(0.0, 1.0, [one * prints + p, other * prints + p])
        for block in apart.places.blocks:
            row(0.0, float(apart.most_in_block), [k * prints + p for k in sorted(set(block))])
    solver.run()
    status = solver.getModelStatus()
    if status == highspy.HighsModelStatus.kInfeasible:
        return False
    return True if status == highspy.HighsModelStatus.kOptimal else None
