"""The sheet that a middle is drawn on: each distinct thing once, parts in line, and where they lie."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from piecewright.design.draw_block import UPRIGHT, draw_block
from piecewright.design.drawing import Drawing, InLine, Patch, Placed
from piecewright.design.model import Design
from piecewright.design.settings.kinds import Laid, Place
from piecewright.geometry.isometry import STILL, Isometry, turned
from piecewright.geometry.polygon import rectangle
from piecewright.measure.length import Length

Joined = InLine | Placed


@dataclass(frozen=True, slots=True)
class Spot:
    """What a place of the arrangement shows, and the turn it lies in (without its move)."""

    drawing: Drawing
    turn: Isometry


class Sheet:
    """Draws each distinct thing once; `cells` remembers which cell each block was laid in.

    The middle's lower left corner lies `edge` from both sides of the quilt.
    """

    def __init__(self, design: Design, edge: Length) -> None:
        self.design, self.edge = design, edge
        self.cells: dict[int, Place] = {}
        self._spots: dict[Laid, Spot] = {}
        self._strips: dict[tuple[str, Length, Length, bool, bool], Patch] = {}

    def laid(self, place: Place, x: float, y: float, turn: Isometry = STILL) -> Placed:
        """What lies in a cell, with its lower left corner at (x, y); `turn` is that of the whole setting."""
        spot = self._spot(self.design.setting.at(*place))
        lying = Placed(spot.drawing, shifted(turn.after(spot.turn), x, y))
        self.cells[id(lying)] = place
        return lying

    def _spot(self, laid: Laid) -> Spot:
        if laid not in self._spots:
            self._spots[laid] = self._drawn(laid)
        return self._spots[laid]

    def _drawn(self, laid: Laid) -> Spot:
        if laid.key not in self.design.block:
            return Spot(self.strip(laid.key, self.design.block_width, self.design.block_height), STILL)
        middle = (float(self.design.block_width) / 2, float(self.design.block_height) / 2)
        turn = turned(laid.turn, middle) if laid.turn else STILL
        return Spot(draw_block(self.design, laid.key, laid.turn), turn)

    def strip(
        self, role: str, width: Length, height: Length, may_piece: bool = False, lengthwise: bool = False
    ) -> Patch:
        """A plain rectangle of cloth."""
        key = (role, width, height, may_piece, lengthwise)
        if key not in self._strips:
            way = UPRIGHT if self.design.is_one_way(role) else None
            outline = rectangle(float(width), float(height))
            self._strips[key] = Patch(role, outline, way, may_piece, lengthwise)
        return self._strips[key]

    def long_strip(self, role: str, width: Length, height: Length, lengthwise: bool) -> Patch:
        """A strip along a whole side: in one piece along the selvedge, or pieced."""
        return self.strip(role, width, height, may_piece=not lengthwise, lengthwise=lengthwise)


def line(name: str, direction: str, parts: list[Joined]) -> Joined:
    """Parts in line; one part stands as that part."""
    return parts[0] if len(parts) == 1 else InLine(name, direction, tuple(parts))


def leaves(order: Joined) -> list[Placed]:
    """Everything that lies in an order."""
    if isinstance(order, Placed):
        return [order]
    return [leaf for part in order.parts for leaf in leaves(part)]


def alternating(between: list[Placed], things: list[Joined], around: bool) -> list[Joined]:
    """Things with one more, or one less, between them: around them too, or not."""
    first, second = (list(between), things) if around else (things, list(between))
    parts: list[Joined] = [first[0]]
    for one, other in zip(second, first[1:], strict=True):
        parts += [one, other]
    return parts


def places(first: Length, step: Length, count: int) -> list[float]:
    """So many places a step apart, each as exact as a float can be."""
    start, by = first.exact, step.exact
    bottom = Fraction(1, (start.denominator * by.denominator))
    a, b = int(start / bottom), int(by / bottom)
    return [(a + b * k) / bottom.denominator for k in range(count)]


def shifted(turn: Isometry, x: float, y: float) -> Isometry:
    """A turn, and then a move."""
    return Isometry(turn.cos, turn.sin, turn.x + x, turn.y + y, turn.mirrored)
