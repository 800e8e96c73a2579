"""How one fabric of a list is cut: its own cloth first, then that of stand-ins as well, then the shop."""

from __future__ import annotations

import time
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from piecewright.cutting.checking import check_layout
from piecewright.cutting.given.checking import check_from_shelf
from piecewright.cutting.given.cloth import Bolt, Offered
from piecewright.cutting.given.layout import FromShelf
from piecewright.cutting.given.leftovers import leftovers
from piecewright.cutting.given.offer import bolt_cost
from piecewright.cutting.given.shopping import FULL_EFFORT as FULL_EFFORT_ON_GIVEN
from piecewright.cutting.given.shopping import from_shelf
from piecewright.cutting.laying import lay_out, layouts, own_strips_layout
from piecewright.cutting.layout import Layout
from piecewright.cutting.lists.enough import with_what_would_do
from piecewright.cutting.lists.fitting import check_fits
from piecewright.cutting.lists.least import least_steps
from piecewright.cutting.lists.listed import ListedBolt, ListedFabric
from piecewright.cutting.lists.offering import Offer, own_cloth
from piecewright.cutting.wanted import Demand
from piecewright.cutting.wishes import AIMS, FULL_EFFORT, CuttingWish
from piecewright.problems import Refused


@dataclass(frozen=True, slots=True)
class CutFabric:
    """A fabric of a list as it is cut from what was `offered`, with the `bolt` that was offered too.

    `own` is what comes from the bolt, each size in its own strips. `seconds` are those to the last layout,
    `at_once` those to the first whole one.
    """

    fabric: ListedFabric
    cut: FromShelf
    offered: Offered
    bolt: ListedBolt | None
    own: Layout | None
    wish: CuttingWish
    seconds: float
    at_once: float

    @property
    def cost(self) -> Fraction | None:
        """The money for all that is bought, where every price is known."""
        prices = [(pack.price, number) for pack, number in self.cut.packs]
        if self.cut.bought is not None and self.bolt is not None:
            prices.append((self.bolt.price, self.cut.bought.purchase.steps))
        if any(price is None for price, _ in prices):
            return None
        return sum((price * number for price, number in prices if price is not None), Fraction(0))

    @property
    def area_bought(self) -> Fraction:
        """The area of all cloth that is bought, in square inches."""
        packs = (pack.piece.area * pack.piece.count * number for pack, number in self.cut.packs)
        bought = self.cut.bought
        return sum(packs, Fraction(0)) + (bought.usable_width.exact * bought.buy.exact if bought else 0)


def cut_fabric(fabric: ListedFabric, offers: Sequence[Offer], wish: CuttingWish) -> CutFabric:
    """The fabric as it is cut from the offer that buys least.

    Raises Refused with every reason why it cannot be cut, with the figures and with what would do.
    """
    problems = check_fits(fabric, offers)
    if problems:
        raise Refused(*problems)
    cut = _from_own_cloth(fabric, offers[0], wish)
    for offer in () if cut else offers:
        one = _cut(fabric, offer, wish)
        cut = min((each for each in (cut, one) if each), key=_what_is_bought)
        if not cut.area_bought:
            break
    assert cut is not None
    return cut


def choices_for(one: CutFabric) -> tuple[Layout, ...]:
    """What comes from the bolt, once for each aim, from the least cloth to the least cutting."""
    bought, bolt = one.cut.bought, one.offered.bolt
    if bought is None or bolt is None:
        return ()
    rest = cut_from_bolt(one.fabric.demands, bought)
    return tuple(
        bought if aim == one.wish.aim else lay_out(rest, bolt.supply, replace(one.wish, aim=aim))
        for aim in AIMS
    )


def cut_from_bolt(demands: Sequence[Demand], bought: Layout) -> list[Demand]:
    """The demands that come from the bolt."""
    counts: Counter[str] = Counter()
    for pattern in bought.patterns:
        for section in pattern.sections:
            counts[section.name] += section.pieces * pattern.times
    return [replace(demand, count=counts[demand.name]) for demand in demands if counts[demand.name]]


def _what_is_bought(one: CutFabric) -> tuple[bool, Fraction, Fraction, int]:
    """Less money where all prices are known, else less cloth."""
    cost = one.cost
    return cost is None, cost or Fraction(0), one.area_bought, one.cut.cuts


def _from_own_cloth(fabric: ListedFabric, offer: Offer, wish: CuttingWish) -> CutFabric | None:
    """From the cloth of its own name on hand, where that is enough and others might be cut in its place."""
    own = own_cloth(fabric, offer.offered)
    there = sum((given.area * given.count for given in own.shelf), Fraction(0))
    wanted = sum((d.width.exact * d.height.exact * d.count for d in fabric.demands), Fraction(0))
    if len(own.shelf) == len(offer.offered.shelf) or there < wanted:
        return None
    try:
        return _from_shelf(fabric, Offer(own), wish)
    except Refused:
        return None


def _cut(fabric: ListedFabric, offer: Offer, wish: CuttingWish) -> CutFabric:
    offered = offer.offered
    if offered.bolt is not None and not offered.shelf and not offered.packs:
        return _from_bolt(fabric, offer, offered.bolt, wish)
    try:
        return _from_shelf(fabric, offer, wish)
    except Refused as refused:
        raise with_what_would_do(refused, fabric, offered, _effort(wish)) from refused


def _effort(wish: CuttingWish) -> int:
    return max(1, wish.effort * FULL_EFFORT_ON_GIVEN // FULL_EFFORT)


def _from_shelf(fabric: ListedFabric, offer: Offer, wish: CuttingWish) -> CutFabric:
    began, demands, bolt = time.perf_counter(), fabric.demands, offer.offered.bolt
    cut = from_shelf(demands, offer.offered, wish, _effort(wish))
    seconds = time.perf_counter() - began
    _sound(check_from_shelf(cut, demands, offer.offered))
    own = None
    if cut.bought is not None and bolt is not None:
        own = own_strips_layout(cut_from_bolt(demands, cut.bought), bolt.supply)
    return CutFabric(fabric, cut, offer.offered, offer.bolt, own, wish, seconds, seconds)


def _from_bolt(fabric: ListedFabric, offer: Offer, bolt: Bolt, wish: CuttingWish) -> CutFabric:
    demands, supply = fabric.demands, bolt.supply
    began, found = time.perf_counter(), layouts(demands, supply, wish)
    first = next(found)
    at_once = time.perf_counter() - began
    layout = [first, *found][-1]
    seconds = time.perf_counter() - began
    _sound(check_layout(layout, demands, supply.ruler_length))
    own, cut = own_strips_layout(demands, supply), _as_cut(layout, bolt)
    return CutFabric(fabric, cut, offer.offered, offer.bolt, own, wish, seconds, at_once)


def _as_cut(layout: Layout, bolt: Bolt) -> FromShelf:
    """A layout on the bolt, told as what is cut where nothing is on hand."""
    area = layout.area_bound.exact * layout.usable_width.exact
    priced = bolt.price is not None
    return FromShelf(
        used=(),
        packs=(),
        bought=layout,
        leftovers=leftovers((), layout, bolt.supply),
        cost=bolt_cost(bolt, layout.purchase.steps, priced),
        least_cost=bolt_cost(bolt, least_steps(layout), priced),
        area=area,
        least_area=area,
        priced=priced,
    )


def _sound(problems: Sequence[object]) -> None:
    if problems:
        raise AssertionError(str(problems[0]))
