"""The sheet's words on units: the way taken, from what, how many at a time, what each should measure."""

from __future__ import annotations

from piecewright.design.kinds import kind_of
from piecewright.drawing.method import method_svg
from piecewright.drawing.palette import palette_of
from piecewright.drawing.truing import LANDMARK_WORDS
from piecewright.handout.sheet import ExpectedSize, Picture, SizeVerdicts, UnitMaking
from piecewright.handout.standing import Verdict
from piecewright.handout.tell_cloth import count_of
from piecewright.handout.tell_pieces import pieces
from piecewright.measure.length import Length, Unit
from piecewright.measure.showing import figure, figure_float, show, show_exact, show_float
from piecewright.methods.effort import cost_of, effort_of
from piecewright.methods.kinds import name_of
from piecewright.methods.recipe import Recipe
from piecewright.methods.verdicts import verdict_tables
from piecewright.piecing.looks import hand_of
from piecewright.planning.counting import makings
from piecewright.planning.job import Job
from piecewright.planning.things import UnitThing
from piecewright.planning.uses import plural, uses_of
from piecewright.workroom.workroom import Workroom

MOST_TOLD = 3
ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth")

SIDES = {"size": "", "width": " wide", "height": " high"}


def units(job: Job) -> tuple[UnitMaking, ...]:
    """A card for every pile of shaped pieces and for every kind of unit, in the order of the work."""
    made = [t for t in job.things.values() if isinstance(t, UnitThing)]
    found = [thing for thing in made if makings(job.things, job.counts, thing.name)]
    return (*pieces(job), *(_unit(job, thing) for thing in found))


def _unit(job: Job, thing: UnitThing) -> UnitMaking:
    recipe, unit = thing.recipe, job.design.unit
    count = job.counts[thing.name]
    batches = makings(job.things, job.counts, thing.name)
    over = batches * recipe.method.makes - count
    other = thing.others[0] if thing.others else None
    return UnitMaking(
        name=_title(recipe, unit),
        count=f"make {count}" + (f" ({over} over)" if over else ""),
        method=recipe.method.name + (" (pinned)" if thing.pinned else ""),
        reason=recipe.method.reason,
        alternative=other.method.name if other else "",
        alternative_reason=_compared(job, other, recipe, count) if other else "",
        starts=tuple(
            count_of(job, name, each * batches) + f" of {_fabric(job, name)}" for name, each in thing.needs
        ),
        pictures=(
            Picture(
                svg=method_svg(recipe, job.workroom, palette_of(job.design), unit), words=recipe.method.name
            ),
        ),
        steps=(*recipe.method.says, *_truing(recipe, unit)),
        sizes=_sizes(recipe, unit),
        measured=size_verdicts(recipe, job.workroom, unit),
        pressing=_pressing(job, thing),
        more=_more(job, thing, count),
        sums=_sums(job, thing, count, batches),
    )


def _more(job: Job, thing: UnitThing, count: int) -> tuple[str, ...]:
    """A few further ways with what they cost; of all others the names."""
    told, named = thing.others[1 : 1 + MOST_TOLD], thing.others[1 + MOST_TOLD :]
    lines = [f"{r.method.name}: {_compared(job, r, thing.recipe, count)}" for r in told]
    return (*lines, f"also: {', '.join(r.method.name for r in named)}") if named else tuple(lines)


def _title(recipe: Recipe, unit: Unit) -> str:
    hand = f"{hand_of(recipe.unit)}-hand " if hand_of(recipe.unit) else ""
    kind = f"{hand}{plural(name_of(recipe.unit.kind))}".capitalize()
    return f"{kind}, {size_words(recipe, unit)} finished: {' and '.join(dict.fromkeys(recipe.unit.fabrics))}"


def size_words(recipe: Recipe, unit: Unit) -> str:
    """The finished size in words: `2 in`, `4 x 2 in`."""
    width, height = recipe.unit.width, recipe.unit.height
    return show(width, unit) if width == height else f"{figure(width, unit)} x {show(height, unit)}"


def _fabric(job: Job, name: str) -> str:
    return str(getattr(job.things[name], "fabric", ""))


def _raw(recipe: Recipe, unit: Unit, take_up: Length) -> str:
    width, height = recipe.unit.raw(take_up)
    return show(width, unit) if width == height else f"{figure(width, unit)} x {show(height, unit)}"


def _sizes(recipe: Recipe, unit: Unit) -> tuple[ExpectedSize, ...]:
    after = size_of(recipe.cloth.size, unit)
    if recipe.sizing.truing == "none":
        return (ExpectedSize(what="each unit", size=after),)
    before = ExpectedSize(what="before truing up", size=size_of(recipe.sizing.before, unit))
    what = "after trimming" if recipe.sizing.truing == "trim" else "counts as (ease in the rest)"
    return (before, ExpectedSize(what=what, size=after))


