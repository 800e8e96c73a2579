"""From the pieces wanted of one cloth to its layout: the one call that planning makes."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from piecewright.cutting.buying import purchase
from piecewright.cutting.layout import Layout
from piecewright.cutting.marks import CutList, Strip, in_marks
from piecewright.cutting.mixing import Mixing
from piecewright.cutting.patterns import Pattern, Section
from piecewright.cutting.settling import merged
from piecewright.cutting.shelves import first_fit, low, own_strips, own_then_shared, tall, upright
from piecewright.cutting.wanted import Demand, Supply, check_wanted
from piecewright.measure.length import ZERO, Length
from piecewright.problems import Refused


def lay_out(demands: Sequence[Demand], supply: Supply) -> Layout:
    """The layout that buys least, and of those the one with the fewest ruler settings, then cuts.

    It is never longer than each size in its own strips. Raises Refused with every reason why the pieces
    cannot be cut from the cloth. Equal sizes are best wanted together, under one name.
    """
    problems = check_wanted(demands, supply)
    if problems:
        raise Refused(*problems)
    return _Laying(demands, supply).best()


def own_strips_layout(demands: Sequence[Demand], supply: Supply) -> Layout:
    """Each size in its own strips: what the best layout is measured against. Raises Refused as `lay_out`."""
    problems = check_wanted(demands, supply)
    if problems:
        raise Refused(*problems)
    laying = _Laying(demands, supply)
    return laying.layout(own_strips(laying.task) if laying.sharing else [])


class _Laying:
    def __init__(self, demands: Sequence[Demand], supply: Supply) -> None:
        self.supply = supply
        self.whole = [demand for demand in demands if demand.whole_strip]
        self.sharing = [demand for demand in demands if not demand.whole_strip]
        self.area_bound = area_bound(demands, supply.usable_width)
        self.bound = self.area_bound
        if self.sharing:
            self.task = in_marks(self.sharing, supply)
            self._raise_bound(_simple_bound(self.task))

    def best(self) -> Layout:
        """The best of all layouts tried; trying ends where less cannot be bought."""
        if not self.sharing:
            return self.layout([])
        own = self.layout(own_strips(self.task))
        best = own
        for strips in self._tries():
            layout = self.layout(merged(strips))
            if layout.length <= own.length and _order(layout) < _order(best):
                best = layout
        return replace(best, bound=self.bound)

    def _tries(self) -> Iterator[list[Strip]]:
        """Layouts, quick ones first; ends when the least purchase is proven."""
        quick = [own_strips(self.task), own_then_shared(self.task)]
        quick += [first_fit(self.task, preferred) for preferred in (upright, low, tall)]
        yield from quick
        if any(map(self._proven, quick)):
            return
        mixing = Mixing(self.task, quick)
        self._raise_bound(mixing.bound)
        if any(map(self._proven, quick)):
            return
        for strips in mixing.layouts():
            yield strips
            if self._proven(strips):
                return

    def _proven(self, strips: Sequence[Strip]) -> bool:
        """Whether a layout as short as the bound would be bought in the same length as this one."""
        bought = self.layout(strips).purchase
        least = bought.needed - (bought.length - self.bound) / self.supply.share_left
        return math.ceil(least.exact / bought.buying_step.exact) >= bought.steps

    def _raise_bound(self, marks: int) -> None:
        whole = sum((demand.height * demand.count for demand in self.whole), ZERO)
        self.bound = max(self.bound, whole + Length(marks * self.task.mark))

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
        )

    def _whole_strips(self, demand: Demand) -> Pattern:
        section = Section(demand.name, self.supply.usable_width, demand.height, 1)
        return Pattern(demand.height, (section,), demand.count, demand.reserve)

    def _pattern(self, strip: Strip) -> Pattern:
        mark, ways = self.task.mark, self.task.ways
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
        reserve = any(self.sharing[ways[cut.way].size].reserve for cut in strip.cuts)
        in_order = tuple(sorted(sections, key=_crosscut_order))
        return Pattern(Length(strip.height * mark), in_order, strip.times, reserve)


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


def _order(layout: Layout) -> tuple[Length, int, int, Length]:
    """Less to buy, then fewer settings and cuts: cloth saved in the same buying step is worth nothing."""
    return layout.buy, layout.ruler_changes, layout.cuts, layout.length


def _cutting_order(pattern: Pattern) -> tuple[object, ...]:
    sections = tuple(
        (section.name, section.width, section.count, section.stack) for section in pattern.sections
    )
    return not pattern.reserve, -pattern.strip_height, len(sections), -pattern.times, sections


def _crosscut_order(section: Section) -> tuple[object, ...]:
    """The tallest stacks first, and of those the widest."""
    return -section.stack_height, -section.width, section.name, -section.count, section.turned
