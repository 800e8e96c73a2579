"""The straight set: rows of blocks one above the other, with sashes between them or not."""

from __future__ import annotations

from piecewright.design.drawing import Placed
from piecewright.design.model import Design
from piecewright.design.settings.sheet import Joined, Sheet, alternating, line, places
from piecewright.geometry.isometry import moved
from piecewright.measure.length import ZERO, Length


def middle(design: Design, sheet: Sheet) -> Joined:
    """The rows from bottom to top."""
    return line("centre", "up", _rows(design, sheet, sheet.edge))


def _rows(design: Design, sheet: Sheet, edge: Length) -> list[Joined]:
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


def _block_row(design: Design, sheet: Sheet, row: int, edge: Length, y: Length) -> Joined:
    setting, sashing = design.setting, design.sashing
    gap = sashing.width if sashing else ZERO
    first = edge + gap if sashing and sashing.around else edge
    xs = places(first, design.block_width + gap, setting.across)
    level = float(y)
    blocks: list[Joined] = [sheet.laid((row, column), x, level) for column, x in enumerate(xs)]
    if sashing is None:
        return line("block row", "across", blocks)
    sash = sheet.strip(sashing.role, gap, design.block_height)
    count = setting.across + (1 if sashing.around else -1)
    start = edge if sashing.around else edge + design.block_width
    sashes = [Placed(sash, moved(x, level)) for x in places(start, design.block_width + gap, count)]
    return line("block row", "across", alternating(sashes, blocks, sashing.around))


def _sashing_row(design: Design, sheet: Sheet, edge: Length, y: Length) -> Joined:
    sashing, across = design.sashing, design.setting.across
    assert sashing is not None
    gap, step, level = sashing.width, design.block_width + sashing.width, float(y)
    stones = across + 1 if sashing.around else across - 1
    if sashing.cornerstone is None:
        whole = across * design.block_width + stones * gap
        long = sheet.long_strip(sashing.role, whole, gap, sashing.cut == "lengthwise")
        return Placed(long, moved(float(edge), level))
    sash = sheet.strip(sashing.role, design.block_width, gap)
    stone = sheet.strip(sashing.cornerstone, gap, gap)
    first_sash, first_stone = (edge + gap, edge) if sashing.around else (edge, edge + design.block_width)
    sashes = [Placed(sash, moved(x, level)) for x in places(first_sash, step, across)]
    corners = [Placed(stone, moved(x, level)) for x in places(first_stone, step, stones)]
    return line("sashing row", "across", alternating(corners, list(sashes), sashing.around))
