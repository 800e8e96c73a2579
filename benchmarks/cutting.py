"""`python -m benchmarks.cutting`: how near the least cloth, how much cutting, how fast and how large.

The lists are read from the folder that PIECEWRIGHT_CUTTING_LISTS names; none are kept here.
"""

from __future__ import annotations

import statistics
import subprocess
import sys
import time
from dataclasses import dataclass, replace
from pathlib import Path

from rich import box
from rich.console import Console
from rich.table import Table

from benchmarks.cutting_instances import FOLDER, MARK, Instance, folder, instances
from piecewright.cutting.checking import check_layout
from piecewright.cutting.cuts import CROSSCUTS, WAYS_OF_CUTTING, Cuts
from piecewright.cutting.laying import layouts, own_strips_layout
from piecewright.cutting.layout import Layout
from piecewright.cutting.marks import in_marks
from piecewright.cutting.shelves import first_fit, low, tall, upright
from piecewright.cutting.wishes import AIMS, FULL_EFFORT, CuttingWish
from piecewright.measure.length import inches

QUILTS, RULER = "quilt_lists/*.json", inches(24)
PUBLISHED = (("gcut with demands", "*oriented/gcut*.json"), ("ATP30 to 49", "*oriented/ATP*.json"))
STRIPS_ONLY = "strip_2stage_"
TIMES = 100
MEMORY = """
import sys
import numpy
from piecewright.solver import QuietSolver
QuietSolver()
if len(sys.argv) > 1:
    from benchmarks.cutting import heaviest
    heaviest()
peak = next(line for line in open("/proc/self/status") if line.startswith("VmHWM"))
print(peak.split()[1])
"""


@dataclass(frozen=True)
class Measured:
    """One layout with the processor seconds to the first whole one and to the last."""

    layout: Layout
    first: float
    seconds: float


def main() -> None:
    """Prints the tables; a sentence where no lists are named."""
    console = Console(width=128)
    if folder() is None:
        console.print(f"No cutting lists to measure: {FOLDER} names their folder.")
        return
    quilts = instances(QUILTS, RULER)
    for cuts in WAYS_OF_CUTTING:
        console.print(_cloth_table(quilts, cuts))
    console.print(_work_table(quilts))
    for title, pattern in PUBLISHED:
        console.print(_published_table(title, instances(STRIPS_ONLY + pattern)))
    console.print(_growing_table(quilts))
    if Path("/proc/self/status").exists():
        bare, most = _memory(), _memory("heaviest")
        console.print(f"Memory: {most / bare:.2f} times that of the bare imports ({bare / 1024:.0f} MiB)")


def measured(instance: Instance, wish: CuttingWish) -> Measured:
    """The last layout for a wish, checked."""
    began = time.process_time()
    found = layouts(instance.demands, instance.supply, wish)
    at_once = next(found)
    first = time.process_time() - began
    layout = [at_once, *found][-1]
    seconds = time.process_time() - began
    problems = check_layout(layout, instance.demands, instance.supply.ruler_length)
    assert not problems, problems
    return Measured(layout, first, seconds)


def heaviest() -> None:
    """The list with the most pieces, cut with the least cloth."""
    quilts = instances(QUILTS, RULER)
    largest = max(quilts, key=lambda one: sum(demand.count for demand in one.demands))
    measured(largest, CuttingWish("least cloth", effort=FULL_EFFORT))


