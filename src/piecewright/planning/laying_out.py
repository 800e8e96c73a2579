"""Laying out the cloths of a plan: each from the shelf first, and from the bolt what is lacking.

Words: *on hand* is the cloth of the shelf that may serve for a fabric; what one fabric takes of it is gone
for the next.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from piecewright.bench.plan import Have, Supply
from piecewright.bench.steps import AnyStep
from piecewright.cutting.cloth_cut import ClothCut, from_bolt_alone
from piecewright.cutting.given.cloth import Bolt, Given, Offered
from piecewright.cutting.given.layout import CutGiven, FromShelf
from piecewright.cutting.given.shopping import from_shelf
from piecewright.cutting.given.steps import given_steps, had
from piecewright.cutting.wanted import Demand
from piecewright.cutting.wishes import CuttingWish
from piecewright.measure.length import ZERO
from piecewright.planning.cutting_wishes import lay_out_cloth
from piecewright.planning.things import Cut, Thing
from piecewright.planning.writing import cutting_steps
from piecewright.shelf.after_cutting import ShelfChange, change_of
from piecewright.shelf.shelf import Shelf, given_from
from piecewright.workroom.workroom import Workroom


def demands_of(things: Mapping[str, Thing], counts: Mapping[str, int]) -> dict[str, list[Demand]]:
    """The pieces that are cut of every cloth."""
    demands: dict[str, list[Demand]] = {}
    for thing in things.values():
        if isinstance(thing, Cut) and counts[thing.name]:
            demands.setdefault(thing.fabric, []).append(
                Demand(
                    thing.name,
                    thing.width,
                    thing.height,
                    counts[thing.name],
                    thing.may_turn,
                    thing.whole_strip,
                    thing.reserve,
                )
            )
    return demands


def lay_out_cloths(
    demands: Mapping[str, Sequence[Demand]],
    bolts: Sequence[Bolt],
    wish: CuttingWish,
    shelf: Shelf | None = None,
    stand_ins: Mapping[str, Sequence[str]] | None = None,
) -> tuple[ClothCut, ...]:
    """How every cloth is cut that something is cut of, in the order of the bolts.

    Cloth of the shelf serves for the fabric of its own name, and for those that it may stand in for.
    """
    free, cut = shelf or Shelf(), []
    for bolt in bolts:
        key = bolt.supply.key
        if key not in demands:
            continue
        on_hand = given_from(free, [key, *(stand_ins or {}).get(key, ())])
        found = _cut_of(demands[key], bolt, on_hand, wish)
        free = _without(free, found)
        cut.append(ClothCut(key, found))
    return tuple(cut)


def _cut_of(
    demands: Sequence[Demand], bolt: Bolt, on_hand: tuple[Given, ...], wish: CuttingWish
) -> FromShelf:
    supply = bolt.supply
    if not on_hand:
        return from_bolt_alone(lay_out_cloth(demands, supply, wish), supply)
    ruler = {} if supply.ruler_length is None else {"ruler_length": supply.ruler_length}
    return from_shelf(demands, Offered(on_hand, (), bolt, unit=supply.unit, **ruler), wish)


def _without(shelf: Shelf, cut: FromShelf) -> Shelf:
    """The shelf without the pieces that are cut into; what is left of them waits until the quilt is cut."""
    left = []
    used = {(c.fabric, c.width, c.height): 0 for c in cut.used}
    for c in cut.used:
        used[c.fabric, c.width, c.height] += c.times
    for cloth in shelf.cloth:
        taken = min(cloth.count, used.get(cloth.size, 0))
        if taken:
            used[cloth.size] -= taken
        if cloth.count > taken:
            left.append(replace(cloth, count=cloth.count - taken))
    return replace(shelf, cloth=tuple(left))


def cloth_listed(
    cut: Sequence[ClothCut], bolts: Sequence[Bolt], upright: frozenset[str]
) -> tuple[Supply, ...]:
    """The cloth that the plan is cut from as it comes from the bolt; none of what the shelf has enough of."""
    widths = {bolt.supply.key: bolt.supply.usable_width for bolt in bolts}
    return tuple(
        Supply(
            fabric=cloth.name,
            width=widths[cloth.name],
            length=cloth.cut.bought.length if cloth.cut.bought else ZERO,
            one_way=cloth.name in upright,
        )
        for cloth in cut
    )


def cloth_had(cut: Sequence[ClothCut]) -> tuple[Have, ...]:
    """The pieces off the shelf that lie on the table before the first cut."""
    return tuple(have for cloth in cut for have in had(_own(cloth)))


def steps_of_cutting(cut: Sequence[ClothCut], workroom: Workroom) -> list[AnyStep]:
    """The cuts of every cloth: what is off the shelf first, then the bolt."""
    steps: list[AnyStep] = []
    for cloth in cut:
        steps += given_steps(_own(cloth))
        steps += cutting_steps([cloth.cut.bought] if cloth.cut.bought else [], workroom)
    return steps


def shelf_change(cut: Sequence[ClothCut], shelf: Shelf, note: str) -> ShelfChange:
    """What goes off the shelf when the quilt is cut, and what is left of it and comes back."""
    on_hand = given_from(shelf)
    changes = [change_of(cloth.cut, on_hand, note) for cloth in cut]
    return ShelfChange(
        tuple(piece for change in changes for piece in change.used),
        tuple(piece for change in changes for piece in change.left),
    )


def _own(cloth: ClothCut) -> list[CutGiven]:
    """The given pieces under the name of the cloth that they serve for, as the bench knows it."""
    return [replace(cut, fabric=cloth.name) for cut in cloth.cut.used]
