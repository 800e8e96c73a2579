"""Facings: cloth sewn to the edge and turned to the back whole, so that no binding is seen.

Terms:
- *four straight facings*: a strip to every edge; the first pair as long as its edges, the second turned in
  at both ends over the first;
- *whole facing*: a second back, sewn on all round and turned through a slit.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from piecewright.finishing.figures import size_words
from piecewright.finishing.strips import StripsAcross, strips_across
from piecewright.measure.length import Length, Unit, inches, mm
from piecewright.measure.rounding import Ruler
from piecewright.measure.showing import figure, show

# Finished on the back, and turned in at its inner edge: common practice, no source.
FACING_WIDTH: Mapping[Unit, Length] = MappingProxyType({"in": inches("1 1/2"), "cm": mm(40)})
FACING_HEM: Mapping[Unit, Length] = MappingProxyType({"in": inches("1/4"), "cm": mm(7)})


@dataclass(frozen=True)
class Facing:
    """Four straight facings: strips cut `width` wide, two `sides` long and two `ends` long.

    `turned` is what each end of the second pair turns in.
    """

    width: Length
    finished: Length
    hem: Length
    take_up: Length
    sides: Length
    ends: Length
    turned: Length
    strips: StripsAcross

    @property
    def joins(self) -> int:
        """How many joins there are in the strips."""
        return self.strips.joins

    @property
    def cloth(self) -> Length:
        """The length of cloth they take."""
        return self.strips.cloth

    @property
    def join_run(self) -> float:
        """The stitching of all joins in inches."""
        return self.strips.join_run

    def sum_lines(self, unit: Unit) -> tuple[str, ...]:
        """The arithmetic of widths, lengths and cloth, a line each."""
        seam, hem = figure(self.take_up, unit), figure(self.hem, unit)
        parts = f"{figure(self.finished, unit)} + {seam} seam + {hem} hem"
        return (
            f"facings cut {parts} = {show(self.width, unit)} wide",
            f"two as long as the sides, {show(self.sides, unit)}; two with {figure(self.turned, unit)} "
            f"turned in at each end, {show(self.ends, unit)}",
            *self.strips.sum_lines(unit),
        )


def straight_facing(
    top: tuple[Length, Length], finished: Length, usable_width: Length, take_up: Length, ruler: Ruler
) -> Facing:
    """Four straight facings for a quilt (finished width, height), trimmed with its seam allowance on.

    The strips are joined straight, flat under the hand. Raises Refused where they cannot be joined.
    """
    hem = FACING_HEM[ruler.unit]
    width = finished + take_up + hem
    turned = hem
    sides = top[1] + take_up * 2
    # The second pair ends inside the seams of the first, and turns in over it.
    ends = top[0] + turned * 2
    least = (sides + ends) * 2
    strips = strips_across(least, width, usable_width, take_up, "straight", ruler, "facing")
    return Facing(width, finished, hem, take_up, sides, ends, turned, strips)


@dataclass(frozen=True)
class WholeFacing:
    """A facing as large as the quilt: so many lengths of cloth, joined side by side."""

    size: tuple[Length, Length]
    lengths: int
    length: Length
    seams: int

    @property
    def joins(self) -> int:
        """How many joins there are."""
        return self.seams

    @property
    def cloth(self) -> Length:
        """The length of cloth it takes."""
        return self.length * self.lengths

    @property
    def join_run(self) -> float:
        """The stitching of all joins in inches."""
        return self.seams * float(self.length)

    def sum_lines(self, unit: Unit) -> tuple[str, ...]:
        """The arithmetic of the cloth, in a line."""
        lengths = f"{self.lengths} x {figure(self.length, unit)} = {show(self.cloth, unit)} of cloth"
        return (f"a facing {size_words(self.size, unit)}, raw as the quilt: {lengths}",)
