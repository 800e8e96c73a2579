"""How a thing goes together: its parts pulled apart along its seams, lettered, with dots and numbers.

A seam to sew is a solid line in thread blue, in the middle of its gap; what is left open until all parts are
on is dashed. Dots are marked on both cloths: a full one to start, a hollow one to turn, a square one to stop.
"""

from __future__ import annotations

from collections.abc import Sequence

from shapely import Polygon as ShapelyPolygon

from piecewright.bench.cloth import Cloth
from piecewright.drawing.cloths import draw_finished
from piecewright.drawing.joining import SEAM_TO_SEW
from piecewright.drawing.look import INK, LABEL, PAPER, PLATE, STRONG_WORDS, THREAD, Style, filled
from piecewright.drawing.palette import Palette
from piecewright.drawing.pen import Pen, View, fitting
from piecewright.drawing.pulled_apart import DotKind, PulledApart, ShownSeam, pulled_apart
from piecewright.drawing.svg_pen import SvgPen
from piecewright.drawing.writing import counted, text_width
from piecewright.geometry.isometry import STILL, Isometry
from piecewright.geometry.point import Point, middle
from piecewright.geometry.polygon import Polygon, bounds, placed
from piecewright.piecing.tree import How

TOGETHER_WIDTH, TOGETHER_HEIGHT = 190.0, 125.0

LEFT_OPEN = Style("left open", THREAD, 1.3, dashes=(3.2, 2.4))
DOT = Style("dot", PAPER, 0.7, fill=INK)
TURN_DOT = Style("turn dot", INK, 1.0, fill=PAPER)
NUMBER = Style("number", THREAD, 0.8, fill=PAPER)

DOT_RADIUS, NUMBER_RADIUS = 2.3, 5.0
LEAST_PLATE = 11.0
"""A part narrower than this many points carries no letter."""


def draw_together(
    pen: Pen,
    apart: PulledApart,
    palette: Palette,
    letters: Sequence[str] = (),
    width: float = TOGETHER_WIDTH,
    height: float = TOGETHER_HEIGHT,
) -> None:
    """Parts pulled apart in a box of so many points, each with its letter; a key of the dots below."""
    view = fitting(apart.box, width, height)
    for part in apart.parts:
        draw_finished(pen, part.cloth, palette, view, part.place)
    for seam in apart.seams:
        pen.polyline(view.points(seam.path), LEFT_OPEN if seam.left_open else SEAM_TO_SEW)
    for part, letter in zip(apart.parts, letters, strict=False):
        _draw_letter(pen, view.points(placed(part.cloth.net, part.place)), letter)
    if _is_numbered(apart):
        for seam in apart.seams:
            _draw_number(pen, seam, view)
    for dot in apart.dots:
        _draw_dot(pen, view.at(dot.at), dot.kind)
    _draw_key(pen, apart)


def _is_numbered(apart: PulledApart) -> bool:
    return any(seam.left_open for seam in apart.seams) or (len(apart.seams) > 1 and bool(apart.dots))


def _draw_letter(pen: Pen, outline: Sequence[Point], letter: str) -> None:
    x0, y0, x1, y1 = bounds(outline)
    if not letter or min(x1 - x0, y1 - y0) < LEAST_PLATE:
        return
    x, y = _middle(tuple(outline))
    half, high = text_width(letter, LABEL) / 2 + 2.0, LABEL / 2 + 1.0
    plate = [(x - half, y - high), (x + half, y - high), (x + half, y + high), (x - half, y + high)]
    pen.polygon(plate, filled(PLATE, PAPER))
    pen.text((x, y), letter, LABEL, style=STRONG_WORDS)


def _middle(outline: Polygon) -> Point:
    """The centre of a part, or a point of it where that lies outside."""
    shape = ShapelyPolygon(outline)
    inside = shape.centroid if shape.contains(shape.centroid) else shape.point_on_surface()
    x, y = inside.coords[0]
    return x, y


def _draw_number(pen: Pen, seam: ShownSeam, view: View) -> None:
    k = (len(seam.path) - 2) // 2
    at = view.at(middle(seam.path[k], seam.path[k + 1]))
    pen.circle(at, NUMBER_RADIUS, NUMBER)
    pen.text(at, str(seam.number), LABEL)


def _draw_dot(pen: Pen, at: Point, kind: DotKind) -> None:
    x, y = at
    r = DOT_RADIUS
    if kind == "stop":
        pen.polygon([(x - r, y - r), (x + r, y - r), (x + r, y + r), (x - r, y + r)], DOT)
    else:
        pen.circle(at, r, DOT if kind == "start" else TURN_DOT)


def _draw_key(pen: Pen, apart: PulledApart) -> None:
    """What the dots and the dashes mean, where there are any."""
    x, y = 0.0, -LABEL - 3.0
    for kind in dict.fromkeys(dot.kind for dot in apart.dots):
        _draw_dot(pen, (x + DOT_RADIUS, y), kind)
        pen.text((x + 3 * DOT_RADIUS, y), kind, LABEL, "start")
        x += 3 * DOT_RADIUS + text_width(kind, LABEL) + 9.0
    if any(seam.left_open for seam in apart.seams):
        pen.polyline([(x, y), (x + 14.0, y)], LEFT_OPEN)
        pen.text((x + 18.0, y), "left open, closed last", LABEL, "start")


def together_svg(
    cloth: Cloth,
    palette: Palette,
    name: str,
    letters: Sequence[str] = (),
    how: How = "row",
    joins: int = 1,
    place: Isometry = STILL,
    width: float = TOGETHER_WIDTH,
    height: float = TOGETHER_HEIGHT,
) -> str:
    """The picture of how a thing of this name goes together, as SVG; see `pulled_apart` for the rest."""
    apart = pulled_apart(cloth, how, joins, place)
    pen = SvgPen(f"How it goes together: {name}", _in_words(apart, name, letters, how))
    draw_together(pen, apart, palette, letters, width, height)
    return pen.svg()


def _in_words(apart: PulledApart, name: str, letters: Sequence[str], how: How) -> str:
    order = f" ({', '.join(letters)})" if letters else ""
    ways = {
        "row": "joined one after another",
        "set in": "set in from dot to dot",
        "ring": "sewn on around the first",
    }
    words = f"{name} pulled apart: {counted(len(apart.parts), 'part')}{order}, {ways[how]}."
    turns = sum(dot.kind == "turn" for dot in apart.dots) // 2
    if turns:
        words += f" The seam turns at {counted(turns, 'dot')}."
    if any(seam.left_open for seam in apart.seams):
        words += " The first seam stops at a dot; the dashed rest is closed last."
    return words
