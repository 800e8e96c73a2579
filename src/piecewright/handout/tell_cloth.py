"""The sheet's words on cloth: what to buy, and how to cut it in the two-line form."""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.cutting.cloth_cut import ClothCut
from piecewright.cutting.patterns import Pattern
from piecewright.design.colour import colours_of
from piecewright.drawing.layout import LayoutNotes, layout_svgs
from piecewright.drawing.layout_given import given_svgs
from piecewright.drawing.palette import palette_of
from piecewright.handout.sheet import ClothCutting, CutLines, Picture, Purchase, Swatch
from piecewright.handout.tell_prints import prints_bought, prints_table, prints_words
from piecewright.handout.tell_shelf import off_the_shelf, pieces_of, strips_of, taken, worth_keeping
from piecewright.measure.length import Length
from piecewright.measure.showing import figure, show, show_cloth
from piecewright.planning.cut_long import CutLong
from piecewright.planning.finish import BACKING
from piecewright.planning.job import Job
from piecewright.planning.motif import CutDown
from piecewright.planning.things import Cut
from piecewright.planning.uses import plural, uses_of


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
    return (*(_purchase(job, cloth) for cloth in job.cloth), batting)


def _purchase(job: Job, cloth: ClothCut) -> Purchase:
    unit, layout = job.design.unit, cloth.cut.bought
    role = job.design.role.get(cloth.name)
    notes = [off_the_shelf(cloth.cut, unit)] if cloth.cut.used else []
    shared = job.prints.get(cloth.name) if not cloth.cut.used else None
    if role is not None and role.is_assortment:
        alike = f", {role.alike} alike at most" if role.alike else ""
        told = prints_bought(shared, unit) if shared else f"from at least {role.prints} prints"
        notes.append(f"{told}{alike}")
    elif layout is not None and layout.usable_width != job.workroom.usable_width:
        notes.append(f"{show(layout.usable_width, unit)} wide")
    return Purchase(
        fabric=swatch(job, cloth.name),
        bare=show(layout.length, unit) if layout else "none",
        buy=show_cloth(job.buy(cloth), unit) if layout else "nothing",
        note="; ".join(notes),
        sums=layout.sum_lines(unit)[-1:] if layout and not shared else (),
    )


def cutting(job: Job) -> tuple[ClothCutting, ...]:
    """How every cloth is cut, in the order of cutting, with its layout."""
    return tuple(_cloth(job, cloth) for cloth in job.cloth)


def _cloth(job: Job, cloth: ClothCut) -> ClothCutting:
    layout, unit = cloth.cut.bought, job.design.unit
    lines = [_lines(job, height, patterns) for height, patterns in layout.by_height] if layout else []
    # Laid out as one, an assortment is not bought as one: what is left is left of many prints.
    shared = cloth.name in job.prints and not cloth.cut.used
    return ClothCutting(
        fabric=swatch(job, cloth.name),
        lines=(*_given_lines(job, cloth), *lines),
        layouts=_layouts(job, cloth),
        note=_sharing(job, cloth.name),
        prints=_prints(job, cloth.name),
        keep="" if shared else worth_keeping(cloth.cut.leftovers, unit),
        sums=(layout.sum_lines(unit)[: -1 if shared else None]) if layout else (),
    )


def _layouts(job: Job, cloth: ClothCut) -> tuple[Picture, ...]:
    """The pictures of cloth off the shelf and of the layout; panels for a backing need none."""
    layout, palette, unit = cloth.cut.bought, palette_of(job.design), job.design.unit
    if cloth.name == BACKING:
        return ()
    patterns = [p for one in cloth.cut.used for p in one.patterns] + list(layout.patterns if layout else ())
    names = {
        s.name: ", ".join(uses_of(job.things, s.name)) or "backing" for p in patterns for s in p.sections
    }
    notes = _layout_notes(job, cloth.name)
    svgs = given_svgs(cloth.cut, palette, unit, width=340, names=names, one_way=notes.one_way)
    if layout is not None:
        svgs += layout_svgs(layout, palette, unit, width=460, names=names, notes=notes)
    return tuple(Picture(svg=svg, words=f"how {cloth.name} is cut") for svg in svgs)


