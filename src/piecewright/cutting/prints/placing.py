"""Which print goes to which place: as shared out, no two alike touching if that can be found.

Prints are given out place by place, then alike ones that touch change places with others, by chance but
always the same way, as long as that helps.
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Sequence

from piecewright.cutting.prints.apart import Apart, Tightest

MOST_LOOKS = 150_000
"""So many exchanges are looked at, at most."""
RESTED = 7
"""A place that has changed rests for so many turns."""

# What each print can give: by size, how many; under "" all of them.
Gives = Sequence[Counter[str]]


def placed_prints(apart: Apart, gives: Gives) -> tuple[int, ...]:
    """The print of every place; places of a size take no more of a print than it gives."""
    if not apart.places.sizes:
        return ()
    return _Placing(apart, gives).best()


class _Placing:
    def __init__(self, apart: Apart, gives: Gives) -> None:
        self.apart, self.sizes = apart, apart.places.sizes
        self.left = [Counter(give) for give in gives]
        self.at = [-1] * len(self.sizes)
        self.inside = [Counter[int]() for _ in apart.places.blocks]
        self.chance = random.Random(0)
        self.by_size: dict[str, list[int]] = {}
        for place, size in enumerate(self.sizes):
            self.by_size.setdefault(size, []).append(place)
        self._give_out()

    def best(self) -> tuple[int, ...]:
        """The places after as many exchanges as help."""
        clashes = self.apart.clashes(self.at)
        best, fewest, looks, turn = tuple(self.at), clashes, 0, 0
        rests: dict[int, int] = {}
        while clashes and looks < MOST_LOOKS:
            turn += 1
            bad = [k for k in range(len(self.at)) if self._pain(k, self.at[k])]
            place = self.chance.choice(bad)
            found, other, taken = self._exchange(place, rests, turn)
            looks += len(self.by_size[self.sizes[place]])
            if found is None:
                rests[place] = turn + RESTED
                continue
            clashes += found
            self._do(place, other, taken)
            rests[place] = turn + RESTED + self.chance.randrange(RESTED)
            if clashes < fewest:
                best, fewest = tuple(self.at), clashes
        return best

    def _give_out(self) -> None:
        tightest = Tightest(self.apart.beside)
        for _ in self.sizes:
            place = tightest.take()
            size = self.sizes[place]
            there = [p for p, give in enumerate(self.left) if give[size] > 0]
            mine = min(there, key=lambda p: (self._pain(place, p), -self.left[p][size], p))
            self.left[mine][size] -= 1
            self._put(place, mine, 1)
            tightest.give(place, mine)

    def _put(self, place: int, mine: int, times: int) -> None:
        self.at[place] = mine if times > 0 else -1
        for block in self.apart.blocks_at[place]:
            self.inside[block][mine] += times

    def _pain(self, place: int, mine: int) -> int:
        """How many clashes a print makes at a place, all other places as they are."""
        alike = sum(self.at[other] == mine for other in self.apart.beside[place])
        own = 1 if self.at[place] == mine else 0
        most = self.apart.most_in_block
        return alike + sum(self.inside[b][mine] - own >= most for b in self.apart.blocks_at[place])

    def _exchange(self, place: int, rests: dict[int, int], turn: int) -> tuple[int | None, int, int]:
        """The best change for a place: the clashes that come, and the place or the print it takes."""
        mine, size = self.at[place], self.sizes[place]
        best: tuple[int | None, int, int] = (None, -1, -1)
        tries = [(-1, p) for p, give in enumerate(self.left) if give[size] > 0 and p != mine]
        tries += [
            (k, self.at[k]) for k in self.by_size[size] if self.at[k] != mine and rests.get(k, 0) <= turn
        ]
        ties = 0
        for other, taken in tries:
            comes = self._change(place, other, taken)
            ties = ties + 1 if comes == best[0] else 1
            better = best[0] is None or comes < best[0]
            if better or (comes == best[0] and self.chance.randrange(ties) == 0):
                best = (comes, other, taken)
        return best

    def _change(self, place: int, other: int, taken: int) -> int:
        """How many clashes more or fewer there are after a change."""
        mine = self.at[place]
        before = self._pain(place, mine)
        self._put(place, mine, -1)
        if other < 0:
            after = self._pain(place, taken)
            self._put(place, mine, 1)
            return after - before
        before += self._pain(other, taken)
        self._put(other, taken, -1)
        after = self._pain(place, taken)
        self._put(place, taken, 1)
        after += self._pain(other, mine)
        self._put(place, taken, -1)
        self._put(place, mine, 1)
        self._put(other, taken, 1)
        return after - before

    def _do(self, place: int, other: int, taken: int) -> None:
        mine, size = self.at[place], self.sizes[place]
        self._put(place, mine, -1)
        if other < 0:
            self.left[mine][size] += 1
            self.left[taken][size] -= 1
        else:
            self._put(other, taken, -1)
            self._put(other, mine, 1)
        self._put(place, taken, 1)
