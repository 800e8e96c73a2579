"""The picture of truing up: a unit under a square ruler, laid on at its landmark."""

from __future__ import annotations

from dataclasses import replace

from piecewright.bench.cloth import Cloth, SeamSize
from piecewright.bench.steps import Landmark, TrueUp
from piecewright.bench.truing import Allowed, true_up
from piecewright.drawing.cloths import draw_sewn, map_line
from piecewright.drawing.frames import Box
from piecewright.drawing.look import (
    CUT,
    INK,
    LABEL,
    OFFCUT,
    RULER,
    RULER_EDGE,
    RULER_LINE,
    WORDS,
    Style,
)
from piecewright.drawing.on_cloth import longer
from piecewright.drawing.palette import Palette
from piecewright.drawing.pen import Pen, View, fitting
from piecewright.drawing.svg_pen import SvgPen
from piecewright.drawing.writing import size_in_words, size_of
from piecewright.geometry.isometry import STILL, Isometry, laying
from piecewright.geometry.point import Point
from piecewright.geometry.polygon import (
    Line,
    Polygon,
    bounds,
    clip,
    clip_to,
    edges,
    extent,
    placed,
    rectangle,
)
from piecewright.measure.length import Unit, inches, mm
from piecewright.measure.tolerance import AS_DRAWN
from piecewright.problems import Refused

BEYOND = 0.12
"""How far the ruler reaches beyond the unit, as a share of the unit."""

UNIT_WIDTH = 120.0

SPOT = 2.6
LANDMARK_SPOT = Style("landmark spot", INK, 0.8, halo=True)
"""A ring, so many points in radius, around each place that the ruler is laid on."""

LANDMARK_WORDS: dict[Landmark, str] = {
    "diagonal": "the ruler's diagonal on the seam",
    "centre": "the ruler's centre lines through the corners of the crossing seams",
    "point": "the point one seam allowance below the upper edge, in the middle",
    "edges": "the same amount off opposite edges",
    "finished corners": "the seam through two corners of the ruler's seam lines, one seam allowance inside",
    "square": "each of the four points on a seam line of the ruler, in the middle of its edge",
    "base": "the ruler's edges on the base's own edges, flush with which the corners are cut",
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
    cloth = _without_tips(cloth)
    draw_sewn(pen, cloth, palette, view, place)
    width, height = float(step.width), float(step.height)
    if step.by == "trim":
        for piece in _cut_off(placed(cloth.raw, place), width, height):
            pen.polygon(view.points(piece), OFFCUT)
    x0, y0, *_ = truing_box(cloth, place)
    corners = ((x0, y0), (width, y0), (width, height), (x0, height))
    pen.polygon(view.points(corners), RULER)
    _draw_marks(pen, (x0, y0), (width, height), view, unit)
    for line in _ruler_lines(cloth, step, (x0, y0), place):
        pen.polyline(view.points(line), RULER_LINE)
    for line in (((0.0, y0), (0.0, height)), ((x0, 0.0), (width, 0.0))):
        pen.polyline(view.points(line), RULER_LINE)
    for spot in _spots(cloth, step, place):
        pen.circle(view.at(spot), SPOT, LANDMARK_SPOT)
    for edge in (((x0, height), (width, height)), ((width, y0), (width, height))):
        pen.polyline(longer((view.at(edge[0]), view.at(edge[1])), 4.0), CUT)


def _cut_off(raw: Polygon, width: float, height: float) -> list[Polygon]:
    """What lies outside the exact size: left and right of it, then below and above."""
    low, right, high, left = edges(rectangle(width, height))
    between = clip(clip(raw, *left), *right)
    pieces = [clip(raw, *left, -1), clip(raw, *right, -1), clip(between, *low, -1), clip(between, *high, -1)]
    return [piece for piece in pieces if piece and min(extent(piece)) > AS_DRAWN]


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


def _ruler_lines(cloth: Cloth, step: TrueUp, low: Point, place: Isometry) -> list[Line]:
    """The lines of the ruler that are laid on the landmark."""
    width, height = float(step.width), float(step.height)
    seam = _allowance(cloth)
    if step.landmark == "diagonal":
        return [_diagonal(cloth, place, (0.0, 0.0), (width, height))]
    if step.landmark == "centre":
        return [((0.0, 0.0), (width, height)), ((0.0, height), (width, 0.0))]
    middle = ((width / 2, low[1]), (width / 2, height))
    if step.landmark == "point":
        return [middle, ((low[0], height - seam), (width, height - seam))]
    if step.landmark == "finished corners":
        inside = _diagonal(cloth, place, (seam, seam), (width - seam, height - seam))
        return [inside, *_seam_lines(width, height, seam, low)]
    if step.landmark == "square":
        across = ((low[0], height / 2), (width, height / 2))
        return [middle, across, *_seam_lines(width, height, seam, low)]
    return []


def _spots(cloth: Cloth, step: TrueUp, place: Isometry) -> list[Point]:
    """Where lines of the ruler meet on the landmark."""
    width, height = float(step.width), float(step.height)
    seam = _allowance(cloth)
    if step.landmark == "point":
        return [(width / 2, height - seam)]
    if step.landmark == "finished corners":
        return list(_diagonal(cloth, place, (seam, seam), (width - seam, height - seam)))
    if step.landmark == "square":
        upright = [(width / 2, y) for y in (seam, height - seam)]
        return [*upright, *((x, height / 2) for x in (seam, width - seam))]
    return []


def _without_tips(cloth: Cloth) -> Cloth:
    """A joined cloth as it is trued up: the tips of its triangles clipped off."""
    if not cloth.parts:
        return cloth
    faces = tuple(replace(face, seen=seen) for face in cloth.faces if (seen := clip_to(face.seen, cloth.raw)))
    return Cloth(cloth.raw, cloth.net, faces, (), cloth.seams, cloth.all_caught)


def _allowance(cloth: Cloth) -> float:
    """How far the cloth's net outline lies inside the raw one."""
    return (extent(cloth.raw)[0] - extent(cloth.net)[0]) / 2 if cloth.net else 0.0


def _diagonal(cloth: Cloth, place: Isometry, low: Point, high: Point) -> Line:
    """The diagonal of a rectangle that runs as the cloth's seam does."""
    a, b = next(map_line(line, place) for seam in cloth.seams for line in seam.segments)
    rises = (b[0] - a[0]) * (b[1] - a[1]) > 0
    return (low, high) if rises else ((low[0], high[1]), (high[0], low[1]))


def _seam_lines(width: float, height: float, seam: float, low: Point) -> list[Line]:
    """The ruler's lines a seam allowance inside the exact size."""
    upright = [((x, low[1]), (x, height)) for x in (seam, width - seam)]
    return [*upright, *(((low[0], y), (width, y)) for y in (seam, height - seam))]


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