def _cloth_table(quilts: list[Instance], cuts: Cuts) -> Table:
    headings = ("own strips", "first fit", "ours", "LP bound", "ours / LP", "waste removed")
    table = _table(f"Least cloth, {cuts.name}", "list", *headings, "steps", "of LP", "/ best", "s")
    ratios, removed = [], []
    for one in quilts:
        best = measured(one, CuttingWish("least cloth", cuts, effort=FULL_EFFORT))
        own = own_strips_layout(one.demands, one.supply)
        shelves = _first_fit(one, cuts)
        length, bound = _marks(best.layout.length), _marks(best.layout.bound)
        ratios.append(length / bound)
        removed.append((_marks(own.length) - length) / (_marks(own.length) - bound))
        known = one.best_by_cuts.get(cuts.name)
        table.add_row(
            one.name,
            f"{_marks(own.length):,.0f}",
            f"{shelves:,}",
            f"{length:,.0f}",
            f"{bound:,.0f}",
            f"{ratios[-1]:.4f}",
            f"{removed[-1]:.3f}",
            str(best.layout.purchase.steps),
            str(-(-best.layout.bound.exact // one.supply.buying_step.exact)),
            f"{length / known:.4f}" if known else "",
            f"{best.seconds:.2f}",
        )
    _last(table, "mean", {5: statistics.mean(ratios), 6: statistics.mean(removed)})
    return table


def _work_table(quilts: list[Instance]) -> Table:
    headings = (
        "length / own",
        "steps",
        "ruler settings",
        "strips",
        "cuts",
        "in 2 layers",
        "/ own",
        "seconds",
    )
    table = _table("From least cloth to least cutting", "list", "choice", *headings)
    for one in quilts:
        own = own_strips_layout(one.demands, one.supply)
        rows = [(aim, measured(one, CuttingWish(aim, effort=FULL_EFFORT))) for aim in AIMS]
        for name, found in [*rows, ("own strips", Measured(own, 0.0, 0.0))]:
            layout = found.layout
            table.add_row(
                one.name,
                name,
                f"{_marks(layout.length) / _marks(own.length):.3f}",
                str(layout.purchase.steps),
                str(layout.ruler_changes),
                str(layout.strips),
                f"{layout.cuts:,}",
                f"{layout.operations(2):,}",
                f"{layout.operations(2) / own.operations(2):.3f}",
                f"{found.seconds:.2f}",
            )
    return table


def _published_table(title: str, listed: list[Instance]) -> Table:
    headings = ("own strips", "first fit", "ours", "best known", "ours / best", "LP bound", "seconds")
    table = _table(f"{title}: strips and crosscuts", "list", *headings)
    ratios = []
    for one in listed:
        best = measured(one, CuttingWish("least cloth", CROSSCUTS, effort=FULL_EFFORT))
        length = _marks(best.layout.length)
        ratios.append(length / one.best_known)
        own = own_strips_layout(one.demands, one.supply)
        table.add_row(
            one.name,
            f"{_marks(own.length):,.0f}",
            f"{_first_fit(one, CROSSCUTS):,}",
            f"{length:,.0f}",
            f"{one.best_known:,}",
            f"{ratios[-1]:.4f}",
            f"{_marks(best.layout.bound):,.0f}",
            f"{best.seconds:.2f}",
        )
    if ratios:
        _last(table, "mean", {5: statistics.mean(ratios)})
        _last(table, "worst", {5: max(ratios)})
    return table


def _growing_table(quilts: list[Instance]) -> Table:
    headings = ("first whole", f"{TIMES} x counts", "ratio", "all", f"{TIMES} x counts", "ratio")
    table = _table("Seconds to the first whole layout, and to the last", "list", *headings)
    wish = CuttingWish(effort=FULL_EFFORT)
    for one in quilts:
        many = tuple(replace(demand, count=TIMES * demand.count) for demand in one.demands)
        more = replace(one, demands=many)
        small, large = ([measured(which, wish) for _ in range(3)] for which in (one, more))
        figures = []
        for part in ("first", "seconds"):
            times = [statistics.median(getattr(run, part) for run in runs) for runs in (small, large)]
            figures += [f"{times[0]:.4f}", f"{times[1]:.4f}", f"{times[1] / times[0]:.2f}"]
        table.add_row(one.name, *figures)
    return table


def _first_fit(one: Instance, cuts: Cuts) -> int:
    task = in_marks(one.demands, one.supply, cuts)
    least = min(task.length(first_fit(task, preferred)) for preferred in (upright, low, tall))
    return round(least * task.mark / MARK)


def _marks(length: object) -> float:
    return float(length) / float(MARK)  # type: ignore[arg-type]


def _memory(*words: str) -> int:
    done = subprocess.run([sys.executable, "-c", MEMORY, *words], check=True, capture_output=True, text=True)
    return int(done.stdout.split()[-1])


def _table(title: str, first: str, *headings: str) -> Table:
    table = Table(title=title, title_justify="left", box=box.SIMPLE_HEAD)
    table.add_column(first, no_wrap=True)
    for heading in headings:
        table.add_column(heading, justify="left" if heading == "choice" else "right", no_wrap=True)
    return table


def _last(table: Table, name: str, figures: dict[int, float]) -> None:
    cells = [f"{figures[k]:.4f}" if k in figures else "" for k in range(1, len(table.columns))]
    table.add_row(name, *cells, style="bold")


if __name__ == "__main__":
    main()
