"""From the entries of a cutting list to its items, fabrics and bolts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from piecewright.cutting.lists.entries import LONGEST, SMALLEST, Entries, Place
from piecewright.cutting.lists.listed import Item, ListedBolt, ListedFabric, Motif
from piecewright.cutting.lists.shape_entries import SHAPE_ITEM_KEYS, shape_from
from piecewright.cutting.lists.spare import NOTHING_SPARE, Spare, read_spare
from piecewright.cutting.shapes.wanted import ShapeDemand
from piecewright.cutting.wanted import MOST_PIECES, WIDEST_CLOTH, Supply
from piecewright.measure.length import ZERO, inches
from piecewright.measure.showing import figure

ITEM_KEYS = ("w", "h", "count", "may_turn", "lengthwise", "name")
CSV_ITEM_KEYS = tuple(dict.fromkeys((*ITEM_KEYS, *SHAPE_ITEM_KEYS)))
BOLT_KEYS = ("width", "selvedge", "shrinkage", "shrinkage_across", "straightening", "buying_step")
WISH_KEYS = ("ruler_length", "squaring", "spare_strips", "spare", "one_way", "repeat_across", "repeat_along")
FABRIC_KEYS = (*BOLT_KEYS, *WISH_KEYS, "price", "stand_ins", "may_buy")
_TOLD = {"w": "a width", "h": "a height", "count": "a count"}


def item_from(entries: Entries, entry: Mapping[str, Any], place: Place) -> Item | ShapeDemand | None:
    """The item or shape of an entry; None where something in it is wrong."""
    if str(entry.get("shape", "")).strip():
        return shape_from(entries, entry, place)
    entries.known(entry, ITEM_KEYS, place)
    before = len(entries.problems)
    for key, told in _TOLD.items():
        if key not in entry:
            entries.wrong(f"expected {told} for every piece, got none", place(""), f"Write {key} = ...")
    width = entries.length(entry, "w", ZERO, place, SMALLEST, LONGEST)
    height = entries.length(entry, "h", ZERO, place, SMALLEST, LONGEST)
    count = entries.count(entry, "count", 1, place, 1)
    usual = f"{figure(width, entries.unit)} x {figure(height, entries.unit)}"
    name = entries.text(entry, "name", usual, place)
    may_turn = entries.yes(entry, "may_turn", True, place)
    lengthwise = entries.yes(entry, "lengthwise", False, place)
    if len(entries.problems) > before:
        return None
    return Item(name, width, height, count, may_turn, lengthwise)


def fabric_from(
    entries: Entries,
    name: str,
    entry: Mapping[str, Any],
    items: Sequence[Item | ShapeDemand | None],
    place: Place,
) -> ListedFabric:
    """The fabric of an entry, with a bolt as the entry says or as is usual in the workroom."""
    bolt = bolt_from(entries, name, entry, place)
    across = entries.length(entry, "repeat_across", ZERO, place)
    return ListedFabric(
        name=name,
        items=_named_apart([item for item in items if isinstance(item, Item)]),
        shapes=tuple(item for item in items if isinstance(item, ShapeDemand)),
        supply=bolt.supply,
        selvedge=bolt.selvedge,
        shrinkage_across=bolt.shrinkage_across,
        one_way=entries.yes(entry, "one_way", False, place),
        motif=Motif(across, entries.length(entry, "repeat_along", ZERO, place)),
        spare=_spare(entries, entry, place),
        price=bolt.price,
        says_bolt="width" in entry or entry.get("may_buy") is True,
        stand_ins=tuple(one for one in entries.names(entry, "stand_ins", place) if one != name),
        may_buy=entries.yes(entry, "may_buy", True, place),
    )


def bolt_from(entries: Entries, fabric: str, entry: Mapping[str, Any], place: Place) -> ListedBolt:
    """The bolt that an entry tells of, with what is usual where it is silent."""
    room = entries.room
    step = entries.length(entry, "buying_step", room.buying_step, place, SMALLEST)
    supply = Supply(
        key=fabric,
        usable_width=entries.length(entry, "width", room.usable_width, place, SMALLEST, WIDEST_CLOTH),
        buying_step=step,
        straightening=entries.length(entry, "straightening", room.straightening, place),
        shrinkage=entries.share(entry, "shrinkage", room.shrinkage, place),
        spare_strips=entries.count(entry, "spare_strips", room.spare_strips, place, 0, MOST_PIECES),
        ruler_length=entries.length(entry, "ruler_length", room.ruler_length, place, inches(1)),
        unit=entries.unit,
        squaring=entries.length(entry, "squaring", ZERO, place),
    )
    return ListedBolt(
        supply=supply,
        selvedge=entries.length(entry, "selvedge", ZERO, place),
        shrinkage_across=entries.share(entry, "shrinkage_across", 0.0, place),
        price=entries.price_of_length(entry, step, place),
    )


def _spare(entries: Entries, entry: Mapping[str, Any], place: Place) -> Spare:
    try:
        return read_spare(str(entry["spare"]), entries.unit) if "spare" in entry else NOTHING_SPARE
    except ValueError as error:
        entries.wrong(str(error), place("spare"))
        return NOTHING_SPARE


def _named_apart(items: Sequence[Item]) -> tuple[Item, ...]:
    """Items of the same name are numbered from the second on."""
    taken = {item.name for item in items}
    seen: set[str] = set()
    named = []
    for item in items:
        name = item.name
        if name in seen:
            name = next(f"{name} ({k})" for k in range(2, len(items) + 2) if f"{name} ({k})" not in taken)
        seen.add(name)
        taken.add(name)
        named.append(replace(item, name=name))
    return tuple(named)
