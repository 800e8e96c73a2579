"""The picture of one strip or square that shapes are cut from: its pieces, the cuts, what falls away.

Pieces carry their numbers, from the left; those that lie turned have them turned as well.
"""

from __future__ import annotations

from piecewright.cutting.shapes.wanted import CutStrip, ShapeDemand
from piecewright.drawing.look import (
    CAPTION,
    CUT,
    LABEL,
    MEASURE,
    PAGE_WIDTH,
    PIECE,
    QUIET_WORDS,
    STRONG_WORDS,
    filled,
    lightened,
    offcut,
)
from piecewright.drawing.on_cloth import across_cloth, longer
from piecewright.drawing.palette import Palette
from piecewright.drawing.pen import Pen, View
from piecewright.drawing.svg_pen import SvgPen
from piecewright.drawing.writing import counted, text_width
from piecewright.geometry.isometry import turned
from piecewright.geometry.matching import outline_turns
from piecewright.geometry.point import Point
from piecewright.geometry.polygon import Polygon, bounds, centroid, placed, rectangle
from piecewright.measure.length import Unit
from piecewright.measure.tolerance import AS_DRAWN
from piecewright.methods.shape_words import measured_words
from piecewright.workroom.workroom import default_workroom

TALLEST = 220.0
BESIDE = 60.0
PALER = 0.55
BEYOND = 4.0
"""Sizes in points: the height of a picture, room beside it for its height, how far cuts go beyond cloth."""


def draw_shape_strip(
    pen: Pen, demand: ShapeDemand, strip: CutStrip, colour: str, unit: Unit = "in", width: float = PAGE_WIDTH
) -> None:
    """A strip within so many points, its lower left corner at the origin."""
    cloth = rectangle(float(strip.width), float(strip.height))
    view = View(min((width - BESIDE) / float(strip.width), TALLEST / float(strip.height)))
    pale = filled(PIECE, lightened(colour, PALER))
    pen.polygon(view.points(cloth), offcut(colour))
    for number, piece in enumerate(strip.pieces, 1):
        pen.polygon(view.points(piece), pale)
        _write_number(pen, demand.outline, piece, str(number), view)
    for cut in strip.cuts:
        across = across_cloth(cut, [cloth])
        if across:
            pen.polyline(view.points(longer(across, BEYOND / view.scale)), CUT)
    _write_sizes(pen, view.at(cloth[2]), strip, unit)


def _write_number(pen: Pen, outline: Polygon, piece: Polygon, number: str, view: View) -> None:
    """A number that stands as the piece does, where there is room for it."""
    turn = next((p.degrees for p in outline_turns(outline, piece, AS_DRAWN) if _is_quarter(p.degrees)), 0.0)
    x0, y0, x1, y1 = bounds(view.points(placed(piece, turned(-turn))))
    if text_width(number, LABEL) < 0.5 * (x1 - x0) and y1 - y0 > 1.6 * LABEL:
        pen.text(view.at(centroid(piece)), number, LABEL, "middle", STRONG_WORDS, round(turn) % 360)


def _is_quarter(degrees: float) -> bool:
    return abs((degrees + 45) % 90 - 45) < 0.01


def _write_sizes(pen: Pen, corner: Point, strip: CutStrip, unit: Unit) -> None:
    """How long the strip is below it, and how high on its right."""
    (right, top), y = corner, -14.0
    room = default_workroom(unit)
    words = measured_words(float(strip.width), room)
    half = text_width(words, CAPTION) / 2 + 5
    for a, b in ((0.0, right / 2 - half), (right / 2 + half, right)):
        if b > a:
            pen.polyline([(a, y), (b, y)], MEASURE)
    for x in (0.0, right):
        pen.polyline([(x, y - 3), (x, y + 3)], MEASURE)
    pen.text((right / 2, y), words, CAPTION, "middle", QUIET_WORDS)
    pen.text((right + 8, top / 2), measured_words(float(strip.height), room), CAPTION, "start", QUIET_WORDS)


def shape_strip_svg(
    demand: ShapeDemand,
    strip: CutStrip,
    palette: Palette,
    fabric: str,
    unit: Unit = "in",
    width: float = PAGE_WIDTH,
) -> str:
    """The picture as SVG."""
    room = default_workroom(unit)
    size = " x ".join(measured_words(float(side), room) for side in (strip.width, strip.height))
    told = f"{counted(strip.each, demand.noun)} in a strip or square {size}, with the cuts between them."
    pen = SvgPen(f"Cutting {demand.name}", told)
    draw_shape_strip(pen, demand, strip, palette.colour(fabric), unit, width)
    return pen.svg()
