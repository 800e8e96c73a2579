"""The sheet's words and pictures on pressing: every block and every kind of row, front, back, and layers."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from piecewright.bench.cloth import Cloth
from piecewright.drawing.layers import layers_svg
from piecewright.drawing.palette import palette_of
from piecewright.drawing.pressing import back_svg, pressing_svg
from piecewright.drawing.second_map import second_map_svg
from piecewright.handout.sheet import Picture, Pressing
from piecewright.handout.stages import letters_of, stages_of
from piecewright.handout.towards_words import towards_words
from piecewright.planning.iron_facts import iron_advice
from piecewright.planning.job import Job
from piecewright.planning.things import Joined, Thing
from piecewright.planning.uses import is_border
from piecewright.planning.where_to_pin import pressed_round, spun, to_pin
from piecewright.pressing.bulk import layers_of
from piecewright.pressing.joints import SECOND
from piecewright.problems import Problem
from piecewright.sewing.stations import Station

FIRST = ", first pressing"

SMALL_WIDTH = 138.0
"""How wide each of three views beside one another is drawn, in points."""


def pressing(job: Job) -> tuple[Pressing, ...]:
    """The pressing of every block, and of every kind of row; two pressings of a block are one entry."""
    joined = [thing for thing in job.things.values() if isinstance(thing, Joined) and job.counts[thing.name]]
    blocks = [thing for thing in joined if thing.station is Station.BLOCK]
    rows = [thing for thing in joined if thing.station in (Station.ROW, Station.TOP) and not is_border(thing)]
    names = {block.name for block in blocks}
    firsts = [block for block in blocks if block.name.removesuffix(SECOND) not in names - {block.name}]
    return (*(_block(job, block) for block in firsts), *(_row(job, row) for row in rows))


def iron(job: Job) -> tuple[str, ...]:
    """Advice for whoever presses, chosen by what is in the plan."""
    return iron_advice(job.things, job.counts, job.pressings, job.design.unit)


def as_drawn(job: Job, thing: Joined) -> Cloth:
    """A pressed thing, turned as it lies in the quilt."""
    return job.pressed[thing.name].placed(thing.lies)


def _block(job: Job, block: Joined) -> Pressing:
    other = job.things.get(block.name + SECOND)
    told = _pressed(job, block, FIRST if other else "")
    if job.second is None or not isinstance(other, Joined):
        return told
    setting = job.design.setting
    where = second_map_svg(setting.across, setting.down, job.second.answer.second)
    return replace(
        told,
        says=(*told.says, *_second_words(job, block)),
        second=_pressed(job, other, SECOND),
        places=Picture(svg=where, words="where each of two pressings goes"),
    )


def _pressed(job: Job, block: Joined, which: str) -> Pressing:
    cloth, palette = as_drawn(job, block), palette_of(job.design)
    inside = _inside(job, block)
    name = block.name.removesuffix(SECOND) + which
    return Pressing(
        name=name,
        count=f"make {job.counts[block.name]}",
        picture=Picture(
            svg=pressing_svg(cloth, palette, name, SMALL_WIDTH, raw=True),
            words=f"which way the seams of {name} are pressed, seen from the front",
            caption="seen from the front",
        ),
        back=Picture(
            svg=back_svg(cloth, palette, name, SMALL_WIDTH),
            words=f"how the allowances of {name} lie, seen from the back",
            caption="seen from the back",
        ),
        layers=Picture(
            svg=layers_svg(cloth, name, SMALL_WIDTH),
            words=f"how many layers of cloth lie where in {name}",
            caption=f"layers of cloth, {layers_of(cloth).most} at most",
        ),
        says=tuple(_sentence(note) for note in _marked(job) if note.where in inside),
        towards=_by_stages(job, block),
        not_nesting=_pins(job, inside),
    )


def _marked(job: Job) -> Iterable[Problem]:
    """Spun centres, and those of six seams and more that are pressed one way round."""
    asked = job.things, job.counts, job.pressings, job.design.unit
    return (*spun(*asked), *pressed_round(*asked))


def _pins(job: Job, inside: Iterable[str]) -> tuple[str, ...]:
    within = set(inside)
    notes = to_pin(job.things, job.counts, job.pressings, job.design.unit)
    return tuple(_sentence(note) for note in notes if note.where in within)


def _sentence(note: Problem) -> str:
    words = f"{note.what} {note.do}"
    return words[0].upper() + words[1:]


def _second_words(job: Job, block: Joined) -> tuple[str, ...]:
    """How many are pressed each way, where each goes, and how to tell them apart."""
    second = job.second
    if second is None or block.name not in second.counts:
        return ()
    first, other = second.counts[block.name]
    rule = second.answer.rule or "as the map shows"
    return (
        f"Press {first} the first way and {other} the second; the second go to {rule}.",
        "Put a pin in the same corner of every block of the second pressing until it is joined.",
    )


def _by_stages(job: Job, block: Joined) -> tuple[tuple[str, str], ...]:
    """For every thing that is sewn in a block, by its letter, towards what its seams go."""
    stages = stages_of(job.things, block)
    letters = letters_of(stages)
    return tuple(
        (letters.get(sewn[-1].name, sewn[-1].name.removesuffix(SECOND)), towards_words(job, sewn, letters))
        for sewn in stages
    )


def _row(job: Job, row: Joined) -> Pressing:
    order = "from bottom to top" if row.station is Station.TOP else "in the order of the row"
    return Pressing(
        name=row.name[0].upper() + row.name[1:],
        count=f"make {job.counts[row.name]}",
        says=(f"Press the seams, {order}: {towards_words(job, [row])}.",),
        not_nesting=_pins(job, [row.name]),
    )


def _inside(job: Job, thing: Thing) -> list[str]:
    """The names of all sub-assemblies in a thing, and its own, last."""
    names: dict[str, None] = {}
    for needed, _ in thing.needs:
        inner = job.things[needed]
        if isinstance(inner, Joined) and inner.station is Station.ASSEMBLY:
            names |= dict.fromkeys(_inside(job, inner))
    return [*names, thing.name]
