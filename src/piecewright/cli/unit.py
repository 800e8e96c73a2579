"""`piecewright unit`: the ways to make a unit, side by side."""

from __future__ import annotations

import json
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from piecewright.cli.endings import FINE
from piecewright.cli.reading import count_from, is_metric, lengths_from, said_in, workroom_for
from piecewright.cli.telling import sentence, show, show_table
from piecewright.cli.way_words import batch_words, made_from_words, title_of, way_rows
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

DIGITS = 6


def compare_unit(
    kind: str,
    finished: str,
    count: str,
    workroom: Path | None = None,
    unit: Unit | None = None,
    start: str | None = None,
    as_json: bool = False,
) -> int:
    """Compares the ways to make `count` units; raises Refused for words that are none of their kind.

    Sizes are shown in `unit`; where that is not said, in the unit of the workroom file, or as `finished`
    is typed. `start` are the sizes of squares one has.
    """
    metric = is_metric(finished)
    room = workroom_for(workroom, unit or ("cm" if metric else "in"))
    shown = unit or room.unit
    with said_in("--finished"):
        wanted = unit_wanted(kind, *read_size(finished, shown))
    with said_in("--count"):
        number = count_from(count)
        check_count(number)
    ways = compare_ways(wanted, number, room)
    made: tuple[MadeFrom, ...] = ()
    if start is not None:
        with said_in("--from"):
            sizes = lengths_from(start, shown)
            made = from_size(wanted, sizes, room)
    if as_json:
        by_name = {one.recipe.method.name: one for one in made}
        rows = [way_data(way, way is ways[0], by_name.get(way.name)) for way in ways]
        print(json.dumps(rows, indent=2))
        return FINE
    show(title_of(ways[0], shown), "bold")
    _show_ways(ways, shown)
    show()
    show_table(("", *(way.name for way in ways)), way_rows(ways, shown))
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


def _show_ways(ways: Sequence[Way], unit: Unit) -> None:
    """One way is recommended, one is the alternative, the rest come under "more"; each with its reason."""
    for place, way in enumerate(ways):
        if place < 2:
            show()
            liked = " (you like it)" if way.liked else ""
            show(f"{('Recommended', 'Alternative')[place]}: {way.name}{liked}", "bold")
            show(f"  {batch_words(way, unit)}")
            show(f"  {way.recipe.method.reason}")
        else:
            if place == 2:
                show()
                show("More")
            show(f"  {way.name}: {way.recipe.method.reason}")


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
