"""The sheet's words on cloth: what to buy, and how to cut it in the two-line form."""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.cutting.layout import Layout
from piecewright.cutting.patterns import Pattern
from piecewright.design.colour import colours_of
from piecewright.drawing.layout import layout_svg
from piecewright.drawing.palette import palette_of
from piecewright.handout.sheet import ClothCutting, CutLines, Picture, Purchase, Swatch
from piecewright.measure.length import Length
from piecewright.measure.showing import figure, show, show_cloth
from piecewright.planning.finish import BACKING
from piecewright.planning.job import Job
from piecewright.planning.things import Cut
from piecewright.planning.uses import uses_of


def swatch(job: Job, key: str) -> Swatch:
    """A cloth as the sheet names it: its key, what it is called, its colours."""
    design = job.design
    if key in design.fabric:
        fabric = design.fabric[key]
        return Swatch(name=_titled(key, fabric.name), colours=(fabric.colour,))
    if key in design.role:
        role = design.role[key]
        return Swatch(name=_titled(key, role.name), colours=colours_of(design, key)[:6])
    return Swatch(name="backing: any cloth you like" if key == BACKING else key)


def _titled(key: str, name: str) -> str:
    return name if name.lower().startswith(key.lower()) else f"{key}: {name}"


def purchases(job: Job) -> tuple[Purchase, ...]:
    """A row for every cloth, and one for the batting: the bare minimum and what to buy."""
    unit, (width, height) = job.design.unit, job.finishing.batting
    batting = Purchase(
        fabric=Swatch(name="batting"),
        bare=f"{figure(width, unit)} x {show(height, unit)}",
        buy="a piece that size",
    )
    return (*(_purchase(job, layout) for layout in job.layouts), batting)


def _purchase(job: Job, layout: Layout) -> Purchase:
    unit = job.design.unit
    role = job.design.role.get(layout.key)
    note = ""
    if role is not None and role.is_assortment:
        note = f"from at least {role.prints} prints" + (f", {role.alike} alike at most" if role.alike else "")
    elif layout.usable_width != job.workroom.usable_width:
        note = f"{show(layout.usable_width, unit)} wide"
    return Purchase(
        fabric=swatch(job, layout.key),
        bare=show(layout.length, unit),
        buy=show_cloth(layout.buy, unit),
        note=note,
        sums=layout.sum_lines(unit)[-1:],
    )


def cutting(job: Job) -> tuple[ClothCutting, ...]:
    """How every cloth is cut, in the order of cutting, with its layout."""
    return tuple(_cloth(job, layout) for layout in job.layouts)


def _cloth(job: Job, layout: Layout) -> ClothCutting:
    unit = job.design.unit
    names = {
        section.name: ", ".join(uses_of(job.things, section.name)) or "backing"
        for pattern in layout.patterns
        for section in pattern.sections
    }
    picture = layout_svg(layout, palette_of(job.design), unit, names=names)
    # Panels for a backing need no picture.
    panels = layout.key == BACKING
    lines = tuple(_lines(job, height, patterns) for height, patterns in layout.by_height)
    return ClothCutting(
        fabric=swatch(job, layout.key),
        lines=lines,
        layout=None if panels else Picture(svg=picture, words=f"how {layout.key} is cut"),
        note=_sharing(job, layout.key),
        sums=layout.sum_lines(unit),
    )


def _sharing(job: Job, key: str) -> str:
    """How an assortment is shared out over its prints."""
    role = job.design.role.get(key)
    if role is None or not role.is_assortment:
        return ""
    alike = f"; no more than {role.alike} of a size from one print" if role.alike else ""
    return (
        f"Share the strips out over at least {role.prints} prints, a short strip of each{alike}. "
        "Lay them out before joining, so that no two alike touch."
    )


def _lines(job: Job, height: Length, patterns: Sequence[Pattern]) -> CutLines:
    unit = job.design.unit
    count = sum(pattern.times for pattern in patterns)
    strips = "strip" if count == 1 else "strips"
    pieces: dict[str, int] = {}
    for pattern in patterns:
        for section in pattern.sections:
            pieces[section.name] = pieces.get(section.name, 0) + section.pieces * pattern.times
    told = tuple(_piece(job, name, number) for name, number in pieces.items())
    whole = all(_is_whole(job, name) for name in pieces)
    note = "reserve: cut these first" if any(pattern.reserve for pattern in patterns) else ""
    if whole:
        names = ", ".join(dict.fromkeys(use for name in pieces for use in uses_of(job.things, name)))
        names = names or "backing"  # One panel that reaches is the whole backing.
        return CutLines(
            cut=f"cut {count} {strips} {show(height, unit)} x WOF", then=(f"leave whole: {names}",), note=note
        )
    return CutLines(cut=f"cut {count} {strips} {show(height, unit)} x WOF", then=told, note=note)


def _is_whole(job: Job, name: str) -> bool:
    thing = job.things[name]
    return isinstance(thing, Cut) and thing.whole_strip


def _piece(job: Job, name: str, count: int) -> str:
    uses = ", ".join(uses_of(job.things, name))
    return (
        f"from these {count_of(job, name, count)} ({uses})"
        if uses
        else f"from these {count_of(job, name, count)}"
    )


def count_of(job: Job, name: str, count: int) -> str:
    """So many pieces in words: `76 squares 2 7/8 in`, `1 piece 2 1/2 x 4 1/2 in`."""
    thing, unit = job.things[name], job.design.unit
    assert isinstance(thing, Cut)
    if thing.whole_strip:
        return f"{count} {'strip' if count == 1 else 'strips'} {show(thing.height, unit)} x WOF"
    if thing.width == thing.height:
        return f"{count} {'square' if count == 1 else 'squares'} {show(thing.width, unit)}"
    one_way = " (width across the cloth first: the print runs up)" if not thing.may_turn else ""
    size = f"{figure(thing.width, unit)} x {show(thing.height, unit)}"
    return f"{count} {'piece' if count == 1 else 'pieces'} {size}{one_way}"
