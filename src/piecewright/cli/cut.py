"""`piecewright cut`: how much cloth a list of pieces takes, and how it is cut."""

from __future__ import annotations

import json
import time
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, Literal

from piecewright.cli.cut_words import choice_rows, cutting_lines, fabric_data, sum_lines
from piecewright.cli.endings import FINE
from piecewright.cli.reading import count_from, said_in
from piecewright.cli.telling import show, show_table, working
from piecewright.cutting.checking import check_layout
from piecewright.cutting.cuts import WAYS_OF_CUTTING, Cuts
from piecewright.cutting.laying import layouts, own_strips_layout
from piecewright.cutting.layout import Layout
from piecewright.cutting.list_file import read_list
from piecewright.cutting.listed import ListedFabric
from piecewright.cutting.wishes import AIMS, FULL_EFFORT, Aim, CuttingWish
from piecewright.measure.length import Unit

Cloth = Literal["least", "usual", "least-cutting"]
AIM_OF: dict[str, Aim] = {
    "least": "least cloth",
    "usual": "fewest settings",
    "least-cutting": "least cutting",
}
MOST_LAYERS = 12
MOST_EFFORT = 100


@dataclass(frozen=True)
class CutFabric:
    """A fabric of the list as it is cut; `seconds` to the last layout, `at_once` to the first whole one."""

    fabric: ListedFabric
    layout: Layout
    own: Layout
    wish: CuttingWish
    seconds: float
    at_once: float


def cut_list(
    path: Path,
    width: str | None = None,
    cloth: Cloth = "usual",
    cuts: str | None = None,
    layers: str = "2",
    effort: str = "1",
    compare: bool = False,
    unit: Unit | None = None,
    as_json: bool = False,
) -> int:
    """Tells for every fabric of a list what to buy and how to cut it. Raises Refused for what is wrong."""
    wish = _wish(cloth, cuts, layers, effort)
    listed = read_list(path, width, unit)
    with working("Laying out"):
        done = [_cut(fabric, wish) for fabric in listed.fabrics]
        chosen = [_choices(one) if compare else () for one in done]
    if as_json:
        print(json.dumps(_data(done, chosen, listed.unit), indent=2))
        return FINE
    for number, (one, choices) in enumerate(zip(done, chosen, strict=True)):
        if number:
            show()
        _tell(one, choices, listed.unit)
    return FINE


def _wish(cloth: Cloth, cuts: str | None, layers: str, effort: str) -> CuttingWish:
    with said_in("--layers"):
        count = _within(layers, MOST_LAYERS)
    with said_in("--effort"):
        times = _within(effort, MOST_EFFORT)
    return CuttingWish(AIM_OF[cloth], _cuts(cuts), count, times * FULL_EFFORT)


def _cuts(name: str | None) -> Cuts | None:
    return next((cuts for cuts in WAYS_OF_CUTTING if cuts.name.replace(" ", "-") == name), None)


def _within(text: str, most: int) -> int:
    number = count_from(text)
    if not 1 <= number <= most:
        raise ValueError(f"expected a whole number from 1 to {most}, got {number}")
    return number


def _cut(fabric: ListedFabric, wish: CuttingWish) -> CutFabric:
    demands, bolt = fabric.demands, fabric.bolt
    began, found = time.perf_counter(), layouts(demands, bolt, wish)
    first = next(found)
    at_once = time.perf_counter() - began
    layout = [first, *found][-1]
    seconds = time.perf_counter() - began
    problems = check_layout(layout, demands, bolt.ruler_length)
    if problems:
        raise AssertionError(str(problems[0]))
    return CutFabric(fabric, layout, own_strips_layout(demands, bolt), wish, seconds, at_once)


def _choices(one: CutFabric) -> tuple[tuple[str, Layout], ...]:
    """One layout for each aim, and each size in its own strips; the one that is there is not made again."""
    made = [
        (aim, one.layout if aim == one.wish.aim else _cut(one.fabric, replace(one.wish, aim=aim)).layout)
        for aim in AIMS
    ]
    return (*made, ("each size in its own strips", one.own))


def _data(done: list[CutFabric], chosen: list[Any], unit: Unit) -> dict[str, Any]:
    fabrics = []
    for one, choices in zip(done, chosen, strict=True):
        data = fabric_data(one.layout, one.own, one.wish, unit)
        data |= {"seconds": round(one.seconds, 4), "first_seconds": round(one.at_once, 4)}
        if choices:
            data["choices"] = [
                {"choice": name, **fabric_data(layout, one.own, one.wish, unit)} for name, layout in choices
            ]
        fabrics.append({"name": one.fabric.name, **data})
    return {"unit": unit, "layers": done[0].wish.layers, "fabrics": fabrics}


def _tell(one: CutFabric, choices: tuple[tuple[str, Layout], ...], unit: Unit) -> None:
    show(one.fabric.name, "bold")
    for line in sum_lines(one.layout, one.own, one.wish, unit):
        show(line)
    show()
    for line in cutting_lines(one.layout, one.fabric, unit):
        show(line)
    if choices:
        show()
        head = (
            "choice",
            "length",
            "to buy",
            "ruler settings",
            "strips",
            "cuts",
            f"in {one.wish.layers} layers",
        )
        show_table(head, choice_rows(choices, one.wish.layers, unit))
