"""True-scale shapes on pages: several on a page where they fit, one over several pages where they do not.

A shape that fits on a page is never divided; it may be turned a quarter. See `tiles` for those that do not.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import count

from piecewright.drawing.sheet_page import (
    CAPTION_ROOM,
    GAP,
    SheetPage,
    SheetPaper,
    Size,
    caption_of,
    page_lines,
)
from piecewright.drawing.tiles import letter_of, tiled
from piecewright.drawing.true_scale import TrueShape, TrueSheet
from piecewright.drawing.writing import text_width
from piecewright.geometry.isometry import moved, turned
from piecewright.measure.tolerance import WELD


def pages_of(sheet: TrueSheet, paper: SheetPaper) -> tuple[SheetPage, ...]:
    """The pages of a sheet: whole shapes first, in their order, then those that take several pages."""
    whole: list[TrueShape] = []
    large: list[TrueShape] = []
    for shape in sheet.shapes:
        lying = _fitting(shape, paper.window)
        (whole if lying else large).append(lying or shape)
    pages = [_page(sheet, page) for page in _on_pages(whole, paper.window)]
    letters = map(letter_of, count())
    for shape in large:
        pages += tiled(sheet, shape, paper, letters)
    return tuple(pages)


def copies_on_a_page(shapes: Sequence[TrueShape], paper: SheetPaper, most: int) -> int:
    """How often several shapes fit on one page together, up to `most`; 0 where they do not fit even once."""
    lying = [found for shape in shapes if (found := _fitting(shape, paper.window))]
    if len(lying) < len(shapes):
        return 0
    fits = 0
    while fits < most and len(in_rows(lying * (fits + 1), paper.window)) == 1:
        fits += 1
    return fits


def in_rows(shapes: list[TrueShape], size: Size) -> list[list[TrueShape]]:
    """The shapes in rows from the top left, page after page, each row as high as its highest.

    The lower left corner of every page is the origin. A shape larger than the page stands out of it.
    """
    width, height = size
    pages: list[list[TrueShape]] = []
    x = top = low = 0.0
    for shape in shapes:
        wide, high = room_of(shape)
        if x > 0 and x + wide > width + WELD:
            x, top = 0.0, low - GAP
        if not pages or (top - high < -WELD and top < height):
            pages.append([])
            x, top, low = 0.0, height, height
        (x0, _, x1, y1) = shape.box
        aside = (wide - (x1 - x0)) / 2
        pages[-1].append(shape.placed(moved(x + aside - x0, top - y1)))
        x, low = x + wide + GAP, min(low, top - high)
    return pages


def room_of(shape: TrueShape) -> Size:
    """How much room a shape takes with its caption."""
    (width, height), caption = shape.size, caption_of(shape)
    widths = [text_width(one.text, one.size) for one in caption]
    return max([width, *widths]), height + CAPTION_ROOM * (len(caption) + 1 if caption else 0)


def _fitting(shape: TrueShape, window: Size) -> TrueShape | None:
    """The shape, turned a quarter where only that makes it fit; None where it does not fit."""
    for lying in (shape, shape.placed(turned(90))):
        wide, high = room_of(lying)
        if wide <= window[0] + WELD and high <= window[1] + WELD:
            return lying
    return None


def _on_pages(shapes: list[TrueShape], window: Size) -> list[list[TrueShape]]:
    """The shapes in rows on pages, moved so that the room beside them is shared out."""
    pages = in_rows(shapes, window)
    return [_centred(page, window[0]) for page in pages]


def _centred(page: list[TrueShape], width: float) -> list[TrueShape]:
    left = min(shape.box[0] for shape in page)
    right = max(shape.box[2] for shape in page)
    return [shape.placed(moved((width - right - left) / 2, 0.0)) for shape in page]


def _page(sheet: TrueSheet, shapes: list[TrueShape]) -> SheetPage:
    lines = tuple(line for shape in shapes for line in page_lines(shape))
    words = tuple(words for shape in shapes for words in (*shape.words, *caption_of(shape)))
    return SheetPage(sheet, lines, words)