def size_verdicts(recipe: Recipe, workroom: Workroom, unit: Unit) -> tuple[SizeVerdicts, ...]:
    """The verdicts on what a unit may measure before it is trued up, the figures in the design's unit.

    A unit that is no rectangle has none: a ruler laid along its width says nothing of its sides.
    """
    if not recipe.unit.is_rectangle:
        return ()
    return tuple(
        SizeVerdicts(
            side=f"{unit}{SIDES[table.side]}",
            verdicts=tuple(
                Verdict(verdict=row.verdict, when=row.sizes(unit).replace(f" {unit}", ""))
                for row in table.rows
            ),
        )
        for table in verdict_tables(recipe, workroom)
    )


def size_of(size: tuple[float, float], unit: Unit) -> str:
    """A raw size in words, square or not."""
    width, height = size
    if abs(width - height) < 1e-3:
        return show_float(width, unit)
    return f"{figure_float(width, unit)} x {figure_float(height, unit).removeprefix('about ')} {unit}"


def _truing(recipe: Recipe, unit: Unit) -> tuple[str, ...]:
    if recipe.sizing.truing == "trim":
        size = size_of(recipe.cloth.size, unit)
        return (f"True up: {LANDMARK_WORDS[recipe.method.landmark]}; trim to {size}.",)
    return ()


def _pressing(job: Job, thing: UnitThing) -> str:
    recipe, fabrics = thing.recipe, thing.recipe.unit.fabrics
    if recipe.method.pressed_as_written or not thing.cloth.own_seams:
        return "Press as the steps say." if thing.cloth.seams else ""
    to_first = job.pressings.towards(thing.cloth.own_seams[0].name) == "first"
    if any("either" in s.pressed for s in thing.cloth.own_seams):
        cloth = fabrics[0] if to_first else fabrics[-1]
        return (
            f"Press the first seams towards {cloth}; the last seam lies either way, half of the units each."
        )
    if kind_of(recipe.unit.kind).outwards:
        if recipe.unit.kind == "geese":
            return "Press towards the point." if to_first else "Press away from the point, to the corners."
        return f"Press inwards, to {fabrics[0]}." if to_first else f"Press outwards, away from {fabrics[0]}."
    if len(set(fabrics)) > 2:
        return "Press all seams towards the cloth that was laid on " + ("below." if to_first else "top.")
    return f"Press towards {fabrics[0] if to_first else fabrics[-1]}."


def _compared(job: Job, other: Recipe, taken: Recipe, count: int) -> str:
    """What the other way would cost, beside the one that is taken."""
    cloth = other.cloth_area * other.batches(count) / (taken.cloth_area * taken.batches(count)) - 1
    minutes = effort_of(other, count, job.workroom).minutes - effort_of(taken, count, job.workroom).minutes
    less, more = ("less", "more")
    told = (
        [f"{abs(cloth):.0%} {more if cloth > 0 else less} cloth"] if abs(cloth) >= 0.01 else ["as much cloth"]
    )
    told.append(f"about {abs(minutes):.0f} minutes {more if minutes > 0 else less}")
    return f"{other.method.reason} ({', '.join(told)})"


def _numbered(number: int) -> str:
    return f"{ORDINALS[number]} size" if number < len(ORDINALS) else f"size {number + 1}"


def _sums(job: Job, thing: UnitThing, count: int, batches: int) -> tuple[str, ...]:
    recipe, unit = thing.recipe, job.design.unit
    raw = _raw(recipe, unit, job.workroom.take_up)
    finished = size_words(recipe, unit)
    take_up = show(job.workroom.take_up, unit)
    sums = [f"{finished} finished + 2 x {take_up} seam = {raw} unfinished"]
    for number, (exact, cut) in enumerate(zip(recipe.sizing.exact, recipe.sizing.cut, strict=True)):
        name = "start" if len(recipe.sizing.exact) == 1 else _numbered(number)
        sums.append(f"{name}: {show_exact(exact, unit)} is exact, found on the bench; cut {show(cut, unit)}")
    per = recipe.method.makes
    sums.append(f"{count} / {per} at a time = {batches} {'batch' if batches == 1 else 'batches'}")
    sums.append(f"they go into: {', '.join(uses_of(job.things, thing.name))}")
    minutes, weighed = effort_of(recipe, count, job.workroom).minutes, cost_of(recipe, count, job.workroom)
    sums.append(f"about {minutes:.0f} minutes; weighed with cloth and bias: {weighed:.0f}")
    return tuple(sums)
