"""From all cloth that is offered to the kinds of the task, with what each costs there.

What is bought costs its price, or its area where prices are not known. What is on hand costs next to
nothing beside it, and its area where nothing may be bought.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from piecewright.cutting.given.cloth import Bolt, Given, Offered, Pack, Run
from piecewright.cutting.given.task import Cloth, Kind
from piecewright.measure.length import Length

# Cloth on hand against the same area bought: enough to spare it, never enough to buy for its sake.
NEXT_TO_NOTHING = 1e-4
# So many equal lengths are cut one by one, each as a bolt; more are cut alike.
FEW = 8
RUNS: Mapping[Run, tuple[bool, ...]] = {"across": (False,), "along": (True,), "either": (False, True)}


@dataclass(frozen=True, slots=True)
class Source:
    """Where a kind of the task comes from: a given piece, a pack's piece, or the bolt (`given` None)."""

    cloth: Cloth
    given: Given | None
    bought: bool


def sources(offered: Offered, packs: Sequence[int] | None) -> list[Source]:
    """The kinds of cloth in the task, shelf first.

    `packs` says how many of each pack are bought and paid for already; without it their pieces are bought
    one by one, at their share of the price, as no real shop would.
    """
    found = [source for given in offered.shelf for source in _on_hand(given, _shelf_rate(offered))]
    for number, pack in enumerate(offered.packs):
        piece = pack.piece
        if packs is None:
            cost = pack_cost(pack, offered) / piece.count
            found.append(_piecewise(piece, piece.count * pack.most, float(cost), bought=True))
        elif packs[number]:
            paid = _shelf_rate(offered) * float(piece.area)
            found.append(_piecewise(piece, piece.count * packs[number], paid, bought=False))
    if offered.bolt is not None:
        found.append(_endless(offered.bolt, offered))
    return found


def pack_costs(offered: Offered, packs: Sequence[int]) -> Fraction:
    """What so many of each pack cost: money, or square inches."""
    costs = (pack_cost(pack, offered) * number for pack, number in zip(offered.packs, packs, strict=True))
    return sum(costs, Fraction(0))


def bolt_cost(bolt: Bolt, steps: int, priced: bool) -> Fraction:
    """What so many buying steps of the bolt cost: money, or square inches."""
    supply = bolt.supply
    if priced and bolt.price is not None:
        return bolt.price * steps
    return supply.usable_width.exact * supply.buying_step.exact * steps


def pack_cost(pack: Pack, offered: Offered) -> Fraction:
    """What one pack costs: money, or square inches."""
    if offered.priced and pack.price is not None:
        return pack.price
    return pack.piece.area * pack.piece.count


def _inch_cost(bolt: Bolt, offered: Offered) -> Fraction:
    """An inch of strips, with what shrinks away of it."""
    inch = bolt_cost(bolt, 1, offered.priced) / bolt.supply.buying_step.exact
    return inch / bolt.supply.share_left


def bought_rate(offered: Offered) -> Fraction:
    """The least that a square inch costs to buy; nothing where nothing may be bought."""
    rates = [pack_cost(pack, offered) / (pack.piece.area * pack.piece.count) for pack in offered.packs]
    if offered.bolt is not None:
        rates.append(_inch_cost(offered.bolt, offered) / offered.bolt.supply.usable_width.exact)
    return min(rates, default=Fraction(0))


def _shelf_rate(offered: Offered) -> float:
    """What a square inch on hand costs in the task."""
    return float(bought_rate(offered)) * NEXT_TO_NOTHING if offered.may_buy else 1.0


def _on_hand(given: Given, rate: float) -> list[Source]:
    if given.like_a_bolt and given.count <= FEW:
        cloth = Cloth(given.width, given.height, (False,), Kind(False, None, rate * float(given.width)))
        return [Source(cloth, given, False)] * given.count
    return [_piecewise(given, given.count, rate * float(given.area), bought=False)]


def _piecewise(given: Given, count: int, cost: float, bought: bool) -> Source:
    cloth = Cloth(given.width, given.height, RUNS[given.strips], Kind(True, count, cost))
    return Source(cloth, given, bought)


def _endless(bolt: Bolt, offered: Offered) -> Source:
    supply = bolt.supply
    kind = Kind(False, None, float(_inch_cost(bolt, offered)))
    height: Length | None = None
    return Source(Cloth(supply.usable_width, height, (False,), kind, supply.squaring), None, True)
