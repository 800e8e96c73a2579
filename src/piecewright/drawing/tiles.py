"""One large shape over several pages, with match marks in the strips that neighbouring pages share.

Terms: see `sheet_page`. All tiles of a shape have one size; tiles that would stay empty are not printed.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import ceil

from piecewright.drawing.inside import overlaps, parts_within
from piecewright.drawing.sheet_page import (
    MatchMark,
    PageLine,
    Place,
    SheetPage,
    SheetPaper,
    Size,
    TileMap,
    page_lines,
)
from piecewright.drawing.true_scale import TrueShape, TrueSheet
from piecewright.geometry.isometry import moved, turned
from piecewright.geometry.point import Point, near
from piecewright.geometry.polygon import Line, Polygon, placed, rectangle
from piecewright.measure.tolerance import AS_DRAWN, WELD
from piecewright.problems import Problem, Refused

MOST_TILES = 80
"""More pages than that nobody tapes together."""

MARKS = (1 / 4, 3 / 4)
"""Where along a strip its match marks lie."""


@dataclass(frozen=True)
class _Tiling:
    """A shape cut into rows and columns of tiles of one size."""

    shape: TrueShape
    rows: int
    columns: int
    size: Size
    overlap: float

    def corner(self, place: Place) -> Point:
        """The lower left corner of a tile; row 0 is the highest."""
        (row, column), (x0, y0, *_) = place, self.shape.box
        across, up = self.size[0] - self.overlap, self.size[1] - self.overlap
        return x0 + column * across, y0 + (self.rows - 1 - row) * up

    def window(self, place: Place) -> Polygon:
        """The outline of a tile."""
        return placed(rectangle(*self.size), moved(*self.corner(place)))

    def is_needed(self, place: Place) -> bool:
        """Whether anything of the shape lies in a tile."""
        window = self.window(place)
        lines = (line.points for line in self.shape.lines)
        return overlaps(self.shape.outline, window) or any(parts_within(line, [window]) for line in lines)

    @property
    def places(self) -> tuple[Place, ...]:
        """The tiles that are printed, row by row from the top."""
        every = [(row, column) for row in range(self.rows) for column in range(self.columns)]
        return tuple(filter(self.is_needed, every))


@dataclass(frozen=True)
class _Strip:
    """What two tiles share: the later one lies to the right of the first, or below it."""

    first: Place
    second: Place
    letters: tuple[str, ...]

    @property
    def upright(self) -> bool:
        """Whether the strip runs up the page, between left and right."""
        return self.first[0] == self.second[0]


def tiled(sheet: TrueSheet, shape: TrueShape, paper: SheetPaper, letters: Iterator[str]) -> list[SheetPage]:
    """The pages of a shape that is too large for one, as few as can be; match marks take the next letters."""
    tiling = min(
        (_tiling(lying, paper) for lying in (shape, shape.placed(turned(90)))),
        key=lambda found: found.rows * found.columns,
    )
    _refuse_heaps(tiling, paper)
    places = tiling.places
    strips = [
        _Strip(place, other, tuple(next(letters) for _ in _shares(tiling, place, other)))
        for place in places
        for other in ((place[0], place[1] + 1), (place[0] + 1, place[1]))
        if other in places
    ]
    return [_tile(sheet, tiling, TileMap(tiling.rows, tiling.columns, p, places), strips) for p in places]


def _refuse_heaps(tiling: _Tiling, paper: SheetPaper) -> None:
    pages = tiling.rows * tiling.columns
    if pages > MOST_TILES:
        what = f"expected a sheet of at most {MOST_TILES} pages, this one would take {pages} on {paper.name}."
        raise Refused(
            Problem(what, tiling.shape.name, "Draw the lines with a ruler, or take an SVG or DXF file.")
        )


def letter_of(number: int) -> str:
    """A, B ... Z, AA, AB ...

    >>> [letter_of(number) for number in (0, 25, 26, 51, 52)]
    ['A', 'Z', 'AA', 'AZ', 'BA']
    """
    last = chr(ord("A") + number % 26)
    return last if number < 26 else letter_of(number // 26 - 1) + last


def _tiling(shape: TrueShape, paper: SheetPaper) -> _Tiling:
    overlap = float(paper.overlap)
    # So many tiles, each with its share of the overlaps, cover a length.
    columns, rows = (
        max(1, ceil((long - overlap) / (room - overlap) - WELD))
        for long, room in zip(shape.size, paper.window, strict=True)
    )
    (wide, high) = shape.size
    size = ((wide + (columns - 1) * overlap) / columns, (high + (rows - 1) * overlap) / rows)
    return _Tiling(shape, rows, columns, size, overlap)


def _shares(tiling: _Tiling, place: Place, other: Place) -> tuple[float, ...]:
    """Where along a strip its marks lie: clear of its ends, where four tiles may meet."""
    long = tiling.size[1 if place[0] == other[0] else 0]
    return MARKS if long > 4 * tiling.overlap else (1 / 2,)


def _tile(sheet: TrueSheet, tiling: _Tiling, tile: TileMap, strips: list[_Strip]) -> SheetPage:
    """What of a shape lies in one tile, moved to the window."""
    corner = tiling.corner(tile.here)
    lying = tiling.shape.placed(moved(-corner[0], -corner[1]))
    window = rectangle(*tiling.size)
    own = [strip for strip in strips if tile.here in (strip.first, strip.second)]
    return SheetPage(
        sheet,
        tuple(part for line in page_lines(lying) for part in _clipped(line, window)),
        tuple(one for one in lying.words if _inside(one.at, tiling.size)),
        lying.caption or lying.name,
        tile,
        corner,
        tiling.size,
        tuple(mark for strip in own for mark in _marks(strip, tile.here, tiling)),
        tuple(_trim(strip, tile.here, tiling) for strip in own),
    )


def _middle(strip: _Strip, here: Place, tiling: _Tiling) -> float:
    """Where the middle of a strip lies in a tile: so far from its left, or from its lower edge."""
    long = tiling.size[0 if strip.upright else 1]
    half = tiling.overlap / 2
    at_the_end = (here == strip.first) == strip.upright
    return long - half if at_the_end else half


def _marks(strip: _Strip, here: Place, tiling: _Tiling) -> list[MatchMark]:
    middle, overlap = _middle(strip, here, tiling), tiling.overlap
    long = tiling.size[1 if strip.upright else 0]
    inward = 1.0 if middle < tiling.size[0 if strip.upright else 1] / 2 else -1.0
    found = []
    for share, letter in zip(_shares(tiling, strip.first, strip.second), strip.letters, strict=True):
        along = overlap + share * (long - 2 * overlap)
        at = (middle, along) if strip.upright else (along, middle)
        found.append(MatchMark(letter, at, (inward, 0.0) if strip.upright else (0.0, inward)))
    return found


def _trim(strip: _Strip, here: Place, tiling: _Tiling) -> Line:
    middle, (wide, high) = _middle(strip, here, tiling), tiling.size
    return ((middle, 0.0), (middle, high)) if strip.upright else ((0.0, middle), (wide, middle))


def _inside(at: Point, size: Size) -> bool:
    return 0 <= at[0] <= size[0] and 0 <= at[1] <= size[1]


def _clipped(line: PageLine, window: Polygon) -> list[PageLine]:
    """The parts of a line in a window; a part ends truly only where the line does."""
    first, last = line.points[0], line.points[-1]
    return [
        replace(
            line,
            points=part,
            ends=(
                line.ends[0] and near(part[0], first, AS_DRAWN),
                line.ends[1] and near(part[-1], last, AS_DRAWN),
            ),
        )
        for part in parts_within(line.points, [window])
    ]
