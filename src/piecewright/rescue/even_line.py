"""Figures that grow evenly with a size: most true sizes do, and many rules of thumb.

Terms:
- *line*: such a figure, as slope and what is added (inches).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from piecewright.measure.tolerance import WELD

Figure = Callable[[float], float]
BETWEEN = 0.37


@dataclass(frozen=True)
class EvenLine:
    """A figure of a size that grows evenly: `slope` times the size, and `add` to it."""

    slope: float
    add: float

    def __call__(self, size: float) -> float:
        """The figure at a size."""
        return self.slope * size + self.add

    def shifted(self, by: float) -> EvenLine:
        """The same of a size that is larger by so much."""
        return EvenLine(self.slope, self.add - self.slope * by)


def line_of(figure: Figure, low: float, high: float) -> EvenLine | None:
    """The line of a figure between two sizes, None where it does not grow evenly: looked at in three places.

    >>> line_of(lambda size: 2 * size + 1, 0, 10), line_of(lambda size: size**2, 0, 10)
    (EvenLine(slope=2.0, add=1.0), None)
    """
    between = low + (high - low) * BETWEEN
    first, middle, last = figure(low), figure(between), figure(high)
    slope = (last - first) / (high - low)
    line = EvenLine(slope, first - slope * low)
    return line if abs(line(between) - middle) <= WELD else None
