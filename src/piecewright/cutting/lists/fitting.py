"""Pieces of a list that no cloth can hold: told with the figures and with what would make it feasible."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from piecewright.cutting.lists.listed import UNNAMED, Item, ListedBolt, ListedFabric
from piecewright.cutting.lists.offering import Offer
from piecewright.cutting.shapes.problems import check_shapes
from piecewright.cutting.wanted import Demand
from piecewright.measure.length import Length, Unit, inches, mm
from piecewright.measure.showing import figure, show
from piecewright.problems import Problem


@dataclass(frozen=True, slots=True)
class _Room:
    """The room on one cloth; a bolt has no end."""

    width: Length
    height: Length | None

    def holds(self, across: Length, along: Length) -> bool:
        return across <= self.width and (self.height is None or along <= self.height)


def check_fits(fabric: ListedFabric, offers: Sequence[Offer]) -> list[Problem]:
    """Why some pieces of the fabric fit on none of the cloth offered; empty where all of them do."""
    where, unit = f"cloth {fabric.name!r}", fabric.supply.unit
    narrow = [problem for offer in offers if offer.bolt for problem in _too_narrow(fabric, offer.bolt, unit)]
    if narrow:
        return [replace(problem, where=where) for problem in dict.fromkeys(narrow)]
    rooms = [_Room(one.width, one.height) for one in offers[0].offered.shelf]
    rooms += [_Room(pack.piece.width, pack.piece.height) for pack in offers[0].offered.packs]
    rooms += [_Room(offer.offered.bolt.supply.usable_width, None) for offer in offers if offer.offered.bolt]
    if not rooms:
        return [_no_cloth(fabric, where)]
    shapes = [shape.demand for shape in fabric.shape_cuts]
    if any(offer.offered.bolt for offer in offers) and (wrong := check_shapes(shapes, [], fabric.bolt)):
        return wrong
    return [
        _too_large(fabric, item, demand, rooms, unit, where)
        for item, demand in zip(fabric.items, fabric.item_demands, strict=True)
        if not any(_holds(room, demand, demand.may_turn) for room in rooms)
    ]


def _holds(room: _Room, demand: Demand, may_turn: bool) -> bool:
    upright = room.holds(demand.width, demand.height)
    return upright or (may_turn and room.holds(demand.height, demand.width))


def _too_narrow(fabric: ListedFabric, bolt: ListedBolt, unit: Unit) -> list[Problem]:
    """A bolt of which selvedges or the motif's repeat leave nothing."""
    wide, selvedges, repeat = bolt.supply.usable_width, bolt.selvedge * 2, fabric.motif.across
    if wide <= selvedges:
        lost = f"two selvedges of {show(bolt.selvedge, unit)}"
        what = f"expected cloth wider than its {lost}, got {show(wide, unit)}."
        return [Problem(what, do="Write width as measured over all, or leave selvedge out.")]
    if repeat and fabric.cut_from(bolt).usable_width < repeat:
        least = show(_width_for(fabric, bolt, repeat), unit)
        what = f"expected cloth as wide as two repeats of {show(repeat, unit)}, got {show(wide, unit)}."
        do = f"One is lost in finding the first motif: cloth {least} wide would do, or no repeat_across."
        return [Problem(what, do=do)]
    return []


def _width_for(fabric: ListedFabric, bolt: ListedBolt | None, across: Length) -> Length:
    """How wide cloth must be for a piece, up to the next 1/8 in or millimetre."""
    needed = across + fabric.motif.across
    if bolt is not None:
        share = replace(bolt.supply, shrinkage=bolt.shrinkage_across).share_left
        needed = needed / share + bolt.selvedge * 2
    mark = inches("1/8") if fabric.supply.unit == "in" else mm(1)
    return mark * -(-needed.exact // mark.exact)


def _no_cloth(fabric: ListedFabric, where: str) -> Problem:
    if fabric.may_buy:
        return Problem(
            "expected cloth to cut from, got none.", where, "Put cloth on the shelf, or name a bolt."
        )
    names = " or ".join(name for name in fabric.fabrics if name != UNNAMED)
    of = f" of {names}" if names else ""
    what = f"expected cloth{of} on hand, got none, and nothing may be bought."
    return Problem(what, where, "Put cloth on the shelf or in supplies, or leave may_buy out.")


def _too_large(
    fabric: ListedFabric, item: Item, demand: Demand, rooms: Sequence[_Room], unit: Unit, where: str
) -> Problem:
    size = f"{figure(demand.width, unit)} x {show(demand.height, unit)}"
    if {item.width, item.height} != {demand.width, demand.height}:
        size += f" in whole repeats of the motif ({figure(item.width, unit)} x {show(item.height, unit)})"
    what = f"expected {item.name!r} to fit {_on(rooms, unit)}, got {size}."
    turned = any(_holds(room, demand, True) for room in rooms)
    do = f"{_why_not_turned(fabric, item)} " if turned else ""
    return Problem(what, where, f"{do}{_what_would_do(fabric, demand, unit)}")


def _on(rooms: Sequence[_Room], unit: Unit) -> str:
    bolts = [room.width for room in rooms if room.height is None]
    if bolts:
        return f"across the cloth, {show(max(bolts), unit)}"
    largest = max(rooms, key=lambda room: room.width.exact * (room.height or room.width).exact)
    assert largest.height is not None
    return f"on a piece of cloth, {figure(largest.width, unit)} x {show(largest.height, unit)} at most"


def _why_not_turned(fabric: ListedFabric, item: Item) -> str:
    if item.lengthwise:
        why = "it is to lie lengthwise"
    elif fabric.one_way:
        why = "the print is one-way"
    elif fabric.motif.across or fabric.motif.along:
        why = "the motif is to stand upright"
    else:
        why = "may_turn is false"
    return f"Turned by a quarter it would fit, but {why}."


def _what_would_do(fabric: ListedFabric, demand: Demand, unit: Unit) -> str:
    least = min(demand.width, demand.height) if demand.may_turn else demand.width
    wide = _width_for(fabric, fabric.own_bolt, least)
    if fabric.may_buy and wide <= inches(120):
        return f"A bolt at least {show(wide, unit)} wide would do; or join it from smaller pieces."
    return "Join it from smaller pieces, or take larger cloth."
