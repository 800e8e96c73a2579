"""How a fabric is cut, in lines: pieces of cloth on hand first, then strips from the bolt."""

from __future__ import annotations

from piecewright.cutting.given.layout import CutGiven
from piecewright.cutting.layout import Layout
from piecewright.cutting.lists.cut_fabric import CutFabric
from piecewright.cutting.lists.listed import ListedFabric, rough_sizes
from piecewright.cutting.patterns import Pattern, Section
from piecewright.cutting.shapes.telling import cutting_words
from piecewright.measure.length import Length, Unit
from piecewright.measure.showing import figure, show


def cutting_lines(one: CutFabric, unit: Unit) -> list[str]:
    """How it is cut, in the order of cutting, what is cut with one ruler setting together."""
    lines = [*_rough_lines(one.fabric, unit), *_longer_than_ruler(one.fabric, unit)]
    for cut in one.cut.used:
        lines += _given_lines(cut, unit)
    if one.cut.bought is not None:
        lines += ["From what is bought by length:"] if one.cut.used else []
        lines += _bolt_lines(one.cut.bought, unit)
    return lines + [line for cut in one.fabric.shape_cuts for line in cutting_words(cut, unit)]


def _rough_lines(fabric: ListedFabric, unit: Unit) -> list[str]:
    lines = _finding_the_motif(fabric, unit)
    for item, demand in rough_sizes(fabric):
        if not item.lengthwise or {item.width, item.height} != {demand.width, demand.height}:
            rough, own = _size(demand.width, demand.height, unit), _size(item.width, item.height, unit)
            lines.append(f"Cut {item.name} {rough}, then trim to {own} with the motif where you want it.")
    return lines


def _finding_the_motif(fabric: ListedFabric, unit: Unit) -> list[str]:
    motif = fabric.motif
    ways = [(motif.across, "across"), (motif.along, "along")]
    told = [f"{show(repeat, unit)} {way}" for repeat, way in ways if repeat]
    if not told:
        return []
    return [
        f"Up to a repeat ({' and '.join(told)}) may be lost in finding the first motif; it is reckoned in."
    ]


def _longer_than_ruler(fabric: ListedFabric, unit: Unit) -> list[str]:
    ruler = fabric.supply.ruler_length
    long = [item.name for item in fabric.items if ruler is not None and max(item.width, item.height) > ruler]
    if ruler is None or not long:
        return []
    what = f"Longer than the ruler of {show(ruler, unit)}: {', '.join(long)}"
    return [f"{what}; fold the cloth, or move the ruler on along the cut."]


def _given_lines(cut: CutGiven, unit: Unit) -> list[str]:
    how, wide = ("along the selvedge", "wide") if cut.along else ("across", "high")
    name = f"{cut.name.removesuffix(', bought')} (bought)" if cut.name.endswith(", bought") else cut.name
    times = "" if cut.times == 1 else f"{cut.times:,} alike: "
    lines = [f"Cut {times}{name}, strips {how}:"]
    for pattern in cut.patterns:
        strips = f"{_counted(pattern.times, 'strip')} {show(pattern.strip_height, unit)} {wide}"
        each = ", from each" if pattern.times > 1 else ""
        lines.append(f"  {strips}{each}: {_sections(pattern, unit)}")
    return lines


def _bolt_lines(layout: Layout, unit: Unit) -> list[str]:
    lines = []
    for height, patterns in layout.by_height:
        strips = sum(pattern.times for pattern in patterns)
        lines.append(f"Cut {_counted(strips, 'strip')} {show(height, unit)} high:")
        lines += [f"  {_pattern_line(pattern, unit)}" for pattern in patterns]
    return lines


def _pattern_line(pattern: Pattern, unit: Unit) -> str:
    often = "from 1:" if pattern.times == 1 else f"from each of {pattern.times}:"
    return f"{often} {_sections(pattern, unit)}"


def _sections(pattern: Pattern, unit: Unit) -> str:
    return ", ".join(_section_words(pattern, section, unit) for section in pattern.sections)


def _section_words(pattern: Pattern, section: Section, unit: Unit) -> str:
    words = f"{section.count} x {show(section.width, unit)}"
    if section.stack > 1:
        words += f", each subcut into {section.stack} x {show(section.height, unit)}"
    elif section.height != pattern.strip_height:
        words += f" trimmed to {show(section.height, unit)}"
    return f"{words} ({section.name})"


def _size(width: Length, height: Length, unit: Unit) -> str:
    return f"{figure(width, unit)} x {show(height, unit)}"


def _counted(count: int, word: str) -> str:
    return f"{count:,} {word}" if count == 1 else f"{count:,} {word}s"
