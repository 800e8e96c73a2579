"""`python -m benchmarks` (or `make bench`): planning, replay, and from the file to the printed sheet."""

from __future__ import annotations

import subprocess
import sys
import tempfile
from functools import partial

from rich.console import Console
from rich.table import Table

from benchmarks.quilts import HARBOUR_LIGHTS, Timed, timed_quilts
from benchmarks.timing import medians, wall_clock
from piecewright.bench.replay import replay
from piecewright.design.read import read_design
from piecewright.planning.job import Job
from piecewright.planning.make_plan import cloths_of, make_plan
from piecewright.workroom.workroom import INCH_WORKROOM


def main() -> None:
    """Prints the tables."""
    quilts = timed_quilts()
    jobs = [make_plan(quilt.design, INCH_WORKROOM) for quilt in quilts]
    planning = medians([partial(make_plan, quilt.design, INCH_WORKROOM) for quilt in quilts])
    replaying = medians([partial(_replayed, job) for job in jobs])
    console = Console(width=100)
    console.print(_table(quilts, jobs, planning, replaying))
    console.print(
        "Times are medians on this machine; what counts are the ratios to the throw. "
        "An operation is a step on the bench: planned anew, a larger quilt may take one or two more "
        "of them, where its strips are best filled in another way; a plan whose counts are all multiplied "
        "by a hundred takes none (tests/test_protecting_counts.py).",
        style="dim",
    )
    file_to_plan = medians([_file_to_plan])[0]
    with tempfile.TemporaryDirectory() as folder:
        sheet = wall_clock(partial(_file_to_sheet, folder))
    console.print(f"The throw from its file to the replayed plan: {file_to_plan:.2f} s")
    console.print(f"The throw from its file to job-sheet.pdf, start of Python included: {sheet:.2f} s")


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


def _table(
    quilts: tuple[Timed, ...], jobs: list[Job], planning: list[float], replaying: list[float]
) -> Table:
    table = Table("quilt", title="Planning and replay, processor seconds")
    for heading in ("patches", "bench operations", "planning", "ratio", "replay alone", "ratio"):
        table.add_column(heading, justify="right")
    for quilt, job, plan, again in zip(quilts, jobs, planning, replaying, strict=True):
        assert job.replay.made_as_drawn, job.replay.problems
        table.add_row(
            quilt.name,
            f"{job.replay.patches:,}",
            str(job.replay.operations),
            f"{plan:.3f}",
            f"{plan / planning[0]:.2f}",
            f"{again:.3f}",
            f"{again / replaying[0]:.2f}",
        )
    return table


if __name__ == "__main__":
    main()
