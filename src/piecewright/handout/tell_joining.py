"""The sheet's words on joining: rows, the centre, borders; and one of each block made first."""

from __future__ import annotations

from piecewright.drawing.joining import joining_svg
from piecewright.drawing.palette import palette_of
from piecewright.handout.sheet import CutLines, ExpectedSize, Part, Picture
from piecewright.handout.tell_cloth import count_of
from piecewright.handout.tell_pressing import as_drawn
from piecewright.handout.tell_units import size_of, size_words
from piecewright.handout.towards_words import in_turn
from piecewright.measure.showing import show, show_float
from piecewright.methods.kinds import name_of
from piecewright.piecing.looks import hand_of
from piecewright.planning.cut_long import CutLong
from piecewright.planning.how_cut import method_words
from piecewright.planning.job import Job
from piecewright.planning.things import Cut, Joined, Lengths, OfLength, Shaped, Thing, UnitThing
from piecewright.planning.uses import cuts_among, is_border, one_block, plural
from piecewright.sewing.stations import Station


def made_blocks(job: Job) -> list[tuple[str, Thing]]:
    """Every block of the design by its name, and the thing it became: joined of parts, or a whole unit."""
    things = [(job.design.block[key].name, job.things[name]) for key, name in job.blocks.items()]
    return [(name, thing) for name, thing in things if job.counts[thing.name]]


def joining(job: Job) -> tuple[Part, ...]:
    """How rows and the centre are joined; blocks are told by `tell_piecing`."""
    top = [
        t
        for t in job.things.values()
        if isinstance(t, Joined) and t.station in (Station.ROW, Station.TOP) and not is_border(t)
    ]
    rows = [thing for thing in top if thing.station is Station.ROW and job.counts[thing.name]]
    centre = [thing for thing in top if thing.station is Station.TOP and job.counts[thing.name]]
    return (*(_row_part(job, row) for row in rows), *(_centre_part(job, thing) for thing in centre))


def _row_part(job: Job, row: Joined) -> Part:
    """One kind of row, with its picture from left to right."""
    return Part(
        name=_titled(row.name),
        count=f"make {job.counts[row.name]}",
        says=("Lay it out as in the picture, blocks turned as shown; join from left to right.",),
        picture=Picture(
            svg=joining_svg(as_drawn(job, row), palette_of(job.design), row.name, levels=1),
            words=f"joining {row.name}",
        ),
        sizes=(ExpectedSize(what="unfinished", size=size_of(row.size, job.design.unit)),),
    )


def _centre_part(job: Job, thing: Joined) -> Part:
    names = [part.name for part in thing.parts for _ in range(part.count)]
    return Part(
        name=_titled(thing.name),
        says=("Join from the bottom row up; pin where seams meet, and let them lock.",),
        steps=(f"From bottom to top: {in_turn(names)}.",),
        sizes=(ExpectedSize(what="measured through the middle", size=size_of(thing.size, job.design.unit)),),
    )


def _titled(name: str) -> str:
    return name[0].upper() + name[1:]


def borders(job: Job) -> tuple[Part, ...]:
    """Borders and long sashes: reserved, cut long, trimmed to the measured top, sewn on."""
    parts = [
        _lengths_part(job, t) if isinstance(t, Lengths) else _lengthwise_part(job, t)
        for t in job.things.values()
        if isinstance(t, Lengths | CutLong) and job.counts[t.name]
    ]
    on = [t for t in job.things.values() if isinstance(t, Joined) and is_border(t) and job.counts[t.name]]
    if on:
        parts.append(
            Part(
                name="Sewing the borders on",
                says=("Measure the top through the middle, not along its edge, before each pair.",),
                steps=tuple(_sewn_on(job, number, thing) for number, thing in enumerate(on)),
            )
        )
    return tuple(parts)


