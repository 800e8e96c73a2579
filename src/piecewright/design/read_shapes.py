"""Blocks drawn by corners: from the coordinates in the file to shapes that tile the block."""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.design.coordinates import read_coordinate
from piecewright.design.entries import BlockEntry
from piecewright.design.grid import count
from piecewright.design.model import Shape
from piecewright.design.reader import Reader
from piecewright.design.tiling import NARROWEST, holes, narrowest, outside, overlaps, self_crossing, welded
from piecewright.geometry.point import Point
from piecewright.geometry.polygon import Polygon
from piecewright.measure.length import Length, inches, mm
from piecewright.measure.number import read_number, shortened
from piecewright.measure.showing import figure_float, show_float
from piecewright.toml_places import KeyPath

MOST_SHAPES = 2_000
_MOST_DRAFTED = 1_000

Coordinate = str | int | float


def read_shapes(
    reader: Reader, path: KeyPath, entry: BlockEntry, size: tuple[Length, Length] | None
) -> tuple[Shape, ...]:
    """The shapes of a block; empty where a problem stands in the way."""
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
    width, height = float(size[0]), float(size[1])
    for i, polygon in enumerate(polygons):
        _check_shape(reader, (*path, "patches", i), polygon, width, height)
    if len(reader.problems) > before:
        return ()
    _check_tiling(reader, path, polygons, width, height)
    return tuple(Shape(p.role, polygon) for p, polygon in zip(entry.patches, polygons, strict=True))


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


def _check_shape(reader: Reader, path: KeyPath, outline: Polygon, width: float, height: float) -> None:
    if not outline:
        reader.add(path, "expected a patch with an area, got corners on one line.", "Move a corner.")
        return
    crossing = self_crossing(outline)
    if crossing is not None:
        what = (
            f"expected an outline that does not cross itself, got a crossing at {_place(reader, crossing)}."
        )
        reader.add(path, what, "List the corners in the order in which one walks around the patch.")
        return
    beyond = outside(outline, width, height)
    if beyond is not None:
        block = f"{show_float(width, reader.unit)} x {show_float(height, reader.unit)}"
        reader.add(path, f"expected corners inside the block ({block}), got {_place(reader, beyond)}.")
    elif narrowest(outline) < NARROWEST:
        least, got = show_float(NARROWEST, reader.unit), show_float(narrowest(outline), reader.unit)
        what = f"expected a patch at least {least} wide, got a sliver {got} wide."
        reader.add(path, what, "Give its cloth to its neighbours.")


def _check_tiling(
    reader: Reader, path: KeyPath, polygons: Sequence[Polygon], width: float, height: float
) -> None:
    for i, j, place in overlaps(polygons):
        both, around = f"patches {i + 1} and {j + 1}", _place(reader, place)
        what = f"expected patches side by side, got {both} overlapping around {around}."
        reader.add((*path, "patches", j), what, "Move a corner of one of them.")
    for place in holes(polygons, width, height):
        what = f"expected patches that fill the block, got a hole around {_place(reader, place)}."
        reader.add(path, what, "Add a patch there or move the corners around it.")


def _place(reader: Reader, point: Point) -> str:
    """A point in the file's unit: across, up."""
    across, up = (figure_float(value, reader.unit).removeprefix("about ") for value in point)
    return f"({across}, {up})"
