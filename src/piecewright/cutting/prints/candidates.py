"""Shares to choose from: how many sets of each size one print may give, evenly or in whole strips.

- *even*: as many sets of a size as all prints give on average, rounded down or up;
- *turn about*: sets beyond that go round the prints, size after size, so that no print gets them all.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product
from math import prod

from piecewright.cutting.prints.wish import PrintsWish
from piecewright.cutting.wanted import Demand, Supply, lies

Sets = tuple[int, ...]

MOST_SHARES = 64
"""Where more unlike shares are thinkable, only some of them are looked at."""
ORDERS = 12


def shares_to_try(
    demands: Sequence[Demand], supply: Supply, wish: PrintsWish, prints: int
) -> tuple[list[Sets], bool]:
    """The shares to choose from, and whether they are all that the way of sharing allows."""
    ranges = [_counts(demand, supply, wish, prints) for demand in demands]
    if prod(map(len, ranges)) <= MOST_SHARES:
        return [share for share in product(*ranges) if any(share)], True
    sets = [wish.sets(demand) for demand in demands]
    return list(dict.fromkeys(share for each in _orders(sets, prints) for share in each)), False


def turn_about(sets: Sequence[int], prints: int, order: Sequence[int]) -> list[Sets]:
    """A share for every print, sizes taken in this order.

    >>> turn_about([4, 1], 3, [0, 1])
    [(2, 0), (1, 1), (1, 0)]
    """
    shares = [[count // prints for count in sets] for _ in range(prints)]
    at = 0
    for size in order:
        for _ in range(sets[size] % prints):
            shares[at % prints][size] += 1
            at += 1
    return [tuple(share) for share in shares]


def _orders(sets: Sequence[int], prints: int) -> Iterator[list[Sets]]:
    """Sizes taken in many orders: as they come, turned, backwards."""
    sizes = list(range(len(sets)))
    for turn in range(min(len(sizes), ORDERS)):
        turned = sizes[turn:] + sizes[:turn]
        yield turn_about(sets, prints, turned)
        yield turn_about(sets, prints, turned[::-1])


def _counts(demand: Demand, supply: Supply, wish: PrintsWish, prints: int) -> list[int]:
    """How many sets of a size one print may give, least first."""
    sets, most = wish.sets(demand), wish.most_sets(demand)
    low, high = sets // prints, -(-sets // prints)
    counts = {low, high}
    if wish.sharing == "in whole strips":
        each = max(sets_in_strip(demand, supply, wish), 1)
        whole = {low // each * each, -(-high // each) * each, sets % each, min(each, sets)}
        counts |= {count for count in whole if count <= most}
    return sorted(counts)


def sets_in_strip(demand: Demand, supply: Supply, wish: PrintsWish) -> int:
    """How many sets of a size come out of one strip that is as high as a piece."""
    most = max(int(supply.usable_width // lie.width) for lie in lies(demand, supply))
    return most // wish.batch(demand.name).together
