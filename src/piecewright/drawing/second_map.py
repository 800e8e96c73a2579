"""Where each of two pressings goes: the blocks of the quilt as a small map, those of the second hatched."""

from __future__ import annotations

from collections.abc import Collection

from piecewright.drawing.look import GREY, INK, LABEL, PAPER, Style
from piecewright.drawing.pen import Pen
from piecewright.drawing.svg_pen import SvgPen
from piecewright.drawing.writing import text_width
from piecewright.pressing.joints import Place

FIRST = Style("first pressing", INK, 0.4, fill=PAPER)
SECOND_STYLE = Style("second pressing", GREY, 0.4, fill=PAPER, hatched=True)
MAP_WIDTH, LARGEST_FIELD = 150.0, 13.0


def draw_second_map(
    pen: Pen, across: int, down: int, second: Collection[Place], width: float = MAP_WIDTH
) -> None:
    """The map in a box of so many points; places are rows from the top, and columns."""
    field = min(width / across, LARGEST_FIELD)
    for row in range(down):
        for column in range(across):
            style = SECOND_STYLE if (row, column) in second else FIRST
            _draw_field(pen, column * field, (down - 1 - row) * field, field, style)
    x, y = 0.0, -LABEL - 6.0
    for style, words in ((FIRST, "first"), (SECOND_STYLE, "second")):
        _draw_field(pen, x, y, LABEL + 1.5, style)
        pen.text((x + LABEL + 5.0, y + LABEL / 2), words, LABEL, "start")
        x += LABEL + 14.0 + text_width(words, LABEL)


def _draw_field(pen: Pen, x: float, y: float, side: float, style: Style) -> None:
    pen.polygon([(x, y), (x + side, y), (x + side, y + side), (x, y + side)], style)


def second_map_svg(across: int, down: int, second: Collection[Place]) -> str:
    """The map as SVG."""
    pen = SvgPen(
        "Where each pressing goes",
        f"The blocks of the quilt, {across} across and {down} down: {len(second)} of the second pressing "
        "are hatched.",
    )
    draw_second_map(pen, across, down, second)
    return pen.svg()
