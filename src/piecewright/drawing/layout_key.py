"""The key of a cutting layout: a letter for each piece, what is written in a piece, the list of letters."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from piecewright.cutting.layout import Layout
from piecewright.cutting.patterns import Section
from piecewright.drawing.look import LABEL, STRONG_WORDS, WORDS
from piecewright.drawing.pen import Pen
from piecewright.drawing.writing import size_of, text_width
from piecewright.geometry.point import Point
from piecewright.measure.length import Length, Unit

LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"
LINE = 1.2
"""From line to line, in sizes of the writing."""


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
    said = names or {}
    found: dict[str, Key] = {}
    for pattern in layout.patterns:
        for section in pattern.sections:
            count = section.pieces * pattern.times
            known = found.get(section.name)
            if known:
                count += known.count
            letter = known.letter if known else letter_of(len(found))
            size = (section.height, section.width) if section.turned else (section.width, section.height)
            found[section.name] = Key(letter, said.get(section.name, section.name), *size, count)
    return found


def letter_of(number: int) -> str:
    """A, B, C and so on (no I and no O, which look like figures); after Z come A2, B2.

    >>> letter_of(0), letter_of(8), letter_of(24)
    ('A', 'J', 'A2')
    """
    again, k = divmod(number, len(LETTERS))
    return LETTERS[k] + (str(again + 1) if again else "")


def piece_labels(section: Section, key: Key, scale: float, unit: Unit) -> tuple[str, ...]:
    """The most that can be written in a piece: letter, size and name, or fewer of them."""
    wide, high = float(section.width) * scale - 3, float(section.height) * scale - 2
    size = size_of(section.width, section.height, unit)
    choices = [
        (f"{key.letter}  {key.name}", f"{size} {unit}"),
        (f"{key.letter}  {key.name}  {size} {unit}",),
        (key.letter, size),
        (f"{key.letter}  {size}",),
        (key.letter,),
    ]
    for lines in choices:
        widest = max(text_width(line, LABEL) for line in lines)
        if widest <= wide and len(lines) * LABEL * LINE <= high:
            return lines
    return ()


def draw_legend(pen: Pen, keys: Sequence[Key], at: Point, unit: Unit, width: float) -> float:
    """The letters in columns; gives how low they reach."""
    lines = [f"{key.count} of {size_of(key.width, key.height, unit)} {unit}, {key.name}" for key in keys]
    widest = max((text_width(line, LABEL) for line in lines), default=0.0) + 30
    columns = max(1, min(len(keys), int(width / widest)))
    rows = -(-len(keys) // columns)
    for k, (key, line) in enumerate(zip(keys, lines, strict=True)):
        column, row = divmod(k, rows)
        x, y = at[0] + column * widest, at[1] - (row + 0.5) * LABEL * LINE
        pen.text((x, y), key.letter, LABEL, "start", STRONG_WORDS)
        pen.text((x + 14, y), line, LABEL, "start", WORDS)
    return at[1] - rows * LABEL * LINE
