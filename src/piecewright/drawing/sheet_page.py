"""A page of a true-scale sheet as plain data, and the papers it may be printed on.

Terms:
- *window*: the part of a page that shapes are drawn in, its lower left corner at the origin; above it is
  the *head* of the page, with words and check squares;
- *tile*: the part of a large shape that one page shows; neighbouring tiles share a strip, the *overlap*;
- *match mark*: a diamond with a letter in the middle of the overlap, on both pages, to lay them together;
- *tile map*: in how many rows and columns the tiles lie, and which of them a page is.

All in inches, y upwards.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

from piecewright.drawing.true_scale import (
    LineKind,
    Points,
    SheetWords,
    TrueShape,
    TrueSheet,
    arrow_strokes,
)
from piecewright.drawing.writing import text_width
from piecewright.geometry.point import Point
from piecewright.geometry.polygon import Line
from piecewright.measure.length import Length, inches, mm

PaperName = Literal["letter", "a4"]
Size = tuple[float, float]
Place = tuple[int, int]

CHECK_INCH, CHECK_CM = inches(1), mm(50)
"""The sides of the two squares that are measured before a sheet is used."""

GAP = 0.3
"""Between shapes, and between the head of a page and its window."""

CAPTION = 0.11
CAPTION_ROOM = 0.15
"""The height of the words under a shape, and from line to line."""

CAPTION_WIDTH = 2.2
"""Captions of small shapes are in lines about so wide."""


@dataclass(frozen=True)
class SheetPaper:
    """A paper with its printable margin, and how far tiles overlap on it."""

    name: PaperName
    width: Length
    height: Length
    margin: Length
    overlap: Length

    @property
    def head(self) -> float:
        """The height of the head of a page: the larger check square, and the room under it."""
        return float(CHECK_CM) + GAP

    @property
    def window(self) -> Size:
        """How wide and high the window is."""
        width, height = self.width - self.margin * 2, self.height - self.margin * 2
        return float(width), float(height) - self.head


PAPERS: dict[PaperName, SheetPaper] = {
    "letter": SheetPaper("letter", inches("8 1/2"), inches(11), inches("1/2"), inches("1/2")),
    "a4": SheetPaper("a4", mm(210), mm(297), mm(12), mm(12)),
}


@dataclass(frozen=True)
class PageLine:
    """A line, or a part of one, on a page; `ends` tells whether it really begins and ends where it does."""

    kind: LineKind | Literal["grain"]
    points: Points
    ends: tuple[bool, bool] = (False, False)
    meaning: str = ""


@dataclass(frozen=True)
class MatchMark:
    """A diamond in an overlap; `inward` points from it to the middle of its own page."""

    letter: str
    at: Point
    inward: Point


@dataclass(frozen=True)
class TileMap:
    """`places` are the (row, column) of all tiles of a shape, the top row first; `here` is this page's."""

    rows: int
    columns: int
    here: Place
    places: tuple[Place, ...]


@dataclass(frozen=True)
class SheetPage:
    """A page: what lies in its window, and of which sheet it is.

    `tile` is None on pages of whole shapes; `caption` tells what is tiled. `origin` is where the window's
    corner lies on the tiled shape, `size` how large the tile is; `trims` run along the middle of overlaps.
    """

    sheet: TrueSheet
    lines: tuple[PageLine, ...]
    words: tuple[SheetWords, ...]
    caption: str = ""
    tile: TileMap | None = None
    origin: Point = (0.0, 0.0)
    size: Size = (0.0, 0.0)
    marks: tuple[MatchMark, ...] = ()
    trims: tuple[Line, ...] = ()


def page_lines(shape: TrueShape) -> tuple[PageLine, ...]:
    """All lines of a shape, those of its grain arrow included."""
    arrow = arrow_strokes(shape.grain) if shape.grain else ()
    return (
        *(
            PageLine(line.kind, line.points, (not line.closed, not line.closed), line.meaning)
            for line in shape.lines
        ),
        *(PageLine("grain", stroke) for stroke in arrow),
    )


def caption_of(shape: TrueShape) -> tuple[SheetWords, ...]:
    """The caption under a shape, in lines about as wide as the shape."""
    x0, y0, x1, _ = shape.box
    lines = _lines_of(shape.caption, max(x1 - x0, CAPTION_WIDTH))
    middle, first = (x0 + x1) / 2, y0 - CAPTION_ROOM
    return tuple(
        SheetWords((middle, first - row * CAPTION_ROOM), line, CAPTION) for row, line in enumerate(lines)
    )


def _lines_of(caption: str, width: float) -> list[str]:
    """A caption in lines no wider than a width where that can be, broken behind commas only."""
    lines: list[str] = []
    for phrase in re.split(r"(?<=[,;:]) ", caption) if caption else ():
        longer = f"{lines[-1]} {phrase}" if lines else phrase
        if lines and text_width(longer, CAPTION) <= width:
            lines[-1] = longer
        else:
            lines.append(phrase)
    return lines
