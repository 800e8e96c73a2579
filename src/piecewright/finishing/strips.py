"""Strips across the cloth, joined end to end: what each join costs, and how many strips reach.

Terms:
- *slanted* join: at 45 degrees, ends at right angles; it costs a strip's width of length;
- *straight* join: ends laid together; it costs two take-ups.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from piecewright.measure.length import ZERO, Length, Unit
from piecewright.measure.rounding import Ruler, round_down
from piecewright.measure.showing import figure, show
from piecewright.problems import Problem, Refused

JoinedBy = Literal["slanted", "straight"]


@dataclass(frozen=True)
class StripsAcross:
    """`count` strips of a `width` (cut) across the usable width of a cloth, joined end to end.

    `least` is what is needed, `made` what they come to; each of the joins costs `a_join`.
    """

    count: int
    width: Length
    least: Length
    made: Length
    usable_width: Length
    a_join: Length
    joined: JoinedBy

    @property
    def joins(self) -> int:
        """How many joins there are."""
        return self.count - 1

    @property
    def cloth(self) -> Length:
        """The length of cloth they take."""
        return self.width * self.count

    @property
    def join_run(self) -> float:
        """The stitching of all joins in inches."""
        return float(self.width) * self.joins * (math.sqrt(2) if self.joined == "slanted" else 1.0)

    def sum_lines(self, unit: Unit) -> tuple[str, ...]:
        """The arithmetic of count and cloth, a line each."""
        across, lost = figure(self.usable_width, unit), figure(self.a_join, unit)
        strips = "strip" if self.count == 1 else "strips"
        made = f"{self.count} x {across} - {self.joins} x {lost} for {self.joined} joins"
        reach = f"{made} = {show(self.made, unit)}" if self.joins else show(self.made, unit)
        return (
            f"{reach}, needed {show(self.least, unit)}",
            f"{self.count} {strips} x {figure(self.width, unit)} = {show(self.cloth, unit)} of cloth",
        )


def strips_across(
    least: Length,
    width: Length,
    usable_width: Length,
    take_up: Length,
    joined: JoinedBy,
    ruler: Ruler,
    what: str = "binding",
) -> StripsAcross:
    """The fewest strips that reach a length.

    Raises Refused where a strip is no longer than its joins cost; `what` is what messages call it.
    """
    a_join = width if joined == "slanted" else take_up * 2
    gain = usable_width - a_join
    if width <= ZERO or gain <= ZERO:
        raise Refused(_too_wide(width, usable_width, a_join, joined, ruler, what))
    count = max(1, math.ceil((least - a_join).exact / gain.exact))
    made = usable_width * count - a_join * (count - 1)
    return StripsAcross(count, width, least, made, usable_width, a_join, joined)


def _too_wide(
    width: Length, usable_width: Length, a_join: Length, joined: JoinedBy, ruler: Ruler, what: str
) -> Problem:
    unit = ruler.unit
    if width <= ZERO:
        return Problem(
            f"expected strips of {what} wider than 0, got {show(width, unit)}.", do="Say how wide."
        )
    lost, across = show(a_join, unit), show(usable_width, unit)
    short = f"{show(a_join - usable_width, unit)} too little" if a_join > usable_width else "nothing is left"
    said = f"strips of {what} lose {lost} at each {joined} join, and the cloth is {across} wide: {short}."
    nearest = show(round_down(float(usable_width) / 2, ruler), unit)
    return Problem(said, do=f"Strips up to about {nearest} wide join well from it.")
