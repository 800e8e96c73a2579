"""Words in pictures: how wide they come out, breaking them into lines, short names."""

from __future__ import annotations

from fractions import Fraction

from piecewright.measure.length import Length, Unit
from piecewright.measure.showing import figure, figure_float, show

_NARROW = "iljtfrI.,:;'|!()[] "
_WIDE = "mwMWQO@%½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞×"


def text_width(words: str, size: float) -> float:
    """About how wide the words are in a book face of a size; the same unit as the size."""
    shares = (0.3 if c in _NARROW else 0.8 if c in _WIDE else 0.66 if c.isupper() else 0.5 for c in words)
    return size * sum(shares)


def wrapped(words: str, size: float, width: float, most: int = 3) -> list[str]:
    """The words in lines no wider than a width where that can be; what is over the last line is left out.

    >>> wrapped("lay face down and mark", 8.0, 60.0)
    ['lay face down', 'and mark']
    """
    lines: list[str] = []
    for word in words.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer, size) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    if len(lines) > most:
        lines = [*lines[: most - 1], f"{lines[most - 1]} …"]
    return lines


def short_name(name: str) -> str:
    """The name up to its first comma.

    >>> short_name("fog, a warm pale grey")
    'fog'
    """
    return name.partition(",")[0].strip()


def size_of(width: Length, height: Length, unit: Unit) -> str:
    """A size without its unit: `2 7/8` for a square, or `2 1/2 × 4 1/2`."""
    sides = [figure(width, unit)] if width == height else [figure(width, unit), figure(height, unit)]
    return " × ".join(sides)


def size_in_words(width: Length, height: Length, unit: Unit) -> str:
    """A size as one says it: `2 7/8 in square`, `2 1/2 x 4 1/2 in`."""
    if width == height:
        return f"{show(width, unit)} square"
    return f"{figure(width, unit)} x {show(height, unit)}"


def measured_size(size: tuple[float, float], unit: Unit) -> str:
    """A computed size (inches) on the nearest marks: `2 5/8 in`, `about 4 1/4 × 2 in`.

    >>> measured_size((2.5, 2.5), "in"), measured_size((4.27, 2.0), "in")
    ('2 1/2 in', 'about 4 1/4 × 2 in')
    """
    sides = [figure_float(side, unit) for side in size]
    exact = [side.removeprefix("about ") for side in sides]
    about = "about " if exact != sides else ""
    return f"{about}{' × '.join(dict.fromkeys(exact))} {unit}"


def counted(count: int, thing: str) -> str:
    """A number of things: `1 square`, `4 squares`."""
    return f"{count} {thing}" if count == 1 else f"{count} {thing}s"


def sentence(words: str) -> str:
    """The words with a capital and a full stop."""
    return f"{words[:1].upper()}{words[1:]}."


def length_of(size: float) -> Length:
    """A size that was drawn (inches), as a length to show."""
    return Length(Fraction(size).limit_denominator(10**6))
