"""`piecewright sheet`: true-scale sheets of a way to make a unit, to print or for a cutting machine."""

from __future__ import annotations

from pathlib import Path

from piecewright.cli.endings import FINE
from piecewright.cli.folder import write_folder
from piecewright.cli.reading import count_from, is_metric, lengths_from, said_in, workroom_for
from piecewright.cli.telling import show
from piecewright.drawing.machine_dxf import machine_dxf
from piecewright.drawing.machine_lines import machine_sheet
from piecewright.drawing.machine_svg import machine_svg
from piecewright.drawing.paging import pages_of
from piecewright.drawing.recipe_sheets import filled, recipe_sheets, title_of
from piecewright.drawing.sheet_page import PAPERS, PaperName
from piecewright.drawing.stack_sheets import Lines
from piecewright.drawing.true_scale import TrueSheet
from piecewright.drawing.unit_sheets import unit_templates
from piecewright.handout.files import slug
from piecewright.handout.true_scale_sheet import MEASURE, true_scale_pdf
from piecewright.measure.length import Unit
from piecewright.measure.number import shortened
from piecewright.measure.reading import read_size
from piecewright.methods.comparing import check_count, compare_ways, unit_wanted
from piecewright.methods.method import Unit as WantedUnit
from piecewright.problems import Problem, Refused
from piecewright.toml_places import did_you_mean
from piecewright.workroom.workroom import Workroom

FILES = (".pdf", ".svg", ".dxf")
TEMPLATES = "templates"
"""Asked for in the place of a way: templates of the unit's own patches."""


def write_sheet(
    kind: str,
    finished: str,
    way: str | None = None,
    lines: Lines = "both",
    paper: PaperName | None = None,
    out: str | None = None,
    count: str | None = None,
    workroom: Path | None = None,
    unit: Unit | None = None,
    measure: str | None = None,
    hand: str | None = None,
) -> int:
    """Writes one file, whose ending says what it is; raises Refused for words that are none of their kind.

    Without a way the recommended one is taken; "templates" are those of the unit's own
    patches. `count` is how many units are wanted; `measure` and `hand` are as for `piecewright unit`.
    """
    file = _file(out)
    metric = is_metric(finished)
    room = workroom_for(workroom, unit or ("cm" if metric else "in"))
    shown = unit or room.unit
    with said_in("--measure"):
        measures = lengths_from(measure, shown) if measure is not None else ()
    with said_in("--finished"):
        wanted = unit_wanted(kind, *read_size(finished, shown), measures, hand or "")
    number = None
    if count is not None:
        with said_in("--count"):
            number = count_from(count)
            check_count(number)
    name, sheets = _sheets(wanted, way, number, lines, room, shown)
    file = file or Path(f"{kind}-{slug(name)}.pdf")
    on = paper or ("letter" if shown == "in" else "a4")
    if file.suffix.lower() == ".pdf":
        sheets = tuple(filled(sheet, PAPERS[on]) for sheet in sheets)
    write_folder(file.parent, {file.name: _content(file, sheets, on)})
    _tell(file, sheets, on)
    return FINE


def _file(out: str | None) -> Path | None:
    if out is None:
        return None
    file = Path(out)
    if file.suffix.lower() not in FILES or not file.stem.strip():
        what = f"expected a file that ends in {', '.join(FILES[:-1])} or {FILES[-1]}, got {shortened(out)}."
        raise Refused(Problem(what, "--out", "A PDF is to print, SVG and DXF are for a cutting machine."))
    return file


def _sheets(
    wanted: WantedUnit, way: str | None, count: int | None, lines: Lines, room: Workroom, shown: Unit
) -> tuple[str, tuple[TrueSheet, ...]]:
    """The name of the way, and its sheets."""
    name = way.strip() if way is not None else None
    if name == TEMPLATES:
        return name, (unit_templates(wanted, room, count or 1, title_of(wanted, name, shown), shown),)
    ways = compare_ways(wanted, count or 1, room)
    chosen = ways[0] if name is None else next((one for one in ways if one.name == name), None)
    if chosen is None:
        known = [*(one.name for one in ways), TEMPLATES]
        raise Refused(
            Problem(f"unknown way {shortened(way)} here.", "--way", did_you_mean(name or "", known))
        )
    return chosen.name, recipe_sheets(chosen.recipe, room, count, lines, shown)


def _content(file: Path, sheets: tuple[TrueSheet, ...], paper: PaperName) -> bytes:
    if file.suffix.lower() == ".pdf":
        return true_scale_pdf(sheets, paper)
    machine = machine_sheet(sheets)
    return machine_dxf(machine) if file.suffix.lower() == ".dxf" else machine_svg(machine).encode()


def _tell(file: Path, sheets: tuple[TrueSheet, ...], paper: PaperName) -> None:
    show(sheets[0].title, "bold")
    for sheet in sheets:
        for shape in dict.fromkeys(sheet.shapes):
            show(f"- {shape.caption or ', '.join(words.text for words in shape.words)}")
    for note in dict.fromkeys(note for sheet in sheets for note in sheet.notes):
        show(note)
    show()
    if file.suffix.lower() != ".pdf":
        show(f"{file.suffix[1:].upper()} in millimetres: {file}", "bold")
        return
    pages = sum(len(pages_of(sheet, PAPERS[paper])) for sheet in sheets)
    show(MEASURE)
    show(f"True-scale sheet, {pages} page{'' if pages == 1 else 's'}, {paper}: {file}", "bold")
