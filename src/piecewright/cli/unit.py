"""`piecewright unit`: the ways to make a unit, side by side."""

from __future__ import annotations

import json
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from msgspec.structs import replace

from piecewright.batches.on_hand import Answer, from_hand, grids_for
from piecewright.batches.single import mix_of
from piecewright.cli.endings import FINE
from piecewright.cli.reading import (
    count_from,
    is_metric,
    lengths_from,
    on_hand_from,
    said_in,
    workroom_for,
)
from piecewright.cli.telling import sentence, show, show_table
from piecewright.cli.way_words import (
    batch_words,
    batches_words,
    hand_lines,
    made_from_words,
    marking_lines,
    mix_words,
    title_of,
    way_rows,
)
from piecewright.measure.length import Unit
from piecewright.measure.reading import read_size
from piecewright.measure.showing import show as words
from piecewright.methods.comparing import (
    MadeFrom,
    Way,
    check_count,
    compare_ways,
    from_size,
    unit_wanted,
    ways_left_out,
)
from piecewright.methods.recipe import Recipe
from piecewright.workroom.wishes import wishes_from
from piecewright.workroom.workroom import Workroom

DIGITS = 6
MOST_COLUMNS = 6
"""So many ways stand side by side on a screen; the others are told by their reason."""


def compare_unit(
    kind: str,
    finished: str,
    count: str,
    workroom: Path | None = None,
    unit: Unit | None = None,
    start: str | None = None,
    as_json: bool = False,
    measure: str | None = None,
    hand: str | None = None,
    on_hand: str | None = None,
    wishes: Sequence[str] = (),
    every: bool = False,
) -> int:
    """Compares the ways to make `count` units; raises Refused for words that are none of their kind.

    Sizes are shown in `unit`; where that is not said, in the unit of the workroom file, or as `finished`
    is typed. `start` are the sizes of squares one has, `on_hand` the pieces of cloth to make do with,
    `measure` the further finished lengths of the kind, `hand` left or right. `every`: the table has a column
    for every way.
    """
    metric = is_metric(finished)
    room = workroom_for(workroom, unit or ("cm" if metric else "in"))
    shown = unit or room.unit
    with said_in("--wish"):
        wishes_from(wishes)
        room = replace(room, wishes=(*room.wishes, *wishes))
    with said_in("--measure"):
        measures = lengths_from(measure, shown) if measure is not None else ()
    with said_in("--finished"):
        wanted = unit_wanted(kind, *read_size(finished, shown), measures, hand or "")
    with said_in("--count"):
        number = count_from(count)
        check_count(number)
    ways = compare_ways(wanted, number, room)
    made: tuple[MadeFrom, ...] = ()
    if start is not None:
        with said_in("--from"):
            sizes = lengths_from(start, shown)
            made = from_size(wanted, sizes, room)
    answer = None
    if on_hand is not None:
        with said_in("--on-hand"):
            pieces = on_hand_from(on_hand, shown)
            grids = [] if any(way.liked for way in ways) else grids_for(wanted, pieces, room)
            answer = from_hand([*_recipes(ways, room), *grids], number, pieces, room)
    mix = mix_of(ways, room)
    if as_json:
        by_name = {one.recipe.method.name: one for one in made}
        in_mix = {recipe.method.name: batches for recipe, batches in _batches(answer, mix)}
        rows = [
            {**way_data(way, way is ways[0], by_name.get(way.name)), "in_mix": in_mix.get(way.name, 0)}
            for way in ways
        ]
        print(json.dumps(rows, indent=2))
        return FINE
    show(title_of(ways[0], shown), "bold")
    if answer:
        show()
        show("From what is on hand", "bold")
        for line in hand_lines(answer, number, shown):
            show(f"- {line}")
    _show_ways(ways, mix, marking_lines(mix[0][0], room, shown), shown)
    show()
    shown_ways = ways if every else ways[:MOST_COLUMNS]
    show_table(("", *(way.name for way in shown_ways)), way_rows(shown_ways, shown))
    if len(ways) > len(shown_ways):
        show(f"The first {MOST_COLUMNS} of {len(ways)} ways; --all shows every one.")
    if made:
        show()
        show(f"From {' and '.join(words(size, shown) for size in sizes)}", "bold")
        for one in made:
            show(f"- {made_from_words(one, shown)}")
    left_out = ways_left_out(wanted, room)
    if left_out:
        show()
        show("Left out")
        for note in left_out:
            show(f"- {sentence(note).replace('note: ', '', 1)}")
    return FINE


