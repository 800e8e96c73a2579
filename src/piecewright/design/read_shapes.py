"""Blocks drawn by corners: from the coordinates in the file to shapes that tile the block."""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.design.coordinates import read_coordinate
from piecewright.design.entries import BlockEntry
from piecewright.design.grid import count
from piecewright.design.misfit_words import FaultyBlock, misfit_problem
from piecewright.design.model import Shape
from piecewright.design.reader import Reader
from piecewright.design.tiling import misfits, welded
from piecewright.geometry.point import Point
from piecewright.measure.length import Length, inches, mm
from piecewright.measure.number import read_number, shortened
from piecewright.toml_places import KeyPath

MOST_SHAPES = 2_000
_MOST_DRAFTED = 1_000

Coordinate = str | int | float


def read_shapes(
    reader: Reader, path: KeyPath, entry: BlockEntry, name: str, size: tuple[Length, Length] | None
) -> tuple[Shape, ...]:
    """The shapes of a block with a name; empty where a problem stands in the way."""
    before = len(reader.problems)
    if len(entry.patches) > MOST_SHAPES:
        reader.add(path, f"expected at most {MOST_SHAPES} patches in a block, got {len(entry.patches)}.")
        return ()
    scale = _scale(reader, path, entry, size)
    outlines = []
    for i, patch in enumerate(entry.patches):
        reader.role((*path, "patches", i, "role"), patch.role)
        outlines.append(_corners(reader, (*path, "patches", i, "corners"), patch.corners, scale))
    if size is None or len(reader.problems) > before:
        return ()
    polygons = welded(outlines)
    for i, polygon in enumerate(polygons):
        if not polygon:
            what = "expected a patch with an area, got corners on one line."
            reader.add((*path, "patches", i), what, "Move a corner.")
    if len(reader.problems) > before:
        return ()
    labels = tuple(str(k + 1) for k in range(len(polygons)))
    sides = float(size[0]), float(size[1])
    _check_tiling(reader, path, FaultyBlock(name, *sides, tuple(polygons), labels, reader.unit))
    return tuple(Shape(p.role, polygon) for p, polygon in zip(entry.patches, polygons, strict=True))


def _check_tiling(reader: Reader, path: KeyPath, block: FaultyBlock) -> None:
    names = [f"patch {label}" for label in block.labels]
    for misfit in misfits(block.outlines, block.width, block.height):
        # An overlap is told at the later patch; a corner at the patch whose corner it is.
        number = misfit.patches[:1] if misfit.kind.startswith("corner") else misfit.patches[-1:]
        where = reader.file.where(*path, "patches", *number) if number else reader.file.where(*path)
        reader.problems.append(misfit_problem(misfit, where, block, names))


def _scale(
    reader: Reader, path: KeyPath, entry: BlockEntry, size: tuple[Length, Length] | None
) -> tuple[float, float]:
    """Inches for one step of the coordinates, across and up."""
    one = float(inches(1) if reader.unit == "in" else mm(10))
    if entry.drafted is None or size is None:
        return one, one
    sides = str(entry.drafted).replace("×", "x").split("x")
    try:
        numbers = [read_number(side) for side in sides]
    except ValueError as error:
        reader.add((*path, "drafted"), f"{error}.")
        return one, one
    if len(numbers) > 2 or not all(0 < number <= _MOST_DRAFTED for number in numbers):
        what = f"expected one or two numbers above 0, such as 8 or 8 x 12, got {shortened(entry.drafted)}."
        reader.add((*path, "drafted"), what)
        return one, one
    return float(size[0].exact / numbers[0]), float(size[1].exact / numbers[-1])


def _corners(
    reader: Reader, path: KeyPath, written: Sequence[Sequence[Coordinate]], scale: tuple[float, float]
) -> list[Point]:
    corners = []
    if len(written) < 3:
        reader.add(path, f"expected at least three corners, got {len(written)}.")
    for i, corner in enumerate(written):
        if len(corner) != 2:
            reader.add((*path, i), f"expected a corner [across, up], got {count(len(corner), 'number')}.")
            continue
        try:
            x, y = map(read_coordinate, corner)
        except ValueError as error:
            reader.add((*path, i), str(error))
            continue
        corners.append((x * scale[0], y * scale[1]))
    return corners
