"""`piecewright plan`: from a quilt file to a folder with job sheet, pictures and plan."""

from __future__ import annotations

from pathlib import Path
from typing import Literal

from piecewright.bench.plan_file import plan_text
from piecewright.cli.endings import FINE, NOT_REPLAYED
from piecewright.cli.folder import write_folder
from piecewright.cli.reading import quilt_and_workroom
from piecewright.cli.telling import sentence, show, show_table, tell, tell_problems, working
from piecewright.cli.way_words import lengths
from piecewright.cutting.cloth_cut import ClothCut
from piecewright.design.model import Design, finished_size
from piecewright.handout.files import job_files
from piecewright.handout.tell_shelf import off_the_shelf
from piecewright.measure.showing import show as shown
from piecewright.measure.showing import show_cloth
from piecewright.methods.kinds import name_of
from piecewright.piecing.looks import hand_of
from piecewright.planning.job import Job
from piecewright.planning.report import report_of
from piecewright.planning.shelf_first import plan_from_shelf
from piecewright.planning.things import UnitThing
from piecewright.problems import Problem, Refused
from piecewright.shelf.file import read_shelf

Paper = Literal["letter", "a4"]


def plan_quilt(
    quilt: Path, workroom: Path | None, out: str | None, paper: Paper | None, sums: bool, shelf: Path | None
) -> int:
    """Plans, replays and writes; where the plan does not replay, nothing is written."""
    if out is not None and not out.strip():
        raise Refused(Problem("expected the name of a folder, got nothing.", "--out"))
    folder = Path(out) if out else Path(f"{quilt.stem}-plan")
    design, room, notes = quilt_and_workroom(quilt, workroom)
    on_hand = read_shelf(shelf) if shelf else None
    with working("Planning"):
        job = plan_from_shelf(design, room, on_hand)
    if not job.replay.made_as_drawn:
        tell_problems(job.replay.problems)
        tell(
            "This plan does not make the quilt as drawn, so nothing is written; "
            "please send the quilt file to the makers of Piecewright."
        )
        return NOT_REPLAYED
    with working("Drawing and printing"):
        files = job_files(job, paper or ("letter" if design.unit == "in" else "a4"), sums)
        text = plan_text(job.plan, report_of(job))
    write_folder(folder, {**files, "plan.json": text.encode()})
    _summary(job, notes)
    show()
    show(f"Job sheet: {folder / 'job-sheet.pdf'}", "bold")
    return FINE


def _summary(job: Job, notes: list[Problem]) -> None:
    design, unit = job.design, job.design.unit
    show(design.title, "bold")
    show(f"{lengths(*finished_size(design), unit)} finished, {job.replay.patches:,} patches")
    show("replayed: made as drawn")
    show()
    rows = [_cloth_row(job, cloth) for cloth in job.cloth]
    shelf = ["off the shelf"] if any(cloth.cut.used for cloth in job.cloth) else []
    head = ("cloth", *shelf, "bare minimum", "to buy")
    show_table(head, [row if shelf else (row[0], *row[2:]) for row in rows])
    units = [t for t in job.things.values() if isinstance(t, UnitThing) and job.counts[t.name]]
    if units:
        show()
        show_table(("unit", "finished", "count", "way"), [_way(job, thing) for thing in units])
    if notes or job.notes:
        show()
        show("Notes")
    for note in (*notes, *job.notes):
        show(f"- {sentence(note).replace('note: ', '', 1)}")


def _cloth_row(job: Job, cloth: ClothCut) -> tuple[str, str, str, str]:
    design, unit, bought = job.design, job.design.unit, cloth.cut.bought
    shelf = off_the_shelf(cloth.cut, unit).partition(": ")[2] if cloth.cut.used else "-"
    bare = shown(bought.length, unit) if bought else "none"
    return called(design, cloth.name), shelf, bare, show_cloth(job.buy(cloth), unit) if bought else "nothing"


def called(design: Design, key: str) -> str:
    """What a cloth is called, with its key unless the name begins with it."""
    named = design.fabric.get(key) or design.role.get(key)
    if named is None:
        return key
    return named.name if named.name.lower().startswith(key.lower()) else f"{key}: {named.name}"


def _way(job: Job, thing: UnitThing) -> tuple[str, str, str, str]:
    unit = thing.recipe.unit
    finished = lengths(unit.width, unit.height, job.design.unit)
    hand = f"{hand_of(unit)}-hand " if hand_of(unit) else ""
    name = f"{hand}{name_of(unit.kind)}, {' and '.join(dict.fromkeys(unit.fabrics))}"
    pinned = " (pinned)" if thing.pinned else ""
    return name, finished, f"{job.counts[thing.name]}", f"{thing.recipe.method.name}{pinned}"
