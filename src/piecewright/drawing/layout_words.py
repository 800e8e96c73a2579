"""The words of a cutting layout: what each numbered cut is, and what the picture shows."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from piecewright.cutting.given.layout import CutGiven
from piecewright.cutting.order_of_cuts import NumberedCut
from piecewright.cutting.patterns import Pattern
from piecewright.drawing.layout_key import Key
from piecewright.drawing.layout_pages import LayoutPage
from piecewright.drawing.layout_strip import rest_of, rest_told
from piecewright.drawing.writing import counted, size_of
from piecewright.measure.length import Length, Unit
from piecewright.measure.showing import show

FOLDED = "The cloth is folded selvedge to selvedge, with the fold in the middle of the strips"


def cut_told(cut: NumberedCut, unit: Unit, whole: Length | None = None) -> str:
    """A numbered cut in a few words: `6 strips, 2 7/8 in`; `whole` is the length of a strip."""
    if cut.setting is None:
        return "straighten the end"
    at = show(cut.setting, unit)
    if cut.kind == "strips":
        return f"{counted(cut.cuts, 'strip')}, {at}"
    if cut.kind == "subcuts":
        return f"subcut or trim at {at}"
    return "leave whole, square the ends" if cut.setting == whole else f"crosscut at {at}"


def page_told(
    page: LayoutPage, name: str, keys: Mapping[str, Key], cuts: Sequence[NumberedCut], unit: Unit, layers: int
) -> str:
    """What the picture of a page shows: strips, pieces, leftovers, the order of cuts."""
    layout = page.layout
    strips = [_pattern_told(row.pattern, keys, layout.usable_width, unit) for row in page.rows]
    across = show(layout.usable_width, unit)
    part = f" ({page.told})" if page.is_part else ""
    told = [
        f"How {name} is cut, {across} across{part}: {'; '.join(strips) or 'nothing'}.",
        keys_told(keys, unit),
    ]
    if cuts:
        told.append(order_told(cuts, unit, layout.usable_width))
    if layers == 2 and page.rows:
        told.append(f"{FOLDED}.")
    if page.rest:
        told.append(f"At the end {size_of(layout.usable_width, page.rest, unit)} {unit} is left over.")
    return " ".join(told)


def keys_told(keys: Mapping[str, Key], unit: Unit) -> str:
    """The letters in one sentence."""
    letters = "; ".join(
        f"{key.letter} is {key.name}, {size_of(key.width, key.height, unit)} {unit}, {key.count} in all"
        for key in keys.values()
    )
    return f"{letters}."


def order_told(cuts: Sequence[NumberedCut], unit: Unit, whole: Length) -> str:
    """The order of cuts in one sentence."""
    return f"In order: {'; '.join(f'{cut.number} {cut_told(cut, unit, whole)}' for cut in cuts)}."


def _pattern_told(pattern: Pattern, keys: Mapping[str, Key], length: Length, unit: Unit) -> str:
    pieces = ", ".join(f"{section.pieces} {keys[section.name].letter}" for section in pattern.sections)
    each = " each" if pattern.times > 1 else ""
    strips = f"{counted(pattern.times, 'strip')} {show(pattern.strip_height, unit)} high"
    rest = rest_of(pattern, length)
    left = f", {rest_told(rest, unit)} left over" if rest else ""
    return f"{strips} with {pieces}{each}{left}"


def given_told(cut: CutGiven, keys: Mapping[str, Key], cuts: Sequence[NumberedCut], unit: Unit) -> str:
    """What the picture of given cloth shows."""
    strips = [_pattern_told(pattern, keys, cut.strip_length, unit) for pattern in cut.patterns]
    alike = f"{cut.times} pieces of cloth" if cut.times > 1 else "1 piece of cloth"
    run = "along" if cut.along else "across"
    size = f"{size_of(cut.width, cut.height, unit)} {unit}"
    told = [f"How {alike}, {cut.name}, {size}, {'are' if cut.times > 1 else 'is'} cut,"]
    told[0] += f" with strips {run}: {'; '.join(strips)}."
    rest = cut.room - cut.filled
    if rest:
        rests = f"{show(rest, unit)} {'beside' if cut.along else 'below'} the strips"
        told.append(f"{rests} {'stays whole' if cut.like_a_bolt else 'is left over'}.")
    return " ".join([*told, keys_told(keys, unit), order_told(cuts, unit, cut.strip_length)])
