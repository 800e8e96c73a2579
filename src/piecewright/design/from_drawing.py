"""A quilt file to start from: one block drawn in an SVG file, a cloth for each of its colours."""

from __future__ import annotations

from pathlib import Path

from piecewright.design.colour import hex_colour
from piecewright.design.svg_elements import filled_shapes
from piecewright.design.svg_file import Unreadable, read_svg
from piecewright.measure.length import Length, Unit
from piecewright.measure.number import shortened
from piecewright.measure.showing import figure
from piecewright.problems import Problem, Refused
from piecewright.toml_places import quoted

MOST_FILLS = 26
LETTERS = "abcdefghijklmnopqrstuvwxyz"


def quilt_of_drawing(drawing: Path, size: tuple[Length, Length], unit: Unit) -> str:
    """The text of a quilt file of one such block, to lie beside the drawing.

    Raises Refused for what is no drawing, has no filled shape, or has too many fills to be a block.
    """
    fills = _fills(drawing)
    called = drawing.stem.replace("_", " ").replace("-", " ") or "block"
    cloths = [(f"cloth_{letter}", fill) for letter, fill in zip(LETTERS, fills, strict=False)]
    width, height = (figure(side, unit) for side in size)
    lines = [
        f"# Written from {drawing.name}: name the cloths, and change the setting as you like.",
        f"title = {quoted(called)}",
        'reason = "To see how the block goes together."',
        f'unit = "{unit}"',
        "",
    ]
    for key, fill in cloths:
        lines += [f"[fabrics.{key}]", f'colour = "{fill}"', ""]
    lines += [
        "[blocks.drawn]",
        f"name = {quoted(called)}",
        f'size = "{width} x {height}"',
        f"drawing = {quoted(drawing.name)}",
        "",
        "[blocks.drawn.fills]",
        *(f'"{fill}" = "{key}"' for key, fill in cloths),
        "",
        "[setting]",
        "across = 1",
        "down = 1",
        'arrangement = "drawn"',
        "",
    ]
    return "\n".join(lines)


def _fills(drawing: Path) -> list[str]:
    """The colours of a drawing's filled shapes, each once, as they come."""
    try:
        shapes, _ = filled_shapes(read_svg(drawing))
    except Unreadable as error:
        where = f"{drawing}:{error.line}" if error.line else str(drawing)
        raise Refused(Problem(error.what, where, error.do)) from error
    fills: list[str] = []
    for shape in shapes:
        try:
            fill = hex_colour(shape.fill)
        except ValueError:
            what = f"expected plain colours, got the fill {shortened(shape.fill)}."
            raise Refused(Problem(what, f"{drawing}:{shape.line}", "Fill it with one colour.")) from None
        if fill not in fills:
            fills.append(fill)
    if not 0 < len(fills) <= MOST_FILLS:
        what = f"expected closed shapes filled in 1 to {MOST_FILLS} colours, got {len(fills)}."
        raise Refused(
            Problem(what, str(drawing), "Draw every patch as a closed shape filled with its cloth.")
        )
    return fills
