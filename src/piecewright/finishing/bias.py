"""Bias strips: cut from a square, from a length of cloth, or in one go round a tube.

Terms:
- *whole strips*: only they count; area alone promises more than can be cut;
- *bias join*: two strips' slanted ends, on the straight of grain, sewn to each other; it costs two
  take-ups, which is 2 s sqrt 2 along the strip;
- *middle* of a strip: its length halfway between its edges, where its ends are slanted.

All by plane geometry; lengths along the bias are float inches.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from piecewright.finishing.figures import refuse_none, run_figure
from piecewright.measure.length import ZERO, Length, Unit
from piecewright.measure.rounding import Ruler, round_up
from piecewright.measure.showing import figure, show, show_float
from piecewright.measure.tolerance import ROUNDING_SLACK
from piecewright.problems import Problem, Refused

ROOT = math.sqrt(2)
LEAST_STRIP = 4.0  # A bias strip shorter than this many inches is not worth its join: common practice.


@dataclass(frozen=True)
class BiasStrips:
    """Bias strips joined end to end: their middles in inches, longest first, and the cloth they come from.

    `across` x `along` is the square, or the length of cloth of the usable width.
    """

    width: Length
    lengths: tuple[float, ...]
    across: Length
    along: Length
    take_up: Length

    @property
    def joins(self) -> int:
        """How many joins there are."""
        return max(0, len(self.lengths) - 1)

    @property
    def a_join(self) -> float:
        """What each join costs, along the strip; inches."""
        return 2 * float(self.take_up) * ROOT

    @property
    def made(self) -> float:
        """How long the joined strip is; inches."""
        return sum(self.lengths) - self.joins * self.a_join

    @property
    def cloth(self) -> Length:
        """The length of cloth they take."""
        return self.along

    @property
    def join_run(self) -> float:
        """The stitching of all joins in inches."""
        return self.joins * float(self.width) * ROOT

    def sum_lines(self, unit: Unit) -> tuple[str, ...]:
        """The arithmetic of the length, a line each."""
        cloth = f"{figure(self.across, unit)} x {show(self.along, unit)}"
        together = run_figure(sum(self.lengths), unit)
        lost = f"{self.joins} joins x {show_float(self.a_join, unit)}"
        return (
            f"from {cloth}: {len(self.lengths)} bias strips {show(self.width, unit)} wide, "
            f"together {together}",
            f"{together} - {lost} = {run_figure(self.made, unit)}",
        )


def from_square(side: Length, width: Length, take_up: Length) -> BiasStrips:
    """The bias strips of a square that is cut on a diagonal, then beside it, again and again."""
    refuse_none(width, "bias strips", "in")
    half = _triangle_strips(float(side), float(width))
    return BiasStrips(width, tuple(sorted([*half, *half], reverse=True)), side, side, take_up)


def from_length(along: Length, across: Length, width: Length, take_up: Length) -> BiasStrips:
    """The bias strips of a length of cloth: whole ones side by side, then those of its two corners.

    The length is no longer than the cloth is wide; beyond that the two change places.
    """
    refuse_none(width, "bias strips", "in")
    short, long = sorted((float(along), float(across)))
    whole = math.floor((long - short) / (float(width) * ROOT) + ROUNDING_SLACK)
    corner = _triangle_strips(short, float(width))
    lengths = sorted([short * ROOT] * whole + corner + corner, reverse=True)
    return BiasStrips(width, tuple(lengths), across, along, take_up)


def _triangle_strips(leg: float, width: float) -> list[float]:
    """The middles of the strips along the long side of half a square."""
    count = math.floor(leg / ROOT / width + ROUNDING_SLACK)
    middles = [leg * ROOT - (2 * k + 1) * width for k in range(count)]
    return [middle for middle in middles if middle >= LEAST_STRIP]


def length_for(
    least: Length, width: Length, usable_width: Length, take_up: Length, ruler: Ruler
) -> BiasStrips:
    """The shortest length of cloth whose bias strips reach.

    Raises Refused where even a square of the cloth's width does not; the largest length is told.
    """
    step = ruler.mark
    for marks in range(1, usable_width // step + 1):
        strips = from_length(step * marks, usable_width, width, take_up)
        if strips.made >= float(least):
            return strips
    most = from_square(usable_width, width, take_up)
    unit = ruler.unit
    short = show_float(float(least) - most.made, unit)
    said = f"bias strips from a square as wide as the cloth, {show(usable_width, unit)}, "
    said += f"come to {show_float(most.made, unit)}, and {show(least, unit)} is needed: {short} too little."
    raise Refused(Problem(said, do="Take a second length, wider cloth, or a narrower binding."))


@dataclass(frozen=True)
class ContinuousBias:
    """A bias strip cut in one go round a tube that is sewn from a square.

    The tube is cut into `whole` rounds; each comes to the side of the square less two take-ups, times
    sqrt 2. There is no join in it but the two seams of the tube, which it crosses.
    """

    width: Length
    side: Length
    whole: int
    take_up: Length

    @property
    def joins(self) -> int:
        """How many joins the strip has to be given: none."""
        return 0

    @property
    def made(self) -> float:
        """How long it is; inches."""
        return self.whole * float(self.side - self.take_up * 2) * ROOT

    @property
    def cloth(self) -> Length:
        """The length of cloth the square takes."""
        return self.side

    @property
    def across(self) -> Length:
        """What the square takes of the cloth's width."""
        return self.side

    @property
    def join_run(self) -> float:
        """The stitching of the tube in inches: both halves joined, then the tube closed."""
        return 2 * float(self.side)

    @property
    def by_area(self) -> float:
        """What area alone would promise: S x S / w; inches."""
        return float(self.side) ** 2 / float(self.width)

    def sum_lines(self, unit: Unit) -> tuple[str, ...]:
        """The arithmetic of the length, a line each, and by how much area alone would mislead."""
        less = f"{figure(self.side, unit)} - 2 x {figure(self.take_up, unit)}"
        net = figure(self.side - self.take_up * 2, unit)
        over = f"{100 * (self.by_area / self.made - 1):.0f} per cent more than there is" if self.whole else ""
        return (
            f"({less}) / ({figure(self.width, unit)} x 1.414) -> {self.whole} whole strips",
            f"{self.whole} x {net} x 1.414 = {show_float(self.made, unit)}",
            *([f"area alone would promise {show_float(self.by_area, unit)}, {over}"] if over else []),
        )


