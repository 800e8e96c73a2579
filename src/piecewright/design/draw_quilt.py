"""The drawing of the whole top, and the order of joining that its setting suggests.

The quilt's lower left corner is the origin.
"""

from __future__ import annotations

from collections.abc import Callable

from piecewright.design.borders import bordered
from piecewright.design.drawing import Group, InLine, Placed, QuiltDrawing
from piecewright.design.model import Design, finished_size
from piecewright.design.settings import straight
from piecewright.design.settings.kinds import Setting
from piecewright.design.settings.sheet import Joined, Sheet, leaves
from piecewright.geometry.isometry import moved
from piecewright.geometry.polygon import edges, placed, rectangle
from piecewright.measure.length import ZERO

MIDDLES: dict[type[Setting], Callable[[Design, Sheet], Joined]] = {
    Setting: straight.middle,
}
"""How the middle of a quilt is drawn, by the kind of its setting."""


def draw_quilt(design: Design) -> QuiltDrawing:
    """The top and its suggested order.

    Children are the blocks, plain blocks, sashes, cornerstones and border strips.
    """
    edge = sum((border.width for border in design.borders), ZERO)
    sheet = Sheet(design, edge)
    order = MIDDLES[type(design.setting)](design, sheet)
    width, height = finished_size(design)
    middle = moved(float(edge), float(edge))
    inside = placed(rectangle(float(width - edge * 2), float(height - edge * 2)), middle)
    for count, border in enumerate(design.borders, 1):
        order = bordered(sheet, order, border, edge, width, height, count)
        edge -= border.width
    if isinstance(order, Placed):
        order = InLine("centre", "up", (order,))
    top = Group(design.title, tuple(leaves(order)), rectangle(float(width), float(height)))
    return QuiltDrawing(top, order, sheet.cells, tuple(edges(inside)))
