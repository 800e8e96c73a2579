"""Above and below the strips of a cutting layout: width, fold, order of cuts, scale bar, signs."""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.cutting.order_of_cuts import NumberedCut
from piecewright.drawing.layout_key import draw_columns
from piecewright.drawing.layout_numbers import HALF_HIGH, CutNumber, draw_number
from piecewright.drawing.layout_pages import LEFT, LayoutPage
from piecewright.drawing.layout_strip import GRAIN, draw_grain
from piecewright.drawing.layout_words import cut_told
from piecewright.drawing.look import CAPTION, LABEL, MEASURE, QUIET_WORDS, STRONG_WORDS, WORDS, offcut
from piecewright.drawing.pen import Pen
from piecewright.drawing.writing import text_width
from piecewright.geometry.point import Point
from piecewright.measure.length import Length, Unit, inches, mm
from piecewright.measure.showing import show

ABOVE = 9.0
"""From the strips up to the line that measures their width, in points."""


def draw_width(pen: Pen, page: LayoutPage, unit: Unit, layers: int, one_way: bool) -> None:
    """The usable width over the strips, the fold, the way of the print, and which strips these are."""
    y, right = ABOVE, LEFT + float(page.layout.usable_width) * page.scale
    words = f"usable width {show(page.layout.usable_width, unit)}"
    folded = layers == 2 and bool(page.rows)
    middle = (LEFT + right) / 2
    told = [(words, LEFT + (right - LEFT) / (4 if folded else 2))]
    if folded:
        told.append(("fold", middle))
        pen.polyline([(middle, 1.5), (middle, y - 5)], MEASURE)
    _draw_measure_line(pen, told, LEFT, right, y)
    if page.is_part:
        pen.text((0.0, y + 12), page.told, CAPTION, "start", STRONG_WORDS)
    if one_way:
        draw_way_of_print(pen, (right + 12, 0.0))


def draw_way_of_print(pen: Pen, at: Point) -> None:
    """A small arrow up from a place: so runs the print of one-way cloth."""
    x, y = at
    pen.arrow((x, y), (x, y + 15), GRAIN)
    pen.text((x + 6, y + 7), "way of the print", LABEL, "start", WORDS)


def _draw_measure_line(
    pen: Pen, told: Sequence[tuple[str, float]], left: float, right: float, y: float
) -> None:
    """A line from end to end with words in its gaps, each about its place."""
    at = left
    for words, x in told:
        half = text_width(words, LABEL) / 2 + 5
        pen.polyline([(at, y), (x - half, y)], MEASURE)
        pen.text((x, y), words, LABEL, "middle", QUIET_WORDS)
        at = x + half
    pen.polyline([(at, y), (right, y)], MEASURE)
    for x in (left, right):
        pen.polyline([(x, y - 3), (x, y + 3)], MEASURE)


def draw_order(
    pen: Pen, cuts: Sequence[NumberedCut], at: Point, unit: Unit, width: float, whole: Length
) -> float:
    """The numbers of the cuts with what each is, in columns; gives how low they reach."""

    def draw_ring(k: int, place: Point) -> None:
        cut = cuts[k]
        draw_number(
            pen, CutNumber(cut.number, 0.0, boxed=cut.kind == "subcuts"), (place[0] + HALF_HIGH, place[1])
        )

    lines = [cut_told(cut, unit, whole) for cut in cuts]
    return draw_columns(pen, lines, draw_ring, at, width, pitch=2 * HALF_HIGH + 1.6)


def draw_notes(
    pen: Pen, scale: float, at: Point, unit: Unit, cuts: Sequence[NumberedCut], standing: bool
) -> None:
    """The scale bar, and beside it what the signs mean that are in use."""
    x = draw_scale_bar(pen, scale, at, unit) + 16
    y = at[1]
    pen.polygon([(x, y - 4), (x + 14, y - 4), (x + 14, y + 4), (x, y + 4)], offcut("#ffffff"))
    x = _told(pen, "left over", (x + 19, y))
    if cuts:
        draw_number(pen, CutNumber(0, x), (x + HALF_HIGH, y))
        x = _told(pen, "strips, crosscuts", (x + 2 * HALF_HIGH + 5, y))
    if any(cut.kind == "subcuts" for cut in cuts):
        draw_number(pen, CutNumber(0, x, boxed=True), (x + HALF_HIGH, y))
        x = _told(pen, "subcuts, trims", (x + 2 * HALF_HIGH + 5, y))
    if standing:
        draw_grain(pen, (x + 3, y), 7.0)
        _told(pen, "along the selvedge", (x + 10, y))


def _told(pen: Pen, words: str, at: Point) -> float:
    pen.text(at, words, LABEL, "start", QUIET_WORDS)
    return at[0] + text_width(words, LABEL) + 12


def draw_scale_bar(pen: Pen, scale: float, at: Point, unit: Unit) -> float:
    """A bar of 5 in or 10 cm, parted at every inch or at 5 cm; gives where its words end."""
    bar = inches(5) if unit == "in" else mm(100)
    parts = 5 if unit == "in" else 2
    x, y = at
    long = float(bar) * scale
    pen.polyline([(x, y), (x + long, y)], MEASURE)
    for k in range(parts + 1):
        mark = x + long * k / parts
        high = 3.0 if k in (0, parts) else 1.8
        pen.polyline([(mark, y - high), (mark, y + high)], MEASURE)
    pen.text((x + long + 6, y), show(bar, unit), LABEL, "start", QUIET_WORDS)
    return x + long + 6 + text_width(show(bar, unit), LABEL)
