"""`python -m benchmarks` (or `make bench`): planning, replay, and from the file to the printed sheet."""

from __future__ import annotations

import subprocess
import sys
import tempfile
from functools import partial

from rich import box
from rich.console import Console
from rich.table import Table

from benchmarks.cutting import main as cutting_tables
from benchmarks.pressing import ACROSS, DOWN, Pressed, pressed
from benchmarks.quilts import HARBOUR_LIGHTS, Timed, hundredfold, timed_quilts
from benchmarks.timing import medians, wall_clock
from piecewright.bench.plan import Plan
from piecewright.bench.replay import replay, run
from piecewright.bench.steps import CutStrips, Subcut
from piecewright.design.read import read_design
from piecewright.planning.job import Job
from piecewright.planning.make_plan import cloths_of, make_plan
from piecewright.pressing.directions import press
from piecewright.workroom.workroom import INCH_WORKROOM


def main() -> None:
    """Prints the tables."""
    quilts = timed_quilts()
    jobs = [make_plan(quilt.design, INCH_WORKROOM) for quilt in quilts]
    hundred = hundredfold(jobs[0].plan)
    planning = medians([partial(make_plan, quilt.design, INCH_WORKROOM) for quilt in quilts])
    replaying = medians([partial(_replayed, job) for job in jobs])
    running = medians([partial(run, jobs[0].plan), partial(run, hundred)])
    console = Console(width=104)
    console.print(_planning_table(quilts, jobs, planning, replaying))
    console.print(_running_table([jobs[0].plan, hundred], running))
    console.print(
        "Medians of processor seconds on this machine; what counts are the ratios to the throw. "
        "An operation is a step on the bench. Planned anew, a larger quilt may take a step of cutting more "
        "or less, since other counts fill the strips in other ways; what is sewn takes the same steps.",
        style="dim",
    )
    console.print(_pressing_table(pressed(HARBOUR_LIGHTS)))
    file_to_plan = medians([_file_to_plan])[0]
    with tempfile.TemporaryDirectory() as folder:
        sheet = wall_clock(partial(_file_to_sheet, folder))
    console.print(f"The throw from its file to the replayed plan: {file_to_plan:.2f} s")
    console.print(f"The throw from its file to job-sheet.pdf, start of Python included: {sheet:.2f} s")
    cutting_tables()


def _replayed(job: Job) -> None:
    verdict = replay(job.plan, job.drawing.top, cloths_of(job.design).fabric_of)
    assert verdict.made_as_drawn, verdict.problems


def _file_to_plan() -> Job:
    design, _ = read_design(HARBOUR_LIGHTS)
    assert design is not None
    return make_plan(design, INCH_WORKROOM)


def _file_to_sheet(folder: str) -> None:
    command = [sys.executable, "-m", "piecewright", "plan", str(HARBOUR_LIGHTS), "--out", folder]
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL)


def _planning_table(
    quilts: tuple[Timed, ...], jobs: list[Job], planning: list[float], replaying: list[float]
) -> Table:
    headings = ("patches", "operations", "to cut", "to sew", "planning", "ratio", "replay", "ratio")
    table = _table("Planning", "quilt", *headings)
    for quilt, job, plan, again in zip(quilts, jobs, planning, replaying, strict=True):
        assert job.replay.made_as_drawn, job.replay.problems
        cut = sum(isinstance(step, CutStrips | Subcut) for step in job.plan.steps)
        table.add_row(
            quilt.name,
            f"{job.replay.patches:,}",
            str(job.replay.operations),
            str(cut),
            str(job.replay.operations - cut),
            f"{plan:.3f}",
            f"{plan / planning[0]:.2f}",
            f"{again:.3f}",
            f"{again / replaying[0]:.2f}",
        )
    return table


def _running_table(plans: list[Plan], running: list[float]) -> Table:
    table = _table("The same plan, all counts times 100", "plan", "operations", "bench alone", "ratio")
    for name, plan, seconds in zip(("one throw", "a hundred throws"), plans, running, strict=True):
        bench, problems = run(plan)
        assert not problems, problems
        table.add_row(name, str(bench.operations), f"{seconds:.3f}", f"{seconds / running[0]:.2f}")
    return table


def _pressing_table(programmes: tuple[Pressed, ...]) -> Table:
    headings = ("stretches", "meetings", "to pin", "proven", "seconds", "ratio")
    table = _table(f"Pressing {ACROSS} x {DOWN} blocks", "seams", *headings)
    seconds = medians([partial(press, one.programme) for one in programmes], rounds=3)
    for one, taken in zip(programmes, seconds, strict=True):
        found = press(one.programme)
        table.add_row(
            one.name,
            f"{len(one.programme.segments):,}",
            f"{found.nesting + found.clashing:,}",
            f"{found.clashing:,}",
            "yes" if found.proven else "no",
            f"{taken:.3f}",
            f"{taken / seconds[0]:.0f}",
        )
    return table


def _table(title: str, first: str, *headings: str) -> Table:
    table = Table(title=title, title_justify="left", box=box.SIMPLE_HEAD)
    table.add_column(first, no_wrap=True)
    for heading in headings:
        table.add_column(heading, justify="right", no_wrap=True)
    return table


if __name__ == "__main__":
    main()