def _sewn_on(job: Job, number: int, thing: Joined) -> str:
    """One pair of border strips; every border is sewn on in two pairs."""
    border = job.design.borders[number // 2]
    sides = (border.order == "sides first") == (number % 2 == 0)
    pair = "the two sides" if sides else "top and bottom"
    ends = ("left", "right") if sides else ("bottom", "top")
    strip = next(
        job.things[p.name] for p in thing.parts if isinstance(job.things[p.name], OfLength | CutLong)
    )
    first, last = (job.pressings.towards(seamed.seam) for seamed in (thing.seams[0], thing.seams[-1]))
    ways = ["outwards" if out else "towards the middle" for out in (first == "first", last == "second")]
    press = ways[0] if ways[0] == ways[1] else f"{ends[0]} {ways[0]}, {ends[1]} {ways[1]}"
    unit = job.design.unit
    length = show_float(max(strip.cloth.size), unit)
    return (
        f"Border {number // 2 + 1}, {border.role}: {pair}, each {length} long. "
        f"Press {press}. The top should measure "
        f"{size_of(thing.size, unit)} now."
    )


def _lengths_part(job: Job, thing: Lengths) -> Part:
    unit = job.design.unit
    count = job.counts[thing.name]
    cut: dict[tuple[str, str], int] = {}
    for piece in thing.gives:
        key = (show(piece.cut, unit), show(piece.exact, unit))
        cut[key] = cut.get(key, 0) + count
    steps = []
    if thing.strips > 1:
        steps.append(f"Join {thing.strips} strips end to end with straight seams, and press the seams open.")
    for (long, exact), number in cut.items():
        steps.append(
            f"Cut {number} {'length' if number == 1 else 'lengths'} {long}; trim to {exact}, "
            "or to what your top measures through the middle."
        )
    strip = job.things[thing.strip]
    assert isinstance(strip, Cut)
    return Part(
        name=f"Long strips of {strip.fabric}, {show(strip.height, unit)} wide",
        count=f"from {thing.strips * count} strips",
        steps=tuple(steps),
    )


def _lengthwise_part(job: Job, thing: CutLong) -> Part:
    unit, count = job.design.unit, job.counts[thing.name]
    exact, long = show(thing.piece.exact, unit), show(thing.piece.cut, unit)
    strips = "strip" if count == 1 else "strips"
    return Part(
        name=f"Lengthwise strips of {thing.fabric}, {show(thing.piece.height, unit)} wide",
        count=f"{count} {strips}",
        steps=(
            f"The {count} {strips} cut {long} along the selvedge, in one piece: trim to {exact}, "
            "or to what your top measures through the middle.",
        ),
    )


def trial_block(job: Job) -> Part | None:
    """One block of each kind, made first: what to cut for it, what to make, what it should measure."""
    made = made_blocks(job)
    if not made:
        return None
    lines: list[CutLines] = []
    steps: list[str] = []
    for called, block in made:
        counts = one_block(job.things, block.name)
        for fabric, cuts in cuts_among(job.things, counts).items():
            told = tuple(count_of(job, cut.name, number) for cut, number in cuts)
            lines.append(CutLines(cut=f"for one {called}, from {fabric}", then=(", ".join(told),)))
        for name, number in counts.items():
            thing = job.things[name]
            if isinstance(thing, UnitThing):
                steps.append(_test_unit(job, thing, number))
            elif isinstance(thing, Shaped):
                steps.append(f"Cut {number} {thing.name}: {method_words(thing)}.")
        if isinstance(block, Joined):
            steps.append(f"Join them into one {called} (see joining), press, and measure it.")
        else:
            steps.append(f"That is one {called}: press, and measure it.")
    return Part(
        name="One of each block, before the rest is cut",
        says=(
            "If it does not measure what it should, mend the seam now; the rest of the cloth is still whole.",
        ),
        lines=tuple(lines),
        steps=tuple(steps),
        sizes=tuple(
            ExpectedSize(what=f"{called}, unfinished", size=size_of(_size(block), job.design.unit))
            for called, block in made
        ),
    )


def _size(block: Thing) -> tuple[float, float]:
    return block.size if isinstance(block, Joined) else block.cloth.size


def _test_unit(job: Job, thing: UnitThing, number: int) -> str:
    recipe = thing.recipe
    made = recipe.batches(number) * recipe.method.makes
    over = f" ({made - number} go to the next block)" if made > number else ""
    hand = f"{hand_of(recipe.unit)}-hand " if hand_of(recipe.unit) else ""
    kind = f"{hand}{name_of(recipe.unit.kind)}"
    fabrics = " and ".join(dict.fromkeys(recipe.unit.fabrics))
    words = (
        f"{made} {kind if made == 1 else plural(kind)} of {fabrics}, {size_words(recipe, job.design.unit)}"
    )
    return f"Make {words}: {recipe.method.name}{over}."
