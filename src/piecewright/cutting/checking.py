"""An independent checker: reads a finished layout and says what is wrong with it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from piecewright.cutting.cuts import Cuts
from piecewright.cutting.layout import Layout
from piecewright.cutting.patterns import Pattern, Section
from piecewright.cutting.wanted import Demand
from piecewright.measure.length import ZERO, Length
from piecewright.problems import Problem


def check_layout(
    layout: Layout, demands: Sequence[Demand], ruler_length: Length | None = None
) -> list[Problem]:
    """Everything wrong with the layout; empty when every piece is there exactly as often as wanted.

    With a ruler's length, strips beyond it must hold a piece as tall. It shares nothing with the making of
    layouts but the types.
    """
    wanted = {demand.name: demand for demand in demands}
    problems: list[Problem] = []
    got: Counter[str] = Counter()
    for number, pattern in enumerate(layout.patterns, 1):
        where = f"cloth {layout.key!r}, pattern {number}"
        problems += _check_pattern(pattern, layout.usable_width, where)
        if ruler_length is not None:
            problems += _check_ruler(pattern, ruler_length, where)
        problems += _check_cuts(pattern, layout.cuts_as, where)
        for section in pattern.sections:
            problems += _check_section(section, wanted.get(section.name), layout.usable_width, where)
            got[section.name] += section.count * section.stack * pattern.times
    for name, demand in wanted.items():
        if got[name] != demand.count:
            what = f"expected {demand.count} pieces of {name!r}, got {got[name]}."
            problems.append(Problem(what, f"cloth {layout.key!r}", "Lay them out anew."))
    return problems + _check_whole(layout)


def _check_pattern(pattern: Pattern, width: Length, where: str) -> list[Problem]:
    found = []
    if pattern.times < 1 or not pattern.sections:
        found.append(Problem("expected a strip that is cut at least once, into something.", where))
    across = sum((section.width * section.count for section in pattern.sections), ZERO)
    if across > width:
        found.append(Problem(f"expected sections within {width}, got {across} across.", where))
    for section in pattern.sections:
        stacked = section.height * section.stack
        if stacked > pattern.strip_height:
            what = f"expected a stack of {section.name!r} within {pattern.strip_height}, got {stacked}."
            found.append(Problem(what, where))
        if section.count < 1 or section.stack < 1:
            found.append(Problem(f"expected at least one piece of {section.name!r}.", where))
    return found


def _check_ruler(pattern: Pattern, ruler_length: Length, where: str) -> list[Problem]:
    tallest = max((section.height for section in pattern.sections), default=ZERO)
    if pattern.strip_height <= ruler_length or tallest > ruler_length:
        return []
    return [Problem(f"expected strips up to {ruler_length} high, got {pattern.strip_height}.", where)]


def _check_cuts(pattern: Pattern, cuts: Cuts, where: str) -> list[Problem]:
    stacks = max((section.stack for section in pattern.sections), default=1)
    if cuts.stacks or stacks == 1:
        return []
    return [Problem(f"expected one piece from each crosscut, got stacks of {stacks}.", where)]


def _check_section(section: Section, demand: Demand | None, width: Length, where: str) -> list[Problem]:
    if demand is None:
        return [Problem(f"expected a piece that is wanted, got {section.name!r}.", where)]
    if section.turned and (not demand.may_turn or demand.whole_strip):
        return [Problem(f"expected {section.name!r} upright, got it turned.", where)]
    size = (width if demand.whole_strip else demand.width, demand.height)
    expected = size[::-1] if section.turned else size
    if (section.width, section.height) != expected:
        got = f"got {section.width} x {section.height}"
        what = f"expected {section.name!r} as {expected[0]} x {expected[1]}, {got}."
        return [Problem(what, where)]
    return []


def _check_whole(layout: Layout) -> list[Problem]:
    found, where = [], f"cloth {layout.key!r}"
    strips = ((pattern.strip_height + layout.squaring) * pattern.times for pattern in layout.patterns)
    length = sum(strips, ZERO)
    if length != layout.length:
        found.append(Problem(f"expected strips of {layout.length} in all, got {length}.", where))
    if not layout.area_bound <= layout.bound <= layout.length <= layout.buy:
        found.append(Problem("expected area, least length, length and what to buy in this order.", where))
    reserves = [pattern.reserve for pattern in layout.patterns]
    if reserves != sorted(reserves, reverse=True):
        found.append(Problem("expected what is reserved to be cut first.", where))
    return found
