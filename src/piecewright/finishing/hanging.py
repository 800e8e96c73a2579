"""A hanging sleeve for a rod, and a label: what is sewn to the back of a finished quilt.

Terms:
- *depth*: how high the sleeve lies flat;
- *inset*: how far it ends inside either side of the quilt.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from piecewright.finishing.strips import StripsAcross, strips_across
from piecewright.measure.length import Length, Unit, inches, mm
from piecewright.measure.rounding import Ruler, round_up
from piecewright.measure.showing import figure, show, show_float
from piecewright.problems import Problem, Refused

# A sleeve 4 in deep suits the rods of most shows; ends and hems: common practice, no source.
SLEEVE_DEPTH: Mapping[Unit, Length] = MappingProxyType({"in": inches(4), "cm": mm(100)})
SLEEVE_INSET: Mapping[Unit, Length] = MappingProxyType({"in": inches(1), "cm": mm(25)})
SLEEVE_EASE: Mapping[Unit, Length] = MappingProxyType({"in": inches(1), "cm": mm(25)})
LABEL: Mapping[Unit, tuple[Length, Length]] = MappingProxyType(
    {"in": (inches(6), inches(4)), "cm": (mm(150), mm(100))}
)


@dataclass(frozen=True)
class HangingWishes:
    """What is sewn to the back: a `sleeve` (for a rod of a diameter, or of the usual depth), a `label`.

    The label's size is its finished one; where it is not given it is the usual one.
    """

    sleeve: bool = False
    rod: Length | None = None
    label: bool = False
    label_size: tuple[Length, Length] | None = None


@dataclass(frozen=True)
class Sleeve:
    """A hanging sleeve: a strip cut `length` x `height`, hemmed at its ends, sewn into a tube.

    `strips` are those it is cut from, joined straight where the cloth is too narrow.
    """

    depth: Length
    length: Length
    height: Length
    inset: Length
    rod: Length | None
    take_up: Length
    strips: StripsAcross

    @property
    def cloth(self) -> Length:
        """The length of cloth it takes."""
        return self.strips.cloth

    def sum_lines(self, unit: Unit) -> tuple[str, ...]:
        """The arithmetic of its size and cloth, a line each."""
        depth, seam = figure(self.depth, unit), figure(self.take_up, unit)
        for_rod = (
            (
                f"a rod {show(self.rod, unit)} thick needs half of "
                f"{show_float(float(self.rod) * math.pi, unit)}, and "
                f"{figure(SLEEVE_EASE[unit] / 2, unit)} of ease: {depth} deep",
            )
            if self.rod
            else ()
        )
        # The ends are turned twice by half an inset each, so that the cut strip is as long as the quilt.
        return (
            *for_rod,
            f"sleeve: 2 x {depth} + 2 x {seam} = {show(self.height, unit)} high, cut "
            f"{show(self.length, unit)} long: it ends {figure(self.inset, unit)} inside each side, hemmed by "
            "as much",
            *self.strips.sum_lines(unit),
        )


def hanging_sleeve(
    quilt_width: Length, rod: Length | None, usable_width: Length, take_up: Length, ruler: Ruler
) -> Sleeve:
    """The sleeve for a rod of a diameter, or of the usual depth where none is given.

    Raises Refused for a quilt narrower than its two insets.
    """
    unit = ruler.unit
    inset, depth = SLEEVE_INSET[unit], SLEEVE_DEPTH[unit]
    if rod is not None:
        depth = round_up(float(rod) * math.pi / 2 + float(SLEEVE_EASE[unit]) / 2, ruler)
    if quilt_width <= inset * 2:
        short = show(inset * 2 - quilt_width, unit)
        said = f"a sleeve ends {show(inset, unit)} inside each side, and the quilt is only "
        said += (
            f"{show(quilt_width, unit)} wide: {short} too narrow."
            if quilt_width < inset * 2
            else (f"{show(quilt_width, unit)} wide: nothing is left of the sleeve.")
        )
        raise Refused(Problem(said, do="Hang it from rings or folded corners instead."))
    height = depth * 2 + take_up * 2
    strips = strips_across(quilt_width, height, usable_width, take_up, "straight", ruler, "sleeve")
    return Sleeve(depth, quilt_width, height, inset, rod, take_up, strips)


@dataclass(frozen=True)
class Label:
    """A label: its finished size, and as it is cut, with a seam turned in all round."""

    finished: tuple[Length, Length]
    cut: tuple[Length, Length]

    @property
    def run(self) -> float:
        """The stitching round it in inches."""
        return 2 * float(self.finished[0] + self.finished[1])

    def sum_lines(self, unit: Unit) -> tuple[str, ...]:
        """The arithmetic of its size, in a line."""
        turned = figure((self.cut[0] - self.finished[0]) / 2, unit)
        sides = [f"{figure(side, unit)} + 2 x {turned}" for side in self.finished]
        return (f"label: {sides[0]} by {sides[1]} = {figure(self.cut[0], unit)} x {show(self.cut[1], unit)}",)


def label_of(size: tuple[Length, Length] | None, take_up: Length, unit: Unit) -> Label:
    """A label of a finished size, or of the usual one."""
    width, height = size or LABEL[unit]
    return Label((width, height), (width + take_up * 2, height + take_up * 2))
