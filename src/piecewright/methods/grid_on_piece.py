"""Grids of half-square triangles on a piece of cloth on hand: which grid gives most, and what sizes come off.

Terms:
- *piece*: a rectangle of each of two cloths, as large as it is;
- *suits*: the largest finished size on the ruler's marks that a grid on the piece makes well: what is over
  is eased in or is enough to trim.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from piecewright.measure.length import ZERO, Length
from piecewright.measure.rounding import round_down, round_up
from piecewright.measure.tolerance import EDGE_MATCH
from piecewright.methods.hst_grid import cell_for, grid
from piecewright.methods.method import LARGEST, Method, Sizes, Unit
from piecewright.problems import Problem, Refused
from piecewright.workroom.workroom import Workroom

MOST_CELLS = 12
"""More cells than this along one side are not sewn as one sheet (from memory)."""


@dataclass(frozen=True)
class OnPiece:
    """A grid on a piece: its method, cells across and up, the side of a cell as marked, units, what is left.

    `left` is the cloth of each piece beyond the grid, in square inches.
    """

    method: Method
    across: int
    up: int
    cell: Length
    units: int
    left: float


@dataclass(frozen=True)
class PieceGrid:
    """What a grid makes of a piece: its cell, as large as it can be marked, and the unit's raw size.

    `raw` is in inches, before truing; `suits` is the finished size that it makes well, None where the cells
    are too small for any.
    """

    across: int
    up: int
    cell: Length
    raw: float
    suits: Length | None

    @property
    def units(self) -> int:
        """How many come off."""
        return 2 * self.across * self.up


@lru_cache(maxsize=256)
def grid_on_piece(unit: Unit, width: Length, height: Length, workroom: Workroom) -> OnPiece:
    """The grid that makes most units of one size from a piece of each of two cloths.

    Asked twice it gives the same method. Raises Refused where the piece is too small for a single cell.
    """
    unit.refuse_nonsense()
    _refuse_piece(width, height)
    cell = _cell_marked(unit, workroom)
    across, up = (min(int(side // cell), MOST_CELLS) for side in (width, height))
    if not (across and up):
        raise Refused(
            Problem(
                f"a piece of {width} x {height} is too small: finished {unit.width} needs cells of {cell}",
                do="Take a larger piece, or make smaller units.",
            )
        )
    sheet = tuple(float(round_down(float(side), workroom.ruler)) for side in (width, height))

    def sizes(unit: Unit, take_up: float, extra: float) -> Sizes:
        return cell_for(unit, take_up, extra), *sheet

    left = float(width) * float(height) - float(cell) ** 2 * across * up
    return OnPiece(grid(across, up, sizes), across, up, cell, 2 * across * up, left)


def _cell_marked(unit: Unit, workroom: Workroom) -> Length:
    """The side of a cell as it is marked: what comes off is eased in, or else large enough to trim."""
    take_up = float(workroom.take_up)
    exact = cell_for(unit, take_up)
    marked = round_up(exact, workroom.ruler)
    if float(marked) - exact <= float(workroom.ease) + EDGE_MATCH:
        return marked
    return round_up(cell_for(unit, take_up, float(workroom.trim)), workroom.ruler)


def grids_from_piece(width: Length, height: Length, workroom: Workroom) -> tuple[PieceGrid, ...]:
    """Every grid of nearly square cells on a piece, most units last: what comes off, and what it suits.

    Two grids with cells of one size are told once: that with more units. Raises Refused for no size.
    """
    _refuse_piece(width, height)
    best: dict[Length, tuple[int, int]] = {}
    for across in range(1, MOST_CELLS + 1):
        for up in range(1, MOST_CELLS + 1):
            cell = round_down(min(float(width) / across, float(height) / up), workroom.ruler)
            fits = (
                tuple(min(int(side // cell), MOST_CELLS) for side in (width, height)) if cell > ZERO else ()
            )
            if fits == (across, up):
                best[cell] = (across, up)
    found = (_made(*counts, cell, workroom) for cell, counts in best.items())
    return tuple(sorted((one for one in found if one), key=lambda one: (one.units, one.across)))


def _made(across: int, up: int, cell: Length, workroom: Workroom) -> PieceGrid | None:
    take_up = float(workroom.take_up)
    # A cell grows with the unit, inch for inch.
    finished = float(cell) - cell_for(_unit_of(workroom.ruler.mark), take_up) + float(workroom.ruler.mark)
    if finished <= 0:
        return None
    return PieceGrid(across, up, cell, finished + 2 * take_up, _suits(finished, workroom))


def _suits(finished: float, workroom: Workroom) -> Length | None:
    size = round_down(finished + EDGE_MATCH, workroom.ruler)
    while size > ZERO:
        over = finished - float(size)
        if over <= float(workroom.ease) + EDGE_MATCH or over >= float(workroom.trim) - EDGE_MATCH:
            return size
        size -= workroom.ruler.mark
    return None


def _unit_of(side: Length) -> Unit:
    return Unit("hst", ("first", "second"), side, side)


def _refuse_piece(width: Length, height: Length) -> None:
    for side in (width, height):
        if not ZERO < side <= LARGEST:
            raise Refused(Problem(f"expected a piece with sides above 0, up to {LARGEST}, got {side}."))
