"""Rows of a set that is cut more than once the same way: not every cut need be a seam of the same row.

Terms:
- *slab*: what lies between two cuts, or between a cut and the end; the thinnest are those of the whole row;
- *grouped*: a row some of whose slabs are sewn first by themselves.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from piecewright.piecing.patchwork import Split


@dataclass(frozen=True)
class Cuts:
    """The thinnest slabs of a row, in order, and what the seam after each of them costs, but for the last."""

    slabs: tuple[int, ...]
    costs: tuple[float, ...]

    def slab(self, start: int, end: int) -> int:
        """What lies between two cuts; the first cut is number 0, the end of the row the last."""
        return sum(self.slabs[start:end])

    def row(self, stops: Sequence[int]) -> Split:
        """The row that is cut at the stops, the last of which is the end."""
        sets = tuple(self.slab(a, b) for a, b in zip((0, *stops[:-1]), stops, strict=True))
        return Split("row", sets, sum(self.costs[stop - 1] for stop in stops[:-1]))


def cuts_of(splits: Sequence[Split]) -> list[Cuts]:
    """The rows among the full splits of a set that have more than one cut."""
    pairs = {split.sets[0]: split.cost for split in splits if len(split.sets) == 2}
    found = []
    for split in splits:
        lefts = [sum(split.sets[:k]) for k in range(1, len(split.sets))]
        if len(lefts) > 1 and all(left in pairs for left in lefts):
            found.append(Cuts(split.sets, tuple(pairs[left] for left in lefts)))
    return found


def grouped(cuts: Cuts, are_alike: Callable[[int, int], bool]) -> Iterator[Split]:
    """Rows in which slabs like the first, of two or more of the thinnest, come again."""
    count = len(cuts.slabs)
    for first in range(2, count // 2 + 1):
        whole, stops = cuts.slab(0, first), [first]
        while stops[-1] < count:
            at = stops[-1]
            again = at + first <= count and are_alike(whole, cuts.slab(at, at + first))
            stops.append(at + (first if again else 1))
        if len(stops) < count - first + 1:
            yield cuts.row(stops)


def cheapest_row(cuts: Cuts, price: Callable[[int], float]) -> Split:
    """The row with the least sum of prices of its slabs and costs of its seams; O(n^2) slabs are priced."""
    count = len(cuts.slabs)
    best: list[tuple[float, int]] = [(0.0, 0)]
    for end in range(1, count + 1):
        seam = cuts.costs[end - 1] if end < count else 0.0
        starts = range(end) if end < count else range(1, end)
        best.append(min((best[start][0] + price(cuts.slab(start, end)) + seam, start) for start in starts))
    stops = [count]
    while best[stops[-1]][1]:
        stops.append(best[stops[-1]][1])
    return cuts.row(stops[::-1])
