"""The pages of a cutting layout: which strips stand on which, so that pieces stay large enough to read.

A *row* is the one drawn strip of a pattern, with how many there are like it. Under each row is a *lane* for
the numbers of its cuts. All is in points, but for lengths of cloth.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from piecewright.cutting.layout import Layout
from piecewright.cutting.patterns import Pattern
from piecewright.measure.length import ZERO, Length, inches

LEFT, RIGHT = 48.0, 76.0
LANE = 13.0

# A layout is drawn smaller, to stand in one picture, down to this share of its scale; and further as long as
# the smallest piece has room for its letter.
LEAST_SHARE = 0.8
ROOM_FOR_LETTER = 10.5

LARGEST = 13.0
"""Narrow cloth is drawn at no more points to the inch, unless its pieces are very small."""

LEAST_REST = inches(1)
LEAST_HIGH = 30.0
"""Less that is left at the end of what is bought is not drawn; so much of it has room on every page."""


@dataclass(frozen=True)
class LayoutRow:
    """A pattern with its index in the layout, and the numbers of its strips."""

    index: int
    pattern: Pattern
    first: int

    @property
    def last(self) -> int:
        """The number of the last strip of the pattern."""
        return self.first + self.pattern.times - 1


@dataclass(frozen=True)
class LayoutPage:
    """Rows that are drawn in one picture, at so many points to the inch.

    `rest` is what is left at the end of the cloth that is bought, on the page with the last strip; it is
    drawn `rest_high`, torn off where there is no room for the whole of it.
    """

    layout: Layout
    rows: tuple[LayoutRow, ...]
    scale: float
    rest: Length = ZERO
    rest_high: float = 0.0

    @property
    def is_part(self) -> bool:
        """Whether other strips of the layout stand on other pages."""
        return len(self.rows) < len(self.layout.patterns)

    @property
    def told(self) -> str:
        """Which strips these are: `strips 9–14 of 22`."""
        first, last = self.rows[0].first, self.rows[-1].last
        strips = f"strip {first}" if first == last else f"strips {first}–{last}"
        return f"{strips} of {self.layout.strips}"


def one_page(layout: Layout, width: float, height: float) -> LayoutPage:
    """All rows in one picture within so many points; wider than high ones are not drawn larger than fits."""
    return _page(layout, _rows(layout), _fitting(layout, width, height), height, last=True)


def layout_pages(layout: Layout, width: float, height: float) -> tuple[LayoutPage, ...]:
    """The layout on one page where that can be read, or on as many as it takes."""
    rows, widest = _rows(layout), _widest(layout, width)
    alone = _fitting(layout, width, height)
    if alone >= widest * LEAST_SHARE or alone * _smallest(layout) >= ROOM_FOR_LETTER:
        return (one_page(layout, width, height),)
    pages: list[tuple[float, list[LayoutRow]]] = []
    for row in rows:
        tall = float(row.pattern.strip_height)
        scale = min(widest, (height - LANE) / tall)
        if not pages or pages[-1][0] != scale or _height([*pages[-1][1], row], scale) > height:
            pages.append((scale, []))
        pages[-1][1].append(row)
    return tuple(_page(layout, of, scale, height, last=of[-1] is rows[-1]) for scale, of in pages)


def left_at_the_end(layout: Layout) -> Length:
    """What is left of what is bought when the strips are cut, after washing and straightening."""
    bought = layout.purchase
    share = 1 - Fraction(str(bought.shrinkage))
    rest = layout.buy * share - bought.straightening - layout.length
    return max(rest, ZERO) if layout.patterns else ZERO


def _page(layout: Layout, rows: Sequence[LayoutRow], scale: float, height: float, last: bool) -> LayoutPage:
    rest = left_at_the_end(layout) if last else ZERO
    if rest < LEAST_REST:
        return LayoutPage(layout, tuple(rows), scale)
    room = max(height - _height(rows, scale), LEAST_HIGH)
    return LayoutPage(layout, tuple(rows), scale, rest, min(float(rest) * scale, room))


def _rows(layout: Layout) -> list[LayoutRow]:
    rows, first = [], 1
    for index, pattern in enumerate(layout.patterns):
        rows.append(LayoutRow(index, pattern, first))
        first += pattern.times
    return rows


def _widest(layout: Layout, width: float) -> float:
    enough = max(LARGEST, ROOM_FOR_LETTER / (_smallest(layout) or 1.0))
    return min((width - LEFT - RIGHT) / float(layout.usable_width), enough)


def _fitting(layout: Layout, width: float, height: float) -> float:
    """The scale at which all rows stand in one picture; a picture of very many rows grows higher."""
    widest = _widest(layout, width)
    total = sum(float(pattern.strip_height) for pattern in layout.patterns)
    room = height - LANE * len(layout.patterns)
    return min(widest, max(room, height / 4) / total) if total else widest


def _height(rows: Sequence[LayoutRow], scale: float) -> float:
    return sum(float(row.pattern.strip_height) * scale + LANE for row in rows)


def _smallest(layout: Layout) -> float:
    sides = [min(one.width, one.height) for pattern in layout.patterns for one in pattern.sections]
    return float(min(sides, default=ZERO))
