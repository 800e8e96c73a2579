"""From columns in marks back to lengths: how each given piece of cloth is cut."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from piecewright.cutting.buying import purchase
from piecewright.cutting.cuts import TALL_STRIPS
from piecewright.cutting.given.layout import CutGiven
from piecewright.cutting.given.offer import Source
from piecewright.cutting.given.settling import Use, pieces_of
from piecewright.cutting.given.task import GivenTask
from piecewright.cutting.layout import Layout
from piecewright.cutting.marks import Strip
from piecewright.cutting.patterns import Pattern, Section
from piecewright.cutting.wanted import Demand, Supply
from piecewright.measure.length import Length


def cut_given(
    task: GivenTask, kinds: Sequence[Source], uses: Sequence[Use], demands: Sequence[Demand]
) -> list[CutGiven]:
    """The given pieces that are cut, in the order of the kinds; what comes from the bolt is left out.

    Strips that were found one by one for a long piece are put together on it.
    """
    names = [demand.name for demand in demands]
    found = []
    for number, source in enumerate(kinds):
        given = source.given
        own = [use for use in uses if task.frames[use.column.frame].kind == number]
        if given is None or not own:
            continue
        if not task.kinds[number].whole:
            strips = [
                strip._replace(times=strip.times * use.times) for use in own for strip in use.column.strips
            ]
            layouts = [(False, strips, 1)]
        else:
            layouts = [
                (task.frames[use.column.frame].along, list(use.column.strips), use.times) for use in own
            ]
        for along, strips, times in layouts:
            patterns = [pattern_of(task, strip, along, names) for strip in strips]
            ordered = tuple(sorted(patterns, key=lambda pattern: -pattern.strip_height.exact))
            sizes = (given.width, given.height)
            long = not task.kinds[number].whole
            found.append(CutGiven(given.name, given.fabric, *sizes, along, ordered, times, long))
    return found


def bolt_layout(task: GivenTask, uses: Sequence[Use], demands: Sequence[Demand], supply: Supply) -> Layout:
    """The strips that were found for the bolt, as a layout; its bound is the area of its pieces."""
    names = [demand.name for demand in demands]
    reserved = {demand.name for demand in demands if demand.reserve}
    patterns = []
    for use in uses:
        for strip in use.column.strips:
            pattern = pattern_of(task, strip._replace(times=strip.times * use.times), False, names)
            reserve = any(section.name in reserved for section in pattern.sections)
            patterns.append(replace(pattern, reserve=reserve))
    ordered = tuple(sorted(patterns, key=lambda one: (not one.reserve, -one.strip_height.exact, -one.times)))
    area = Fraction(int(task.areas @ pieces_of(task, uses))) * task.mark**2
    bound = Length(area / supply.usable_width.exact)
    return Layout(
        supply.key,
        supply.usable_width,
        ordered,
        area_bound=bound,
        bound=bound,
        purchase=purchase(ordered, supply),
        squaring=supply.squaring,
        cuts_as=TALL_STRIPS,
    )


def pattern_of(task: GivenTask, strip: Strip, along: bool, names: Sequence[str]) -> Pattern:
    """One strip in lengths: its sections, the tallest stacks first."""
    sections = []
    for cut in strip.cuts:
        way = task.ways[along][cut.way]
        width, height = Length(task.mark * way.width), Length(task.mark * way.height)
        sections.append(Section(names[way.size], width, height, cut.crosscuts, cut.stack, way.turned))
    ordered = sorted(sections, key=lambda s: (-s.stack_height.exact, -s.width.exact, s.name))
    return Pattern(Length(task.mark * strip.height), tuple(ordered), strip.times)
