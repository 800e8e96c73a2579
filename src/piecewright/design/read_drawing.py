"""Blocks from an SVG drawing: from the file that the design names to shapes that tile the block."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

from piecewright.design.colour import hex_colour
from piecewright.design.entries import BlockEntry
from piecewright.design.misfit import Misfit
from piecewright.design.misfit_words import FaultyBlock, MisfitProblem, misfit_problem, place_in_words
from piecewright.design.missed_corners import near_misses
from piecewright.design.model import Shape
from piecewright.design.reader import Reader
from piecewright.design.svg_elements import FilledShape, filled_shapes
from piecewright.design.svg_file import Unreadable, file_inside, read_svg
from piecewright.design.svg_notes import notes_on
from piecewright.design.svg_shapes import MOST_PATCHES, DrawnBlock, DrawnPatch, drawn_block, extent_of
from piecewright.design.tiling import misfits
from piecewright.geometry.polygon import centroid
from piecewright.measure.length import Length
from piecewright.measure.number import shortened
from piecewright.measure.showing import show, show_float
from piecewright.toml_places import KeyPath

# The sides of a drawing may differ from those of the block by this share.
PROPORTIONS = 0.01


def read_drawing(
    reader: Reader, path: KeyPath, entry: BlockEntry, name: str, size: tuple[Length, Length] | None
) -> tuple[Shape, ...]:
    """The shapes of a block that is drawn in a file of its own; empty where a problem stands in the way."""
    at, before = (*path, "drawing"), len(reader.problems)
    roles = _roles(reader, (*path, "fills"), entry.fills)
    written = entry.drawing or ""
    try:
        shapes, left_out = filled_shapes(read_svg(file_inside(Path(reader.file.name).parent, written)))
        if size is None or not _is_sized(reader, at, shapes, *size):
            return ()
        drawn = drawn_block(shapes, float(size[0]), float(size[1]))
    except Unreadable as error:
        line = f"line {error.line} of {written}: " if error.line else ""
        reader.add(at, f"{line}{error.what}", error.do)
        return ()
    for note in notes_on(drawn, left_out, written, reader.unit):
        reader.add(at, note, "", "note")
    _check_fills(reader, path, drawn.patches, roles, written)
    if any(problem.weight == "error" for problem in reader.problems[before:]):
        return ()
    _check_tiling(reader, at, name, drawn, roles, (float(size[0]), float(size[1])))
    return tuple(Shape(roles[patch.fill], patch.outline) for patch in drawn.patches)


def _roles(reader: Reader, path: KeyPath, fills: Mapping[str, str]) -> dict[str, str]:
    """The role for each fill, by its hex colour."""
    roles: dict[str, str] = {}
    for fill, role in fills.items():
        reader.role((*path, fill), role)
        try:
            colour = hex_colour(fill)
        except ValueError as error:
            reader.add(
                (*path, fill), f'expected a CSS colour such as "#aa3322", got {shortened(fill)} ({error}).'
            )
            continue
        if colour in roles:
            reader.add((*path, fill), f"expected each fill once, got {fill} twice.", "Leave one out.")
        roles[colour] = role
    return roles


def _is_sized(
    reader: Reader, path: KeyPath, shapes: Sequence[FilledShape], width: Length, height: Length
) -> bool:
    """Whether the drawing has the proportions of the block; a problem where it has not."""
    if len(shapes) > MOST_PATCHES:
        what = f"expected at most {MOST_PATCHES:,} filled shapes in a drawing, got {len(shapes):,}."
        raise Unreadable(what)
    left, low, right, high = extent_of(shapes)
    across, up = right - left, high - low
    if abs(across * float(height) / (up * float(width)) - 1) <= PROPORTIONS:
        return True
    block = f"{show(width, reader.unit)} x {show(height, reader.unit)}"
    what = f"expected a drawing with the proportions of the block ({block}), got shapes that reach over"
    got = f"{across:.5g} x {up:.5g} of the drawing's own units."
    do = "Change the size of the block, or look for a shape that sticks out."
    reader.add(path, f"{what} {got}", do)
    return False


def _check_fills(
    reader: Reader, path: KeyPath, patches: Sequence[DrawnPatch], roles: Mapping[str, str], written: str
) -> None:
    """Each fill that is seen needs a role; a role that no fill asks for is a slip of the pen."""
    seen: dict[str, list[DrawnPatch]] = {}
    for patch in patches:
        seen.setdefault(patch.fill, []).append(patch)
    for fill, own in seen.items():
        if fill in roles:
            continue
        first = f"line {min(patch.line for patch in own)} of {written}"
        if not fill.startswith("#"):
            what = f"expected plain colours as fills, got {shortened(fill)} ({first})."
            reader.add((*path, "drawing"), what, "Give the shape a plain fill.")
            continue
        count = "1 patch" if len(own) == 1 else f"{len(own)} patches"
        what = f"expected a role for the fill {fill} ({count}; {first}), got none."
        reader.add((*path, "fills"), what, f'Add "{fill}" = "..." to [{".".join(map(str, path))}.fills].')
    for fill in sorted(roles.keys() - seen.keys()):
        reader.add((*path, "fills"), f"no patch of {written} has the fill {fill}.", "", "note")


def _check_tiling(
    reader: Reader,
    path: KeyPath,
    name: str,
    drawn: DrawnBlock,
    roles: Mapping[str, str],
    size: tuple[float, float],
) -> None:
    labels = tuple(roles[patch.fill] for patch in drawn.patches)
    block = FaultyBlock(name, *size, tuple(patch.outline for patch in drawn.patches), labels, reader.unit)
    where = reader.file.where(*path)
    names = [
        f"the {roles[p.fill]} patch around {place_in_words(centroid(p.outline), reader.unit)}"
        for p in drawn.patches
    ]
    for k, patch in enumerate(drawn.patches):
        if patch.hole is not None:
            place = place_in_words(patch.hole, reader.unit)
            what = f"expected patches in one piece without holes, got {names[k]} with a hole around {place}."
            misfit = Misfit("hole", patch.hole, (k,))
            reader.problems.append(MisfitProblem(what, where, "Draw it in two.", "error", block, misfit))
    holed = any(patch.hole is not None for patch in drawn.patches)
    found = [] if holed else misfits(block.outlines, *size)
    if not (holed or found):
        found = near_misses(block.outlines, drawn.corners, drawn.in_curves)
    for misfit in found:
        reader.problems.append(misfit_problem(misfit, where, block, names))
    for strip in drawn.strips:
        place, width = place_in_words(strip.place, reader.unit), show_float(strip.size, reader.unit)
        what = f"a shape covers a strip of another, {width} wide, around {place}; it is kept as drawn."
        reader.problems.append(MisfitProblem(what, where, "", "note", block, strip))
