"""The figures of `piecewright cut` for other programs; lengths are decimals in the unit of the list."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from piecewright.cutting.given.cloth import Given, Pack
from piecewright.cutting.given.layout import CutGiven, Leftover
from piecewright.cutting.layout import Layout
from piecewright.cutting.lists.cut_fabric import CutFabric
from piecewright.cutting.lists.least import least_pieces, least_steps, least_steps_besides
from piecewright.cutting.patterns import Pattern
from piecewright.cutting.wishes import AIMS, CuttingWish
from piecewright.measure.length import MM_PER_INCH, Length, Unit


def fabric_data(
    one: CutFabric, given: Sequence[Given], choices: Sequence[Layout], unit: Unit
) -> dict[str, Any]:
    """What comes from the bolt, from cloth on hand and from packs; `given` is at its real size."""
    cut, layers = one.cut, one.wish.layers
    data = {"name": one.fabric.name, **_bolt_data(one, unit)}
    data |= {
        "strips": cut.strips,
        "cuts": cut.cuts,
        "operations": cut.operations(layers),
        "ruler_settings": cut.ruler_changes,
        "used": _used(cut.used, given, unit),
        "pieces_used": sum(cut.count_used.values()),
        "least_pieces": least_pieces(cut, one.offered),
        "area_used": area(cut.area_used, unit),
        "packs": [_pack_data(pack, number, unit) for pack, number in cut.packs],
        "cost": money(one.cost),
        "least_cost": money(cut.least_cost if cut.priced else None),
        "leftovers": [_leftover(rest, unit) for rest in cut.leftovers],
        "seconds": round(one.seconds, 4),
        "first_seconds": round(one.at_once, 4),
    }
    if choices and one.own is not None:
        named = [*zip(AIMS, choices, strict=True), ("each size in its own strips", one.own)]
        data["choices"] = [
            {"choice": name, **layout_data(layout, one.own, one.wish, unit)} for name, layout in named
        ]
    return data


def layout_data(layout: Layout, own: Layout, wish: CuttingWish, unit: Unit) -> dict[str, Any]:
    """What is cut from a bolt."""
    return {
        "usable_width": number(layout.usable_width, unit),
        "length": number(layout.length, unit),
        "area_bound": number(layout.area_bound, unit),
        "lp_bound": number(layout.bound, unit),
        "purchase_steps": layout.purchase.steps,
        "least_purchase_steps": least_steps(layout),
        "buying_step": number(layout.purchase.buying_step, unit),
        "buy": number(layout.buy, unit),
        "own_strips_length": number(own.length, unit),
        "own_strips_operations": own.operations(wish.layers),
        "strips": layout.strips,
        "cuts": layout.cuts,
        "ruler_settings": layout.ruler_changes,
        "operations": layout.operations(wish.layers),
        "way_of_cutting": layout.cuts_as.name,
        "patterns": [_pattern_data(pattern, unit) for pattern in layout.patterns],
    }


def number(length: Length, unit: Unit) -> float:
    """A length as a decimal number in a unit."""
    return float(length) if unit == "in" else float(length.in_mm / 10)


def area(square_inches: Fraction, unit: Unit) -> float:
    """An area as a decimal number in the square of a unit."""
    return round(float(square_inches if unit == "in" else square_inches * (MM_PER_INCH / 10) ** 2), 6)


def money(amount: Fraction | None) -> float | None:
    """An amount as a decimal number."""
    return None if amount is None else round(float(amount), 6)


def _bolt_data(one: CutFabric, unit: Unit) -> dict[str, Any]:
    bought, bolt = one.cut.bought, one.offered.bolt
    price = {"price": money(one.bolt.price if one.bolt else None)}
    if bought is None or one.own is None:
        supply = bolt.supply if bolt else None
        nothing = dict.fromkeys(("length", "area_bound", "lp_bound"), 0.0)
        steps: dict[str, Any] = dict.fromkeys(("purchase_steps", "least_purchase_steps"), 0)
        steps["buying_step"] = number(supply.buying_step, unit) if supply else None
        width = number(supply.usable_width, unit) if supply else None
        own: dict[str, Any] = {"own_strips_length": 0.0, "own_strips_operations": 0}
        own |= {"way_of_cutting": None, "patterns": []}
        return {"usable_width": width, **nothing, **steps, "buy": 0.0, **own, **price}
    data = layout_data(bought, one.own, one.wish, unit)
    if one.cut.used or one.offered.shelf or one.offered.packs:
        data["least_purchase_steps"] = least_steps_besides(one.cut, one.offered)
    return {**data, "bolt": bought.key, **price}


def _used(used: Sequence[CutGiven], given: Sequence[Given], unit: Unit) -> list[dict[str, Any]]:
    """Each cloth that is cut, at its real size, with the ways in which so many of it are cut."""
    sizes = {one.name: (one.width, one.height) for one in given}
    found = []
    for name in dict.fromkeys(cut.name for cut in used):
        ways = [cut for cut in used if cut.name == name]
        width, height = sizes.get(name, (ways[0].width, ways[0].height))
        taken = [number(cut.filled, unit) for cut in ways if cut.like_a_bolt]
        found.append(
            {
                "cloth": name,
                "fabric": ways[0].fabric,
                "w": number(width, unit),
                "h": number(height, unit),
                "count": sum(cut.times for cut in ways),
                **({"lengths_taken": taken} if taken else {}),
                "ways": [_way_data(cut, unit) for cut in ways],
            }
        )
    return found


def _way_data(cut: CutGiven, unit: Unit) -> dict[str, Any]:
    patterns = [_pattern_data(pattern, unit) for pattern in cut.patterns]
    return {"count": cut.times, "strips_run": "along" if cut.along else "across", "patterns": patterns}


def _pack_data(pack: Pack, packs: int, unit: Unit) -> dict[str, Any]:
    piece = pack.piece
    return {
        "cloth": piece.name,
        "fabric": piece.fabric,
        "w": number(piece.width, unit),
        "h": number(piece.height, unit),
        "pieces": piece.count,
        "packs": packs,
        "price": money(pack.price),
        "cost": money(None if pack.price is None else pack.price * packs),
    }


def _leftover(rest: Leftover, unit: Unit) -> dict[str, Any]:
    sides = {"w": number(rest.width, unit), "h": number(rest.height, unit)}
    return {"fabric": rest.fabric, **sides, "count": rest.count}


def _pattern_data(pattern: Pattern, unit: Unit) -> dict[str, Any]:
    sections = [
        {
            "name": section.name,
            "w": number(section.width, unit),
            "h": number(section.height, unit),
            "crosscuts": section.count,
            "stack": section.stack,
            "turned": section.turned,
        }
        for section in pattern.sections
    ]
    return {"height": number(pattern.strip_height, unit), "times": pattern.times, "sections": sections}
