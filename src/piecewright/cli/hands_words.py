"""What a quilt will measure in one's own hands, in words and figures as the command line shows them."""

from __future__ import annotations

from dataclasses import fields
from typing import Any

from piecewright.measure.length import Length, Unit
from piecewright.measure.showing import show, show_exact
from piecewright.sewing.stations import Station
from piecewright.tolerance.advice import read_as
from piecewright.tolerance.model import Pair
from piecewright.tolerance.outlook import Contribution, CutLarger, Mismatch, Outcome, Outlook
from piecewright.tolerance.virtual import VirtualQuilts
from piecewright.workroom.workroom import Workroom

DIGITS, MOST_LINES = 6, 6
SEWN = (Station.UNIT, Station.ASSEMBLY, Station.BLOCK, Station.ROW, Station.TOP)
CAUSES = {"seams": ("seam in", "seams in"), "cutting": ("cut of", "cuts of"), "unit": ("unit", "units")}


def top_lines(outlook: Outlook, sewn: VirtualQuilts, workroom: Workroom, unit: Unit) -> list[str]:
    """Whose hands, and what the top will measure."""
    hands, top = outlook.hands, outlook.top
    planned = show(workroom.take_up, unit)
    same = hands.take_up == workroom.take_up
    plan = "as planned" if same else f"where the plan has {planned}"
    lines = [
        f"Take-up {show(hands.take_up, unit)}, {plan}; single seams vary by {_fine(hands.spread, unit)}, "
        f"cuts by {_fine(hands.cut_spread, unit)}.",
        f"The top, unfinished: {_size(top.nominal, unit)} on the sheet, yours {_size(top.expected, unit)}.",
        f"Of 100 such tops 95 measure {_ranges(top.lowest, top.highest, unit)}.",
        f"Of {sewn.quilts:,} virtual quilts 95 in 100 measured {_ranges(*sewn.range_of(top.name), unit)}.",
    ]
    if max(outlook.left_in) > float(workroom.ease) / 2:
        more = _size(outlook.left_in, unit)
        lines.append(f"If the little that is over in units is not worked in, the top is {more} larger.")
    if outlook.not_followed:
        lines.append(f"Taken as drawn, since they are no rectangles: {', '.join(outlook.not_followed)}.")
    if not same:
        lines.append("With your own needle and fold in the workroom, everything is cut for your seam.")
    return lines


def outcome_rows(outlook: Outlook, unit: Unit) -> list[tuple[str, ...]]:
    """A row for everything that is sewn: how many, on the sheet, yours, where most lie, the verdict."""
    return [
        (
            one.name,
            f"{one.count:,}",
            _size(one.nominal, unit),
            _size(one.expected, unit),
            _widest(one, unit),
            one.verdict,
        )
        for one in outlook.outcomes
        if one.station in SEWN
    ]


def worst_lines(outlook: Outlook, unit: Unit) -> list[str]:
    """Where it hurts most, the worst first; what no ruler shows is left out."""
    told = [line for one in outlook.contributions if (line := _contribution(one, unit))]
    return told[:MOST_LINES]


def mismatch_rows(outlook: Outlook, unit: Unit) -> list[tuple[str, ...]]:
    """Edges that cannot just be eased in: where, of what, by how much, the verdict, what to do."""
    return [
        (
            one.line,
            f"two of {one.first}" if one.first == one.second else f"{one.first} and {one.second}",
            f"{read_as(abs(one.off), unit)} ± {read_as(2 * one.deviation, unit)}",
            one.verdict,
            one.do,
        )
        for one in outlook.mismatches
        if one.verdict not in ("fine", "ease")
    ]


def larger_lines(outlook: Outlook, unit: Unit) -> list[str]:
    """Which starts to cut larger."""
    return [_larger(one, unit) for one in outlook.larger]


def outlook_data(outlook: Outlook, sewn: VirtualQuilts) -> dict[str, Any]:
    """The outlook as other programs read it: decimal inches, the longest side first."""
    hands = outlook.hands
    lowest, highest = sewn.range_of(outlook.top.name)
    return {
        "hands": {
            name: round(float(length), DIGITS)
            for name, length in (
                ("needle", hands.needle),
                ("fold", hands.fold),
                ("spread", hands.spread),
                ("cut_spread", hands.cut_spread),
                ("cut_off", hands.cut_off),
            )
        },
        "top": _data(outlook.top),
        "virtual_quilts": {"count": sewn.quilts, "lowest": _rounded(lowest), "highest": _rounded(highest)},
        "things": [_data(one) for one in outlook.outcomes],
        "mismatches": [_data(one) for one in outlook.mismatches],
        "contributions": [_data(one) for one in outlook.contributions],
        "cut_larger": [_data(one) for one in outlook.larger],
        "left_in": _rounded(outlook.left_in),
        "not_followed": list(outlook.not_followed),
    }


def _data(value: Outcome | Mismatch | Contribution | CutLarger) -> dict[str, Any]:
    return {field.name: _plain(getattr(value, field.name)) for field in fields(value)}


def _plain(value: Any) -> Any:
    if isinstance(value, Station):
        return value.name.lower()
    if isinstance(value, tuple):
        return [_plain(part) for part in value]
    if isinstance(value, float | Length):
        return round(float(value), DIGITS)
    return value


def _rounded(pair: Pair) -> list[float]:
    return [round(size, DIGITS) for size in pair]


def _contribution(one: Contribution, unit: Unit) -> str:
    side = max((0, 1), key=lambda k: abs(one.off[k]) + 2 * one.deviation[k])
    off, spread = read_as(abs(one.off[side]), unit), read_as(2 * one.deviation[side], unit)
    nothing = read_as(0.0, unit)
    told = []
    if off != nothing:
        told.append(f"{off} {'more' if one.off[side] > 0 else 'less'}")
    if spread != nothing:
        told.append(f"give or take {spread}")
    named = f"{one.count:,} {CAUSES[one.cause][one.count != 1]} {one.name}"
    return f"{named}: the {('length', 'width')[side]} of the top {', '.join(told)}" if told else ""


def _larger(one: CutLarger, unit: Unit) -> str:
    units = f"{one.name} (make {one.count:,})"
    now = f"{round(100 * one.enough)} of 100 would be large enough"
    if not one.larger:
        return f"{units}: {now}, and no larger start helps; choose another way"
    planned, larger = (
        " and ".join(show(size, unit) for size in sizes) for sizes in (one.planned, one.larger)
    )
    return f"{units}: cut {larger} instead of {planned}; as planned {now}"


def _size(pair: Pair, unit: Unit) -> str:
    first, second = read_as(pair[0], unit), read_as(pair[1], unit)
    return first if first == second else f"{first.removesuffix(f' {unit}')} x {second}"


def _ranges(lowest: Pair, highest: Pair, unit: Unit) -> str:
    return " x ".join(_range(low, high, unit) for low, high in zip(lowest, highest, strict=True))


def _range(low: float, high: float, unit: Unit) -> str:
    one, two = read_as(low, unit), read_as(high, unit)
    return one if one == two else f"{one.removesuffix(f' {unit}')} to {two}"


def _widest(one: Outcome, unit: Unit) -> str:
    """The side that varies more."""
    side = max((0, 1), key=lambda k: one.highest[k] - one.lowest[k])
    return _range(one.lowest[side], one.highest[side], unit)


def _fine(length: Length, unit: Unit) -> str:
    """What is finer than a ruler, as a figure."""
    return show_exact(float(length), unit)
