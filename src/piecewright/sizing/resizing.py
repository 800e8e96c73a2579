"""A design made larger or smaller: everything that shows is scaled exactly, and no seam.

Seams, the binding's width and the margins of backing and batting belong to the hands and the quilting, not to
the drawing; they stay.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields, is_dataclass, replace
from fractions import Fraction
from typing import Any

from piecewright.design.model import Design, Sashing, Shape
from piecewright.measure.length import ZERO, Length


def scaled(design: Design, factor: Fraction) -> Design:
    """The design with all finished sizes times a factor: blocks, setting, sashing, borders."""
    return replace(
        with_blocks(design, factor),
        setting=grown(design.setting, factor),
        sashing=grown(design.sashing, factor),
        borders=grown(design.borders, factor),
    )


def with_blocks(design: Design, factor: Fraction) -> Design:
    """The design with all blocks times a factor; sashing and borders stay."""
    if factor == 1:
        return design
    return replace(
        design,
        blocks=grown(design.blocks, factor),
        block_width=design.block_width * factor,
        block_height=design.block_height * factor,
    )


def with_counts(design: Design, across: int, down: int) -> Design:
    """The design with so many blocks."""
    return replace(design, setting=replace(design.setting, across=across, down=down))


def with_strips(design: Design, sashing: Length | None, borders: Sequence[Length]) -> Design:
    """The design with sashing and borders (from the inside out) of other widths; it has as many as before."""
    strips: Sashing | None = design.sashing
    if strips is not None and sashing is not None:
        strips = replace(strips, width=sashing)
    wide = tuple(replace(b, width=width) for b, width in zip(design.borders, borders, strict=True))
    return replace(design, sashing=strips, borders=wide)


def finished_lengths(design: Design) -> tuple[Length, ...]:
    """Every finished length of a design, in a fixed order: what scaling is to scale."""
    parts = (design.blocks, design.block_width, design.block_height)
    return tuple(_lengths((*parts, design.setting, design.sashing, design.borders)))


def cell_sizes(design: Design) -> set[Length]:
    """The sizes that a ruler must show for the blocks: their own sides and those of their units."""
    sizes = {side for block in design.blocks for side in (block.width, block.height)}
    sizes |= {side for b in design.blocks for unit in b.units for side in (unit.width, unit.height)}
    return {side for side in sizes if side > ZERO}


def grown(value: Any, factor: Fraction) -> Any:
    """Any part of a design with every finished length in it times a factor."""
    if isinstance(value, Length):
        return value * factor
    if isinstance(value, Shape):
        by = float(factor)
        return replace(value, corners=tuple((x * by, y * by) for x, y in value.corners))
    if isinstance(value, tuple):
        return tuple(grown(item, factor) for item in value)
    if is_dataclass(value) and not isinstance(value, type):
        return replace(value, **{f.name: grown(getattr(value, f.name), factor) for f in fields(value)})
    return value


def _lengths(value: Any) -> list[Length]:
    if isinstance(value, Length):
        return [value]
    if isinstance(value, tuple):
        return [length for item in value for length in _lengths(item)]
    if is_dataclass(value) and not isinstance(value, type):
        return [length for f in fields(value) for length in _lengths(getattr(value, f.name))]
    return []
