"""Borders around what is inside: strips joined in the order that the border says."""

from __future__ import annotations

from piecewright.design.drawing import InLine, Placed
from piecewright.design.model import Border
from piecewright.design.settings.sheet import Joined, Sheet
from piecewright.geometry.isometry import moved
from piecewright.measure.length import Length


def bordered(
    sheet: Sheet, inside: Joined, border: Border, edge: Length, width: Length, height: Length, count: int
) -> InLine:
    """The inside with a border around it; `edge` is how far it lies from the quilt's edge."""
    outer = edge - border.width
    inner_width, inner_height = width - 2 * edge, height - 2 * edge
    sides_first = border.order == "sides first"
    tall = inner_height if sides_first else height - 2 * outer
    wide = width - 2 * outer if sides_first else inner_width
    side = sheet.long_strip(border.role, border.width, tall, border.cut != "crosswise")
    level = sheet.long_strip(border.role, wide, border.width, border.cut == "lengthwise")
    low, left = float(edge if sides_first else outer), float(outer if sides_first else edge)
    sides = [Placed(side, moved(float(x), low)) for x in (outer, width - edge)]
    levels = [Placed(level, moved(left, float(y))) for y in (outer, height - edge)]
    if sides_first:
        half = InLine("with side borders", "across", (sides[0], inside, sides[1]))
        return InLine(f"with border {count}", "up", (levels[0], half, levels[1]))
    half = InLine("with top and bottom borders", "up", (levels[0], inside, levels[1]))
    return InLine(f"with border {count}", "across", (sides[0], half, sides[1]))
