"""From the pieces of an assortment to its prints: the one call that planning makes."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import replace
from fractions import Fraction

from piecewright.cutting.given.cloth import PRECUTS, Given, precut
from piecewright.cutting.given.shopping import lay_on_given
from piecewright.cutting.laying import lay_out, layouts
from piecewright.cutting.layout import Layout
from piecewright.cutting.prints.apart import Apart, apart_of, fewest_apart
from piecewright.cutting.prints.candidates import Sets, shares_to_try, turn_about
from piecewright.cutting.prints.placing import placed_prints
from piecewright.cutting.prints.problems import check_prints_wish, scarcest, too_few
from piecewright.cutting.prints.programme import Choice, Chosen, choose_shares
from piecewright.cutting.prints.shared import PrintShare, SharedOut
from piecewright.cutting.prints.wish import Places, PrintsWish
from piecewright.cutting.wanted import Demand, Supply, check_wanted, lies
from piecewright.cutting.wishes import USUAL, CuttingWish
from piecewright.measure.length import ZERO, Length
from piecewright.problems import Refused

# Where alike ones still touch, so many prints more are tried.
MORE_PRINTS = 6
# Effort for one share, which is a few pieces, and to see whether a precut holds them.
SHARE_EFFORT = 2_000
LITTLE = 400


def share_out(
    demands: Sequence[Demand], supply: Supply, wish: PrintsWish, cutting: CuttingWish = USUAL
) -> SharedOut:
    """The pieces of an assortment shared out over its prints: as few as keep the wish, or as many as it says.

    Every print is a length of `supply`, straightened for itself; where there are several nothing is spared of
    each, since another stands in. Raises Refused with every reason why the wish cannot be kept.
    """
    problems = check_wanted(demands, supply) or check_prints_wish(demands, supply.key, wish)
    if problems:
        raise Refused(*problems)
    apart = apart_of(wish.places or Places(()))
    least, does = fewest_prints(demands, wish, apart)
    few = too_few(demands, supply.key, wish, least)
    if few is not None:
        raise Refused(few)
    table = CuttingTable(demands, supply, wish, cutting)
    if wish.prints is not None or not demands:
        return _shared(table, wish.prints or 0 if demands else 0, least, apart)
    best = None
    for prints in range(does, min(does + MORE_PRINTS, sum(map(wish.sets, demands))) + 1):
        shared = _shared(table, prints, least, apart)
        if best is None or shared.clashes < best.clashes:
            best = shared
        if not best.clashes:
            break
    assert best is not None
    return best


def fewest_prints(demands: Sequence[Demand], wish: PrintsWish, apart: Apart) -> tuple[int, int]:
    """How few prints keep the wish: so many at least, and a number that should do."""
    scarce = scarcest(demands, wish)
    alike = scarce[1] if scarce is not None else min(1, len(demands))
    least, does = fewest_apart(apart)
    return max(least, alike), max(does, alike)


class CuttingTable:
    """What each share takes, worked out once; of several prints nothing is spared."""

    def __init__(
        self, demands: Sequence[Demand], supply: Supply, wish: PrintsWish, cutting: CuttingWish
    ) -> None:
        self.demands, self.wish, self._bolt, self._cutting = demands, wish, supply, cutting
        self.supply = replace(supply, spare_strips=0, spare_length=ZERO)
        self.sets = [wish.sets(demand) for demand in demands]
        self._layouts: dict[Sets, Layout] = {}

    def pieces(self, sets: Sets, least: bool = False) -> tuple[int, ...]:
        """The pieces of so many sets; at `least`, where the last set is smaller and is among them."""
        pieces = []
        for demand, n, all_sets in zip(self.demands, sets, self.sets, strict=True):
            together = self.wish.batch(demand.name).together
            over = all_sets * together - demand.count if least and n else 0
            pieces.append(n * together - over)
        return tuple(pieces)

    def layout(self, pieces: tuple[int, ...]) -> Layout:
        """So many pieces of each size, laid out until no less is bought."""
        if pieces not in self._layouts:
            little = replace(self._cutting, effort=min(self._cutting.effort, SHARE_EFFORT))
            for layout in layouts(self.wanted(pieces), self.supply, little):
                self._layouts[pieces] = layout
                if layout.purchase.steps <= self.steps(layout.bound):
                    break
        return self._layouts[pieces]

    def best_layout(self, pieces: tuple[int, ...]) -> Layout:
        """The same for a share that is chosen: with all the effort of the wish."""
        best = lay_out(self.wanted(pieces), self.supply, self._cutting)
        return min(best, self.layout(pieces), key=lambda layout: layout.buy)

    def as_one(self) -> Layout:
        """All pieces laid out as a single cloth."""
        return lay_out(self.demands, self._bolt, self._cutting)

    def wanted(self, pieces: tuple[int, ...]) -> list[Demand]:
        """So many pieces of each size, as they are wanted."""
        return [replace(d, count=n) for d, n in zip(self.demands, pieces, strict=True) if n]

    def choice(self, sets: Sets, prints: int) -> Choice:
        """What a share costs, and how even it is: by the pieces or units that come of it."""
        layout = self.layout(self.pieces(sets))
        least = self.layout(self.pieces(sets, least=True))
        alike = [self.wish.alike_in_set(demand) for demand in self.demands]
        off = sum(a * (n - whole / prints) for a, n, whole in zip(alike, sets, self.sets, strict=True))
        return Choice(sets, layout.purchase.steps, self.steps(least.bound), layout.strips, round(off**2, 3))

    def steps(self, length: Length) -> int:
        """The buying steps for so much length of strips of one print."""
        needed = (length + self.supply.straightening) / self.supply.share_left
        return math.ceil(needed.exact / self.supply.buying_step.exact)


def _shared(table: CuttingTable, prints: int, least: int, apart: Apart) -> SharedOut:
    """Shared out over so many prints."""
    if prints == 1:
        return _one_print(table, least, apart)
    each, least_steps = _pieces_of_each(table, prints)
    each.sort(key=lambda pieces: (-_look(table, pieces), [-n for n in pieces]))
    prints_at = placed_prints(apart, [_gives(table, pieces) for pieces in each])
    supply = table.supply
    return SharedOut(
        supply.key,
        tuple(_share(table, pieces, times) for pieces, times in Counter(each).items()),
        least,
        supply.buying_step * least_steps,
        table.as_one(),
        prints_at,
        apart.clashes(prints_at),
    )


def _one_print(table: CuttingTable, least: int, apart: Apart) -> SharedOut:
    """All from one print, laid out as any cloth is."""
    pieces, layout = tuple(demand.count for demand in table.demands), table.as_one()
    share = replace(_share(table, pieces, 1), layout=layout)
    least_buy = table.supply.buying_step * table.steps(layout.bound)
    prints_at = (0,) * len(apart.places.sizes)
    clashes = apart.clashes(prints_at)
    return SharedOut(layout.key, (share,), least, least_buy, layout, prints_at, clashes)


def _pieces_of_each(table: CuttingTable, prints: int) -> tuple[list[tuple[int, ...]], int]:
    """The pieces of every print, and the least buying steps for all of them."""
    if not prints:
        return [], 0
    shares, complete = shares_to_try(table.demands, table.supply, table.wish, prints)
    choices = [table.choice(sets, prints) for sets in shares]
    whole = table.wish.sharing == "in whole strips"
    chosen = choose_shares(choices, table.sets, prints, whole)
    if chosen is None:
        choices = [table.choice(s, prints) for s in turn_about(table.sets, prints, range(len(table.sets)))]
        chosen = Chosen((1,) * prints, 0)
    each = [
        table.pieces(choice.sets) for choice, n in zip(choices, chosen.times, strict=True) for _ in range(n)
    ]
    area_steps = _steps_by_area(table, prints)
    return _last_sets_smaller(table, each), max(area_steps, chosen.least_steps if complete else 0)


def _steps_by_area(table: CuttingTable, prints: int) -> int:
    """The least that can be bought for so many prints, by the area of all pieces and the lowest piece."""
    supply = table.supply
    lowest = min(lie.height for demand in table.demands for lie in lies(demand, supply))
    width = supply.usable_width
    area = sum(
        ((width if d.whole_strip else d.width).exact * d.height.exact * d.count for d in table.demands),
        Fraction(0),
    )
    length = area / width.exact + supply.straightening.exact * prints
    by_area = math.ceil(length / supply.share_left / supply.buying_step.exact)
    return max(by_area, prints * table.steps(lowest))


def _last_sets_smaller(table: CuttingTable, each: list[tuple[int, ...]]) -> list[tuple[int, ...]]:
    """No more pieces than are wanted: where sets do not come out, one print gives a smaller set."""
    for size, demand in enumerate(table.demands):
        over = sum(pieces[size] for pieces in each) - demand.count
        if over:
            which = max(range(len(each)), key=lambda k: (each[k][size] > over, each[k][size], -k))
            pieces = list(each[which])
            pieces[size] -= over
            each[which] = tuple(pieces)
    return each


def _gives(table: CuttingTable, pieces: tuple[int, ...]) -> Counter[str]:
    """What a print gives for places: by size, and all together."""
    gives = Counter(
        {d.name: n * table.wish.batch(d.name).gives for d, n in zip(table.demands, pieces, strict=True)}
    )
    gives[""] = sum(gives.values())
    return gives


def _look(table: CuttingTable, pieces: tuple[int, ...]) -> int:
    return _gives(table, pieces)[""]


def _share(table: CuttingTable, pieces: tuple[int, ...], prints: int) -> PrintShare:
    named = [(demand.name, n) for demand, n in zip(table.demands, pieces, strict=True) if n]
    alike = max(table.wish.batch(name).gives * n for name, n in named)
    return PrintShare(prints, tuple(named), table.best_layout(pieces), alike, _fits(table, pieces))


def _fits(table: CuttingTable, pieces: tuple[int, ...]) -> tuple[str, ...]:
    """The smallest precuts that hold all pieces of one print."""
    found: list[Given] = []
    for piece in sorted((precut(kind, 1) for kind in PRECUTS), key=lambda piece: piece.area):
        if found and piece.area > found[0].area:
            break
        with suppress(Refused):
            lay_on_given(table.wanted(pieces), [piece], LITTLE)
            found.append(piece)
    return tuple(piece.name for piece in found)
