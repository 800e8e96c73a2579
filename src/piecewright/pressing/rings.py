"""Rings of meetings: only where meetings close a ring can something have to clash.

Terms:
- *ring*: meetings that hang together so that any two lie on a closed way through them (graph theory calls it
  a biconnected component); a meeting on no closed way is a ring of its own;
- *odd* ring: one that cannot all nest.

Rings have at most one segment in common, two by two, so each can be made the best of by itself: turned over
as a whole it clashes at the same places. Hopcroft and Tarjan, CACM 16 (1973), O(meetings).
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from piecewright.pressing.model import Model, Term, summed
from piecewright.pressing.parity import Ties

Edge = tuple[str, str, bool, int]
"""Two names, whether they are to be alike, and how much it counts."""


def rings(edges: Sequence[Edge]) -> list[list[Edge]]:
    """The edges in rings, every edge in one.

    >>> [len(ring) for ring in rings([("a", "b", True, 1), ("b", "c", True, 1), ("c", "a", True, 1)])]
    [3]
    >>> [len(ring) for ring in rings([("a", "b", True, 1), ("b", "c", True, 1)])]
    [1, 1]
    """
    beside: dict[str, list[tuple[str, int]]] = {}
    alone = [[edge] for edge in edges if edge[0] == edge[1]]
    for number, (one, other, _, _) in enumerate(edges):
        if one == other:
            continue
        beside.setdefault(one, []).append((other, number))
        beside.setdefault(other, []).append((one, number))
    walk = _Walk(beside)
    for name in beside:
        if name not in walk.reached:
            walk.start(name)
    return [*alone, *([edges[number] for number in sorted(ring)] for ring in walk.found)]


class _Walk:
    """A walk in depth through all names; edges wait on a pile until the ring they are in is closed."""

    def __init__(self, beside: dict[str, list[tuple[str, int]]]) -> None:
        self.beside = beside
        self.reached: dict[str, int] = {}
        self.back: dict[str, int] = {}
        self.pile: list[int] = []
        self.walked: set[int] = set()
        self.found: list[list[int]] = []

    def start(self, name: str) -> None:
        self._arrive(name)
        way = [(name, iter(self.beside[name]), -1)]
        while way:
            here, onward, came_by = way[-1]
            step = next((s for s in onward if s[1] not in self.walked), None)
            if step is None:
                way.pop()
                if way:
                    self._return(way[-1][0], here, came_by)
                continue
            other, number = step
            self.walked.add(number)
            self.pile.append(number)
            if other in self.reached:
                self.back[here] = min(self.back[here], self.reached[other])
            else:
                self._arrive(other)
                way.append((other, iter(self.beside[other]), number))

    def _arrive(self, name: str) -> None:
        self.reached[name] = self.back[name] = len(self.reached)

    def _return(self, to: str, name: str, came_by: int) -> None:
        self.back[to] = min(self.back[to], self.back[name])
        if self.back[name] >= self.reached[to]:
            start = self.pile.index(came_by) if self.pile[-1] != came_by else len(self.pile) - 1
            self.found.append(self.pile[start:])
            del self.pile[start:]


def is_odd(ring: Sequence[Edge]) -> bool:
    """Whether something in a ring must clash."""
    ties = Ties[str]()
    return not all(ties.tie(one, other, alike) for one, other, alike, _ in ring)


def fewest_clashes(ring: Sequence[Edge]) -> tuple[float, float]:
    """The least that clashes in a ring, and what no pressing is below (equal when proven)."""
    numbers: dict[str, int] = {}
    return _fewest(
        tuple(
            (numbers.setdefault(one, len(numbers)), numbers.setdefault(other, len(numbers)), alike, count)
            for one, other, alike, count in ring
        )
    )


@lru_cache(maxsize=4096)
def _fewest(edges: tuple[tuple[int, int, bool, int], ...]) -> tuple[float, float]:
    """The same, whatever the names; the first of them is held, since a ring may be turned over."""
    model = Model()
    names = 1 + max(max(one, other) for one, other, _, _ in edges)
    first = [Term(0.0), *(model.yes_or_no() for _ in range(names - 1))]
    clashes = []
    for one, other, alike, count in edges:
        clash = model.share()
        second = first[other] if alike else first[other].negated
        model.at_most(first[one] - second - clash, 0.0)
        model.at_most(second - first[one] - clash, 0.0)
        clashes.append((clash, float(count)))
    solved = model.least(summed(clashes))
    assert solved is not None
    return solved.cost, solved.bound
