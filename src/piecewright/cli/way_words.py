"""A way to make units in words and figures, as the command line shows it."""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.batches.on_hand import Answer
from piecewright.measure.length import MM_PER_INCH, Length, Unit
from piecewright.measure.showing import figure, show, show_exact
from piecewright.methods.comparing import MadeFrom, Pair, Way
from piecewright.methods.kinds import name_of
from piecewright.methods.marking import Drawn, markings
from piecewright.methods.recipe import Recipe
from piecewright.workroom.workroom import Workroom

MM_PER_CM = 10


def lengths(width: Length, height: Length, unit: Unit) -> str:
    """A size in words: `8 in`, `60 x 72 in`."""
    return show(width, unit) if width == height else f"{figure(width, unit)} x {show(height, unit)}"


def title_of(way: Way, unit: Unit) -> str:
    """What is wanted: `Half-square triangle, 2 in finished, 2 1/2 in unfinished: 48 wanted`."""
    wanted = way.recipe.unit
    name = name_of(wanted.kind)
    finished = lengths(wanted.width, wanted.height, unit)
    raw = lengths(*way.unfinished, unit)
    return f"{name[0].upper()}{name[1:]}, {finished} finished, {raw} unfinished: {way.count:,} wanted"


def way_rows(ways: Sequence[Way], unit: Unit) -> list[tuple[str, ...]]:
    """A row for every figure, a column for every way."""
    columns = [_figures(way, unit) for way in ways]
    return [(label, *(column[label] for column in columns)) for label in columns[0]]


def batch_words(way: Way, unit: Unit) -> str:
    """What is made, in a sentence: `6 batches, each from 1 square 5 3/4 in of each fabric`."""
    return batches_words(way.recipe, way.batches, unit)


def batches_words(recipe: Recipe, count: int, unit: Unit) -> str:
    """The same for so many batches of a recipe."""
    batches = "1 batch," if count == 1 else f"{count:,} batches, each"
    return f"{batches} from {starts_of(recipe, unit)}"


def mix_words(mix: Sequence[tuple[Recipe, int]]) -> str:
    """Ways taken together: `16 units eight at a time and 4 two at a time`."""
    told = [f"{batches * recipe.method.makes:,} {recipe.method.name}" for recipe, batches in mix]
    return " and ".join(told)


def hand_lines(answer: Answer, count: int, unit: Unit) -> list[str]:
    """What to make from which pieces on hand, a sentence each, and what is over."""
    lines = []
    for part in answer.parts:
        recipe = part.recipe
        sizes = recipe.start_sizes()
        cut = [
            f"{recipe.method.starts[k].count * part.batches:,} of {lengths(*sizes[k], unit)} from "
            f"{pieces:,} {'piece' if pieces == 1 else 'pieces'} {lengths(stock.width, stock.height, unit)}"
            for k, (stock, pieces) in enumerate(zip(part.stock, part.pieces, strict=True))
        ]
        made = part.batches * recipe.method.makes
        lines.append(f"{made:,} units {recipe.method.name}: cut {'; '.join(cut)}")
    over = answer.made - count
    return [*lines, f"{over:,} over"] if over else lines


def made_from_words(made: MadeFrom, unit: Unit) -> str:
    """What a way makes from given sizes, and what to do: a sentence."""
    better = f"start from {starts_of(made.recipe, unit)}"
    name = made.recipe.method.name
    if made.size is None:
        return f"{name}: no unit comes off; {better}"
    size, off = _computed(made.size, unit), show_exact(abs(made.off), unit)
    told = {
        "short": f"the units come out {off} short; {better}",
        "as wanted": "that is as wanted",
        "ease": f"{off} over, which is eased in",
        "sliver": f"{off} over, too little to trim well and too much to ease in; {better}",
        "over": f"{off} over, which is trimmed away; {better} to lose less",
        "no such unit": f"large enough, but the seams lie in the wrong places; {better}",
    }
    return f"{name}: measures {size} {unit}: {told[made.standing]}"


def marking_lines(recipe: Recipe, workroom: Workroom, unit: Unit) -> list[str]:
    """How its lines may be marked: the cutting lines, or the sewing lines; nothing where none are."""
    if recipe.method.printed:
        return []
    told: dict[str, tuple[str, ...]] = {}
    ways: tuple[Drawn, ...] = ("cutting", "sewing")
    for drawn in ways:
        found = [one.says for one in markings(recipe, drawn, workroom, unit) if one.lines]
        if found:
            told[drawn] = found[0]
    heads = ("To mark", "Or mark the sewing lines")
    return [f"{head}: {' '.join(says)}" for head, says in zip(heads, told.values(), strict=False)]


def starts_of(recipe: Recipe, unit: Unit) -> str:
    """The starts of a batch: `1 square 2 7/8 in of each fabric`, `1 square 5 1/4 in, 4 squares 2 7/8 in`."""
    starts = _counted(recipe)
    each = " of each fabric" if len(starts) > 1 and len(set(starts)) == 1 else ""
    told = []
    for width, height, count in dict.fromkeys(starts):
        shape = "square" if width == height else "rectangle"
        told.append(f"{count} {shape}{'' if count == 1 else 's'} {lengths(width, height, unit)}{each}")
    return ", ".join(told)


def _figures(way: Way, unit: Unit) -> dict[str, str]:
    recipe, effort = way.recipe, way.effort
    over = f", {way.left_over} over" if way.left_over else ""
    return {
        "at a time": f"{recipe.method.makes}",
        f"start, exact ({unit})": _exact_starts(way, unit),
        f"start, as cut ({unit})": _short_starts(recipe, unit),
        "batches": f"{way.batches:,}{over}",
        f"before truing ({unit})": _computed(recipe.sizing.before, unit),
        "truing": recipe.sizing.truing,
        "bias edges": f"{recipe.bias_edges}",
        f"cloth (sq {unit})": _area(way.cloth, unit),
        f"offcuts (sq {unit})": _area(way.offcuts, unit),
        "seams": f"{effort.seams:,}",
        "cuts": f"{effort.cuts:,}",
        "minutes": f"{effort.minutes:,.0f}" if effort.minutes >= 1 else "under 1",
    }


def _counted(recipe: Recipe) -> list[tuple[Length, Length, int]]:
    sizes = zip(recipe.start_sizes(), recipe.method.starts, strict=True)
    return [(width, height, start.count) for (width, height), start in sizes]


def _short_starts(recipe: Recipe, unit: Unit) -> str:
    """The same, short: `2 of 2 7/8`, `1 of 4 1/2 x 2 1/2, 2 of 2 1/2`."""
    counts: dict[tuple[Length, Length], int] = {}
    for width, height, count in _counted(recipe):
        counts[width, height] = counts.get((width, height), 0) + count
    return ", ".join(
        f"{count} of {lengths(*size, unit).removesuffix(f' {unit}')}" for size, count in counts.items()
    )


def _exact_starts(way: Way, unit: Unit) -> str:
    return ", ".join(dict.fromkeys(_computed((width, height), unit) for width, height, _ in way.start_exact))


def _computed(size: Pair, unit: Unit) -> str:
    """A computed size: `2.5214`, `4.5429 x 2.5214`."""
    width, height = (show_exact(side, unit).removesuffix(f" {unit}") for side in size)
    return width if width == height else f"{width} x {height}"


def _area(square_inches: float, unit: Unit) -> str:
    if unit == "in":
        return f"{square_inches:,.1f}"
    return f"{square_inches * float(MM_PER_INCH / MM_PER_CM) ** 2:,.0f}"