def _layout_notes(job: Job, key: str) -> LayoutNotes:
    """How many layers are cut: cloth with motifs lies single; a one-way print has an arrow."""
    fabric = job.design.fabric.get(key)
    single = fabric is not None and bool(fabric.repeat_across or fabric.repeat_along)
    lengthwise = frozenset(
        thing.name for thing in job.things.values() if isinstance(thing, CutLong) and thing.fabric == key
    )
    return LayoutNotes(
        layers=1 if single else job.workroom.layers,
        one_way=fabric is not None and fabric.one_way,
        lengthwise=lengthwise,
    )


def _given_lines(job: Job, cloth: ClothCut) -> list[CutLines]:
    """How the pieces off the shelf are cut, those that are cut alike together."""
    unit = job.design.unit
    return [
        CutLines(
            cut=taken(cut, unit),
            then=tuple(f"{strips}: {_pieces(job, [pattern])}" for strips, pattern in strips_of(cut, unit)),
        )
        for cut in cloth.cut.used
    ]


def _sharing(job: Job, key: str) -> str:
    """How an assortment is shared out over its prints."""
    role = job.design.role.get(key)
    if role is None or not role.is_assortment:
        return ""
    if key in job.prints:
        return " ".join(prints_words(job.prints[key], role.alike, job.design.unit))
    alike = f"; no more than {role.alike} of a size from one print" if role.alike else ""
    return (
        f"Share the strips out over at least {role.prints} prints, a short strip of each{alike}. "
        "Lay them out before joining, so that no two alike touch."
    )


def _prints(job: Job, key: str) -> tuple[tuple[str, ...], ...]:
    """What is cut from each print of an assortment, as a table."""
    if key not in job.prints:
        return ()
    return prints_table(job.prints[key], lambda name, count: count_of(job, name, count), job.design.unit)


def _lines(job: Job, height: Length, patterns: Sequence[Pattern]) -> CutLines:
    unit = job.design.unit
    count = sum(pattern.times for pattern in patterns)
    strips = "strip" if count == 1 else "strips"
    pieces = pieces_of(patterns)
    told = tuple(f"from these {_piece(job, name, number)}" for name, number in pieces.items())
    whole = all(_is_whole(job, name) for name in pieces)
    note = "reserve: cut these first" if any(pattern.reserve for pattern in patterns) else ""
    if whole:
        names = ", ".join(dict.fromkeys(use for name in pieces for use in uses_of(job.things, name)))
        names = names or "backing"  # One panel that reaches is the whole backing.
        return CutLines(
            cut=f"cut {count} {strips} {show(height, unit)} x WOF", then=(f"leave whole: {names}",), note=note
        )
    return CutLines(cut=f"cut {count} {strips} {show(height, unit)} x WOF", then=told, note=note)


def _pieces(job: Job, patterns: Sequence[Pattern]) -> str:
    return ", ".join(_piece(job, name, number) for name, number in pieces_of(patterns).items())


def _is_whole(job: Job, name: str) -> bool:
    thing = job.things[name]
    return isinstance(thing, Cut) and thing.whole_strip


def _piece(job: Job, name: str, count: int) -> str:
    uses = ", ".join(uses_of(job.things, name))
    return f"{count_of(job, name, count)} ({uses})" if uses else count_of(job, name, count)


def count_of(job: Job, name: str, count: int) -> str:
    """So many pieces in words: `76 squares 2 7/8 in`, `1 piece 2 1/2 x 4 1/2 in`."""
    thing, unit = job.things[name], job.design.unit
    if isinstance(thing, CutDown):
        return f"{count} {thing.what if count == 1 else plural(thing.what)} {thing.size_words(unit)}"
    assert isinstance(thing, Cut)
    if isinstance(thing, CutLong):
        size = f"{figure(thing.width, unit)} x {show(thing.height, unit)}"
        return f"{count} {'piece' if count == 1 else 'pieces'} {size}, the long side along the selvedge"
    if thing.whole_strip:
        return f"{count} {'strip' if count == 1 else 'strips'} {show(thing.height, unit)} x WOF"
    if thing.width == thing.height:
        return f"{count} {'square' if count == 1 else 'squares'} {show(thing.width, unit)}"
    runs_up = any(cloth.fabric == thing.fabric and cloth.one_way for cloth in job.plan.cloth)
    why = ": the print runs up" if runs_up else ""
    one_way = f" (width across the cloth first{why})" if not thing.may_turn else ""
    size = f"{figure(thing.width, unit)} x {show(thing.height, unit)}"
    return f"{count} {'piece' if count == 1 else 'pieces'} {size}{one_way}"
