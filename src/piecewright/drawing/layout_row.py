"""A row of a cutting layout: its strip, what is written at both ends, and the numbers of its cuts below."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from piecewright.cutting.order_of_cuts import CutPlace, NumberedCut, in_order_of_cutting
from piecewright.cutting.patterns import Pattern
from piecewright.drawing.layout_key import LINE
from piecewright.drawing.layout_numbers import (
    BETWEEN,
    HALF_HIGH,
    NUMBER_LINE,
    CutNumber,
    draw_lane,
    draw_number,
)
from piecewright.drawing.layout_pages import LANE, LEFT, LayoutPage, LayoutRow
from piecewright.drawing.layout_strip import LayoutLook, Ordered, draw_strip, rest_of, rest_told, write_rest
from piecewright.drawing.look import CAPTION, LABEL, STRONG_WORDS, WORDS, offcut
from piecewright.drawing.pen import Pen
from piecewright.geometry.point import Point
from piecewright.measure.length import Unit
from piecewright.measure.showing import figure

RING_AT = LEFT - 10.0
NUMBERS_AT = LEFT - 19.0
BEYOND = 8.0
"""How far a lane may reach beyond the end of its strip, in points."""

TEETH = 48
"""The edge of cloth that goes on beyond the picture has so many corners."""


def draw_straightening(pen: Pen, page: LayoutPage, cuts: Sequence[NumberedCut]) -> None:
    """The number of the first cut at the upper edge of the first strip, where that is on the page."""
    for cut in cuts:
        if cut.on_top and page.rows and page.rows[0].index == 0:
            low = -float(page.rows[0].pattern.strip_height) * page.scale
            # A first strip that is very low has no room for two numbers.
            _draw_strip_number(pen, cut.number, 0.0, max(0.0, low + 2 * HALF_HIGH + BETWEEN))


def draw_row(
    pen: Pen, page: LayoutPage, row: LayoutRow, top: float, look: LayoutLook, cuts: Sequence[NumberedCut]
) -> None:
    """A strip from `top` down, with its numbers."""
    pattern, scale, usable = row.pattern, page.scale, page.layout.usable_width
    low, right = top - float(pattern.strip_height) * scale, LEFT + float(usable) * scale

    def lie(p: Point) -> Point:
        return LEFT + p[0] * scale, top - p[1] * scale

    ordered = in_order_of_cutting(pattern, row.index, cuts)
    pen.group(f"strip {_numbers(row)}")
    draw_strip(pen, pattern, ordered, lie, usable, scale, look)
    rest = rest_of(pattern, usable)
    beside = [strips_told(row.pattern, look.unit)]
    if rest and not write_rest(pen, (lie((float(pattern.across), 0.0)), (right, low)), rest, look.unit):
        beside += ["left over:", rest_told(rest, look.unit)]
    pen.text((NUMBERS_AT, (top + low) / 2), _numbers(row), CAPTION, "end", STRONG_WORDS)
    _write_beside(pen, beside, (right + 6, (top + low) / 2))
    _draw_strip_number(pen, strip_number(row.index, cuts), low)
    numbers = lane_numbers(row.index, ordered, lambda x: lie((x, 0.0))[0], cuts)
    draw_lane(pen, numbers, low, low - LANE / 2 - 0.3, right + BEYOND)
    pen.end_group()


def draw_rest(pen: Pen, page: LayoutPage, top: float, look: LayoutLook) -> float:
    """What is left at the end of what is bought, torn off where it goes on; gives how low it reaches."""
    right, low = LEFT + float(page.layout.usable_width) * page.scale, top - page.rest_high
    torn = page.rest_high < float(page.rest) * page.scale - 0.01
    teeth = [(right + (LEFT - right) * k / TEETH, low + 3.0 * (k % 2)) for k in range(1, TEETH)]
    corners = ((LEFT, top), (right, top), (right, low), *(teeth if torn else ()), (LEFT, low))
    size = (page.layout.usable_width, page.rest)
    pen.group("left at the end")
    pen.polygon(corners, offcut(look.colour))
    beside = ["left at the end", *(["(it goes on)"] if torn else [])]
    if not write_rest(pen, corners, size, look.unit):
        beside.append(rest_told(size, look.unit))
    _write_beside(pen, beside, (right + 6, (top + low) / 2))
    pen.end_group()
    return min(low, (top + low) / 2 - len(beside) * LABEL * LINE / 2)


def lane_numbers(
    index: int, ordered: Ordered, along: Callable[[float], float], cuts: Sequence[NumberedCut]
) -> list[CutNumber]:
    """A number at the end of each run of equal crosscuts, and one in the middle of what is subcut.

    `index` is that of the pattern; `along` brings a place along the strip (inches) onto paper.
    """
    number_of = {(cut.kind, place): cut.number for cut in cuts for place in cut.places}
    x, found = 0.0, []
    for k, (section_index, section) in enumerate(ordered):
        place, start = CutPlace(index, section_index), x
        x += float(section.across)
        subcut = number_of.get(("subcuts", place))
        if subcut:
            found.append(CutNumber(subcut, along((start + x) / 2), boxed=True))
        if k + 1 == len(ordered) or ordered[k + 1][1].width != section.width:
            found.append(CutNumber(number_of["crosscuts", place], along(x)))
    return found


def strip_number(index: int, cuts: Sequence[NumberedCut]) -> int:
    """The number of the cut that cuts off the strips of the pattern with this index."""
    return next(cut.number for cut in cuts if cut.kind == "strips" and CutPlace(index) in cut.places)


def _draw_strip_number(pen: Pen, number: int, y: float, at: float | None = None) -> None:
    ring = (RING_AT, y if at is None else at)
    pen.polyline([ring, (LEFT, y)], NUMBER_LINE)
    draw_number(pen, CutNumber(number, RING_AT), ring)


def _numbers(row: LayoutRow) -> str:
    return str(row.first) if row.first == row.last else f"{row.first}–{row.last}"


def strips_told(pattern: Pattern, unit: Unit) -> str:
    """How many strips and how high: `3 × 2 1/2 in`."""
    high, times = f"{figure(pattern.strip_height, unit)} {unit}", pattern.times
    return high if times == 1 else f"{times} × {high}"


def _write_beside(pen: Pen, lines: Sequence[str], at: Point) -> None:
    x, y = at
    y += (len(lines) - 1) * LABEL * LINE / 2
    for k, line in enumerate(lines):
        size = CAPTION if k == 0 else LABEL
        pen.text((x, y - k * LABEL * LINE), line, size, "start", WORDS)
