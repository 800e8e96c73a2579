"""What `piecewright cut` says: lines, rows and data about one layout."""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from piecewright.cutting.layout import Layout
from piecewright.cutting.listed import ListedFabric, rough_sizes
from piecewright.cutting.patterns import Pattern, Section
from piecewright.cutting.wishes import CuttingWish
from piecewright.measure.length import Length, Unit
from piecewright.measure.showing import figure, show, show_cloth


def fabric_data(layout: Layout, own: Layout, wish: CuttingWish, unit: Unit) -> dict[str, Any]:
    """The figures for other programs; lengths are decimals in the unit of the list."""
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


def least_steps(layout: Layout) -> int:
    """The fewest buying steps that any layout of this kind could take."""
    bought = layout.purchase
    saved = (layout.length - layout.bound) / _share_left(layout)
    return math.ceil((bought.needed - saved).exact / bought.buying_step.exact)


def _share_left(layout: Layout) -> Fraction:
    bought = layout.purchase
    spared = bought.spare * bought.spare_strips + bought.straightening + bought.further
    return (layout.length + spared).exact / bought.needed.exact


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


def sum_lines(layout: Layout, own: Layout, wish: CuttingWish, unit: Unit) -> list[str]:
    """What to buy, how good that is, and how much work it is."""
    bought = layout.purchase
    lines = [f"Buy {show_cloth(layout.buy, unit)} of cloth {show(layout.usable_width, unit)} wide."]
    lines.append(f"The strips take {show(layout.length, unit)}; {_how_good(layout, unit)}")
    saved = own.length - layout.length
    if saved:
        lines.append(f"That is {show(saved, unit)} less than each size in its own strips.")
    if bought.needed != layout.length:
        lines.append(f"To buy: {layout.sum_lines(unit)[-1].removesuffix(' to buy')}.")
    return [*lines, _work(layout, wish.layers)]


def _work(layout: Layout, layers: int) -> str:
    alone = f"{_counted(layout.strips, 'strip')}, {_counted(layout.cuts, 'cut')}"
    if layout.operations(layers) < layout.cuts:
        alone += f" one by one or {layout.operations(layers):,} in {layers} layers"
    return f"{alone}, with {_counted(layout.ruler_changes, 'ruler setting')}."


def _how_good(layout: Layout, unit: Unit) -> str:
    if layout.length == layout.bound:
        return "cut in this way, they cannot take less."
    least = f"cut in this way, they take at least {show(layout.bound, unit)}"
    if layout.purchase.steps == least_steps(layout):
        return f"{least}, for which as much would be bought."
    return f"{least}."


def cutting_lines(layout: Layout, fabric: ListedFabric, unit: Unit) -> list[str]:
    """How it is cut, in the order of cutting, those of one ruler setting together."""
    lines = []
    for item, demand in rough_sizes(fabric):
        if not item.lengthwise or {item.width, item.height} != {demand.width, demand.height}:
            rough = f"{figure(demand.width, unit)} x {show(demand.height, unit)}"
            own = f"{figure(item.width, unit)} x {show(item.height, unit)}"
            lines.append(f"Cut {item.name} {rough}, then trim to {own} with the motif where you want it.")
    for height, patterns in layout.by_height:
        strips = sum(pattern.times for pattern in patterns)
        lines.append(f"Cut {_counted(strips, 'strip')} {show(height, unit)} high:")
        lines += [f"  {_pattern_line(pattern, unit)}" for pattern in patterns]
    return lines


def _pattern_line(pattern: Pattern, unit: Unit) -> str:
    often = "from 1:" if pattern.times == 1 else f"from each of {pattern.times}:"
    return f"{often} {', '.join(_section_words(pattern, section, unit) for section in pattern.sections)}"


def _section_words(pattern: Pattern, section: Section, unit: Unit) -> str:
    words = f"{section.count} x {show(section.width, unit)}"
    if section.stack > 1:
        words += f", each subcut into {section.stack} x {show(section.height, unit)}"
    elif section.height != pattern.strip_height:
        words += f" trimmed to {show(section.height, unit)}"
    return f"{words} ({section.name})"


def choice_rows(choices: Sequence[tuple[str, Layout]], layers: int, unit: Unit) -> list[tuple[str, ...]]:
    """The trade-off between cloth and cutting, a row each."""
    return [
        (
            name,
            show(layout.length, unit),
            show_cloth(layout.buy, unit),
            f"{layout.ruler_changes:,}",
            f"{layout.strips:,}",
            f"{layout.cuts:,}",
            f"{layout.operations(layers):,}",
        )
        for name, layout in choices
    ]


def _counted(count: int, word: str) -> str:
    return f"{count:,} {word}" if count == 1 else f"{count:,} {word}s"
