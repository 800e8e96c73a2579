"""`piecewright cut`: how much cloth a list of pieces takes, what of it is there, and how it is cut."""

from __future__ import annotations

import json
from collections.abc import Sequence
from pathlib import Path
from typing import Any, Literal

from piecewright.cli.cut_data import fabric_data
from piecewright.cli.cut_how import cutting_lines
from piecewright.cli.cut_words import choice_rows, sum_lines
from piecewright.cli.endings import FINE
from piecewright.cli.reading import count_from, said_in, workroom_for
from piecewright.cli.telling import show, show_table, tell_problems, working
from piecewright.cutting.cloth_cut import ClothCut
from piecewright.cutting.cuts import WAYS_OF_CUTTING, Cuts
from piecewright.cutting.given.cloth import Given
from piecewright.cutting.layout import Layout
from piecewright.cutting.lists.cut_fabric import CutFabric, choices_for
from piecewright.cutting.lists.cut_list import all_on_hand, cut_all, missing_stand_ins
from piecewright.cutting.lists.file import read_list
from piecewright.cutting.lists.listed import CuttingList
from piecewright.cutting.wishes import AIMS, FULL_EFFORT, CuttingWish
from piecewright.measure.length import Unit
from piecewright.measure.number import shortened
from piecewright.planning.cutting_wishes import AIM_OF
from piecewright.problems import Problem, Refused
from piecewright.shelf.after_cutting import ShelfChange, change_of, shelf_part
from piecewright.shelf.file import read_shelf
from piecewright.shelf.shelf import given_from
from piecewright.workroom.workroom import Cloth

Paper = Literal["letter", "a4"]
MOST_LAYERS = 12
MOST_EFFORT = 100


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
    shelf: Path | None = None,
    workroom: Path | None = None,
    sheet: str | None = None,
    paper: Paper | None = None,
) -> int:
    """Tells for every fabric of a list what to take, what to buy and how to cut it.

    Cloth on the `shelf` (or on the list's own) is cut first; the `workroom` says what is usual where the list
    is silent; a printed cutting `sheet` may be written too. Raises Refused for what is wrong.
    """
    wish, file = _wish(cloth, cuts, layers, effort), _sheet_file(sheet)
    room = workroom_for(workroom, unit or "in") if workroom is not None else None
    listed = read_list(path, width, unit, room)
    shelf_file = shelf or (path.parent / listed.shelf if listed.shelf else None)
    on_shelf = _on_shelf(shelf_file, listed)
    tell_problems(missing_stand_ins(listed, on_shelf))
    with working("Laying out"):
        done = cut_all(listed, on_shelf, wish)
        choices = [choices_for(one) if compare else () for one in done]
    given, title = all_on_hand(listed, on_shelf), listed.title or path.stem
    if file is not None:
        _write_sheet(file, title, done, choices, listed.unit, paper)
    if as_json:
        data = _data(done, choices, given, listed.unit)
        if on_shelf:
            data |= {"title": title, "shelf": shelf_part(_change(done, on_shelf))}
        print(json.dumps(data, indent=2))
        return FINE
    for number, (one, chosen) in enumerate(zip(done, choices, strict=True)):
        if number:
            show()
        _tell(one, given, chosen, listed.unit)
        if shelf_file is not None and not any(cloth.fabric in one.fabric.fabrics for cloth in on_shelf):
            show()
            show(f"The shelf has none of it: {shelf_file}.")
    if file is not None:
        show()
        show(f"Cutting sheet: {file}", "bold")
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


def _sheet_file(sheet: str | None) -> Path | None:
    if sheet is None:
        return None
    file = Path(sheet)
    if file.suffix.lower() != ".pdf" or not file.stem.strip() or file.is_dir():
        what = f"expected a file that ends in .pdf, got {shortened(sheet)}."
        raise Refused(Problem(what, "--sheet", "Name the sheet to write, such as cutting.pdf."))
    if not file.parent.is_dir():
        what = f"expected a folder that is there, got {shortened(str(file.parent))}."
        raise Refused(Problem(what, "--sheet", "Make the folder first, or name another."))
    return file


def _on_shelf(file: Path | None, listed: CuttingList) -> tuple[Given, ...]:
    """The cloth on the shelf that may serve; the list's own shelf is looked for beside the list."""
    if file is None:
        return ()
    return given_from(read_shelf(file), [name for one in listed.fabrics for name in one.fabrics])


def _change(done: Sequence[CutFabric], on_shelf: Sequence[Given]) -> ShelfChange:
    changes = [change_of(one.cut, on_shelf) for one in done]
    used = tuple(cloth for change in changes for cloth in change.used)
    return ShelfChange(used, tuple(cloth for change in changes for cloth in change.left))


def _write_sheet(
    file: Path,
    title: str,
    done: Sequence[CutFabric],
    choices: Sequence[tuple[Layout, ...]],
    unit: Unit,
    paper: Paper | None,
) -> None:
    from piecewright.handout.cutting_sheet import write_cutting_sheet

    cloths = [ClothCut(one.fabric.name, one.cut, chosen) for one, chosen in zip(done, choices, strict=True)]
    on: Paper = paper or ("letter" if unit == "in" else "a4")
    fabrics = [one.fabric for one in done]
    write_cutting_sheet(
        title,
        cloths,
        file,
        unit=unit,
        paper=on,
        layers=done[0].wish.layers,
        one_way=[fabric.name for fabric in fabrics if fabric.one_way],
        lengthwise=[item.name for fabric in fabrics for item in fabric.items if item.lengthwise],
    )


def _data(
    done: Sequence[CutFabric], choices: Sequence[tuple[Layout, ...]], given: Sequence[Given], unit: Unit
) -> dict[str, Any]:
    fabrics = [fabric_data(one, given, chosen, unit) for one, chosen in zip(done, choices, strict=True)]
    return {"unit": unit, "layers": done[0].wish.layers, "fabrics": fabrics}


def _tell(one: CutFabric, given: Sequence[Given], choices: tuple[Layout, ...], unit: Unit) -> None:
    show(one.fabric.name, "bold")
    for line in sum_lines(one, given, unit):
        show(line)
    show()
    for line in cutting_lines(one, unit):
        show(line)
    if choices and one.own is not None:
        show()
        in_layers = f"in {one.wish.layers} layers"
        head = ("choice", "length", "to buy", "ruler settings", "strips", "cuts", in_layers)
        named = [*zip(AIMS, choices, strict=True), ("each size in its own strips", one.own)]
        show_table(head, choice_rows(named, one.wish.layers, unit))
