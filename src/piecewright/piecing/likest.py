"""Of the cheapest orders, one with few unlike sub-assemblies: what is alike is sewn at one go.

Each set is given that cheapest split whose sub-assemblies, with all that they consist of, show the fewest
looks. Sets alike in look are taken apart alike. It is a tie-break and no proven minimum.

Terms:
- *look*: sets equal up to a turn by any angle, fabrics and all; its *first* is the set that stands for it.
"""

from __future__ import annotations

from typing import NamedTuple

from piecewright.geometry.dividing import is_single, members
from piecewright.piecing.cheapest import Cheapest
from piecewright.piecing.patchwork import Split
from piecewright.piecing.sets_alike import Alike, carried

MOST_LOOKS = 800
"""When so many looks have been come to, the first cheapest split of any further one is taken."""


class Inside(NamedTuple):
    """How the set that stands for a look is taken apart, and the looks of all sub-assemblies it then has."""

    split: Split
    looks: frozenset[bytes]
    depth: int


class Likest:
    """The splits chosen for the sets of a block; `inside` is by look."""

    def __init__(self, cheapest: Cheapest, most: int = MOST_LOOKS) -> None:
        self.cheapest = cheapest
        self.alike: Alike = cheapest.alike
        self.most = most
        self.first: dict[bytes, int] = {}
        self._choices: dict[bytes, list[Split]] = {}
        self.inside: dict[bytes, Inside] = {}
        self._find_looks(cheapest.regions.work.whole)
        for key, _ in sorted(self.first.items(), key=lambda item: item[1].bit_count()):
            options = [self._with(split, key) for split in self._choices[key]]
            self.inside[key] = min(options, key=lambda one: (len(one.looks), one.depth))

    def split(self, parts: int) -> Split:
        """How a set is taken apart."""
        seen = self.alike.look(parts)
        first = self.alike.look(self.first[seen.key])
        chosen = self.inside[seen.key].split
        sets = tuple(carried(part, first, seen) for part in chosen.sets)
        return Split(chosen.how, sets, chosen.cost, chosen.corners)

    def distinct(self, parts: int) -> int:
        """How many unlike sub-assemblies a set has, itself not counted."""
        return len(self.inside[self.alike.look(parts).key].looks) - 1

    def _find_looks(self, whole: int) -> None:
        waiting = [whole]
        while waiting:
            parts = waiting.pop()
            key = self.alike.look(parts).key
            if key in self.first:
                continue
            self.first[key] = parts
            choice = self.cheapest.choice(parts)
            many = len(self.first) < self.most and self._has_likes(parts)
            self._choices[key] = choice if many else choice[:1]
            waiting += [p for split in self._choices[key] for p in split.sets if not is_single(p)]

    def _has_likes(self, parts: int) -> bool:
        own = [self.alike.looks[k] for k in members(parts)]
        return len(set(own)) < len(own)

    def _with(self, split: Split, key: bytes) -> Inside:
        inner = [self.inside[self.alike.look(part).key] for part in split.sets if not is_single(part)]
        looks = frozenset((key,)).union(*(one.looks for one in inner))
        return Inside(split, looks, 1 + max((one.depth for one in inner), default=0))
