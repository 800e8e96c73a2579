"""The picture of a cutting layout: the strips of one cloth to scale, in the order in which they are cut.

Equal strips are drawn once, with how many there are. Pieces carry a letter, and more where there is room;
the letters are explained below. What is left over is hatched.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from piecewright.cutting.layout import Layout
from piecewright.cutting.patterns import Pattern
from piecewright.drawing.layout_key import LINE, Key, draw_legend, keys_of, piece_labels
from piecewright.drawing.look import (
    CAPTION,
    LABEL,
    MEASURE,
    PAGE_WIDTH,
    PIECE,
    PLATE,
    QUIET_WORDS,
    STRONG_WORDS,
    WORDS,
    Style,
    filled,
    lightened,
    offcut,
)
from piecewright.drawing.palette import Palette
from piecewright.drawing.pen import Pen, View
from piecewright.drawing.svg_pen import SvgPen
from piecewright.drawing.writing import counted, short_name, size_of, text_width
from piecewright.geometry.polygon import Polygon
from piecewright.measure.length import Length, Unit, inches, mm
from piecewright.measure.showing import figure, show

TALLEST = 520.0
LEFT, RIGHT = 30.0, 74.0
BETWEEN = 4.0
PALER = 0.55
"""Sizes in points; `PALER` is the share of white in the colour of pieces, so that words read on it."""


def draw_layout(
    pen: Pen,
    layout: Layout,
    palette: Palette,
    unit: Unit = "in",
    width: float = PAGE_WIDTH,
    height: float = TALLEST,
    names: Mapping[str, str] | None = None,
) -> None:
    """The layout within so many points, in the colour of its cloth; `names` as in `keys_of`."""
    colour, keys = palette.colour(layout.key), keys_of(layout, names)
    total = sum(float(pattern.strip_height) for pattern in layout.patterns)
    across = float(layout.usable_width)
    scale = min((width - LEFT - RIGHT) / across, height / total) if total else (width - LEFT - RIGHT) / across
    _draw_width(pen, layout.usable_width, scale, unit)
    top, first = 0.0, 1
    for pattern in layout.patterns:
        tall = float(pattern.strip_height) * scale
        view = View(scale, LEFT, top - tall)
        pen.group(f"strip {_numbers(first, pattern.times)}")
        _draw_strip(pen, pattern, keys, view, across, colour, unit)
        _write_strip(pen, pattern, first, LEFT + across * scale, top - tall / 2, unit)
        pen.end_group()
        top, first = top - tall - BETWEEN, first + pattern.times
    top = draw_legend(pen, list(keys.values()), (LEFT, top - 6), unit, width - LEFT)
    _draw_scale_bar(pen, scale, (LEFT, top - 10), unit)


def _draw_width(pen: Pen, usable: Length, scale: float, unit: Unit) -> None:
    y, right = 7.0, LEFT + float(usable) * scale
    words = f"usable width {show(usable, unit)}"
    half = text_width(words, LABEL) / 2 + 5
    middle = (LEFT + right) / 2
    for a, b in ((LEFT, middle - half), (middle + half, right)):
        pen.polyline([(a, y), (b, y)], MEASURE)
    for x in (LEFT, right):
        pen.polyline([(x, y - 3), (x, y + 3)], MEASURE)
    pen.text((middle, y), words, LABEL, "middle", QUIET_WORDS)


def _draw_strip(
    pen: Pen, pattern: Pattern, keys: dict[str, Key], view: View, across: float, colour: str, unit: Unit
) -> None:
    tall = float(pattern.strip_height)
    pale, waste = filled(PIECE, lightened(colour, PALER)), offcut(colour)
    x = 0.0
    for section in pattern.sections:
        wide, high = float(section.width), float(section.height)
        used = float(section.stack_height)
        labels = piece_labels(section, keys[section.name], view.scale, unit)
        for _ in range(section.count):
            for k in range(section.stack):
                pen.polygon(view.points(_box(x, k * high, x + wide, (k + 1) * high)), pale)
                _write_piece(pen, labels, view, (x + wide / 2, (k + 0.5) * high))
            if used < tall:
                pen.polygon(view.points(_box(x, used, x + wide, tall)), waste)
            x += wide
        if not labels:
            left = x - float(section.across)
            plate = filled(PLATE, lightened(colour, PALER))
            _write_over(pen, keys[section.name].letter, view, _box(left, 0.0, x, used), plate)
    if x < across:
        pen.polygon(view.points(_box(x, 0.0, across, tall)), waste)


def _box(x0: float, y0: float, x1: float, y1: float) -> Polygon:
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def _write_piece(pen: Pen, lines: Sequence[str], view: View, at: tuple[float, float]) -> None:
    x, y = view.at(at)
    y += (len(lines) - 1) * LABEL * LINE / 2
    for k, line in enumerate(lines):
        pen.text(
            (x, y - k * LABEL * LINE),
            line,
            LABEL,
            "middle",
            STRONG_WORDS if k == 0 and len(line) < 3 else WORDS,
        )


def _write_over(pen: Pen, letter: str, view: View, run: Polygon, style: Style) -> None:
    """One letter for a whole run of pieces that are too small to carry one each."""
    (x0, y0), (x1, y1) = view.at(run[0]), view.at(run[2])
    x, y = (x0 + x1) / 2, (y0 + y1) / 2
    half, high = text_width(letter, LABEL) / 2 + 2.0, min(LABEL * 0.6, (y1 - y0) / 2)
    pen.polygon(_box(x - half, y - high, x + half, y + high), style)
    pen.text((x, y), letter, LABEL, "middle", STRONG_WORDS)


def _numbers(first: int, times: int) -> str:
    return str(first) if times == 1 else f"{first}–{first + times - 1}"


def _write_strip(pen: Pen, pattern: Pattern, first: int, right: float, middle: float, unit: Unit) -> None:
    """The numbers of the strips on the left; how many and how high on the right."""
    pen.text((LEFT - 6, middle), _numbers(first, pattern.times), CAPTION, "end", STRONG_WORDS)
    high = f"{figure(pattern.strip_height, unit)} {unit}"
    words = high if pattern.times == 1 else f"{pattern.times} × {high}"
    pen.text((right + 6, middle), words, CAPTION, "start", WORDS)


def _draw_scale_bar(pen: Pen, scale: float, at: tuple[float, float], unit: Unit) -> None:
    """A bar of 5 in or 10 cm, parted at every inch or at 5 cm; offcuts explained beside it."""
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
    left = x + long + 50
    pen.polygon([(left, y - 4), (left + 14, y - 4), (left + 14, y + 4), (left, y + 4)], offcut("#ffffff"))
    pen.text((left + 19, y), "left over", LABEL, "start", QUIET_WORDS)


def layout_svg(
    layout: Layout,
    palette: Palette,
    unit: Unit = "in",
    width: float = PAGE_WIDTH,
    height: float = TALLEST,
    names: Mapping[str, str] | None = None,
) -> str:
    """The picture of a layout as SVG."""
    name = short_name(palette.name(layout.key))
    pen = SvgPen(f"Cutting layout: {name}", _in_words(layout, name, keys_of(layout, names), unit))
    draw_layout(pen, layout, palette, unit, width, height, names)
    return pen.svg()


def _in_words(layout: Layout, name: str, keys: Mapping[str, Key], unit: Unit) -> str:
    strips = []
    for pattern in layout.patterns:
        pieces = ", ".join(f"{section.pieces} {keys[section.name].letter}" for section in pattern.sections)
        count = counted(pattern.times, "strip")
        each = " each" if pattern.times > 1 else ""
        strips.append(f"{count} {show(pattern.strip_height, unit)} high with {pieces}{each}")
    letters = "; ".join(
        f"{key.letter} is {key.name}, {size_of(key.width, key.height, unit)} {unit}, {key.count} in all"
        for key in keys.values()
    )
    across = show(layout.usable_width, unit)
    return f"How {name} is cut, {across} across: {'; '.join(strips) or 'nothing'}. {letters}."
