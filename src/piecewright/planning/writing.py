"""Writing the steps: cutting first, then every thing in the order of the stations."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

import msgspec

from piecewright.bench.steps import (
    AnyStep,
    Close,
    CutApart,
    CutStrips,
    Gather,
    Join,
    JoinEnds,
    JoinPart,
    Press,
    Pressing,
    Ruled,
    TrueUp,
)
from piecewright.cutting.layout import Layout
from piecewright.cutting.on_the_bench import subcut_of
from piecewright.geometry.polygon import bounds
from piecewright.measure.showing import figure
from piecewright.methods.foundation.steps import foundation_steps
from piecewright.methods.recipe import written_for
from piecewright.planning.counting import makings
from piecewright.planning.cut_long import CutLong, lengthwise_step
from piecewright.planning.motif import CutDown, motif_step
from piecewright.planning.pressing_plan import Pressings
from piecewright.planning.shape_steps import shape_step
from piecewright.planning.things import (
    Backed,
    Bound,
    Gathered,
    Joined,
    Lengths,
    PaperSection,
    Shaped,
    Thing,
    UnitThing,
)
from piecewright.workroom.workroom import Workroom


def cutting_steps(layouts: Iterable[Layout], workroom: Workroom) -> list[AnyStep]:
    """Strips and subcuts of every cloth, in the order of its layout."""
    steps: list[AnyStep] = []
    for layout in layouts:
        for number, (height, patterns) in enumerate(layout.by_height, 1):
            strip = f"{layout.key} strips {figure(height, workroom.unit)} cut {number}"
            count = sum(pattern.times for pattern in patterns)
            steps.append(CutStrips(fabric=layout.key, height=height, count=count, gives=strip))
            steps += [subcut_of(strip, pattern, pattern.times) for pattern in patterns]
    return steps


def sewing_steps(
    things: Sequence[Thing], counts: Mapping[str, int], pressings: Pressings, workroom: Workroom
) -> list[AnyStep]:
    """The steps of all shaped and sewn things, station by station."""
    steps: list[AnyStep] = []
    by_name = {thing.name: thing for thing in things}
    for thing in sorted(things, key=lambda t: t.station):
        if isinstance(thing, UnitThing):
            batches = makings(by_name, counts, thing.name)
            steps += _unit_steps(thing, batches, pressings, workroom) if batches else []
        elif isinstance(thing, Gathered):
            takes = tuple(name for name, _ in thing.sources if counts[name])
            steps += [Gather(pile=thing.name, takes=takes)] if takes else []
        elif counts[thing.name]:
            steps += _steps_of(thing, counts[thing.name], pressings, workroom)
    return steps


def _steps_of(thing: Thing, count: int, pressings: Pressings, workroom: Workroom) -> list[AnyStep]:
    if isinstance(thing, CutDown):
        return [motif_step(thing, count, workroom)]
    if isinstance(thing, Shaped):
        return [shape_step(thing, count, workroom)]
    if isinstance(thing, PaperSection):
        return list(foundation_steps(thing.section, thing.scraps, thing.name, count))
    if isinstance(thing, Joined):
        return _join_steps(thing, count, pressings)
    if isinstance(thing, CutLong):
        return [lengthwise_step(thing)]
    if isinstance(thing, Lengths):
        return _length_steps(thing, count)
    if isinstance(thing, Bound):
        return [
            JoinEnds(takes=thing.strip, count=thing.strips, gives=thing.name, times=count, expect=thing.size),
            *([_open(thing.name, [f"{thing.name}.0"])] if thing.strips > 1 else []),
        ]
    if isinstance(thing, Backed):
        parts = tuple(JoinPart(name=n, entry=(3,), exit=(1,), count=c) for n, c in thing.needs)
        join = Join(parts=parts, gives=thing.name, times=count, expect=thing.cloth.size)
        return [join, _open(thing.name, [f"{thing.name}.{k}" for k in range(thing.panels - 1)])]
    return []


def _unit_steps(thing: UnitThing, batches: int, pressings: Pressings, workroom: Workroom) -> list[AnyStep]:
    pieces = tuple(name for name, _ in thing.needs)
    steps = written_for(thing.recipe, pieces, thing.name, batches, workroom)
    if thing.recipe.method.pressed_as_written:
        return list(steps)
    own = next((seam.name for seam in thing.cloth.own_seams), "")
    towards = pressings.towards(own)
    return [
        msgspec.structs.replace(step, seams=tuple(Pressing(p.seam, (towards,)) for p in step.seams))
        if isinstance(step, Press)
        else step
        for step in steps
    ]


def _join_steps(thing: Joined, count: int, pressings: Pressings) -> list[AnyStep]:
    joins = [seamed for seamed in thing.seams if not (thing.closes and seamed is thing.seams[-1])]
    nests, clashes = pressings.nesting_of([pair for seamed in joins for pair in seamed.pairs])
    step = Join(
        parts=thing.parts,
        gives=thing.name,
        times=count,
        expect=None if thing.closes or thing.part_sewn else thing.cloth.size,
        nests=nests,
        clashes=clashes,
        part_sewn=thing.part_sewn,
    )
    steps: list[AnyStep] = [step, _pressed(thing.name, [seamed.seam for seamed in joins], pressings)]
    if thing.closes:
        nests, clashes = pressings.nesting_of(thing.seams[-1].pairs)
        steps.append(Close(pile=thing.name, sides=thing.closes, nests=nests, clashes=clashes))
        steps.append(_pressed(thing.name, [thing.seams[-1].seam], pressings))
    return steps


def _pressed(pile: str, seams: list[str], pressings: Pressings) -> Press:
    told = [pressings.pressing(seam) for seam in seams]
    return Press(
        pile=pile,
        seams=tuple(pressing for pressing, _ in told),
        changes=tuple(change for _, changes in told for change in changes),
    )


def _length_steps(thing: Lengths, count: int) -> list[AnyStep]:
    steps: list[AnyStep] = []
    pile = thing.strip
    if thing.strips > 1:
        part = JoinPart(name=thing.strip, entry=(3,), exit=(1,), count=thing.strips)
        steps.append(Join(parts=(part,), gives=thing.name, times=count, expect=thing.cloth.size))
        steps.append(_open(thing.name, [f"{thing.name}.{k}" for k in range(thing.strips - 1)]))
        pile = thing.name
    height = float(thing.gives[0].height)
    at, lines = 0.0, []
    for piece in thing.gives:
        at += float(piece.cut)
        lines.append(Ruled(at, 0.0, at, height))
    whole = bounds(thing.cloth.raw)[2]
    names = tuple(piece.name for piece in thing.gives)
    rest = ("",) if whole - at > 1e-6 else ()
    steps.append(CutApart(takes=pile, cut=tuple(lines), gives=(*names, *rest), times=count))
    steps += [
        TrueUp(pile=piece.name, landmark="edges", width=piece.exact, height=piece.height, by="trim")
        for piece in thing.gives
    ]
    return steps


def _open(pile: str, seams: list[str]) -> Press:
    """Seams of strips joined end to end are pressed open, so that they lie flat."""
    return Press(pile=pile, seams=tuple(Pressing(seam, ("open",)) for seam in seams))
