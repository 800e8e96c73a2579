"""Choosing among the prints on hand: as many as wished or the fewest found, as evenly as can be."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from fractions import Fraction

import numpy as np

from piecewright.cutting.given.leftovers import leftovers
from piecewright.cutting.pricing import Counts
from piecewright.cutting.prints.apart import apart_of
from piecewright.cutting.prints.from_prints import FromPrints, PrintCut
from piecewright.cutting.prints.hand_programme import Taken, take_shares
from piecewright.cutting.prints.placing import placed_prints
from piecewright.cutting.prints.shared import SharedOut
from piecewright.cutting.prints.sharing import fewest_prints
from piecewright.cutting.prints.stock import HandShare, PrintOnHand, Stock, stocks_of
from piecewright.cutting.prints.wish import Places, PrintsWish
from piecewright.cutting.wanted import Demand
from piecewright.measure.length import Length

# How much more than an even share one print may give, tried in turn; then as much as the wish allows.
EVENNESS = (Fraction(1), Fraction(5, 4), Fraction(3, 2), Fraction(2), Fraction(3))
FEWER = (Fraction(1), Fraction(2))


class Taking:
    """The choice among prints on hand."""

    def __init__(
        self, demands: Sequence[Demand], on_hand: Sequence[PrintOnHand], wish: PrintsWish, ruler: Length
    ) -> None:
        self.demands, self.on_hand, self.wish = demands, on_hand, wish
        self.apart = apart_of(wish.places or Places(()))
        self.stocks: list[Stock] = stocks_of(on_hand, demands, ruler)
        self.wanted: Counts = np.array([d.count for d in demands], dtype=np.int64)
        together = [min(wish.batch(d.name).together, d.count) for d in demands]
        self.together: Counts = np.array(together, dtype=np.int64)
        self.sets: Counts = np.array([wish.sets(d) for d in demands], dtype=np.int64)
        self.most_sets: Counts = np.array([wish.most_sets(d) for d in demands], dtype=np.int64)

    def best(self, may_buy: bool) -> Taken:
        """As even as can be found with the number of prints that is wished, or with the fewest found."""
        if self.wish.prints is not None:
            return self._as_many(self.wish.prints, may_buy)
        best = self._taken(self.most_sets, None)
        if best.lacking.any():
            best = self._evenly(len(self.on_hand), best) or best
        least = self.least_prints()
        while not best.lacking.any() and len(best.shares) > least:
            fewer = self._evenly(len(best.shares) - 1, best, FEWER)
            if fewer is None:
                break
            best = fewer
        return self._evenly(len(best.shares), best) or best

    def _as_many(self, wished: int, may_buy: bool) -> Taken:
        """So many prints, or all that can be used; where new ones come besides, only an even share."""
        usable = sum(len(stock.prints) for stock in self.stocks)
        if usable < wished and may_buy:
            return self._taken(np.minimum(-(-self.sets // wished), self.most_sets), usable)
        best = self._taken(self.most_sets, min(wished, usable))
        return self._evenly(min(wished, usable), best) or best

    def left_for_new_prints(self, taken: Taken, missing: int) -> Taken:
        """At least a set for every print that is still to come, of the size of which most is there."""
        lacking = taken.lacking.copy()
        while int((-(-lacking // self.together)).sum()) < missing:
            size = int(np.argmax((self.wanted - lacking) // self.together))
            lacking[size] += min(self.together[size], self.wanted[size] - lacking[size])
        return taken._replace(lacking=lacking)

    def _evenly(self, prints: int, known: Taken, evenness: Sequence[Fraction] = EVENNESS) -> Taken | None:
        """With so many prints as evenly as can be found; None where more is lacking than is known to do."""
        even = -(-self.sets // max(prints, 1))
        for more in evenness:
            most = np.array([math.ceil(more * int(n)) for n in even], dtype=np.int64)
            tried = self._taken(np.minimum(most, self.most_sets), prints)
            if len(tried.shares) == prints and tried.lacking.sum() <= known.lacking.sum():
                return tried
            if (most >= self.most_sets).all():
                break
        return None

    def _taken(self, most_sets: Counts, prints: int | None) -> Taken:
        return take_shares(self.stocks, self.wanted, most_sets * self.together, self.together, prints)

    def result(self, taken: Taken, bought: SharedOut | None) -> FromPrints:
        """The prints by name, with no piece too many."""
        exact = self._without_surplus(taken)
        waiting = [list(stock.prints) for stock in self.stocks]
        cut = [
            self._print_cut(self.stocks[number], share, waiting[number].pop(0))
            for number, share in exact
            if any(share.pieces)
        ]
        order = {mine.fabric: place for place, mine in enumerate(self.on_hand)}
        cut.sort(key=lambda one: order[one.fabric])
        prints_at: tuple[int, ...] = ()
        if bought is None:
            prints_at = placed_prints(self.apart, [self._gives(one) for one in cut])
        clashes = self.apart.clashes(prints_at) if prints_at else 0
        return FromPrints(tuple(cut), self.least_prints(), bought, prints_at, clashes)

    def _without_surplus(self, taken: Taken) -> list[tuple[int, HandShare]]:
        """Pieces beyond those wanted are left uncut, from those that give most and something besides."""
        pieces = [np.array(share.pieces, dtype=np.int64) for _, share in taken.shares]
        pieces = [own // self.together * self.together for own in pieces]
        target = self.wanted - taken.lacking
        for size, together in enumerate(self.together.tolist()):
            while (over := sum(int(own[size]) for own in pieces) - int(target[size])) > 0:
                which = max(
                    range(len(pieces)), key=lambda k: (pieces[k][size] > 0, _spare(pieces[k], size), -k)
                )
                pieces[which][size] -= min(over, together)
        return [
            (number, self.stocks[number].trimmed(share.uses, own))
            for (number, share), own in zip(taken.shares, pieces, strict=True)
        ]

    def _print_cut(self, stock: Stock, share: HandShare, mine: PrintOnHand) -> PrintCut:
        named = tuple((d.name, n) for d, n in zip(self.demands, share.pieces, strict=True) if n)
        used = stock.cut(share, mine)
        alike = max(self.wish.batch(name).gives * n for name, n in named)
        return PrintCut(mine.fabric, named, used, leftovers(used, None, None), alike)

    def _gives(self, one: PrintCut) -> Counter[str]:
        gives = Counter({name: n * self.wish.batch(name).gives for name, n in one.pieces})
        gives[""] = sum(gives.values())
        return gives

    def least_prints(self) -> int:
        """As many as the wish takes, or as have together the area of all pieces."""
        left = sum((d.width.exact * d.height.exact * d.count for d in self.demands), Fraction(0))
        areas = sorted((sum(g.area * g.count for g in one.cloth) for one in self.on_hand), reverse=True)
        by_area = 0
        while left > 0 and by_area < len(areas):
            left -= areas[by_area]
            by_area += 1
        return max(by_area, fewest_prints(self.demands, self.wish, self.apart)[0])


def _spare(pieces: Counts, size: int) -> tuple[bool, int]:
    """Whether a print still gives another piece without one of this size, and how many of it there are."""
    return bool(pieces.sum() > 1), int(pieces[size])