def continuous_bias(side: Length, width: Length, take_up: Length) -> ContinuousBias:
    """The bias strip of a square, by whole strips: floor((S - 2s) / (w sqrt 2)) (S - 2s) sqrt 2.

    >>> from piecewright.measure.length import inches
    >>> round(continuous_bias(inches(20), inches(2), inches("1/4")).made, 2)
    165.46
    """
    refuse_none(width, "a bias strip", "in")
    net = side - take_up * 2
    whole = math.floor(float(net) / (float(width) * ROOT) + ROUNDING_SLACK) if net > ZERO else 0
    return ContinuousBias(width, side, whole, take_up)


def square_for(least: Length, width: Length, take_up: Length, ruler: Ruler) -> ContinuousBias:
    """The smallest square, on the ruler, whose continuous bias strip reaches a length."""
    refuse_none(least, "a bias strip", ruler.unit)
    refuse_none(width, "a bias strip", ruler.unit)
    pitch = float(width) * ROOT
    # So many whole strips need a side that holds them, and is long enough for each to do its share.
    most = math.ceil(math.sqrt(float(least) / ROOT / pitch)) + 1
    sides = [max(n * pitch, float(least) / (n * ROOT)) for n in range(1, most + 1)]
    return continuous_bias(round_up(min(sides) + 2 * float(take_up), ruler), width, take_up)


def fits_across(side: Length, usable_width: Length, unit: Unit) -> None:
    """Raises Refused where a square is wider than the cloth."""
    if side > usable_width:
        over = show(side - usable_width, unit)
        said = (
            f"the square for this bias strip is {show(side, unit)}, and the cloth {show(usable_width, unit)} "
        )
        said += f"wide: {over} too wide."
        raise Refused(Problem(said, do="Take wider cloth or two squares, or cut bias strips and join them."))


def squares_for(
    least: Length, width: Length, usable_width: Length, take_up: Length, ruler: Ruler
) -> Sequence[ContinuousBias]:
    """The fewest equal squares, no wider than the cloth, whose bias strips reach together.

    Two strips are joined with one bias join more. Raises Refused after ten squares.
    """
    a_join = 2 * float(take_up) * ROOT
    for count in range(1, 11):
        each = (float(least) + (count - 1) * a_join) / count
        square = square_for(Length(Fraction(each)), width, take_up, ruler)
        if square.side <= usable_width:
            return (square,) * count
    fits_across(square.side, usable_width, ruler.unit)
    return ()
