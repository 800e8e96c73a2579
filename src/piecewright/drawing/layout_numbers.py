"""The numbers of cuts in a layout: rings for strips and crosscuts, boxes for subcuts; none touch."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from piecewright.drawing.look import INK, LABEL, PAPER, STRONG_WORDS, Style
from piecewright.drawing.pen import Pen
from piecewright.drawing.writing import text_width
from piecewright.geometry.point import Point

NUMBER = Style("number", INK, 0.6, fill=PAPER)
NUMBER_LINE = Style("number line", INK, 0.5)
BETWEEN = 1.2
HALF_HIGH = 4.9


@dataclass(frozen=True)
class CutNumber:
    """A number that belongs to the cut at `x`, and where it is written; `boxed` for subcuts."""

    number: int
    x: float
    boxed: bool = False
    at: float = 0.0

    @property
    def half(self) -> float:
        """Half the width of its ring or box."""
        return max(HALF_HIGH, text_width(str(self.number), LABEL) / 2 + 1.7)


def side_by_side(numbers: Sequence[CutNumber], right: float) -> list[CutNumber]:
    """The numbers as near to their cuts as they can be without touching, none beyond `right`."""
    placed: list[CutNumber] = []
    for one in sorted(numbers, key=lambda one: (one.x, one.number)):
        least = placed[-1].at + placed[-1].half + BETWEEN + one.half if placed else one.x
        placed.append(replace(one, at=max(one.x, least)))
    most = right
    for k in range(len(placed) - 1, -1, -1):
        placed[k] = replace(placed[k], at=min(placed[k].at, most - placed[k].half))
        most = placed[k].at - placed[k].half - BETWEEN
    return placed


def draw_lane(
    pen: Pen, numbers: Sequence[CutNumber], edge: float, middle: float, most: float, upright: bool = False
) -> None:
    """Numbers in a row about `middle`, beside the `edge` of a strip; each with a line to its cut.

    Where strips run up the picture the row does too: then `x` of a number is how high its cut is.
    """

    def at(along: float, across: float) -> Point:
        return (across, along) if upright else (along, across)

    for one in side_by_side(numbers, most):
        if not one.boxed or abs(one.at - one.x) > 0.5:
            pen.polyline([at(one.x, edge), at(one.at, middle)], NUMBER_LINE)
        draw_number(pen, one, at(one.at, middle))


def draw_number(pen: Pen, one: CutNumber, at: Point) -> None:
    """The number in its ring or box; a 0 leaves it empty, to explain it."""
    x, y = at
    if one.boxed:
        a, b = one.half - 0.4, HALF_HIGH - 0.4
        pen.polygon([(x - a, y - b), (x + a, y - b), (x + a, y + b), (x - a, y + b)], NUMBER)
    else:
        pen.circle(at, one.half, NUMBER)
    if one.number:
        pen.text(at, str(one.number), LABEL, "middle", STRONG_WORDS)
