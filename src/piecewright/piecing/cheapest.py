"""The cheapest sewing order of a block: dynamic programming over sets of its parts.

Sets alike in shape cost the same and are looked at once. All sets that any order comes to are found first,
from the block downwards; then each is priced, from the smallest upwards, by the cheapest of its splits.

Terms:
- *state*: sets alike in shape, by their key; its *first* is the set by which it was come to;
- *choice*: the splits of a set that may lie in a cheapest order;
- *width*: how many of the most promising splits are kept of each set; without one, all are.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import inf

from piecewright.geometry.dividing import is_single
from piecewright.geometry.polygon import bounds
from piecewright.piecing.costs import shape_cost
from piecewright.piecing.full_seams import Regions
from piecewright.piecing.patchwork import Patchwork, Split
from piecewright.piecing.rows import cheapest_row, cuts_of, grouped
from piecewright.piecing.sets_alike import Alike, carried

Beyond = Callable[[Patchwork, int], Sequence[Split]]
"""Other ways to sew a set that no full seam takes apart."""

EQUAL = 1e-9
"""Costs that differ by less are equal: they are sums of the same figures in another order."""


MOST_BEYOND = 200
"""So many states at most are taken apart otherwise than by full seams: each takes long to look at."""


class Cheapest:
    """The prices of a block's sets; `first` has every state that was come to.

    Where there are more states than `most` the search is given up: it is not `complete`, and has no prices.
    """

    def __init__(
        self, regions: Regions, alike: Alike, beyond: Beyond | None, width: int | None, most: int | None
    ) -> None:
        self.regions = regions
        self.alike = alike
        self.beyond, self.width, self.most = beyond, width, most
        self.first: dict[bytes, int] = {}
        self.beyond_states = 0
        self._kept: dict[bytes, list[Split]] = {}
        self._price: dict[bytes, float] = {}
        self._outside: dict[int, float] = {}
        left, low, right, high = bounds([p for outline in regions.work.outlines for p in outline])
        self._across = min(right - left, high - low)
        self.complete = self._find_states()
        if self.complete:
            self._set_prices()

    def _set_prices(self) -> None:
        for key, parts in sorted(self.first.items(), key=lambda item: item[1].bit_count()):
            self._price[key] = min(map(self.price, self._kept[key]), default=inf)
            self._group(key, parts)

    def cost(self, parts: int) -> float:
        """The least cost of sewing a set; infinite where it cannot be sewn."""
        return 0.0 if is_single(parts) else self._price.get(self.alike.shape(parts).key, inf)

    def price(self, split: Split) -> float:
        """The least cost of a set that is taken apart like this."""
        return split.cost + self.outside_all(split) + sum(map(self.cost, split.sets))

    def outside(self, parts: int) -> float:
        """What a set costs as a sub-assembly: nothing for one part, no end of it for parts that lie apart."""
        if is_single(parts):
            return 0.0
        if parts not in self._outside:
            outline = self.regions.outline(parts)
            self._outside[parts] = shape_cost(outline, self._across) if outline else inf
        return self._outside[parts]

    def choice(self, parts: int) -> list[Split]:
        """The cheapest splits of a set, in its own parts."""
        seen = self.alike.shape(parts)
        first = self.alike.shape(self.first[seen.key])
        best = self._price[seen.key]
        return [
            Split(
                split.how, tuple(carried(part, first, seen) for part in split.sets), split.cost, split.corners
            )
            for split in self._kept[seen.key]
            if self.price(split) <= best + EQUAL
        ]

    def stuck(self) -> list[int]:
        """The sets that nothing takes apart, of all that were come to."""
        return [parts for key, parts in self.first.items() if not self._kept[key]]

    def _find_states(self) -> bool:
        """Whether all were found."""
        waiting = [self.regions.work.whole]
        while waiting:
            parts = waiting.pop()
            key = self.alike.shape(parts).key
            if key in self.first:
                continue
            if self.most is not None and (len(self.first) >= self.most or self.beyond_states > MOST_BEYOND):
                return False
            self.first[key] = parts
            self._kept[key] = self._splits(parts)
            waiting += [p for split in self._kept[key] for p in split.sets if not is_single(p)]
        return True

    def _group(self, key: bytes, parts: int) -> None:
        """Keeps a row, too, that is cheaper than any of one seam or of all seams that run the same way."""
        if self.width is None:
            for cuts in cuts_of(self.regions.splits(parts)):
                row = cheapest_row(cuts, lambda slab: self.cost(slab) + self.outside(slab))
                price = self.price(row)
                if price < self._price[key] - EQUAL:
                    self._price[key] = price
                    self._kept[key].append(row)

    def _splits(self, parts: int) -> list[Split]:
        full = self.regions.splits(parts)
        if full and all(map(is_single, full[0].sets)):
            return full[:1]  # There is nothing on the way.
        splits = [*full, *(row for cuts in cuts_of(full) for row in grouped(cuts, self._are_alike))]
        if not full:
            self.beyond_states += 1
            splits = list(self.beyond(self.regions.work, parts)) if self.beyond else []
        if self.width is None:
            return splits
        return sorted(splits, key=lambda split: self._promise(split, bool(full)))[: self.width]

    def _promise(self, split: Split, is_full: bool) -> float:
        """How cheap a split looks at first sight.

        Sooner or later every crossing lies on some full seam: there it does not matter on which.
        """
        return round(self.outside_all(split) + (0.0 if is_full else split.cost), 6)

    def outside_all(self, split: Split) -> float:
        """What the sets of a split cost as sub-assemblies."""
        return sum(map(self.outside, split.sets))

    def _are_alike(self, one: int, other: int) -> bool:
        return self.alike.shape(one).key == self.alike.shape(other).key
