"""Small pictures side by side, all at one scale, each with a line of words above and labels below."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property

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
LEAST_SCALE = 0.5
TALLEST = 96.0
HIGHEST = 385.0
WORTH_A_ROW = 0.6
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
        return max(self.drawn_width(scale), self.widest_label)

    @cached_property
    def widest_label(self) -> float:
        """The width of its labels on paper."""
        return max((text_width(label, LABEL) for label in self.labels), default=0.0)

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
    """The largest scale at which every row fits the width, and all of them the height of a picture."""
    scale = LARGEST_SCALE
    while scale > LEAST_SCALE and not _all_fit(rows, scale, width):
        scale *= 0.98
    return scale


def _all_fit(rows: Sequence[Row], scale: float, width: float) -> bool:
    fits = all(_fits(row, scale, width) for row in rows)
    return fits and sum(_row_height(row, scale) + BETWEEN_ROWS for row in rows) <= HIGHEST


def _fits(row: Row, scale: float, width: float) -> bool:
    return _row_width(row, scale) <= width and max(frame.height(scale) for frame in row) <= TALLEST


def filled_rows(groups: Sequence[Row], width: float = PAGE_WIDTH) -> list[tuple[Frame, ...]]:
    """The frames of all groups in few rows, at a large scale.

    A group begins a row of its own where it has no room beside the one before. It is broken, and one row
    more is taken, only where all becomes a good deal larger by that.
    """
    most = sum(map(len, groups))
    best = _scale_of(groups, width, most, True)
    tried = ((rows, may_break) for rows in range(1, most + 1) for may_break in (False, True))
    scales = (_scale_of(groups, width, rows, may_break, WORTH_A_ROW * best) for rows, may_break in tried)
    return _packed(groups, next((scale for scale in scales if scale >= WORTH_A_ROW * best), best), width)


def _scale_of(
    groups: Sequence[Row], width: float, most_rows: int, may_break: bool, least: float = LEAST_SCALE
) -> float:
    """The largest scale at which all groups fit into so many rows, whole or perhaps broken."""
    scale = LARGEST_SCALE
    while scale > least:
        rows = _packed(groups, scale, width)
        fit = may_break or all(_row_width(group, scale) <= width for group in groups)
        if fit and len(rows) <= most_rows and _all_fit(rows, scale, width):
            return scale
        scale *= 0.96
    return 0.0 if least > LEAST_SCALE else scale


def _packed(groups: Sequence[Row], scale: float, width: float) -> list[tuple[Frame, ...]]:
    rows: list[list[Frame]] = []
    used = width
    for group in groups:
        whole = _row_width(group, scale)
        # A group that is wider than a row goes frame by frame, from the beginning of a row.
        parts = [(whole, group)] if whole <= width else [(f.width(scale), (f,)) for f in group]
        if whole > width:
            used = width
        for wide, part in parts:
            if used + BETWEEN + wide <= width:
                rows[-1] += part
                used += BETWEEN + wide
            else:
                rows.append(list(part))
                used = wide
    return [tuple(row) for row in rows]


def _row_width(row: Row, scale: float) -> float:
    return sum(frame.width(scale) for frame in row) + BETWEEN * (len(row) - 1)


def draw_rows(pen: Pen, rows: Sequence[Row], width: float = PAGE_WIDTH) -> None:
    """The rows one below the other, the first at the top; frames are numbered through."""
    scale = scale_for(rows, width)
    top, number = 0.0, 1
    for row in rows:
        top -= _draw_row(pen, row, scale, top, number) + BETWEEN_ROWS
        number += len(row)


def _captions(row: Row, scale: float, number: int) -> list[list[str]]:
    return [
        wrapped(frame.caption, CAPTION, frame.width(scale) + BETWEEN - 6 - _indent(number + k))
        for k, frame in enumerate(row)
    ]


def _row_height(row: Row, scale: float, number: int = 10) -> float:
    """The height of captions, drawings and labels."""
    words = CAPTION * LINE * max(map(len, _captions(row, scale, number))) + 4
    labels = max(len(item.labels) for frame in row for item in frame.items)
    tall = max(frame.height(scale) for frame in row)
    return words + tall + labels * LABEL * LINE + (4 if labels else 0)


def _draw_row(pen: Pen, row: Row, scale: float, top: float, number: int) -> float:
    """Draws a row below `top`; gives its height."""
    captions = _captions(row, scale, number)
    words = CAPTION * LINE * max(map(len, captions)) + 4
    tall = max(frame.height(scale) for frame in row)
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
    return _row_height(row, scale, number)


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
