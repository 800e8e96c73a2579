"""From a cutting list to how all of its fabrics are cut; no piece of cloth on hand is used twice."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import combinations, permutations

from piecewright.cutting.given.cloth import Given
from piecewright.cutting.lists.cut_fabric import CutFabric, cut_fabric
from piecewright.cutting.lists.left import Left
from piecewright.cutting.lists.listed import CuttingList, ListedFabric
from piecewright.cutting.lists.offering import offers_for
from piecewright.cutting.wishes import CuttingWish
from piecewright.measure.number import shortened
from piecewright.problems import Problem, Refused
from piecewright.toml_places import nearest

# So many fabrics that share cloth are tried in every order.
FEW = 3


def cut_all(listed: CuttingList, shelf: Sequence[Given], wish: CuttingWish) -> tuple[CutFabric, ...]:
    """How every fabric of the list is cut, in its order, the `shelf` and the list's own cloth first.

    Raises Refused with every reason why something cannot be cut, with the figures.
    """
    there = all_on_hand(listed, shelf)
    found: dict[str, CutFabric] = {}
    problems: list[Problem] = []
    for group in _sharing(listed):
        try:
            found |= {one.fabric.name: one for one in _in_best_order(group, listed, there, wish)}
        except Refused as refused:
            problems += refused.problems
    if problems:
        raise Refused(*problems)
    return tuple(found[fabric.name] for fabric in listed.fabrics)


def all_on_hand(listed: CuttingList, shelf: Sequence[Given]) -> tuple[Given, ...]:
    """All cloth on hand; what is called alike on the shelf and in the list is told apart."""
    names = {given.name for given in shelf}
    own = [
        replace(given, name=f"{given.name}, as listed") if given.name in names else given
        for given in listed.given
    ]
    return (*shelf, *own)


def missing_stand_ins(listed: CuttingList, shelf: Sequence[Given]) -> list[Problem]:
    """A note for every stand-in of which there is no cloth; used up, perhaps, or misspelt."""
    known = {given.fabric for given in (*shelf, *listed.given)}
    known |= {pack.piece.fabric for pack in listed.packs} | {bolt.fabric for bolt in listed.bolts}
    return [
        Problem(
            f"there is no cloth of {shortened(name)} to stand in for it.",
            f"cloth {fabric.name!r}",
            f"Did you mean {near}?" if (near := nearest(name, known - {fabric.name})) else "",
            weight="note",
        )
        for fabric in listed.fabrics
        for name in fabric.stand_ins
        if name not in known
    ]


def _sharing(listed: CuttingList) -> list[list[ListedFabric]]:
    """The fabrics in groups that may come from the same cloth."""
    groups: list[list[ListedFabric]] = []
    for fabric in listed.fabrics:
        alike = [group for group in groups if any(_share(fabric, other) for other in group)]
        groups = [group for group in groups if group not in alike]
        groups.append([*(one for group in alike for one in group), fabric])
    return groups


def _share(one: ListedFabric, other: ListedFabric) -> bool:
    return not set(one.fabrics).isdisjoint(other.fabrics)


def _in_best_order(
    group: Sequence[ListedFabric], listed: CuttingList, there: Sequence[Given], wish: CuttingWish
) -> list[CutFabric]:
    """One fabric after the other, in the order that buys least."""
    best: list[CutFabric] | None = None
    refused: Refused | None = None
    there_of = {given.fabric for given in there}
    contested = any(there_of & set(one.fabrics) & set(two.fabrics) for one, two in combinations(group, 2))
    for order in _orders(group, contested):
        try:
            cut = _one_by_one(order, listed, there, wish)
        except Refused as why:
            refused = refused or why
            continue
        best = min((each for each in (best, cut) if each is not None), key=_what_is_bought)
        if not any(one.area_bought for one in best):
            break
    if best is None:
        raise refused or AssertionError("an order is tried")
    return best


def _orders(group: Sequence[ListedFabric], contested: bool) -> Iterator[list[ListedFabric]]:
    """Those with few stand-ins first, since others may make way for them.

    Where two may come from the same cloth on hand, every other order of a few fabrics too.
    """
    usual = sorted(group, key=lambda fabric: len(fabric.stand_ins))
    yield usual
    if not contested:
        return
    if 1 < len(group) <= FEW:
        yield from (list(order) for order in permutations(usual) if list(order) != usual)
    elif len(group) > FEW:
        yield usual[::-1]


def _what_is_bought(cut: Sequence[CutFabric]) -> tuple[Fraction, Fraction]:
    """The money, as far as prices are known, then the cloth."""
    costs = [one.cost for one in cut]
    money = Fraction(0) if None in costs else sum((cost for cost in costs if cost), Fraction(0))
    return money, sum((one.area_bought for one in cut), Fraction(0))


def _one_by_one(
    order: Sequence[ListedFabric], listed: CuttingList, there: Sequence[Given], wish: CuttingWish
) -> list[CutFabric]:
    """The fabrics in this order, each from what those before have left."""
    left, packs_taken = Left(there), Counter[str]()
    found, problems = list[CutFabric](), list[Problem]()
    for number, fabric in enumerate(order):
        try:
            cut = cut_fabric(fabric, offers_for(fabric, listed, left.cloth, packs_taken), wish)
        except Refused as refused:
            problems += refused.problems
            continue
        found.append(cut)
        later = {name for other in order[number + 1 :] for name in other.fabrics}
        left.take(cut, later)
        packs_taken.update({pack.piece.name: count for pack, count in cut.cut.packs})
    if problems:
        raise Refused(*problems)
    return [left.without_what_was_used(cut) for cut in found]
