"""The drawing of the whole top, and the order of joining that its setting suggests.

Sashes and borders run level or upright; the quilt's lower left corner is the origin.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from piecewright.design.draw_block import UPRIGHT, draw_block
from piecewright.design.drawing import Drawing, Group, InLine, Patch, Placed, QuiltDrawing
from piecewright.design.model import Border, Design, Laid, finished_size
from piecewright.geometry.isometry import STILL, Isometry, moved, turned
from piecewright.geometry.polygon import rectangle
from piecewright.measure.length import ZERO, Length

Joined = InLine | Placed


def draw_quilt(design: Design) -> QuiltDrawing:
    """The top and its suggested order; a line of one part stands as that part.

    Children are the blocks, plain blocks, sashes, cornerstones and border strips.
    """
    edge = sum((border.width for border in design.borders), ZERO)
    sheet = _Sheet(design)
    middle = _centre(design, sheet, edge)
    width, height = finished_size(design)
    order: Joined = _line("centre", "up", middle)
    for count, border in enumerate(design.borders, 1):
        order = _bordered(sheet, order, border, edge, width, height, count)
        edge -= border.width
    if isinstance(order, Placed):
        order = InLine("centre", "up", (order,))
    top = Group(design.title, tuple(_leaves(order)), rectangle(float(width), float(height)))
    return QuiltDrawing(top, order)


@dataclass(frozen=True, slots=True)
class _Spot:
    """What a place of the arrangement shows, and the turn it lies in (without its move)."""

    drawing: Drawing
    turn: Isometry


class _Sheet:
    """Draws each distinct thing once."""

    def __init__(self, design: Design) -> None:
        self.design = design
        self.spots: dict[Laid, _Spot] = {}
        self.strips: dict[tuple[str, Length, Length, bool], Patch] = {}

    def spot(self, laid: Laid) -> _Spot:
        if laid not in self.spots:
            self.spots[laid] = self._drawn(laid)
        return self.spots[laid]

    def _drawn(self, laid: Laid) -> _Spot:
        if laid.key not in self.design.block:
            return _Spot(self.strip(laid.key, self.design.block_width, self.design.block_height), STILL)
        middle = (float(self.design.block_width) / 2, float(self.design.block_height) / 2)
        turn = turned(laid.turn, middle) if laid.turn else STILL
        return _Spot(draw_block(self.design, laid.key, laid.turn), turn)

    def strip(self, role: str, width: Length, height: Length, may_piece: bool = False) -> Patch:
        key = (role, width, height, may_piece)
        if key not in self.strips:
            way = UPRIGHT if self.design.is_one_way(role) else None
            self.strips[key] = Patch(role, rectangle(float(width), float(height)), way, may_piece)
        return self.strips[key]


def _line(name: str, direction: str, parts: list[Joined]) -> Joined:
    return parts[0] if len(parts) == 1 else InLine(name, direction, tuple(parts))


def _leaves(order: Joined) -> list[Placed]:
    if isinstance(order, Placed):
        return [order]
    return [leaf for part in order.parts for leaf in _leaves(part)]


def _centre(design: Design, sheet: _Sheet, edge: Length) -> list[Joined]:
    """The rows from bottom to top."""
    setting, sashing = design.setting, design.sashing
    if sashing is None:
        return [
            _block_row(design, sheet, row, edge, edge + (setting.down - 1 - row) * design.block_height)
            for row in reversed(range(setting.down))
        ]
    parts: list[Joined] = []
    y = edge
    for row in reversed(range(setting.down)):
        if sashing.around or row < setting.down - 1:
            parts.append(_sashing_row(design, sheet, edge, y))
            y += sashing.width
        parts.append(_block_row(design, sheet, row, edge, y))
        y += design.block_height
    if sashing.around:
        parts.append(_sashing_row(design, sheet, edge, y))
    return parts


def _block_row(design: Design, sheet: _Sheet, row: int, edge: Length, y: Length) -> Joined:
    setting, sashing = design.setting, design.sashing
    gap = sashing.width if sashing else ZERO
    first = edge + gap if sashing and sashing.around else edge
    xs = _places(first, design.block_width + gap, setting.across)
    level = float(y)
    blocks: list[Joined] = []
    for column, x in enumerate(xs):
        spot = sheet.spot(setting.at(row, column))
        blocks.append(Placed(spot.drawing, _shifted(spot.turn, x, level)))
    if sashing is None:
        return _line("block row", "across", blocks)
    sash = sheet.strip(sashing.role, gap, design.block_height)
    count = setting.across + (1 if sashing.around else -1)
    start = edge if sashing.around else edge + design.block_width
    sashes = [Placed(sash, moved(x, level)) for x in _places(start, design.block_width + gap, count)]
    return _line("block row", "across", _alternating(sashes, blocks, sashing.around))


def _sashing_row(design: Design, sheet: _Sheet, edge: Length, y: Length) -> Joined:
    sashing, across = design.sashing, design.setting.across
    assert sashing is not None
    gap, step, level = sashing.width, design.block_width + sashing.width, float(y)
    stones = across + 1 if sashing.around else across - 1
    if sashing.cornerstone is None:
        whole = across * design.block_width + stones * gap
        return Placed(sheet.strip(sashing.role, whole, gap, may_piece=True), moved(float(edge), level))
    sash = sheet.strip(sashing.role, design.block_width, gap)
    stone = sheet.strip(sashing.cornerstone, gap, gap)
    first_sash, first_stone = (edge + gap, edge) if sashing.around else (edge, edge + design.block_width)
    sashes = [Placed(sash, moved(x, level)) for x in _places(first_sash, step, across)]
    corners = [Placed(stone, moved(x, level)) for x in _places(first_stone, step, stones)]
    return _line("sashing row", "across", _alternating(corners, list(sashes), sashing.around))


def _alternating(between: list[Placed], things: list[Joined], around: bool) -> list[Joined]:
    first, second = (list(between), things) if around else (things, list(between))
    parts: list[Joined] = [first[0]]
    for one, other in zip(second, first[1:], strict=True):
        parts += [one, other]
    return parts


def _places(first: Length, step: Length, count: int) -> list[float]:
    start, by = first.exact, step.exact
    bottom = Fraction(1, (start.denominator * by.denominator))
    a, b = int(start / bottom), int(by / bottom)
    return [(a + b * k) / bottom.denominator for k in range(count)]


def _shifted(turn: Isometry, x: float, y: float) -> Isometry:
    return Isometry(turn.cos, turn.sin, turn.x + x, turn.y + y, turn.mirrored)


def _bordered(
    sheet: _Sheet, inside: Joined, border: Border, edge: Length, width: Length, height: Length, count: int
) -> InLine:
    """The inside with a border around it; `edge` is how far it lies from the quilt's edge."""
    outer = edge - border.width
    inner_width, inner_height = width - 2 * edge, height - 2 * edge
    sides_first = border.order == "sides first"
    tall = inner_height if sides_first else height - 2 * outer
    wide = width - 2 * outer if sides_first else inner_width
    side = sheet.strip(border.role, border.width, tall, may_piece=True)
    level = sheet.strip(border.role, wide, border.width, may_piece=True)
    low, left = float(edge if sides_first else outer), float(outer if sides_first else edge)
    sides = [Placed(side, moved(float(x), low)) for x in (outer, width - edge)]
    levels = [Placed(level, moved(left, float(y))) for y in (outer, height - edge)]
    if sides_first:
        half = InLine("with side borders", "across", (sides[0], inside, sides[1]))
        return InLine(f"with border {count}", "up", (levels[0], half, levels[1]))
    half = InLine("with top and bottom borders", "up", (levels[0], inside, levels[1]))
    return InLine(f"with border {count}", "across", (sides[0], half, sides[1]))
