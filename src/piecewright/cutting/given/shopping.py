"""Cutting from the cloth that is there, and buying only what is lacking: the shelf first, then the shop."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from piecewright.cutting.given.cloth import Given, Offered
from piecewright.cutting.given.layout import CutGiven, FromShelf
from piecewright.cutting.given.leftovers import leftovers
from piecewright.cutting.given.mixing import GivenMixing
from piecewright.cutting.given.offer import Source, bolt_cost, bought_rate, pack_cost, pack_costs, sources
from piecewright.cutting.given.pack_choices import pack_choices, packs_taken
from piecewright.cutting.given.problems import check_given, lacking
from piecewright.cutting.given.settling import Use, pieces_of
from piecewright.cutting.given.task import GivenTask, task_of
from piecewright.cutting.given.telling import bolt_layout, cut_given
from piecewright.cutting.laying import lay_out
from piecewright.cutting.layout import Layout
from piecewright.cutting.wanted import Demand
from piecewright.cutting.wishes import USUAL, CuttingWish
from piecewright.measure.length import Length
from piecewright.problems import Refused

# Thousand table entries; 100,000 are about a second.
FULL_EFFORT = 120_000
SLIGHT = 1e-6
NEARLY = Fraction(1, 10**6)


def lay_on_given(demands: Sequence[Demand], given: Sequence[Given], effort: int = FULL_EFFORT) -> FromShelf:
    """The pieces cut from given cloth alone, from as little of it as can be found.

    Raises Refused with every reason why they cannot be cut from it, with the figures.
    """
    return from_shelf(demands, Offered(tuple(given)), effort=effort)


def from_shelf(
    demands: Sequence[Demand],
    offered: Offered,
    wish: CuttingWish = USUAL,
    effort: int = FULL_EFFORT,
) -> FromShelf:
    """The pieces cut from the shelf first, and the rest from what is bought: as little as can be found.

    Of plans that buy equally much, one that cuts into less cloth, then one with less cutting. Raises
    Refused with every reason why the pieces cannot be had, with the figures.
    """
    problems = check_given(demands, offered)
    if problems:
        raise Refused(*problems)
    return _Shopping(demands, offered, wish, effort).best()


class _Shopping:
    def __init__(self, demands: Sequence[Demand], offered: Offered, wish: CuttingWish, effort: int) -> None:
        self.demands, self.offered, self.wish, self.effort = demands, offered, wish, effort
        self.area = sum((self._width(d).exact * d.height.exact * d.count for d in demands), Fraction(0))
        self.least_cost, self.least_area = Fraction(0), self.area

    def best(self) -> FromShelf:
        """Nothing bought where that can be; else the cheapest of all choices of packs."""
        shelf = replace(self.offered, packs=(), bolt=None)
        if not self.demands:
            return self._result([], [], (), None)
        if not self.offered.may_buy:
            found, mixing = self._from_shelf_alone(shelf)
            if found is None:
                raise Refused(lacking(self.demands, self.offered, mixing.task, self._last))
            return found
        root = self._mixing(sources(self.offered, None), 0)
        on_hand = sum((given.area * given.count for given in shelf.shelf), Fraction(0))
        lacking_area = max(self.area - on_hand, Fraction(0))
        bound = max(Fraction(root.sold_bound), lacking_area * bought_rate(self.offered) * (1 - NEARLY))
        self.least_cost = self._rounded(bound)
        if root.sold_bound <= SLIGHT and on_hand >= self.area:
            found, _ = self._from_shelf_alone(shelf)
            if found is not None:
                return found
        best: FromShelf | None = None
        for packs in self._pack_choices(root):
            if best is None or pack_costs(self.offered, packs) < best.cost:
                found = self._with(packs, best.cost if best else None)
                best = min((one for one in (best, found) if one is not None), key=_order, default=None)
        if best is None:
            raise Refused(lacking(self.demands, self.offered, root.task, self._last))
        return best

    def _from_shelf_alone(self, shelf: Offered) -> tuple[FromShelf | None, GivenMixing]:
        """From cloth on hand alone, where a layout is found."""
        kinds = sources(shelf, ())
        mixing = self._mixing(kinds, self.effort)
        step = _common([_least_taken(source, mixing.task) for source in kinds])
        least = step * math.ceil(Fraction(mixing.bound) * (1 - NEARLY) / step)
        best: list[Use] = []
        for uses in mixing.layouts():
            best = self._last = uses
            missing, cost, _ = mixing.order(uses)
            if not missing and cost <= float(least) + SLIGHT:
                break
        if not best or mixing.order(best)[0]:
            return None, mixing
        self.least_area = max(self.area, least)
        return self._result(kinds, best, (0,) * len(self.offered.packs), mixing.task), mixing

    def _with(self, packs: Sequence[int], than: Fraction | None) -> FromShelf | None:
        """The best that is found with so many of each pack, and the bolt; nothing if it cannot cost less."""
        kinds = sources(self.offered, packs)
        if not kinds:
            return None
        mixing = self._mixing(kinds, self.effort)
        if than is not None and pack_costs(self.offered, packs) + self._in_steps(mixing.sold_bound) >= than:
            return None
        best: list[Use] = []
        for uses in mixing.layouts():
            best = self._last = uses
            if not mixing.order(uses)[0] and self._proven(mixing.task, kinds, uses, packs):
                break
        if not best or mixing.order(best)[0]:
            return None
        return self._result(kinds, best, packs, mixing.task)

    def _mixing(self, kinds: Sequence[Source], effort: int) -> GivenMixing:
        task = task_of(
            self.demands,
            [source.cloth for source in kinds],
            self.offered.ruler_length,
            self.offered.bolt.supply.usable_width if self.offered.bolt else None,
        )
        return GivenMixing(task, [not source.bought for source in kinds], effort)

    def _pack_choices(self, root: GivenMixing) -> list[tuple[int, ...]]:
        """How many of each pack to try: about as many as are taken beside the bolt, or were there none."""
        taken = alone = packs_taken(root.share, self.offered)
        if self.offered.bolt is not None and self.offered.packs:
            without = replace(self.offered, bolt=None)
            alone = packs_taken(self._mixing(sources(without, None), 0).share, without)
        return pack_choices(self.offered, taken, alone, self.area)

    def _proven(
        self, task: GivenTask, kinds: Sequence[Source], uses: Sequence[Use], packs: Sequence[int]
    ) -> bool:
        """Whether no less can be bought, with so many packs at least."""
        if self.offered.bolt is None:
            return True
        length = sum(
            task.amount(use.column) * use.times
            for use in uses
            if kinds[task.frames[use.column.frame].kind].given is None
        )
        steps = self._steps(Length(task.mark * length))
        cost = pack_costs(self.offered, packs)
        if self.offered.bolt is not None:
            cost += bolt_cost(self.offered.bolt, steps, self.offered.priced)
        return cost <= self.least_cost

    def _steps(self, length: Length) -> int:
        """The buying steps for so much length of strips, without spare strips."""
        if self.offered.bolt is None or not length:
            return 0
        supply = self.offered.bolt.supply
        needed = (length + supply.straightening + supply.spare_length) / supply.share_left
        return math.ceil(needed.exact / supply.buying_step.exact)

    def _rounded(self, cost: Fraction) -> Fraction:
        """The least cost in whole buying steps or packs, where only one of the two is sold."""
        bolt = self.offered.bolt
        if cost <= SLIGHT:
            return Fraction(0)
        if bolt is None:
            step = _common([pack_cost(pack, self.offered) for pack in self.offered.packs])
            return step * math.ceil(cost * (1 - NEARLY) / step)
        return cost if self.offered.packs else self._in_steps(cost)

    def _in_steps(self, cost: Fraction | float) -> Fraction:
        """The cost of cloth off the bolt in whole buying steps."""
        bolt, cost = self.offered.bolt, Fraction(cost)
        if bolt is None or cost <= SLIGHT:
            return Fraction(0)
        inch = bolt_cost(bolt, 1, self.offered.priced) / bolt.supply.buying_step.exact
        length = cost * bolt.supply.share_left / inch
        return bolt_cost(bolt, self._steps(Length(length * (1 - NEARLY))), self.offered.priced)

    def _result(
        self, kinds: Sequence[Source], uses: Sequence[Use], packs: Sequence[int], task: GivenTask | None
    ) -> FromShelf:
        used: list[CutGiven] = []
        bolt_uses: list[Use] = []
        if task is not None:
            bolt_uses = [use for use in uses if kinds[task.frames[use.column.frame].kind].given is None]
            used = cut_given(task, kinds, uses, self.demands)
        bought = self._bought(task, bolt_uses) if task is not None and bolt_uses else None
        bolt = self.offered.bolt
        cost = pack_costs(self.offered, packs) if packs else Fraction(0)
        if bolt is not None and bought is not None:
            cost += bolt_cost(bolt, bought.purchase.steps, self.offered.priced)
        return FromShelf(
            used=tuple(used),
            packs=tuple(
                (pack, number) for pack, number in zip(self.offered.packs, packs, strict=True) if number
            ),
            bought=bought,
            leftovers=leftovers(used, bought, bolt.supply if bolt else None),
            cost=cost,
            least_cost=self.least_cost,
            area=self.area,
            least_area=self.least_area if not cost else self.area,
            priced=self.offered.priced,
        )

    def _bought(self, task: GivenTask, uses: Sequence[Use]) -> Layout:
        """What comes from the bolt, laid out anew; or as it was found, where that buys less."""
        assert self.offered.bolt is not None
        supply = self.offered.bolt.supply
        counts = pieces_of(task, uses)
        rest = [replace(d, count=int(n)) for d, n in zip(self.demands, counts, strict=True) if n]
        layouts = [lay_out(rest, supply, self.wish), bolt_layout(task, uses, self.demands, supply)]
        if layouts[1].buy < layouts[0].buy:
            layouts.append(lay_out(rest, supply, replace(self.wish, aim="least cloth")))
        return min(layouts, key=lambda layout: (layout.buy, layout.ruler_changes, layout.cuts))

    def _width(self, demand: Demand) -> Length:
        bolt = self.offered.bolt
        return bolt.supply.usable_width if demand.whole_strip and bolt is not None else demand.width

    _last: Sequence[Use] = ()


def _order(result: FromShelf) -> tuple[Fraction, Fraction, int, int]:
    return result.cost, result.area_used, result.ruler_changes, result.cuts


def _least_taken(source: Source, task: GivenTask) -> Fraction:
    """The area in whole multiples of which a cloth is taken: the whole of it, or a mark of its length."""
    assert source.given is not None
    if source.cloth.kind.whole:
        return source.given.area
    return source.given.width.exact * task.mark


def _common(costs: Sequence[Fraction]) -> Fraction:
    """The largest amount of which all these are whole multiples."""
    parts = math.lcm(*(cost.denominator for cost in costs))
    return Fraction(math.gcd(*(int(cost * parts) for cost in costs)), parts)
