"""The edge of a quilt as it is wished: a binding, a facing, a whole facing, or folded points.

Terms:
- *edge*: what closes it; `layers` of cloth of it are sewn to the quilt at once.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from piecewright.finishing.backing_panels import Dividing, divided, lengths_for
from piecewright.finishing.bias import BiasStrips, ContinuousBias, length_for, squares_for
from piecewright.finishing.binding import (
    BindingLength,
    BindingWidth,
    BindingWishes,
    binding_length,
    binding_width,
    straight_binding,
)
from piecewright.finishing.facing import FACING_WIDTH, Facing, WholeFacing, straight_facing
from piecewright.finishing.points import POINT_SQUARE, FoldedPoints, folded_points
from piecewright.finishing.strips import StripsAcross
from piecewright.finishing.thread import Thickness
from piecewright.measure.length import ZERO, Length, Unit
from piecewright.measure.showing import show
from piecewright.workroom.workroom import Workroom

EdgeKind = Literal["binding", "facing", "whole facing", "folded points"]
Made = StripsAcross | BiasStrips | ContinuousBias | Facing | WholeFacing | FoldedPoints


@dataclass(frozen=True)
class Edge:
    """The edge: how it is `made`, and so many `times` (squares of bias); width and length of a binding.

    `layers` of its cloth are sewn to the quilt.
    """

    kind: EdgeKind
    made: Made
    times: int
    layers: int
    width: BindingWidth | None = None
    length: BindingLength | None = None

    @property
    def joins(self) -> int:
        """How many joins there are in it."""
        return self.made.joins * self.times + self.times - 1

    @property
    def join_run(self) -> float:
        """The stitching of all joins in inches."""
        one_more = float(self.width.cut) * 2**0.5 if self.width else 0.0
        return self.made.join_run * self.times + (self.times - 1) * one_more

    @property
    def cloth(self) -> Length:
        """The length of cloth it takes."""
        return self.made.cloth * self.times

    @property
    def area(self) -> float:
        """What of it stays in the quilt; square inches."""
        if self.width and self.length:
            return float(self.width.cut) * float(self.length.round_the_quilt)
        if isinstance(self.made, Facing):
            return float(self.made.width) * 2 * float(self.made.sides + self.made.ends)
        if isinstance(self.made, WholeFacing):
            return float(self.made.size[0]) * float(self.made.size[1])
        return float(self.made.square) ** 2 * self.made.count if isinstance(self.made, FoldedPoints) else 0.0

    def sum_lines(self, unit: Unit) -> tuple[str, ...]:
        """The arithmetic of width, length and cloth, a line each."""
        lines = list(self.made.sum_lines(unit))
        if self.times > 1:
            lines.append(f"{self.times} such squares: {show(self.cloth, unit)} of cloth")
        first = [part.sum_line(unit) for part in (self.width, self.length) if part]
        return (*first, *lines)


def edge_of(
    kind: EdgeKind,
    wishes: BindingWishes,
    top: tuple[Length, Length],
    thickness: Thickness,
    usable_width: Length,
    workroom: Workroom,
) -> Edge:
    """The edge of a quilt (finished width, height) from a cloth of a usable width.

    Raises Refused where the cloth is too narrow for it.
    """
    take_up, ruler = workroom.take_up, workroom.ruler
    if kind == "binding":
        return _binding(wishes, top, thickness, usable_width, workroom)
    if kind == "facing":
        return Edge(kind, straight_facing(top, FACING_WIDTH[ruler.unit], usable_width, take_up, ruler), 1, 1)
    if kind == "whole facing":
        return Edge(kind, whole_facing(top, usable_width, workroom), 1, 1)
    points = folded_points(top, POINT_SQUARE[ruler.unit], usable_width, take_up, ruler.unit)
    # A point has four layers, and where it is slid into the next, both are sewn through.
    return Edge(kind, points, 1, 8)


def whole_facing(top: tuple[Length, Length], usable_width: Length, workroom: Workroom) -> WholeFacing:
    """A facing as large as the raw quilt, from the direction that takes least cloth."""
    raw = (top[0] + workroom.take_up * 2, top[1] + workroom.take_up * 2)
    ways = []
    for over, along in (raw, raw[::-1]):
        widths = divided(Dividing(over, usable_width, workroom.take_up, workroom.ruler, ZERO), "anywhere")
        if widths is not None:
            ways.append(WholeFacing(raw, lengths_for(widths, usable_width), along, len(widths) - 1))
    return min(ways, key=lambda way: (way.cloth, way.seams))


def _binding(
    wishes: BindingWishes,
    top: tuple[Length, Length],
    thickness: Thickness,
    usable_width: Length,
    workroom: Workroom,
) -> Edge:
    take_up, ruler = workroom.take_up, workroom.ruler
    width = binding_width(wishes, thickness.layers(2, 1), ruler)
    length = binding_length(top, wishes, ruler.unit)
    layers = 2 if wishes.fold == "double" else 1
    if wishes.cut == "straight":
        straight = straight_binding(top, wishes, width.cut, usable_width, take_up, ruler)
        return Edge("binding", straight, 1, layers, width, length)
    if wishes.cut == "bias strips":
        strips = length_for(length.least, width.cut, usable_width, take_up, ruler)
        return Edge("binding", strips, 1, layers, width, length)
    squares = squares_for(length.least, width.cut, usable_width, take_up, ruler)
    return Edge("binding", squares[0], len(squares), layers, width, length)
