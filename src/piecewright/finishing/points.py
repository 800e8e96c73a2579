"""Folded points: squares folded twice into triangles and set along the edge, each slid into the next.

Terms:
- *base* of a point: its side on the edge, as long as the square; at the seam line it is two seams less;
- *nested*: slid into its neighbour by a share of its base.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType

from piecewright.finishing.figures import refuse_none
from piecewright.measure.length import Length, Unit, inches, mm
from piecewright.measure.showing import figure, show
from piecewright.problems import Problem, Refused

POINT_SQUARE: Mapping[Unit, Length] = MappingProxyType({"in": inches(4), "cm": mm(100)})
HALF = Fraction(1, 2)


@dataclass(frozen=True)
class FoldedPoints:
    """Points round a quilt: so many `across` and so many `down` each edge, from squares of a size.

    `pitches` are from one point to the next, across and down.
    """

    square: Length
    take_up: Length
    across: int
    down: int
    pitches: tuple[Length, Length]
    usable_width: Length

    @property
    def count(self) -> int:
        """How many there are on all four edges."""
        return 2 * (self.across + self.down)

    @property
    def joins(self) -> int:
        """How many joins there are: none."""
        return 0

    @property
    def join_run(self) -> float:
        """No stitching goes into joins."""
        return 0.0

    @property
    def strips(self) -> int:
        """How many strips the squares are cut from."""
        return -(-self.count // (self.usable_width // self.square))

    @property
    def cloth(self) -> Length:
        """The length of cloth they take."""
        return self.square * self.strips

    def sum_lines(self, unit: Unit) -> tuple[str, ...]:
        """The arithmetic of the count and the cloth, a line each."""
        square, a_strip = figure(self.square, unit), self.usable_width // self.square
        wide, high = (figure(pitch, unit) for pitch in self.pitches)
        return (
            f"{self.across} points across, {wide} from one to the next, and {self.down} down, {high} from "
            f"one to the next: 2 x ({self.across} + {self.down}) = {self.count}",
            f"{figure(self.usable_width, unit)} / {square} = {a_strip} squares a strip; {self.strips} strips "
            f"x {square} = {show(self.cloth, unit)} of cloth",
        )


def folded_points(
    top: tuple[Length, Length],
    square: Length,
    usable_width: Length,
    take_up: Length,
    unit: Unit,
    nested: Fraction = HALF,
) -> FoldedPoints:
    """Points for a quilt (finished width, height), moved a little apart so that whole ones fit.

    Raises Refused where a point is longer than an edge, or the cloth narrower than a square.
    """
    refuse_none(square, "a point", unit)
    base = square - take_up * 2
    if not 0 <= nested < 1:
        said = f"expected points to be nested by a share from 0 to less than 1, got {float(nested):g}."
        raise Refused(Problem(said, do="Half is 0.5."))
    if not take_up * 0 < base <= min(top) or usable_width < square:
        said = (
            f"a point from a square of {show(square, unit)} is {show(base, unit)} long in the seam, and the "
        )
        said += f"shorter edge {show(min(top), unit)}, the cloth {show(usable_width, unit)} wide."
        raise Refused(Problem(said, do="Take a square that is larger than its seams and fits both."))
    across, down = (_along(edge, base, nested) for edge in top)
    pitches = (_pitch(top[0], base, across), _pitch(top[1], base, down))
    return FoldedPoints(square, take_up, across, down, pitches, usable_width)


def _along(edge: Length, base: Length, nested: Fraction) -> int:
    """How many points come nearest to filling an edge."""
    return 1 + round((edge - base).exact / (base * (1 - nested)).exact)


def _pitch(edge: Length, base: Length, count: int) -> Length:
    return (edge - base) / (count - 1) if count > 1 else base
