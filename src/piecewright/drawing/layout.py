"""The picture of a cutting layout: the strips of one cloth to scale, in the order in which they are cut.

Equal strips are drawn once, with how many there are. The cuts are numbered in their order: a ring stands at
the left of the line where strips are cut off, and under the end of a run of crosscuts; a box stands under
what is subcut. Pieces carry a letter, and more where there is room; the letters are explained below. What is
left over is hatched, and what is worth keeping has its size.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from piecewright.cutting.layout import Layout
from piecewright.cutting.order_of_cuts import NumberedCut, order_of_cuts
from piecewright.drawing.layout_key import Key, draw_legend, keys_of
from piecewright.drawing.layout_notes import draw_notes, draw_order, draw_width
from piecewright.drawing.layout_pages import LANE, LayoutPage, layout_pages, one_page
from piecewright.drawing.layout_row import draw_rest, draw_row, draw_straightening
from piecewright.drawing.layout_strip import LayoutLook
from piecewright.drawing.layout_words import page_told
from piecewright.drawing.look import PAGE_WIDTH
from piecewright.drawing.palette import Palette
from piecewright.drawing.pen import Pen
from piecewright.drawing.svg_pen import SvgPen
from piecewright.drawing.writing import short_name
from piecewright.measure.length import Unit

TALLEST = 520.0
"""How high the strips of one picture may stand, in points; what explains them comes below."""


@dataclass(frozen=True)
class LayoutNotes:
    """What is said about a cloth besides its strips.

    So many `layers` are cut together: two are one fold. The print of `one_way` cloth runs up the picture.
    Pieces whose names are in `lengthwise` lie along the selvedge. Without `with_order` the numbers of the
    cuts are not explained below the strips.
    """

    layers: int = 2
    one_way: bool = False
    lengthwise: Collection[str] = ()
    with_order: bool = True


USUAL_NOTES = LayoutNotes()


def draw_layout(
    pen: Pen,
    layout: Layout,
    palette: Palette,
    unit: Unit = "in",
    width: float = PAGE_WIDTH,
    height: float = TALLEST,
    names: Mapping[str, str] | None = None,
    notes: LayoutNotes = USUAL_NOTES,
) -> None:
    """The whole layout in one picture, in the colour of its cloth; `names` as in `keys_of`."""
    _draw_page(pen, one_page(layout, width, height), palette, unit, width, keys_of(layout, names), notes)


def layout_svg(
    layout: Layout,
    palette: Palette,
    unit: Unit = "in",
    width: float = PAGE_WIDTH,
    height: float = TALLEST,
    names: Mapping[str, str] | None = None,
    notes: LayoutNotes = USUAL_NOTES,
) -> str:
    """The picture of a whole layout as SVG."""
    return _svg(one_page(layout, width, height), palette, unit, width, keys_of(layout, names), notes)


def layout_svgs(
    layout: Layout,
    palette: Palette,
    unit: Unit = "in",
    width: float = PAGE_WIDTH,
    height: float = TALLEST,
    names: Mapping[str, str] | None = None,
    notes: LayoutNotes = USUAL_NOTES,
) -> tuple[str, ...]:
    """The layout as SVG in one picture, or in several where its pieces would be too small to read."""
    keys = keys_of(layout, names)
    pages = layout_pages(layout, width, height)
    return tuple(_svg(page, palette, unit, width, keys, notes) for page in pages)


def _svg(
    page: LayoutPage, palette: Palette, unit: Unit, width: float, keys: Mapping[str, Key], notes: LayoutNotes
) -> str:
    name = short_name(palette.name(page.layout.key))
    here, cuts = _keys_here(page, keys), _cuts_here(page)
    told = page_told(page, name, here, cuts, unit, notes.layers)
    part = f", {page.told}" if page.is_part else ""
    pen = SvgPen(f"Cutting layout: {name}{part}", told)
    _draw_page(pen, page, palette, unit, width, keys, notes)
    return pen.svg()


def _draw_page(
    pen: Pen,
    page: LayoutPage,
    palette: Palette,
    unit: Unit,
    width: float,
    keys: Mapping[str, Key],
    notes: LayoutNotes,
) -> None:
    look = LayoutLook(palette.colour(page.layout.key), keys, unit, notes.lengthwise)
    draw_width(pen, page, unit, notes.layers, notes.one_way)
    cuts = order_of_cuts(page.layout)
    low = 0.0
    draw_straightening(pen, page, cuts)
    for row in page.rows:
        draw_row(pen, page, row, low, look, cuts)
        low -= float(row.pattern.strip_height) * page.scale + LANE
    if page.rest:
        low = draw_rest(pen, page, low, look)
    here, at = _cuts_here(page), (0.0, low - 5)
    if notes.with_order and here:
        at = (0.0, draw_order(pen, here, at, unit, width, page.layout.usable_width) - 4)
    low = draw_legend(pen, list(_keys_here(page, keys).values()), at, unit, width)
    standing = any(look.is_lengthwise(one) for row in page.rows for one in row.pattern.sections)
    draw_notes(pen, page.scale, (0.0, low - 10), unit, here, standing)


def _keys_here(page: LayoutPage, keys: Mapping[str, Key]) -> dict[str, Key]:
    names = {section.name for row in page.rows for section in row.pattern.sections}
    return {name: key for name, key in keys.items() if name in names}


def _cuts_here(page: LayoutPage) -> list[NumberedCut]:
    indices = {row.index for row in page.rows}
    cuts = order_of_cuts(page.layout)
    return [cut for cut in cuts if any(place.pattern in indices for place in cut.places)]
