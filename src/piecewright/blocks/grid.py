"""The grid that a block is drawn on: the fewest equal columns and rows that meet its straight edges."""

from __future__ import annotations

from collections.abc import Iterable

from piecewright.design.model import Block
from piecewright.geometry.polygon import edges
from piecewright.measure.tolerance import AS_DRAWN

MOST_CELLS = 15
"""A finer grid is none that anybody would draw."""


def grid_of(block: Block) -> tuple[int, int] | None:
    """How many columns and rows; None where there is no such grid, or only one cell.

    Level and upright edges of units and patches lie on its lines. In a square block with columns and rows
    the cells are square.
    """
    width, height = float(block.width), float(block.height)
    across, up = _lines(block)
    if width == height and all(_inside(lines, width) for lines in (across, up)):
        across = up = across | up
    columns, rows = _steps(across, width), _steps(up, height)
    return (columns, rows) if columns and rows and columns * rows > 1 else None


def _lines(block: Block) -> tuple[set[float], set[float]]:
    """Where upright edges lie across the block, and level ones up it."""
    across = {float(x) for unit in block.units for x in (unit.x, unit.x + unit.width)}
    up = {float(y) for unit in block.units for y in (unit.y, unit.y + unit.height)}
    for shape in block.shapes:
        for (x, y), (other_x, other_y) in edges(shape.corners):
            if abs(x - other_x) < AS_DRAWN:
                across.add(x)
            if abs(y - other_y) < AS_DRAWN:
                up.add(y)
    return across, up


def _inside(lines: Iterable[float], length: float) -> bool:
    return any(AS_DRAWN < line < length - AS_DRAWN for line in lines)


def _steps(lines: Iterable[float], length: float) -> int:
    """The least number of equal steps of a length that meet all lines; 0 where there is none."""
    places = list(lines)
    for steps in range(1, MOST_CELLS + 1):
        step = length / steps
        if all(abs(place - round(place / step) * step) < AS_DRAWN for place in places):
            return steps
    return 0
