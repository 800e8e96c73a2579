"""Two-colouring: segments tied so that all that meet nest, and whether that can be at all.

Two segments that are to be pressed alike have equal sides, two that are not have opposite ones. Following
such ties through all that hang together either sets every side from one of them, or comes back to a segment
with the other side: then something must clash. O(ties), almost (union and find; Tarjan, J. ACM 22, 1975).
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable
from dataclasses import dataclass, field
from typing import Generic, TypeVar

Name = TypeVar("Name", bound=Hashable)


@dataclass
class Ties(Generic[Name]):
    """Names tied to one another, equal or opposite; each knows its root, and whether it is its opposite."""

    _above: dict[Name, tuple[Name, bool]] = field(default_factory=dict)

    def root(self, name: Name) -> tuple[Name, bool]:
        """The root of what a name is tied to, and whether the name is opposite to it."""
        path = []
        opposite = False
        while name in self._above:
            path.append((name, opposite))
            name, odd = self._above[name]
            opposite ^= odd
        for passed, so_far in path:
            self._above[passed] = (name, opposite ^ so_far)
        return name, opposite

    def tie(self, one: Name, other: Name, alike: bool = True) -> bool:
        """Ties two names; False where they are tied the other way already.

        >>> ties = Ties[str]()
        >>> ties.tie("a", "b", alike=False), ties.tie("b", "c", alike=False), ties.tie("a", "c", alike=False)
        (True, True, False)
        """
        (one_root, one_odd), (other_root, other_odd) = self.root(one), self.root(other)
        if one_root == other_root:
            return (one_odd == other_odd) == alike
        self._above[other_root] = (one_root, one_odd ^ other_odd ^ (not alike))
        return True


def together(names: Iterable[Name], ties: Iterable[Iterable[Name]]) -> list[list[Name]]:
    """The names in groups: what is tied, directly or through others, is one group; in the order given.

    >>> together("abcd", ["ca", "d"])
    [['a', 'c'], ['b'], ['d']]
    """
    joined = Ties[Name]()
    for tied in ties:
        first, *others = tied
        for other in others:
            joined.tie(first, other)
    groups: dict[Name, list[Name]] = {}
    for name in names:
        groups.setdefault(joined.root(name)[0], []).append(name)
    return list(groups.values())
