"""Pictures of given cloth: how a fat quarter, a square, a strip or a length off the shelf is cut, to scale.

The cloth lies as it is, its length up the picture. Its strips run across it or along it and are drawn a
little apart, those of one pattern together; between them stand the numbers of the cuts.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from piecewright.cutting.given.layout import CutGiven, FromShelf
from piecewright.cutting.given.leftovers import WORTH_KEEPING
from piecewright.cutting.order_of_cuts import NumberedCut, in_order_of_cutting, order_of_given_cuts
from piecewright.cutting.patterns import Pattern
from piecewright.drawing.layout_key import LINE, Key, draw_legend, keys_in
from piecewright.drawing.layout_notes import draw_notes, draw_order, draw_way_of_print
from piecewright.drawing.layout_numbers import NUMBER_LINE, CutNumber, draw_lane, draw_number
from piecewright.drawing.layout_pages import LANE, ROOM_FOR_LETTER
from piecewright.drawing.layout_row import lane_numbers, strip_number, strips_told
from piecewright.drawing.layout_strip import LayoutLook, Lie, draw_strip, rest_of, write_rest
from piecewright.drawing.layout_words import given_told
from piecewright.drawing.look import (
    CAPTION,
    LABEL,
    PAGE_WIDTH,
    QUIET_WORDS,
    STRONG_WORDS,
    WORDS,
    offcut,
)
from piecewright.drawing.palette import Palette
from piecewright.drawing.pen import Pen
from piecewright.drawing.svg_pen import SvgPen
from piecewright.drawing.writing import size_in_words, text_width
from piecewright.geometry.point import Point
from piecewright.measure.length import Length, Unit

USUAL_SCALE = 10.5
"""Points to the inch: a fat quarter is half as wide as the page. Small pieces are drawn larger."""

BEFORE, BEHIND = 22.0, 56.0
"""What the numbers of strips take before the strips, and their sizes behind them, in points."""


@dataclass(frozen=True)
class _Given:
    """Given cloth with what is needed to draw it."""

    cut: CutGiven
    cuts: tuple[NumberedCut, ...]
    keys: Mapping[str, Key]
    look: LayoutLook
    scale: float

    def drawn(self, pattern: Pattern) -> int:
        """How many strips of a pattern are drawn: of a long piece one, else all."""
        return 1 if self.cut.like_a_bolt else pattern.times


def given_svgs(
    cut: FromShelf,
    palette: Palette,
    unit: Unit = "in",
    width: float = PAGE_WIDTH,
    height: float = 520.0,
    names: Mapping[str, str] | None = None,
    with_order: bool = True,
    one_way: bool = False,
) -> tuple[str, ...]:
    """A picture for each way in which given cloth is cut, in their order, each within so many points.

    Letters are the same in all of them; `names` as in `keys_of`. Explained are the numbers of the cuts, if
    wished, and the way of a `one_way` print.
    """
    letters = keys_in([(one.patterns, one.times, one.along) for one in cut.used], names)
    found = []
    for one in cut.used:
        own = keys_in([(one.patterns, one.times, one.along)], names)
        keys = {name: Key(letters[name].letter, *_without_letter(key)) for name, key in own.items()}
        look = LayoutLook(palette.colour(one.fabric or one.name), keys, unit)
        given = _Given(one, order_of_given_cuts(one), keys, look, _scale(one, width, height))
        pen = SvgPen(f"Cutting {title_of(one)}", given_told(one, keys, given.cuts, unit))
        _draw(pen, given, width, with_order, one_way)
        found.append(pen.svg())
    return tuple(found)


def title_of(cut: CutGiven) -> str:
    """What the cloth is and how many are cut alike: `fat quarter sea, 3 cut alike`."""
    return cut.name if cut.times == 1 else f"{cut.name}, {cut.times} cut alike"


def _without_letter(key: Key) -> tuple[str, Length, Length, int]:
    return key.name, key.width, key.height, key.count


def _scale(cut: CutGiven, width: float, height: float) -> float:
    lanes, beside = LANE * (len(cut.patterns) + 1), BEFORE + BEHIND
    taken = float(cut.filled if cut.like_a_bolt else cut.room)
    if cut.like_a_bolt:
        taken = sum(float(pattern.strip_height) for pattern in cut.patterns)
    along, across = float(cut.strip_length), taken
    rooms = (height, width) if cut.along else (width, height)
    most = min(
        (rooms[0] - (0 if cut.along else beside)) / along, (rooms[1] - lanes - beside * cut.along) / across
    )
    smallest = min(min(one.width, one.height) for pattern in cut.patterns for one in pattern.sections)
    return min(most, max(USUAL_SCALE, ROOM_FOR_LETTER / float(smallest)))


def _draw(pen: Pen, given: _Given, width: float, with_order: bool, one_way: bool) -> None:
    """The heading, the strips one behind the other, and below them what explains them."""
    cut, unit = given.cut, given.look.unit
    long = float(cut.strip_length) * given.scale
    at, low = 0.0, 0.0
    for index, pattern in enumerate(cut.patterns):
        at = _draw_pattern(pen, given, index, pattern, at)
    at = _draw_beside(pen, given, at)
    right = BEFORE + (at if cut.along else long)
    low = -long - BEFORE if cut.along else -at
    sizes = [text_width(strips_told(pattern, unit), CAPTION) for pattern in cut.patterns]
    _write_heading(pen, given, max(sizes) + 5 if cut.along else 0.0)
    if one_way:
        draw_way_of_print(pen, (right + 12, 0.0 if not cut.along else -long / 2))
    below, room = (0.0, low - 4), min(width, max(right + BEHIND, 210.0))
    if with_order:
        below = (0.0, draw_order(pen, given.cuts, below, unit, room, cut.strip_length) - 4)
    low = draw_legend(pen, list(given.keys.values()), below, unit, room)
    draw_notes(pen, given.scale, (0.0, low - 10), unit, (), False)


def _write_heading(pen: Pen, given: _Given, above: float) -> None:
    cut, unit = given.cut, given.look.unit
    run = "along the cloth, its length up the picture" if cut.along else "across the cloth"
    size = size_in_words(cut.width, cut.height, unit).replace(" x ", " × ")
    y = above + 9.0
    pen.text((0.0, y), f"{size}; strips {run}", LABEL, "start", QUIET_WORDS)
    pen.text((0.0, y + CAPTION * LINE * 1.1), title_of(cut), CAPTION, "start", STRONG_WORDS)


def _lie(given: _Given, at: float) -> Lie:
    """Where a strip lies that begins so many points behind the first edge of the cloth."""
    scale, long = given.scale, float(given.cut.strip_length) * given.scale
    if given.cut.along:
        return lambda p: (BEFORE + at + p[1] * scale, -long + p[0] * scale)
    return lambda p: (BEFORE + p[0] * scale, -at - p[1] * scale)


def _draw_pattern(pen: Pen, given: _Given, index: int, pattern: Pattern, at: float) -> float:
    """The strips of a pattern, its lane and its words; gives where the next may begin."""
    cut, scale = given.cut, given.scale
    ordered = in_order_of_cutting(pattern, index, given.cuts)
    high = float(pattern.strip_height) * scale
    pen.group(f"strips {index + 1}")
    for number in range(given.drawn(pattern)):
        lie = _lie(given, at + number * high)
        draw_strip(pen, pattern, ordered, lie, cut.strip_length, scale, given.look)
        _write_end(pen, given, pattern, lie)
    end = at + given.drawn(pattern) * high
    _write_strips(pen, given, pattern, (at + end) / 2)
    _draw_lane_of(pen, given, index, end)
    pen.end_group()
    return end + LANE


def _write_end(pen: Pen, given: _Given, pattern: Pattern, lie: Lie) -> None:
    rest = rest_of(pattern, given.cut.strip_length)
    if rest:
        corners = (
            lie((float(pattern.across), 0.0)),
            lie((float(given.cut.strip_length), float(pattern.strip_height))),
        )
        write_rest(pen, corners, (rest[1], rest[0]) if given.cut.along else rest, given.look.unit)


def _write_strips(pen: Pen, given: _Given, pattern: Pattern, at: float) -> None:
    words, long = strips_told(pattern, given.look.unit), float(given.cut.strip_length) * given.scale
    if given.cut.along:
        pen.text((BEFORE + at, 5 + text_width(words, CAPTION) / 2), words, CAPTION, "middle", WORDS, 90.0)
    else:
        pen.text((BEFORE + long + 6, -at), words, CAPTION, "start", WORDS)


def _draw_lane_of(pen: Pen, given: _Given, index: int, edge: float) -> None:
    cut, pattern = given.cut, given.cut.patterns[index]
    lie, along = _lie(given, edge), given.cut.along
    side = 1 if along else 0
    ordered = in_order_of_cutting(pattern, index, given.cuts)
    numbers = lane_numbers(index, ordered, lambda u: lie((u, 0.0))[side], given.cuts)
    corner = lie((0.0, 0.0))
    middle = corner[1 - side] + (LANE / 2 + 0.3) * (1 if along else -1)
    draw_lane(pen, numbers, corner[1 - side], middle, lie((float(cut.strip_length), 0.0))[side] + 8, along)
    ring = (corner[0], corner[1] - 10.0) if along else (corner[0] - 10.0, corner[1])
    pen.polyline([ring, corner], NUMBER_LINE)
    draw_number(pen, CutNumber(strip_number(index, given.cuts), 0.0), ring)


def _draw_beside(pen: Pen, given: _Given, at: float) -> float:
    """What is left beside the strips; gives where the cloth ends on paper."""
    cut = given.cut
    rest = cut.room - cut.filled
    if not rest:
        return at
    high = 14.0 if cut.like_a_bolt else float(rest) * given.scale
    lie, scale = _lie(given, at), given.scale
    long = float(cut.strip_length)
    corners: list[Point] = [lie(p) for p in ((0, 0), (long, 0), (long, high / scale), (0, high / scale))]
    size = (rest, cut.strip_length) if cut.along else (cut.strip_length, rest)
    if cut.like_a_bolt:
        told = f"the rest stays whole: {size_in_words(*size, given.look.unit).replace(' x ', ' × ')}"
        pen.text((corners[0][0], (corners[0][1] + corners[2][1]) / 2), told, LABEL, "start", WORDS)
        return at + high
    pen.group("left over")
    pen.polygon(corners, offcut(given.look.colour))
    if rest >= WORTH_KEEPING:
        write_rest(pen, corners, size, given.look.unit)
    pen.end_group()
    return at + high
