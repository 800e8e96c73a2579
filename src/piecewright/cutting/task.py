"""One cloth's task: pieces that share strips, in whole marks, and those that take whole strips besides."""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction

from piecewright.cutting.buying import purchase, spare_of
from piecewright.cutting.counting import operations, settings
from piecewright.cutting.cuts import Cuts
from piecewright.cutting.layout import Layout
from piecewright.cutting.marks import CutList, Strip, in_marks
from piecewright.cutting.patterns import Pattern, Section
from piecewright.cutting.wanted import Demand, Supply
from piecewright.measure.length import ZERO, Length


class CuttingTask:
    """The demands on one cloth, and how strips in marks become a layout.

    `list` is None where nothing shares strips. `bound` is a length below which there is no layout.
    """

    def __init__(self, demands: Sequence[Demand], supply: Supply, cuts: Cuts) -> None:
        self.supply, self.cuts = supply, cuts
        self.whole = [demand for demand in demands if demand.whole_strip]
        self.sharing = [demand for demand in demands if not demand.whole_strip]
        self.area_bound = area_bound(demands, supply.usable_width)
        self.bound = self.area_bound
        self.list: CutList | None = None
        if self.sharing:
            self.list = in_marks(self.sharing, supply, cuts)
        self.raise_bound(_simple_bound(self.list) if self.list else 0)

    @property
    def marks(self) -> CutList:
        """The pieces that share strips; only where there are any."""
        assert self.list is not None
        return self.list

    def raise_bound(self, marks: int) -> None:
        """Takes note that the strips that are shared take at least so many marks."""
        shared = Length(marks * self.list.mark) if self.list else ZERO
        self.bound = max(self.bound, self._whole_length() + shared)

    def settings(self, strips: Sequence[Strip]) -> int:
        """How often the ruler is set for the strips that are shared."""
        return settings(self.marks, strips)

    def operations(self, strips: Sequence[Strip], layers: int) -> int:
        """The cuts of the strips that are shared, so many layers at a time."""
        return operations(self.marks, strips, layers)

    def steps(self, strips: Sequence[Strip]) -> int:
        """How many buying steps a layout with these strips takes."""
        taken = self._whole_length().exact + self.marks.length(strips) * self.marks.mark
        return math.ceil((taken + self._besides(strips)) / self._step())

    def least_steps(self, strips: Sequence[Strip]) -> int:
        """How many it would take if the strips were as short as the bound."""
        return math.ceil((self.bound.exact + self._besides(strips)) / self._step())

    def room(self, strips: Sequence[Strip], steps: int = 0) -> float:
        """How many marks of shared strips are bought with these ones, or with so many steps of the shop."""
        bought = (
            (steps or self.steps(strips)) * self._step() - self._besides(strips) - self._whole_length().exact
        )
        return float(bought / self.marks.mark)

    def layout(self, strips: Sequence[Strip]) -> Layout:
        """The strips, and those that are wanted whole, in the order of cutting, with what to buy."""
        patterns = [self._whole_strips(demand) for demand in self.whole]
        patterns += [self._pattern(strip) for strip in strips]
        ordered = tuple(sorted(patterns, key=_cutting_order))
        return Layout(
            key=self.supply.key,
            usable_width=self.supply.usable_width,
            patterns=ordered,
            area_bound=self.area_bound,
            bound=self.bound,
            purchase=purchase(ordered, self.supply),
            squaring=self.supply.squaring,
            cuts_as=self.cuts,
        )

    def _whole_length(self) -> Length:
        return sum(((demand.height + self.supply.squaring) * demand.count for demand in self.whole), ZERO)

    def _step(self) -> Fraction:
        return self.supply.buying_step.exact * self.supply.share_left

    def _besides(self, strips: Sequence[Strip]) -> Fraction:
        """What is bought besides the strips: for straightening and to spare."""
        heights = [
            (Length(strip.height * self.marks.mark), strip.times, self._reserved(strip)) for strip in strips
        ]
        heights += [(demand.height, demand.count, demand.reserve) for demand in self.whole]
        spare = spare_of(heights, self.supply) * self.supply.spare_strips
        return (self.supply.straightening + self.supply.spare_length + spare).exact

    def _reserved(self, strip: Strip) -> bool:
        return any(self.sharing[self.marks.ways[cut.way].size].reserve for cut in strip.cuts)

    def _whole_strips(self, demand: Demand) -> Pattern:
        section = Section(demand.name, self.supply.usable_width, demand.height, 1)
        return Pattern(demand.height, (section,), demand.count, demand.reserve)

    def _pattern(self, strip: Strip) -> Pattern:
        mark, ways = self.marks.mark, self.marks.ways
        sections = [
            Section(
                name=self.sharing[ways[cut.way].size].name,
                width=Length(ways[cut.way].width * mark),
                height=Length(ways[cut.way].height * mark),
                count=cut.crosscuts,
                stack=cut.stack,
                turned=ways[cut.way].turned,
            )
            for cut in strip.cuts
        ]
        in_order = tuple(sorted(sections, key=_crosscut_order))
        return Pattern(Length(strip.height * mark), in_order, strip.times, self._reserved(strip))


def area_bound(demands: Sequence[Demand], usable_width: Length) -> Length:
    """The length that the pieces alone would fill, exact: their area over the usable width."""
    area = Fraction(0)
    for demand in demands:
        width = usable_width if demand.whole_strip else demand.width
        area += width.exact * demand.height.exact * demand.count
    return Length(area / usable_width.exact)


def _simple_bound(task: CutList) -> int:
    """The larger of the area of the pieces over the width and the tallest piece, in whole marks."""
    area, tallest = 0, 0
    for size, count in enumerate(task.counts):
        ways = [way for _, way in task.ways_of(size)]
        area += ways[0].width * ways[0].height * count
        tallest = max(tallest, min(way.height for way in ways))
    return max(-(-area // task.width), tallest)


def _cutting_order(pattern: Pattern) -> tuple[object, ...]:
    sections = tuple(
        (section.name, section.width, section.count, section.stack) for section in pattern.sections
    )
    return not pattern.reserve, -pattern.strip_height, len(sections), -pattern.times, sections


def _crosscut_order(section: Section) -> tuple[object, ...]:
    """The tallest stacks first, and of those the widest."""
    return -section.stack_height, -section.width, section.name, -section.count, section.turned