def _recipes(ways: Sequence[Way], room: Workroom) -> list[Recipe]:
    """The recipes to weigh from what is on hand: liked ones alone, where there are any."""
    return [way.recipe for way in ways if way.liked] or [way.recipe for way in ways]


def _batches(answer: Answer | None, mix: Sequence[tuple[Recipe, int]]) -> Sequence[tuple[Recipe, int]]:
    return [(part.recipe, part.batches) for part in answer.parts] if answer else mix


def _show_ways(
    ways: Sequence[Way], mix: Sequence[tuple[Recipe, int]], marking: Sequence[str], unit: Unit
) -> None:
    """One way is recommended, one is the alternative, the rest come under "more"; each with its reason.

    Where two ways together cost least, they are recommended, and the best single way is the alternative.
    """
    shown = list(ways)
    if len(mix) > 1:
        show()
        show(f"Recommended: {mix_words(mix)}", "bold")
        for recipe, batches in mix:
            show(f"  {recipe.method.name}: {batches_words(recipe, batches, unit)}")
        show(f"  {mix[0][0].method.reason}")
    else:
        _show_way("Recommended", shown.pop(0), unit)
    for line in marking:
        show(f"  {line}")
    if shown:
        _show_way("Alternative", shown.pop(0), unit)
    if shown:
        show()
        show("More")
    for way in shown:
        show(f"  {way.name}: {way.recipe.method.reason}")


def _show_way(word: str, way: Way, unit: Unit) -> None:
    show()
    show(f"{word}: {way.name}{' (you like it)' if way.liked else ''}", "bold")
    show(f"  {batch_words(way, unit)}")
    show(f"  {way.recipe.method.reason}")


def way_data(way: Way, recommended: bool, made: MadeFrom | None = None) -> dict[str, Any]:
    """A way as other programs read it: sizes in decimal inches, areas in square inches.

    `start_exact` and `start` are for one batch of `makes`; `cloth`, `offcuts`, `seams`, `cuts` and `minutes`
    for all batches; `bias_edges` for one unit.
    """
    recipe = way.recipe
    data: dict[str, Any] = {
        "method": way.name,
        "makes": recipe.method.makes,
        "start_exact": [_start(*start) for start in way.start_exact],
        "start": [_start(float(w), float(h), count) for w, h, count in way.start],
        "unfinished": _rounded([float(side) for side in way.unfinished]),
        "before_truing": _rounded(recipe.sizing.before),
        "bias_edges": recipe.bias_edges,
        "cloth": round(way.cloth, DIGITS),
        "offcuts": round(way.offcuts, DIGITS),
        "seams": way.effort.seams,
        "cuts": way.effort.cuts,
        "minutes": round(way.effort.minutes, 2),
        "batches": way.batches,
        "left_over": way.left_over,
        "truing": recipe.sizing.truing,
        "recommended": recommended,
        "reason": recipe.method.reason,
    }
    if made is not None:
        size = None if made.size is None else _rounded(made.size)
        data["from"] = {"before_truing": size, "over": round(made.off, DIGITS), "standing": made.standing}
    return data


def _start(width: float, height: float, count: int) -> dict[str, float | int]:
    return {"w": round(width, DIGITS), "h": round(height, DIGITS), "count": count}


def _rounded(sizes: Sequence[float]) -> list[float]:
    return [round(size, DIGITS) for size in sizes]
