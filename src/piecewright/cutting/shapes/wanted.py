"""What is wanted of one cloth in shapes, and what they are cut from.

Terms:
- *turning*: how a piece may lie on the cloth: "any" way by quarters where the cloth looks alike from all
  sides, "end for end" where a print has two ways up, "none" where it has one;
- *strip*: here, a rectangle that pieces lie side by side in, from a whole strip of the cloth or part of one.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from piecewright.cutting.wanted import Demand
from piecewright.geometry.polygon import Line, Polygon, area, bounds
from piecewright.measure.length import Length
from piecewright.measure.rounding import exactly

Turning = Literal["any", "end for end", "none"]
TURNINGS: tuple[Turning, ...] = ("any", "end for end", "none")

CutAs = Literal["in strips", "once", "twice"]
"""Side by side in strips; or from squares and rectangles cut from corner to corner, once or twice."""


@dataclass(frozen=True, slots=True)
class ShapeDemand:
    """Equal pieces wanted of any shape that is cut from strips or squares.

    `outline` is a piece as it is cut (with its allowances, inches), as it lies in its strip, right side up:
    the lower left corner of its bounds at the origin, the lengthwise grain up. `shape` is what a person
    calls it and `noun` what one piece is called. Names are unlike those of all else that is wanted.
    """

    name: str
    shape: str
    outline: Polygon
    count: int
    turning: Turning = "any"
    cut_as: CutAs = "in strips"
    noun: str = "piece"

    @property
    def strip(self) -> Length:
        """How high the strip is, or the square or rectangle."""
        _, _, width, height = bounds(self.outline)
        return exactly(width if self.cut_as == "twice" else height)

    @property
    def area(self) -> float:
        """What all pieces take of the cloth, as cut; square inches."""
        return area(self.outline) * self.count


@dataclass(frozen=True, slots=True)
class CutStrip:
    """`count` equal rectangles of cloth, each cut into the same pieces.

    `width` lies across the cloth, unless it is turned as a whole. Places of `pieces` (only those that are
    kept) and `cuts` are in inches, from its lower left corner.
    """

    name: str
    width: Length
    height: Length
    count: int
    pieces: tuple[Polygon, ...]
    cuts: tuple[Line, ...]

    @property
    def each(self) -> int:
        """How many pieces one gives."""
        return len(self.pieces)

    @property
    def given(self) -> int:
        """How many pieces all of them give."""
        return self.each * self.count


@dataclass(frozen=True, slots=True)
class ShapeCut:
    """What the pieces of one demand are cut from, the longest strips first."""

    demand: ShapeDemand
    strips: tuple[CutStrip, ...]

    @property
    def given(self) -> int:
        """How many pieces are cut in all."""
        return sum(strip.given for strip in self.strips)

    @property
    def over(self) -> int:
        """How many more than are wanted."""
        return self.given - self.demand.count

    @property
    def demands(self) -> tuple[Demand, ...]:
        """The rectangles that are wanted of the cloth for it."""
        may_turn = self.demand.turning == "any"
        return tuple(Demand(s.name, s.width, s.height, s.count, may_turn) for s in self.strips)
