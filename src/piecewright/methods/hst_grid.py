"""Half-square triangles from a grid: two rectangles face to face, marked in squares, sewn and cut apart.

Terms:
- *cell*: one square of the grid; each gives two units;
- *grid m x n*: m cells across, n up.

The diagonals of neighbouring cells run opposite ways, so that they line up over the whole sheet: one sews
on without a stop, turning at the edges.
"""

from __future__ import annotations

from functools import lru_cache

from piecewright.bench.cloth import SeamSize
from piecewright.bench.steps import AnyStep, CutApart, Ruled, Stack
from piecewright.measure.length import Length, inches
from piecewright.measure.rounding import round_up
from piecewright.measure.tolerance import WELD
from piecewright.methods.cut_squares import square_cut_once
from piecewright.methods.lines import both_sides, face_down, press_all
from piecewright.methods.method import Derived, Family, Making, Method, Sizes, Start, Unit
from piecewright.workroom.workroom import Workroom

NAME = "grid"

GRIDS = ((2, 3), (3, 3), (3, 4), (4, 5))
"""Grids that are compared; two by two is the way of eight at a time."""

LARGEST_SHEET = (inches(18), inches(22))
"""Larger sheets slip while they are sewn (from memory)."""


def diagonals(across: int, up: int, cell: float) -> tuple[Ruled, ...]:
    """The diagonals of a grid, as long as they run on: those that rise, then those that fall."""
    found = []
    for start in range(1 - up, across):
        left, low = max(start, 0), max(-start, 0)
        long = min(across - left, up - low)
        if start % 2 == 0:
            found.append(_at(cell, left, low, left + long, low + long))
    for end in range(1, across + up):
        left = max(end - up, 0)
        long = min(across - left, end - left)
        if end % 2 == 0:
            found.append(_at(cell, left, end - left, left + long, end - left - long))
    return tuple(found)


def _at(cell: float, *corners: int) -> Ruled:
    x, y, to_x, to_y = (cell * corner for corner in corners)
    return Ruled(x, y, to_x, to_y)


def _run_out(line: Ruled, seam: SeamSize) -> Ruled:
    """The line with both ends beyond the edge of the sheet, where one turns."""
    # At 45 degrees a line beside the diagonal leaves the sheet as much later as it lies to the side.
    more = 2 * seam.take_up
    up = more if line.to_y > line.y else -more
    return Ruled(line.x - more, line.y - up, line.to_x + more, line.to_y + up)


def steps(making: Making, across: int, up: int) -> tuple[AnyStep, ...]:
    """Two sheets cut to the grid, face to face, sewn beside every diagonal, cut on all lines."""
    cell, width, height = making.sizes
    trim = _trimmed(making, across * cell, up * cell)
    first, second = sheets_of(making) if trim else making.pieces
    width, height = (across * cell, up * cell) if trim else (width, height)
    crossing = diagonals(across, up, cell)
    return (
        *trim,
        Stack(
            base=first,
            tops=(face_down(second, height),),
            sew=tuple(line for diagonal in crossing for line in both_sides(_run_out(diagonal, making.seam))),
            cut=(
                *(Ruled(k * cell, 0.0, k * cell, height) for k in range(1, across)),
                *(Ruled(0.0, k * cell, width, k * cell) for k in range(1, up)),
                *crossing,
            ),
            gives=(making.gives,),
            times=making.times,
        ),
        press_all(making.gives, f"{making.gives}.0"),
    )


def sheets_of(making: Making) -> tuple[str, ...]:
    """The sheets once what lies beyond the grid has been cut off."""
    return tuple(f"{making.gives} sheet {piece}" for piece in making.pieces)


def _trimmed(making: Making, across: float, up: float) -> tuple[AnyStep, ...]:
    """Cutting each sheet down to the grid, where it is larger."""
    _, width, height = making.sizes
    right, top = width - across > WELD, height - up > WELD
    cut = (
        *((Ruled(across, 0.0, across, height),) if right else ()),
        *((Ruled(0.0, up, width, up),) if top else ()),
    )
    offcuts = ("",) * ((1 + right) * (1 + top) - 1)
    return tuple(
        CutApart(takes=piece, cut=cut, gives=(name, *offcuts), times=making.times)
        for piece, name in zip(making.pieces, sheets_of(making), strict=True)
        if cut
    )


def cell_for(unit: Unit, take_up: float, extra: float = 0.0) -> float:
    """The side of the cells from which a unit comes out, or one larger by `extra`; inches.

    A cell is a square cut once on the diagonal.
    """
    return square_cut_once(float(unit.width) + extra, take_up)


def grid(across: int, up: int, sizes: Derived) -> Method:
    """The way of a grid; `sizes` gives the cell, and the width and height of the sheets."""

    def written(making: Making) -> tuple[AnyStep, ...]:
        return steps(making, across, up)

    return Method(
        name=f"{NAME} {across} x {up}",
        kind="hst",
        makes=2 * across * up,
        starts=(Start(0, 1, 1, 2), Start(1, 1, 1, 2)),
        steps=written,
        landmark="diagonal",
        reason=f"{2 * across * up} alike at once from long straight seams, but a whole sheet is to be marked",
        says=(
            f"Mark {across} x {up} equal squares on the wrong side of the lighter sheet.",
            "Draw one diagonal in every square, neighbours the opposite way, so that they line up.",
            "Lay the sheets right sides together, press, and pin in every triangle.",
            "Sew on both sides of the diagonals, the needle's distance from them, turning at the edges.",
            "Cut on every line of the grid, then on the diagonals: each square gives two units.",
            "Set the seams, open, and press.",
        ),
        unknowns=3,
        derived=sizes,
        also_marked=across + up + 2,
    )


@lru_cache(maxsize=256)
def members(unit: Unit, workroom: Workroom) -> tuple[Method, ...]:
    """The grids whose sheets are not too large to handle."""
    largest = cell_for(unit, float(workroom.take_up), float(workroom.trim))
    cell = round_up(largest, workroom.ruler)
    return tuple(grid(m, n, _whole(m, n, workroom)) for m, n in GRIDS if _is_handy(cell * m, cell * n))


def _is_handy(width: Length, height: Length) -> bool:
    low, high = LARGEST_SHEET
    return min(width, height) <= low and max(width, height) <= high


def _whole(across: int, up: int, workroom: Workroom) -> Derived:
    """Sheets of so many cells as they are marked: a cell must lie on the marks of the ruler."""

    def sizes(unit: Unit, take_up: float, extra: float) -> Sizes:
        cell = cell_for(unit, take_up, extra)
        marked = round_up(cell, workroom.ruler)
        return cell, float(marked * across), float(marked * up)

    return sizes


FAMILY = Family(NAME, ("hst",), members)
