"""Cutting templates: a patch at full size with its seam line, its grain, its size and how many to cut.

Terms:
- *net*: the outline as it shows in the quilt, along which it is sewn;
- *raw*: the net grown by the take-up of the seam on every edge: where it is cut. An edge between angles a
  and b grows by s(cot a/2 + cot b/2), so corners stay sharp;
- *grain*: the direction of the lengthwise threads in degrees, 90 is up the page.

Curves come as outlines of many short edges; nothing else is asked of them.
"""

from __future__ import annotations

from math import cos, radians, sin

from piecewright.drawing.inside import covers, parts_outside, parts_within, roomiest
from piecewright.drawing.true_scale import SheetWords, TrueShape, TrueSheet, closed
from piecewright.drawing.writing import measured_size, text_width
from piecewright.geometry.isometry import moved
from piecewright.geometry.point import Point, add, distance, left_of, middle, scale, sub
from piecewright.geometry.polygon import Line, Polygon, bounds, edges, extent, grown, placed, rectangle
from piecewright.measure.length import Unit
from piecewright.measure.tolerance import AS_DRAWN
from piecewright.problems import Problem, Refused

USE = "Cut the template out of card or plastic, lay it on the cloth along the grain, and draw round it."
NOTES = (
    "The dashed line is the finished edge; the needle goes a hair outside it.",
    "The print faces you on the right side of the cloth. The arrow lies along the straight of grain.",
    "Cut with scissors, or with a ruler laid on the edge: along bare card a rotary cutter slips.",
)

SIZES = (0.15, 0.13, 0.11, 0.095, 0.08)
"""Heights of writing on a template in inches, the largest that fits is taken."""

LEADING = 1.3
ARROW = (1 / 4, 2.0)
"""The shortest and the longest grain arrow, in inches."""

SHARE, PLACES, CLEAR = 0.75, 24, 0.1
"""An arrow's share of the room there is; how many places on either side are tried; how far from all else."""


def template(
    net: Polygon,
    take_up: float,
    name: str,
    *,
    raw: Polygon | None = None,
    grain: float | None = 90.0,
    count: int = 1,
    unit: Unit = "in",
) -> TrueShape:
    """The template of a patch from its net outline (inches, counter-clockwise).

    `take_up` is what a seam takes from each cloth; `raw` is where it is cut, for one who knows that already.
    Where a curve ends, its allowance else runs on straight. Raises Refused for an outline without an inside,
    and for a curve too tight to have an allowance.
    """
    return _template(net, raw or grown(net, take_up), name, grain, count, unit)


def raw_template(
    raw: Polygon,
    take_up: float,
    name: str,
    *,
    grain: float | None = 90.0,
    count: int = 1,
    unit: Unit = "in",
) -> TrueShape:
    """The same from the outline as it is cut."""
    return _template(grown(raw, -take_up), raw, name, grain, count, unit)


def template_sheet(title: str, shapes: tuple[TrueShape, ...]) -> TrueSheet:
    """Templates that belong together, on one sheet."""
    return TrueSheet(title, USE, NOTES, shapes)


def _template(
    net: Polygon, raw: Polygon, name: str, grain: float | None, count: int, unit: Unit
) -> TrueShape:
    if len(net) < 3 or len(raw) < 3:
        raise Refused(
            Problem(f"{name}: an outline with room for a seam line was expected.", do="Draw it larger.")
        )
    lines = (closed("cut", raw, "cut here"), closed("sew", net, "seam line"))
    told = (name, f"cut {count}", f"finished {_size_words(net, unit)}", f"cut size {_size_words(raw, unit)}")
    centre, _ = roomiest(net)
    words = _words(told, net, centre)
    arrow = _arrow(net, centre, grain, words) if grain is not None else None
    caption = "" if len(words) == len(told) else ", ".join(told)
    return TrueShape(name, lines, raw, words, arrow, count, caption)


def _size_words(outline: Polygon, unit: Unit) -> str:
    """How wide and high a shape is, or how long and across where none of its sides lies level or upright."""
    x0, y0, x1, y1 = bounds(outline)
    level = any(
        min(abs(a[0] - b[0]), abs(a[1] - b[1])) <= AS_DRAWN < distance(a, b) for a, b in edges(outline)
    )
    size = (x1 - x0, y1 - y0) if level else extent(outline)
    return measured_size(size, unit).replace(" × ", " x ")


def _words(told: tuple[str, ...], net: Polygon, centre: Point) -> tuple[SheetWords, ...]:
    """As many lines as fit inside, as large as fits; less is said rather than too small."""
    for kept in (told, told[:2], told[:1]):
        for size in SIZES:
            wide, high = max(text_width(line, size) for line in kept) + size, len(kept) * LEADING * size
            box = placed(rectangle(wide, high), moved(centre[0] - wide / 2, centre[1] - high / 2))
            if covers(net, box):
                top = centre[1] + (len(kept) - 1) / 2 * LEADING * size
                return tuple(
                    SheetWords((centre[0], top - row * LEADING * size), line, size, strong=row == 0)
                    for row, line in enumerate(kept)
                )
    return ()


def _arrow(net: Polygon, centre: Point, grain: float, words: tuple[SheetWords, ...]) -> Line | None:
    """The grain arrow, as long as there is room beside the words and as near to them; None without room."""
    along: Point = (cos(radians(grain)), sin(radians(grain)))
    aside, reach = left_of(along), max(extent(net))
    room = grown(net, -CLEAR) or net
    found: list[Line] = []
    for number in range(-PLACES, PLACES + 1):
        at = add(centre, scale(aside, reach * number / PLACES))
        line = (add(at, scale(along, -2 * reach)), add(at, scale(along, 2 * reach)))
        free = [part for inside in parts_within(line, [room]) for part in _beside(inside, words)]
        found += [_shortened(part) for part in free if distance(*part) * SHARE >= ARROW[0]]
    return min(
        found,
        key=lambda arrow: (-round(distance(*arrow), 1), round(distance(middle(*arrow), centre), 2)),
        default=None,
    )


def _beside(line: tuple[Point, ...], words: tuple[SheetWords, ...]) -> list[Line]:
    """The parts of a straight line that keep clear of the words."""
    if not words:
        return [(line[0], line[-1])]
    wide = max(text_width(one.text, one.size) for one in words) / 2 + CLEAR
    (x, top), low, size = words[0].at, words[-1].at[1], words[0].size
    box = placed(rectangle(2 * wide, top - low + LEADING * size), moved(x - wide, low - LEADING * size / 2))
    return [(part[0], part[-1]) for part in parts_outside(line, box)]


def _shortened(line: Line) -> Line:
    """The middle of a line, no longer than an arrow should be."""
    half = scale(sub(line[1], line[0]), min(SHARE, ARROW[1] / distance(*line)) / 2)
    return sub(middle(*line), half), add(middle(*line), half)
