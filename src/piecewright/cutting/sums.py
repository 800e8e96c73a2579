"""The arithmetic behind the figures of a layout, as short lines for the small print."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import chain

from piecewright.cutting.buying import Purchase
from piecewright.cutting.patterns import Pattern, Section
from piecewright.measure.length import Length, Unit
from piecewright.measure.showing import figure, show


def length_sums(groups: Sequence[tuple[Length, Sequence[Pattern]]], width: Length, unit: Unit) -> list[str]:
    """For each ruler setting how many strips there are and why, then their lengths added up."""
    lines = [line for height, patterns in groups for line in _strip_sums(height, patterns, width, unit)]
    if len(groups) > 1:
        lengths = [height * sum(pattern.times for pattern in patterns) for height, patterns in groups]
        total = sum(lengths[1:], lengths[0])
        lines.append(f"{' + '.join(figure(length, unit) for length in lengths)} = {show(total, unit)}")
    return lines


def squaring_sums(strips: int, squaring: Length, length: Length, unit: Unit) -> list[str]:
    """What squaring up takes, where something is allowed for it."""
    if not squaring:
        return []
    bare = figure(length - squaring * strips, unit)
    return [f"{bare} + {strips} x {figure(squaring, unit)} to square up = {show(length, unit)}"]


def waste_sum(area_bound: Length, length: Length, unit: Unit) -> str:
    """How much of the length the pieces alone would fill, and the share of offcuts."""
    share = round(100 * (1 - area_bound.exact / length.exact))
    return f"pieces alone: {figure(area_bound, unit)} of {show(length, unit)}; offcuts {share} per cent"


def buying_sum(bought: Purchase, unit: Unit) -> str:
    """From the bare minimum to what the shop cuts."""
    parts = [figure(bought.length, unit)]
    if bought.straightening:
        parts.append(f"{figure(bought.straightening, unit)} to straighten")
    if bought.spare_strips:
        parts.append(f"{bought.spare_strips} x {figure(bought.spare, unit)} spare")
    if bought.further:
        parts.append(f"{figure(bought.further, unit)} more to spare")
    total = " + ".join(parts)
    if bought.shrinkage:
        total = f"({total}) / (1 - {bought.shrinkage:g})"
    if bought.shrinkage or len(parts) > 1:
        total += f" = {figure(bought.needed, unit)}"
    steps = f"{bought.steps} x {figure(bought.buying_step, unit)}"
    return f"{total} -> {steps} = {show(bought.buy, unit)} to buy"


def _strip_sums(height: Length, patterns: Sequence[Pattern], width: Length, unit: Unit) -> list[str]:
    strips = sum(pattern.times for pattern in patterns)
    taken = f"{strips} x {figure(height, unit)} = {show(height * strips, unit)}"
    sections = list(chain.from_iterable(pattern.sections for pattern in patterns))
    alike = len({(section.name, section.width, section.height, section.stack) for section in sections}) == 1
    if not alike or sections[0].stack > 1:
        mixed = [f"{show(height, unit)} strip: {_across_sum(pattern, width, unit)}" for pattern in patterns]
        return [*mixed, taken]
    first, pieces = sections[0], sum(pattern.times * pattern.sections[0].count for pattern in patterns)
    if first.width == width:
        return [f"{pieces} {first.name}, a whole strip each; {taken}"]
    most = max(section.count for section in sections)
    a_strip = (
        f"{figure(width, unit)} / {figure(first.width, unit)} = {width // first.width} {first.name} a strip"
    )
    return [f"{a_strip}; {_strips_sum(pieces, width // first.width, most, strips)}; {taken}"]


def _strips_sum(pieces: int, fit: int, most: int, strips: int) -> str:
    each = fit if -(-pieces // fit) == strips else most
    return f"{pieces} / {each} -> {strips} {'strip' if strips == 1 else 'strips'}"


def _across_sum(pattern: Pattern, width: Length, unit: Unit) -> str:
    across = " + ".join(_section_sum(section, unit) for section in pattern.sections)
    often = "once" if pattern.times == 1 else f"{pattern.times} times"
    return f"{across} = {figure(pattern.across, unit)} of {figure(width, unit)}; {often}"


def _section_sum(section: Section, unit: Unit) -> str:
    stack = f", {section.stack} in each" if section.stack > 1 else ""
    return f"{section.count} x {figure(section.width, unit)} ({section.name}{stack})"
