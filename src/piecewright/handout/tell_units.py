"""The sheet's words on units: the way taken, from what, how many at a time, what each should measure."""

from __future__ import annotations

from piecewright.drawing.method import method_svg
from piecewright.drawing.palette import palette_of
from piecewright.drawing.truing import LANDMARK_WORDS
from piecewright.handout.sheet import ExpectedSize, Picture, UnitMaking
from piecewright.handout.tell_cloth import count_of
from piecewright.measure.length import Length, Unit
from piecewright.measure.showing import figure, figure_float, show, show_exact, show_float
from piecewright.methods.effort import cost_of, effort_of
from piecewright.methods.kinds import name_of
from piecewright.methods.recipe import Recipe
from piecewright.planning.counting import makings
from piecewright.planning.job import Job
from piecewright.planning.things import UnitThing
from piecewright.planning.uses import plural, uses_of


def units(job: Job) -> tuple[UnitMaking, ...]:
    """A card for every kind of unit, in the order of the work."""
    found = [t for t in job.things.values() if isinstance(t, UnitThing) and job.counts[t.name]]
    return tuple(_unit(job, thing) for thing in found)


def _unit(job: Job, thing: UnitThing) -> UnitMaking:
    recipe, unit = thing.recipe, job.design.unit
    count = job.counts[thing.name]
    batches = makings(thing, count)
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
        pressing=_pressing(job, thing),
        more=tuple(f"{r.method.name}: {_compared(job, r, recipe, count)}" for r in thing.others[1:]),
        sums=_sums(job, thing, count, batches),
    )


def _title(recipe: Recipe, unit: Unit) -> str:
    kind = plural(name_of(recipe.unit.kind)).capitalize()
    return f"{kind}, {size_words(recipe, unit)} finished: {' and '.join(recipe.unit.fabrics)}"


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
    seam = thing.cloth.own_seams[0].name
    first, second = thing.recipe.unit.fabrics
    cloth = first if job.pressings.towards(seam) == "first" else second
    if thing.recipe.unit.kind == "geese":
        outwards = cloth == second
        return "Press away from the point, to the corners." if outwards else "Press towards the point."
    if any("either" in s.pressed for s in thing.cloth.own_seams):
        return (
            f"Press the first seams towards {cloth}; the last seam lies either way, half of the units each."
        )
    return f"Press towards {cloth}."


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


def _sums(job: Job, thing: UnitThing, count: int, batches: int) -> tuple[str, ...]:
    recipe, unit = thing.recipe, job.design.unit
    raw = _raw(recipe, unit, job.workroom.take_up)
    finished = size_words(recipe, unit)
    take_up = show(job.workroom.take_up, unit)
    sums = [f"{finished} finished + 2 x {take_up} seam = {raw} unfinished"]
    for number, (exact, cut) in enumerate(zip(recipe.sizing.exact, recipe.sizing.cut, strict=True)):
        name = "start" if len(recipe.sizing.exact) == 1 else ("first size", "second size")[number]
        sums.append(f"{name}: {show_exact(exact, unit)} is exact, found on the bench; cut {show(cut, unit)}")
    per = recipe.method.makes
    sums.append(f"{count} / {per} at a time = {batches} {'batch' if batches == 1 else 'batches'}")
    sums.append(f"they go into: {', '.join(uses_of(job.things, thing.name))}")
    minutes, weighed = effort_of(recipe, count, job.workroom).minutes, cost_of(recipe, count, job.workroom)
    sums.append(f"about {minutes:.0f} minutes; weighed with cloth and bias: {weighed:.0f}")
    return tuple(sums)
