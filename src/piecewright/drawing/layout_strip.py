"""One strip of a cutting layout, or of given cloth: its pieces with their letters, and what is left over.

A strip is drawn through a *lie*, which brings places in the strip onto paper: so that a strip may run across
the picture or up it.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, field

from piecewright.cutting.given.leftovers import WORTH_KEEPING
from piecewright.cutting.patterns import Pattern, Section
from piecewright.drawing.layout_key import LINE, Key, piece_labels
from piecewright.drawing.look import (
    INK,
    LABEL,
    PAPER,
    PIECE,
    PLATE,
    STRONG_WORDS,
    WORDS,
    Style,
    filled,
    lightened,
    offcut,
)
from piecewright.drawing.pen import Pen
from piecewright.drawing.writing import size_of, text_width
from piecewright.geometry.point import Point
from piecewright.geometry.polygon import Polygon, bounds
from piecewright.measure.length import Length, Unit, inches

Lie = Callable[[Point], Point]
Ordered = Sequence[tuple[int, Section]]

PALER = 0.55
"""The share of white in the colour of pieces, so that words read on it."""

REST_PLATE = Style("rest plate", fill=PAPER)
LEAST_GRAIN = 6.0
"""Half the length of the shortest arrow along the selvedge, in points."""

GRAIN = Style("grain", INK, 0.45, fill=PAPER)

# A piece that is longer than a usual ruler along the selvedge is cut lengthwise; common practice, no source.
LONGER_THAN_A_RULER = inches(24)


@dataclass(frozen=True)
class LayoutLook:
    """How the cloth of a layout is drawn: colour, letters, unit, and the names of lengthwise pieces."""

    colour: str
    keys: Mapping[str, Key]
    unit: Unit = "in"
    lengthwise: Collection[str] = field(default_factory=frozenset)

    def is_lengthwise(self, section: Section) -> bool:
        """Whether a section is wanted with its length along the selvedge, or is longer than a ruler."""
        return section.name in self.lengthwise or section.height > LONGER_THAN_A_RULER


def draw_strip(
    pen: Pen, pattern: Pattern, ordered: Ordered, lie: Lie, length: Length, scale: float, look: LayoutLook
) -> None:
    """The pieces of a strip of this length from its start, and its rest; places in it are in inches."""
    x = 0.0
    for _, section in ordered:
        x = _draw_section(pen, pattern, section, lie, x, scale, look)
    if x < float(length):
        tall = float(pattern.strip_height)
        pen.polygon([lie(p) for p in _box(x, 0.0, float(length), tall)], offcut(look.colour))


def rest_of(pattern: Pattern, length: Length) -> tuple[Length, Length] | None:
    """The length and height of what is left at the end of a strip, where it is worth keeping."""
    rest = length - pattern.across
    worth = min(rest, pattern.strip_height) >= WORTH_KEEPING
    return (rest, pattern.strip_height) if worth else None


def rest_told(size: tuple[Length, Length], unit: Unit) -> str:
    """The size of a leftover: `20 × 2 1/2 in`, `2 1/2 in square`."""
    return f"{size_of(*size, unit)} {unit}{' square' if size[0] == size[1] else ''}"


def write_rest(pen: Pen, corners: Sequence[Point], size: tuple[Length, Length], unit: Unit) -> bool:
    """The size of a leftover on it, on a plate, level or upright; False where there is no room for it."""
    x0, y0, x1, y1 = bounds(corners)
    told = rest_told(size, unit)
    wide, high = x1 - x0 - 4, y1 - y0 - 3
    for words in (f"left over: {told}", told):
        long = text_width(words, LABEL) + 2
        for turn, along, across in ((0.0, wide, high), (90.0, high, wide)):
            if long <= along and across >= LABEL * LINE:
                a, b = (long / 2, LABEL * 0.62) if not turn else (LABEL * 0.62, long / 2)
                x, y = (x0 + x1) / 2, (y0 + y1) / 2
                pen.polygon(_box(x - a, y - b, x + a, y + b), REST_PLATE)
                pen.text((x, y), words, LABEL, "middle", WORDS, turn)
                return True
    return False


def _draw_section(
    pen: Pen, pattern: Pattern, section: Section, lie: Lie, x: float, scale: float, look: LayoutLook
) -> float:
    """All crosscuts of a section from x on; gives where they end."""
    key, start = look.keys[section.name], x
    labels, turn = piece_labels(section, key, scale, look.unit, upright=_is_upright(lie))
    wide, used = float(section.width), float(section.stack_height)
    for _ in range(section.count):
        _draw_crosscut(pen, pattern, section, lie, x, look)
        for k in range(section.stack if labels else 0):
            middle = lie((x + wide / 2, (k + 0.5) * float(section.height)))
            _write_piece(pen, labels, middle, turn)
            if look.is_lengthwise(section) and not _is_upright(lie):
                size = (wide * scale, float(section.height) * scale)
                _draw_grain_above(pen, middle, size, _height_of(labels, turn))
        x += wide
    if not labels:
        corners = [lie(p) for p in _box(start, 0.0, x, used)]
        _write_over(pen, key.letter, corners, filled(PLATE, lightened(look.colour, PALER)))
    return x


def _draw_crosscut(
    pen: Pen, pattern: Pattern, section: Section, lie: Lie, x: float, look: LayoutLook
) -> None:
    """One crosscut: its stack of pieces from the upper edge of the strip, and what is trimmed off below."""
    wide, high = float(section.width), float(section.height)
    used, tall = float(section.stack_height), float(pattern.strip_height)
    pale = filled(PIECE, lightened(look.colour, PALER))
    for k in range(section.stack):
        corners = [lie(p) for p in _box(x, k * high, x + wide, (k + 1) * high)]
        pen.polygon(corners, pale)
    if used < tall:
        trim = [lie(p) for p in _box(x, used, x + wide, tall)]
        pen.polygon(trim, offcut(look.colour))
        size = (section.width, pattern.strip_height - section.stack_height)
        if min(size) >= WORTH_KEEPING:
            write_rest(pen, trim, size[::-1] if _is_upright(lie) else size, look.unit)


def _height_of(lines: Sequence[str], turn: float) -> float:
    """How high words come out, in points."""
    return max(text_width(line, LABEL) for line in lines) if turn else len(lines) * LABEL * LINE


def _draw_grain_above(pen: Pen, middle: Point, size: tuple[float, float], words: float) -> None:
    """The arrow of a lengthwise piece over its words, or beside them where they fill it."""
    (x, y), (wide, high) = middle, size
    half = min(((high - words) / 2 - 5) / 2, 20.0)
    if half >= LEAST_GRAIN:
        draw_grain(pen, (x, y + high / 2 - half - 3), half)
    else:
        draw_grain(pen, (x - wide / 2 + 4, y), max(min(high * 0.4, 12.0), LEAST_GRAIN))


def draw_grain(pen: Pen, middle: Point, half: float) -> None:
    """An arrow with two heads along the selvedge."""
    (x, y), shaft, wing, neck = middle, 0.8, 2.6, half - 4.0
    side = [(shaft, neck), (wing, neck), (0.0, half), (-wing, neck), (-shaft, neck)]
    pen.polygon([(x + a * s, y + b * s) for s in (1, -1) for a, b in side], GRAIN)


def _is_upright(lie: Lie) -> bool:
    """Whether strips run up the picture."""
    return abs(lie((1.0, 0.0))[0] - lie((0.0, 0.0))[0]) < abs(lie((1.0, 0.0))[1] - lie((0.0, 0.0))[1])


def _box(x0: float, y0: float, x1: float, y1: float) -> Polygon:
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def _write_piece(pen: Pen, lines: Sequence[str], at: Point, turn: float) -> None:
    x, y = at
    y += (len(lines) - 1) * LABEL * LINE / 2
    for k, line in enumerate(lines):
        style = STRONG_WORDS if k == 0 and len(line) < 3 else WORDS
        pen.text((x, y - k * LABEL * LINE), line, LABEL, "middle", style, turn)


def _write_over(pen: Pen, letter: str, run: Sequence[Point], style: Style) -> None:
    """One letter for a whole run of pieces that are too small to carry one each."""
    x0, y0, x1, y1 = bounds(run)
    x, y = (x0 + x1) / 2, (y0 + y1) / 2
    half, high = text_width(letter, LABEL) / 2 + 2.0, min(LABEL * 0.6, (y1 - y0) / 2)
    pen.polygon(_box(x - half, y - high, x + half, y + high), style)
    pen.text((x, y), letter, LABEL, "middle", STRONG_WORDS)
