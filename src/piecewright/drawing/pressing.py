"""The pictures of pressing: a thing seen from the front, with a mark on every seam, and seen from the back.

Seen from the back the thing is turned over like a page, and every allowance is drawn as it lies: hatched, in
the fabric's colour where its right side looks up, pale where its wrong side does.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from math import cos, pi, sin

from piecewright.bench.cloth import Cloth
from piecewright.drawing.cloths import draw_faces, draw_finished, draw_pressing, seam_lines
from piecewright.drawing.look import INK, OUTLINE, PAPER, PRESSED_SPOT, RUST, Style, filled, lightened
from piecewright.drawing.palette import Palette
from piecewright.drawing.pen import Pen, PlacedPen, View, fitting
from piecewright.drawing.svg_pen import SvgPen
from piecewright.drawing.writing import counted
from piecewright.geometry.isometry import Isometry
from piecewright.geometry.point import Point, distance
from piecewright.geometry.polygon import bounds, placed
from piecewright.pressing.allowances import sheets_of
from piecewright.pressing.centres import Centre, centres_of, not_nesting

PRESSED_WIDTH = 190.0

OVER = Isometry(-1.0, 0.0, 0.0, 0.0, mirrored=True)
"""Turned over like a page: what lay on the left lies on the right."""

BACK = Style("back", INK, 0.35)
ALLOWANCE = Style("allowance", INK, 0.45, hatched=True)
TURNING = Style("turning", INK, 1.0)
TURNING_HEAD = Style("turning head", INK, 0.3, fill=INK)
PIN = Style("to pin", RUST, 1.2)
PIN_EDGE = Style("to pin edge", PAPER, 2.8)

RING, ROUND = 7.0, 3.4
"""The radius of a ring about a place to pin, and of a turning arrow; points."""


def draw_pressing_picture(
    pen: Pen, cloth: Cloth, palette: Palette, width: float = PRESSED_WIDTH, raw: bool = False
) -> None:
    """The cloth from the front in a box of so many points; arrows point to where each allowance lies.

    As it will show once it is sewn in; with its allowances all round if `raw`.
    """
    view = fitting(bounds(cloth.raw if raw else cloth.net), width, width)
    if raw:
        draw_faces(pen, cloth.faces, palette, view)
        pen.polygon(view.points(cloth.raw), OUTLINE)
    else:
        draw_finished(pen, cloth, palette, view)
    _draw_marks(pen, cloth, view)
    for centre in centres_of(cloth):
        _draw_turning(pen, view.at(centre.at), centre.clockwise)


def draw_back(pen: Pen, cloth: Cloth, palette: Palette, width: float = PRESSED_WIDTH) -> None:
    """The cloth from the back in a box of so many points, allowances as they lie, the same marks."""
    view = fitting(bounds(placed(cloth.raw, OVER)), width, width)
    sheets = [sheet.placed(OVER) for sheet in sheets_of(cloth)]
    # Allowances lie on what is seen from the front, those sewn last on top.
    for sheet in sorted(sheets, key=lambda sheet: sheet.allowance):
        colour = palette.colour(sheet.fabric) if sheet.over else lightened(palette.colour(sheet.fabric), 0.62)
        style = filled(ALLOWANCE if sheet.allowance else BACK, colour)
        pen.polygon(view.points(sheet.outline), style)
    pen.polygon(view.points(placed(cloth.raw, OVER)), OUTLINE)
    # A turning arrow would hide the small squares of a spun centre.
    _draw_marks(PlacedPen(pen, OVER), cloth, View(view.scale, -view.x, view.y))


def _draw_marks(pen: Pen, cloth: Cloth, view: View) -> None:
    """An arrow on every seam, and rings where seams do not nest."""
    draw_pressing(pen, cloth, view)
    draw_rings(pen, [view.at(point) for point in not_nesting(cloth)])


def draw_rings(pen: Pen, places: Sequence[Point]) -> None:
    """A ring about each place on paper; those that lie close together share one."""
    drawn: list[Point] = []
    for at in places:
        if all(distance(at, other) > RING for other in drawn):
            drawn.append(at)
            pen.circle(at, RING, PIN_EDGE)
            pen.circle(at, RING, PIN)


def _draw_turning(pen: Pen, at: Point, clockwise: bool) -> None:
    """A small arrow that goes round a point."""
    pen.circle(at, ROUND + 2.2, PRESSED_SPOT)
    turn = -1.0 if clockwise else 1.0
    angles = [turn * (0.3 + k * 0.1) * pi for k in range(15)]
    pen.polyline([_on_circle(at, angle, ROUND) for angle in angles], TURNING)
    end, ahead = angles[-1], angles[-1] + turn * 0.28 * pi
    head = [_on_circle(at, end, ROUND - 1.8), _on_circle(at, end, ROUND + 1.8), _on_circle(at, ahead, ROUND)]
    pen.polygon(head, TURNING_HEAD)


def _on_circle(centre: Point, angle: float, radius: float) -> Point:
    return centre[0] + radius * cos(angle), centre[1] + radius * sin(angle)


def pressing_svg(
    cloth: Cloth, palette: Palette, name: str, width: float = PRESSED_WIDTH, raw: bool = False
) -> str:
    """The picture of how a thing of this name is pressed, seen from the front, as SVG."""
    pen = SvgPen(f"Pressing: {name}", f"{name} seen from the front. {_in_words(cloth)}")
    draw_pressing_picture(pen, cloth, palette, width, raw)
    return pen.svg()


def back_svg(cloth: Cloth, palette: Palette, name: str, width: float = PRESSED_WIDTH) -> str:
    """The picture of how a thing of this name is pressed, seen from the back, as SVG."""
    words = f"{name} seen from the back, turned over like a page; allowances hatched. {_in_words(cloth)}"
    pen = SvgPen(f"Pressing, from the back: {name}", words)
    draw_back(pen, cloth, palette, width)
    return pen.svg()


def _in_words(cloth: Cloth) -> str:
    ways = Counter(pressed for _, pressed in seam_lines(cloth, net=True) if pressed)
    to_a_side = ways["first"] + ways["second"]
    told = [
        f"{counted(to_a_side, 'seam')} to a side, as the arrows point" if to_a_side else "",
        f"{counted(ways['open'], 'seam')} open (diamonds)" if ways["open"] else "",
        f"{counted(ways['either'], 'seam')} either way (rings)" if ways["either"] else "",
    ]
    words = "; ".join(part for part in told if part) or "nothing is pressed yet"
    marks = " ".join(sentence for sentence in _marks_in_words(cloth))
    return f"Pressed: {words}. {marks}".strip()


def _marks_in_words(cloth: Cloth) -> Iterator[str]:
    centres, pins = centres_of(cloth), not_nesting(cloth)
    if centres:
        yield f"{_round_in_words(centres)} pressed one way round (turning arrow)."
    if pins:
        yield f"To pin, since seams do not nest: {counted(len(pins), 'place')} (large rings)."


def _round_in_words(centres: Sequence[Centre]) -> str:
    numbers = ", ".join(f"{count} of {seams} seams" for seams, count in _tally(centres))
    return f"{counted(len(centres), 'centre')} ({numbers})"


def _tally(centres: Sequence[Centre]) -> list[tuple[int, int]]:
    return sorted(Counter(centre.seams for centre in centres).items())
