"""The key of a cutting layout: a letter for each piece, what is written in a piece, the list of letters."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from piecewright.cutting.layout import Layout
from piecewright.cutting.order_of_cuts import own_size
from piecewright.cutting.patterns import Pattern, Section
from piecewright.drawing.look import LABEL, STRONG_WORDS, WORDS
from piecewright.drawing.pen import Pen
from piecewright.drawing.writing import size_of, text_width
from piecewright.geometry.point import Point
from piecewright.measure.length import Length, Unit

LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"
LINE = 1.2
"""From line to line, in sizes of the writing."""

INDENT = 16.0
"""From the head of a line of the key to its words, in points."""


@dataclass(frozen=True)
class Key:
    """A letter and what it stands for: a piece of a name and a size, and how many are cut of it."""

    letter: str
    name: str
    width: Length
    height: Length
    count: int


def keys_of(layout: Layout, names: Mapping[str, str] | None = None) -> dict[str, Key]:
    """The letter of each piece by its name, in the order of cutting; turned pieces as they were wanted.

    `names` says what people read instead of a piece's name: where it goes.
    """
    return keys_in([(layout.patterns, 1, False)], names)


def keys_in(
    cut: Iterable[tuple[Sequence[Pattern], int, bool]], names: Mapping[str, str] | None = None
) -> dict[str, Key]:
    """The same for several pieces of cloth: the patterns of each, how many are alike, if strips run along."""
    said = names or {}
    found: dict[str, Key] = {}
    rows = ((one, times, along) for patterns, times, along in cut for one in patterns)
    for pattern, times, along in rows:
        for section in pattern.sections:
            count = section.pieces * pattern.times * times
            known = found.get(section.name)
            if known:
                count += known.count
            letter = known.letter if known else letter_of(len(found))
            size = own_size(section, along)
            found[section.name] = Key(letter, said.get(section.name, section.name), *size, count)
    return found


def letter_of(number: int) -> str:
    """A, B, C and so on (no I and no O, which look like figures); after Z come A2, B2.

    >>> letter_of(0), letter_of(8), letter_of(24)
    ('A', 'J', 'A2')
    """
    again, k = divmod(number, len(LETTERS))
    return LETTERS[k] + (str(again + 1) if again else "")


def piece_labels(
    section: Section, key: Key, scale: float, unit: Unit, upright: bool = False
) -> tuple[tuple[str, ...], float]:
    """The most that can be written in a piece, and how it is turned: letter, size and name, or fewer of them.

    One line stands up in a piece that is too narrow for a size. Pieces of an `upright` strip stand on their
    sides on paper.
    """
    sides = (section.height, section.width) if upright else (section.width, section.height)
    wide, high = float(sides[0]) * scale - 3, float(sides[1]) * scale - 2
    size = size_of(*sides, unit)
    whole, short = f"{key.letter}  {key.name}  {size} {unit}", f"{key.letter}  {size}"
    choices: list[tuple[tuple[str, ...], float]] = [
        ((f"{key.letter}  {key.name}", f"{size} {unit}"), 0.0),
        ((whole,), 0.0),
        ((key.letter, size), 0.0),
        ((short,), 0.0),
        ((whole,), 90.0),
        ((short,), 90.0),
        ((key.letter,), 0.0),
    ]
    for lines, turn in choices:
        widest = max(text_width(line, LABEL) for line in lines)
        along, across = (high, wide) if turn else (wide, high)
        if widest <= along and len(lines) * LABEL * LINE <= across:
            return lines, turn
    return (), 0.0


def draw_legend(pen: Pen, keys: Sequence[Key], at: Point, unit: Unit, width: float) -> float:
    """The letters in columns; gives how low they reach."""
    lines = [f"{key.count:,} of {size_of(key.width, key.height, unit)} {unit}, {key.name}" for key in keys]
    letters = [key.letter for key in keys]

    def draw_letter(number: int, place: Point) -> None:
        pen.text(place, letters[number], LABEL, "start", STRONG_WORDS)

    return draw_columns(pen, lines, draw_letter, at, width)


def draw_columns(
    pen: Pen,
    lines: Sequence[str],
    draw_head: Callable[[int, Point], None],
    at: Point,
    width: float,
    pitch: float = LABEL * LINE,
) -> float:
    """Lines in columns, column by column, the head of each drawn at its place; gives how low they reach."""
    widest = max((text_width(line, LABEL) for line in lines), default=0.0) + INDENT + 14
    columns = max(1, min(len(lines), int((width + 14) / widest)))
    rows = -(-len(lines) // columns)
    for k, line in enumerate(lines):
        column, row = divmod(k, rows)
        x, y = at[0] + column * widest, at[1] - (row + 0.5) * pitch
        draw_head(k, (x, y))
        pen.text((x + INDENT, y), line, LABEL, "start", WORDS)
    return at[1] - rows * pitch
