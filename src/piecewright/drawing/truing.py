"""The picture of truing up: a unit under a square ruler, laid on at its landmark."""

from __future__ import annotations

from piecewright.bench.cloth import Cloth, SeamSize
from piecewright.bench.steps import Landmark, TrueUp
from piecewright.bench.truing import Allowed, true_up
from piecewright.drawing.cloths import draw_sewn, map_line
from piecewright.drawing.frames import Box
from piecewright.drawing.look import (
    CUT,
    LABEL,
    OFFCUT,
    RULER,
    RULER_EDGE,
    RULER_LINE,
    WORDS,
)
from piecewright.drawing.on_cloth import longer
from piecewright.drawing.palette import Palette
from piecewright.drawing.pen import Pen, View, fitting
from piecewright.drawing.svg_pen import SvgPen
from piecewright.drawing.writing import size_in_words, size_of
from piecewright.geometry.isometry import STILL, Isometry, laying
from piecewright.geometry.point import Point
from piecewright.geometry.polygon import Polygon, bounds, placed
from piecewright.measure.length import Unit, inches, mm
from piecewright.problems import Refused

BEYOND = 0.12
"""How far the ruler reaches beyond the unit, as a share of the unit."""

UNIT_WIDTH = 120.0

LANDMARK_WORDS: dict[Landmark, str] = {
    "diagonal": "the ruler's diagonal on the seam",
    "centre": "the ruler's centre lines through the corners of the crossing seams",
    "point": "the point one seam allowance below the upper edge, in the middle",
    "edges": "the same amount off opposite edges",
}


def window(cloth: Cloth, landmark: Landmark, size: tuple[float, float], seam: SeamSize) -> Polygon:
    """Where the exact size lies on the cloth; its first side is the lower one. () where it does not fit."""
    try:
        return true_up(cloth, landmark, size, "ease", seam, Allowed(float("inf"), 0.0)).raw
    except Refused:
        return ()


def upright(cloth: Cloth, landmark: Landmark, size: tuple[float, float], seam: SeamSize) -> Isometry:
    """The turn and move that lays the cloth as its unit stands, the exact size's corner at the origin."""
    corners = window(cloth, landmark, size, seam)
    return laying(corners[0], corners[1], (0.0, 0.0), (1.0, 0.0)) if corners else STILL


def truing_box(cloth: Cloth, place: Isometry) -> Box:
    """The bounds of unit and ruler in inches, when the unit lies at the place."""
    x0, y0, x1, y1 = bounds(placed(cloth.raw, place))
    beyond = BEYOND * max(x1 - x0, y1 - y0)
    return min(x0, -beyond), min(y0, -beyond), x1, y1


def draw_truing_at(
    pen: Pen, cloth: Cloth, step: TrueUp, place: Isometry, palette: Palette, view: View, unit: Unit
) -> None:
    """The unit, what is trimmed off hatched, and the ruler with its marks counted from its upper corner.

    One cuts along the ruler's upper and right edge; its lines on the left and below tell the exact size.
    """
    draw_sewn(pen, cloth, palette, view, place)
    width, height = float(step.width), float(step.height)
    if step.by == "trim":
        for a, b in _strips(placed(cloth.raw, place), width, height):
            pen.polygon(view.points(((a[0], a[1]), (b[0], a[1]), (b[0], b[1]), (a[0], b[1]))), OFFCUT)
    x0, y0, *_ = truing_box(cloth, place)
    corners = ((x0, y0), (width, y0), (width, height), (x0, height))
    pen.polygon(view.points(corners), RULER)
    _draw_marks(pen, (x0, y0), (width, height), view, unit)
    for line in _ruler_lines(cloth, step, (x0, y0), place):
        pen.polyline(view.points(line), RULER_LINE)
    for line in (((0.0, y0), (0.0, height)), ((x0, 0.0), (width, 0.0))):
        pen.polyline(view.points(line), RULER_LINE)
    for edge in (((x0, height), (width, height)), ((width, y0), (width, height))):
        pen.polyline(longer((view.at(edge[0]), view.at(edge[1])), 4.0), CUT)


def _strips(raw: Polygon, width: float, height: float) -> list[tuple[Point, Point]]:
    """The strips of the raw outline's bounds that lie outside the exact size."""
    x0, y0, x1, y1 = bounds(raw)
    strips = [
        ((x0, y0), (0.0, y1)),
        ((width, y0), (x1, y1)),
        ((0.0, y0), (width, 0.0)),
        ((0.0, height), (width, y1)),
    ]
    return [(a, b) for a, b in strips if b[0] - a[0] > 1e-3 and b[1] - a[1] > 1e-3]


def _draw_marks(pen: Pen, low: Point, high: Point, view: View, unit: Unit) -> None:
    """Marks along the upper and the right edge, at whole and half inches, or centimetres."""
    step = float(inches("1/2") if unit == "in" else mm(5))
    for axis in (0, 1):
        count = int((high[axis] - low[axis]) / step + 1e-9)
        for k in range(1, count + 1):
            at = high[axis] - k * step
            long = (4.5 if k % 2 == 0 else 2.5) / view.scale
            line = (
                ((at, high[1]), (at, high[1] - long)) if axis == 0 else ((high[0], at), (high[0] - long, at))
            )
            pen.polyline(view.points(line), RULER_EDGE)


def _ruler_lines(cloth: Cloth, step: TrueUp, low: Point, place: Isometry) -> list[tuple[Point, Point]]:
    """The lines of the ruler that are laid on the landmark."""
    width, height = float(step.width), float(step.height)
    if step.landmark == "diagonal":
        path = next(map_line(line, place) for seam in cloth.seams for line in seam.segments)
        rises = (path[1][0] - path[0][0]) * (path[1][1] - path[0][1]) > 0
        return [((0.0, 0.0), (width, height)) if rises else ((0.0, height), (width, 0.0))]
    if step.landmark == "centre":
        return [((0.0, 0.0), (width, height)), ((0.0, height), (width, 0.0))]
    if step.landmark == "point":
        return [((width / 2, low[1]), (width / 2, height))]
    return []


def draw_truing(
    pen: Pen,
    cloth: Cloth,
    step: TrueUp,
    seam: SeamSize,
    palette: Palette,
    unit: Unit = "in",
    width: float = UNIT_WIDTH,
) -> None:
    """A unit before it is trued up, in a box of so many points, the ruler on it, the exact size below."""
    place = upright(cloth, step.landmark, (float(step.width), float(step.height)), seam)
    box = truing_box(cloth, place)
    view = fitting(box, width, width)
    draw_truing_at(pen, cloth, step, place, palette, view, unit)
    x0, y0, x1, _ = box
    middle, low = view.at(((x0 + x1) / 2, y0))
    pen.text((middle, low - 9.0), f"{size_of(step.width, step.height, unit)} {unit}", LABEL, "middle", WORDS)


def truing_svg(
    cloth: Cloth,
    step: TrueUp,
    seam: SeamSize,
    palette: Palette,
    unit: Unit = "in",
    width: float = UNIT_WIDTH,
) -> str:
    """The picture of truing up as SVG."""
    size = size_in_words(step.width, step.height, unit)
    how = "trim what stands out" if step.by == "trim" else "ease in what stands out"
    words = f"True up to {size}: {LANDMARK_WORDS[step.landmark]}; {how}."
    pen = SvgPen(f"Truing up to {size}", words)
    draw_truing(pen, cloth, step, seam, palette, unit, width)
    return pen.svg()
