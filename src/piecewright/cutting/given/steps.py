"""The steps that cut given pieces of cloth on the bench: strips, crosscuts, and stacks subcut.

A given piece is *had*: it lies on the table when the plan starts. Its strips are cut apart; of strips that
run across, sections are subcut as on a bolt. Strips that run along the cloth are crosscut first, and each
section is subcut for itself, so that every piece keeps its own grain and lies upright in its pile.
"""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.bench.plan import Have
from piecewright.bench.steps import AnyStep, CutApart, Ruled, Section, Subcut
from piecewright.cutting import patterns
from piecewright.cutting.given.layout import CutGiven
from piecewright.cutting.on_the_bench import subcut_of
from piecewright.cutting.patterns import Pattern
from piecewright.measure.length import ZERO, Length


def had(used: Sequence[CutGiven]) -> list[Have]:
    """What lies on the table before the first cut: the given pieces that are cut, by their names."""
    counts: dict[tuple[str, str, Length, Length], int] = {}
    for cut in used:
        key = (cut.name, cut.fabric or cut.name, cut.width, cut.height)
        counts[key] = counts.get(key, 0) + cut.times
    return [
        Have(name=name, count=count, fabric=fabric, width=width, height=height)
        for (name, fabric, width, height), count in counts.items()
    ]


def given_steps(used: Sequence[CutGiven]) -> list[AnyStep]:
    """The steps for all given pieces, in their order; pieces are named as they were wanted.

    What a strip and a section between two cuts are called is made from the name of the cloth.
    """
    return [step for number, cut in enumerate(used, 1) for step in _cut(cut, f"{cut.name} cut {number}")]


def _cut(cut: CutGiven, label: str) -> list[AnyStep]:
    whole = len(cut.patterns) == cut.patterns[0].times == 1 and cut.filled == cut.room
    strips = [(p, cut.name if whole else f"{label} strip {k}") for k, p in enumerate(cut.patterns, 1)]
    parts = [(pattern.strip_height, name) for pattern, name in strips for _ in range(pattern.times)]
    steps = _apart(cut.name, parts, cut.room, cut.along, cut.times)
    for pattern, strip in strips:
        times = pattern.times * cut.times
        if cut.along:
            steps += _along(strip, pattern, cut.strip_length, times)
        else:
            steps.append(subcut_of(strip, pattern, times))
    return steps


def _apart(
    takes: str, parts: Sequence[tuple[Length, str]], room: Length, upright: bool, times: int
) -> list[AnyStep]:
    """Cuts one cloth into parts of these sizes, from its lower or left edge; the rest is an offcut."""
    lines, names, at = [], [], ZERO
    for size, name in parts:
        at = at + size
        names.append(name)
        if at < room:
            place = float(at)
            lines.append(Ruled(place, 0.0, place, 1.0) if upright else Ruled(0.0, place, 1.0, place))
    if at < room:
        names.append("")
    return [CutApart(takes=takes, cut=tuple(lines), gives=tuple(names), times=times)] if lines else []


def _along(strip: str, pattern: Pattern, length: Length, times: int) -> list[AnyStep]:
    """Crosscuts of an upright strip from its lower end, then the stack of each from its left edge."""
    whole = len(pattern.sections) == pattern.sections[0].count == 1 and pattern.across == length
    sections = [
        (section, strip if whole else f"{strip} section {number}")
        for number, section in enumerate(pattern.sections, 1)
    ]
    parts = [(section.width, name) for section, name in sections for _ in range(section.count)]
    steps = _apart(strip, parts, length, upright=False, times=times)
    return steps + [_stack(name, section, section.count * times) for section, name in sections]


def _stack(takes: str, section: patterns.Section, times: int) -> Subcut:
    """A section of an upright strip: its pieces stand side by side, widths across as they lie."""
    one = Section(
        gives=section.name,
        width=section.height,
        height=section.width,
        count=section.stack,
        turned=section.turned,
    )
    return Subcut(takes=takes, sections=(one,), times=times)
