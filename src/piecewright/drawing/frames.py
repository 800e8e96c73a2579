"""Small pictures side by side, all at one scale, each with a line of words above and labels below."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from piecewright.drawing.look import (
    CAPTION,
    LABEL,
    NEXT,
    PAGE_WIDTH,
    QUIET_WORDS,
    STRONG_WORDS,
    WORDS,
)
from piecewright.drawing.pen import Pen, View
from piecewright.drawing.writing import text_width, wrapped
from piecewright.geometry.point import Point

LEAST_WIDTH = 50.0
LARGEST_SCALE = 40.0
TALLEST = 96.0
BETWEEN = 20.0
BETWEEN_ROWS = 14.0
LINE = 1.2
"""Widths and heights in points; the scale in points to the inch; `LINE` in sizes of the writing."""

Box = tuple[float, float, float, float]


@dataclass(frozen=True)
class Item:
    """Something in a frame: its box in inches, how it is drawn, labels below, points kept free around it."""

    box: Box
    draw: Callable[[Pen, View], None]
    labels: tuple[str, ...] = ()
    around: float = 0.0

    def width(self, scale: float) -> float:
        """Its width on paper, labels included."""
        widest = max((text_width(label, LABEL) for label in self.labels), default=0.0)
        return max(self.drawn_width(scale), widest)

    def drawn_width(self, scale: float) -> float:
        """Its width on paper without labels."""
        return scale * (self.box[2] - self.box[0]) + 2 * self.around

    def height(self, scale: float) -> float:
        """Its height on paper without labels."""
        return scale * (self.box[3] - self.box[1]) + 2 * self.around


@dataclass(frozen=True)
class Frame:
    """One small picture: a caption and the items in it, side by side."""

    caption: str
    items: tuple[Item, ...]

    def width(self, scale: float) -> float:
        """Its width on paper."""
        items = sum(item.width(scale) for item in self.items) + _gap(self) * (len(self.items) - 1)
        return max(items, LEAST_WIDTH)

    @property
    def in_words(self) -> str:
        """The caption and all labels."""
        labels = "; ".join(", ".join(item.labels) for item in self.items if item.labels)
        return f"{self.caption}: {labels}" if labels else self.caption

    def height(self, scale: float) -> float:
        """The height of what is drawn in it."""
        return max(item.height(scale) for item in self.items)


def _gap(frame: Frame) -> float:
    return 9.0 if len(frame.items) > 1 else 0.0


Row = Sequence[Frame]


def scale_for(rows: Sequence[Row], width: float = PAGE_WIDTH) -> float:
    """The largest scale at which every row fits the width."""
    scale = LARGEST_SCALE
    while scale > 0.5 and not all(_fits(row, scale, width) for row in rows):
        scale *= 0.98
    return scale


def _fits(row: Row, scale: float, width: float) -> bool:
    return _row_width(row, scale) <= width and max(frame.height(scale) for frame in row) <= TALLEST


def _row_width(row: Row, scale: float) -> float:
    return sum(frame.width(scale) for frame in row) + BETWEEN * (len(row) - 1)


def draw_rows(pen: Pen, rows: Sequence[Row], width: float = PAGE_WIDTH) -> None:
    """The rows one below the other, the first at the top; frames are numbered through."""
    scale = scale_for(rows, width)
    top, number = 0.0, 1
    for row in rows:
        top -= _draw_row(pen, row, scale, top, number) + BETWEEN_ROWS
        number += len(row)


def _draw_row(pen: Pen, row: Row, scale: float, top: float, number: int) -> float:
    """Draws a row below `top`; gives its height."""
    captions = [
        wrapped(frame.caption, CAPTION, frame.width(scale) + BETWEEN - 6 - _indent(number + k))
        for k, frame in enumerate(row)
    ]
    words = CAPTION * LINE * max(map(len, captions)) + 4
    tall = max(frame.height(scale) for frame in row)
    labels = max(len(item.labels) for frame in row for item in frame.items)
    middle = top - words - tall / 2
    x = 0.0
    for k, frame in enumerate(row):
        wide = frame.width(scale)
        pen.group(f"{number + k} {frame.caption}")
        _write_caption(pen, number + k, captions[k], (x, top))
        _draw_items(pen, frame, scale, (x, middle), tall, wide)
        pen.end_group()
        x += wide
        if k < len(row) - 1:
            _draw_next(pen, (x + BETWEEN / 2, middle))
        x += BETWEEN
    return words + tall + labels * LABEL * LINE + (4 if labels else 0)


def _write_caption(pen: Pen, number: int, lines: Sequence[str], at: Point) -> None:
    x, y = at
    y -= CAPTION * LINE / 2
    pen.text((x, y), str(number), CAPTION, "start", STRONG_WORDS)
    for k, line in enumerate(lines):
        pen.text((x + _indent(number), y - CAPTION * LINE * k), line, CAPTION, "start", WORDS)


def _indent(number: int) -> float:
    return text_width(f"{number} ", CAPTION) + 2.0


def _draw_items(pen: Pen, frame: Frame, scale: float, at: Point, tall: float, wide: float) -> None:
    x, middle = at
    used = sum(item.width(scale) for item in frame.items) + _gap(frame) * (len(frame.items) - 1)
    x += (wide - used) / 2 if len(frame.items) > 1 or used < wide else 0.0
    for item in frame.items:
        own = item.width(scale)
        left = x + (own - item.drawn_width(scale)) / 2 + item.around
        low = middle - item.height(scale) / 2 + item.around
        item.draw(pen, View(scale, left - scale * item.box[0], low - scale * item.box[1]))
        for k, label in enumerate(item.labels):
            place = (x + own / 2, middle - tall / 2 - 4 - LABEL * LINE * (k + 0.5))
            pen.text(place, label, LABEL, "middle", WORDS if k < 2 else QUIET_WORDS)
        x += own + _gap(frame)


def _draw_next(pen: Pen, at: Point) -> None:
    """A small hook that leads to the next frame."""
    x, y = at
    pen.polyline([(x - 2.0, y + 4.0), (x + 2.0, y), (x - 2.0, y - 4.0)], NEXT)
