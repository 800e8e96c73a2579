"""A design redrafted in the other system: sensible sizes in centimetres or inches, the same quilt.

Blocks are made a little larger or smaller, all by one factor, so that every unit lands on a mark of the new
ruler; strips get sensible widths of their own. No cut piece is ever converted: pieces are cut for the new
sizes with the seam of the new system.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TypeVar

from piecewright.blocks.grid import grid_of
from piecewright.design.model import Border, Design, Sashing, finished_size
from piecewright.measure.length import Length, Unit, inches, mm
from piecewright.measure.showing import show
from piecewright.problems import Problem, Refused
from piecewright.sizing.answer import size_words
from piecewright.sizing.cloth_sold import redrafted_fabric
from piecewright.sizing.resizing import cell_sizes, grown, with_blocks
from piecewright.sizing.sensible import CELL_MARKS, STRIP_MARKS, nearest, sensible, sensible_factor

# To give up the cells of a block drawn by its corners, the size must be so much better.
CELLS_WEIGHT = Fraction(6, 100)
_BINDING_STEP: dict[Unit, Length] = {"in": inches("1/4"), "cm": mm(5)}
_MARGIN_STEP: dict[Unit, Length] = {"in": inches("1/2"), "cm": mm(10)}


@dataclass(frozen=True)
class Change:
    """One thing that redrafting has changed, in words: what, from, to."""

    what: str
    before: str
    after: str

    def words(self) -> str:
        """`blocks 12 in -> 30 cm`."""
        return f"{self.what} {self.before} -> {self.after}"


def redraft(design: Design, unit: Unit) -> Design:
    """The same quilt in sensible sizes of the other unit.

    Raises Refused where the design is in that unit already.
    """
    if design.unit == unit:
        raise Refused(Problem(f"the quilt is in {unit} already.", do="Name the other unit."))
    factor = _block_factor(design, unit)
    cells = cell_sizes(design)
    blocks = with_blocks(design, factor)
    binding = design.binding and replace(
        design.binding, width=nearest(design.binding.width, _BINDING_STEP[unit])
    )
    return replace(
        blocks,
        unit=unit,
        setting=grown(design.setting, factor),
        fabrics=tuple(redrafted_fabric(fabric, unit) for fabric in design.fabrics),
        sashing=design.sashing and _with_width(design.sashing, cells, factor, unit),
        borders=tuple(_with_width(border, cells, factor, unit) for border in design.borders),
        binding=binding,
        backing=replace(design.backing, margin=_margin(design.backing.margin, unit)),
        batting=replace(design.batting, margin=_margin(design.batting.margin, unit)),
    )


def redrafted_words(before: Design, after: Design) -> tuple[Change, ...]:
    """What has changed from a design to its redrafted one."""
    said = []
    for block, now in zip(before.blocks, after.blocks, strict=True):
        sizes = (block.width, block.height), (now.width, now.height)
        said.append(Change(f"block {block.name}", _side(sizes[0], before.unit), _side(sizes[1], after.unit)))
    if before.sashing and after.sashing:
        said.append(_strip("sashing", before.sashing.width, after.sashing.width, before, after))
    for number, (border, wide) in enumerate(zip(before.borders, after.borders, strict=True), 1):
        name = "border" if len(before.borders) == 1 else f"border {number}"
        said.append(_strip(name, border.width, wide.width, before, after))
    if before.binding and after.binding:
        said.append(_strip("binding strips", before.binding.width, after.binding.width, before, after))
    for fabric, cloth in zip(before.fabrics, after.fabrics, strict=True):
        if fabric.width and cloth.width:
            said.append(_strip(f"cloth {fabric.name}", fabric.width, cloth.width, before, after))
    sizes = finished_size(before), finished_size(after)
    said.append(Change("quilt", size_words(sizes[0], before.unit), size_words(sizes[1], after.unit)))
    return tuple(said)


def _block_factor(design: Design, unit: Unit) -> Fraction:
    """One factor for all blocks: every unit on a mark, and drawn cells too where that is no detour."""
    marks, sizes = CELL_MARKS[unit], cell_sizes(design)
    plain = sensible_factor(sizes, unit, marks)
    drawn = sensible_factor(sizes | _drawn_cells(design), unit, marks)
    return drawn if abs(drawn - plain) <= CELLS_WEIGHT else plain


def _drawn_cells(design: Design) -> set[Length]:
    """The cells of the grids that blocks drawn by their corners lie on."""
    cells = set()
    for block in design.blocks:
        grid = grid_of(block) if block.shapes else None
        if grid:
            cells |= {block.width / grid[0], block.height / grid[1]}
    return cells


Strip = TypeVar("Strip", Sashing, Border)


def _with_width(strip: Strip, cells: set[Length], factor: Fraction, unit: Unit) -> Strip:
    """A strip as wide as a unit stays as wide as the unit."""
    width = strip.width
    new = width * factor if width in cells else sensible(width, unit, STRIP_MARKS[unit])
    return replace(strip, width=new)


def _margin(margin: Length, unit: Unit) -> Length:
    return nearest(margin, _MARGIN_STEP[unit]) if margin else margin


def _side(size: tuple[Length, Length], unit: Unit) -> str:
    return show(size[0], unit) if size[0] == size[1] else size_words(size, unit)


def _strip(what: str, was: Length, now: Length, before: Design, after: Design) -> Change:
    return Change(what, show(was, before.unit), show(now, after.unit))
