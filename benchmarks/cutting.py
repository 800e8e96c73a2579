"""`python -m benchmarks.cutting`: how near the least cloth, how much cutting, how fast and how large.

Lists made up by chance are always measured; those from elsewhere are read from the folder that
PIECEWRIGHT_CUTTING_LISTS names, since none are kept here.
"""

from __future__ import annotations

import statistics
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

from rich.console import Console
from rich.table import Table

from benchmarks.cutting_instances import FOLDER, Instance, folder, instances
from benchmarks.cutting_many import made_up_table, peers_table
from benchmarks.cutting_peers import MISSING, packed
from benchmarks.cutting_tables import (
    Measured,
    first_fit_length,
    last_row,
    least_steps,
    marks,
    measured,
    new_table,
    removed,
)
from piecewright.cutting.cuts import CROSSCUTS, WAYS_OF_CUTTING, Cuts
from piecewright.cutting.laying import own_strips_layout
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


def main() -> None:
    """Prints the tables; those of lists from elsewhere only where their folder is named."""
    console = Console(width=140)
    console.print(made_up_table())
    if folder() is None:
        console.print(f"No cutting lists from elsewhere to measure: {FOLDER} names their folder.")
        return
    quilts = instances(QUILTS, RULER)
    for cuts in WAYS_OF_CUTTING:
        console.print(_cloth_table(quilts, cuts))
    console.print(_work_table(quilts))
    console.print(peers_table(quilts))
    if quilts and packed(quilts[0]) is None:
        console.print(MISSING)
    for title, pattern in PUBLISHED:
        console.print(_published_table(title, instances(STRIPS_ONLY + pattern)))
    console.print(_growing_table(quilts))
    if Path("/proc/self/status").exists():
        bare, most = _memory(), _memory("heaviest")
        console.print(f"Memory: {most / bare:.2f} times that of the bare imports ({bare / 1024:.0f} MiB)")


def heaviest() -> None:
    """The list with the most pieces, cut with the least cloth."""
    quilts = instances(QUILTS, RULER)
    largest = max(quilts, key=lambda one: sum(demand.count for demand in one.demands))
    measured(largest, CuttingWish("least cloth", effort=FULL_EFFORT))


def _cloth_table(quilts: list[Instance], cuts: Cuts) -> Table:
    headings = ("own strips", "first fit", "ours", "LP bound", "ours / LP", "waste removed")
    table = new_table(f"Least cloth, {cuts.name}", "list", *headings, "steps", "of LP", "/ best", "s")
    ratios, shares = [], []
    for one in quilts:
        best = measured(one, CuttingWish("least cloth", cuts, effort=FULL_EFFORT))
        own = own_strips_layout(one.demands, one.supply)
        shelves = first_fit_length(one, cuts)
        length, bound = marks(best.layout.length), marks(best.layout.bound)
        ratios.append(length / bound)
        shares.append(removed(own, best.layout))
        known = one.best_by_cuts.get(cuts.name)
        table.add_row(
            one.name,
            f"{marks(own.length):,.0f}",
            f"{shelves:,}",
            f"{length:,.0f}",
            f"{bound:,.0f}",
            f"{ratios[-1]:.4f}",
            f"{shares[-1]:.3f}",
            str(best.layout.purchase.steps),
            str(least_steps(one, best.layout)),
            f"{length / known:.4f}" if known else "",
            f"{best.seconds:.2f}",
        )
    last_row(table, "mean", {5: statistics.mean(ratios), 6: statistics.mean(shares)})
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
    table = new_table("From least cloth to least cutting", "list", "choice", *headings)
    for one in quilts:
        own = own_strips_layout(one.demands, one.supply)
        rows = [(aim, measured(one, CuttingWish(aim, effort=FULL_EFFORT))) for aim in AIMS]
        for name, found in [*rows, ("own strips", Measured(own, 0.0, 0.0))]:
            layout = found.layout
            table.add_row(
                one.name,
                name,
                f"{marks(layout.length) / marks(own.length):.3f}",
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
    table = new_table(f"{title}: strips and crosscuts", "list", *headings)
    ratios = []
    for one in listed:
        best = measured(one, CuttingWish("least cloth", CROSSCUTS, effort=FULL_EFFORT))
        length = marks(best.layout.length)
        ratios.append(length / one.best_known)
        own = own_strips_layout(one.demands, one.supply)
        table.add_row(
            one.name,
            f"{marks(own.length):,.0f}",
            f"{first_fit_length(one, CROSSCUTS):,}",
            f"{length:,.0f}",
            f"{one.best_known:,}",
            f"{ratios[-1]:.4f}",
            f"{marks(best.layout.bound):,.0f}",
            f"{best.seconds:.2f}",
        )
    if ratios:
        last_row(table, "mean", {5: statistics.mean(ratios)})
        last_row(table, "worst", {5: max(ratios)})
    return table


def _growing_table(quilts: list[Instance]) -> Table:
    headings = ("first whole", f"{TIMES} x counts", "ratio", "all", f"{TIMES} x counts", "ratio")
    table = new_table("Seconds to the first whole layout, and to the last", "list", *headings)
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


def _memory(*words: str) -> int:
    done = subprocess.run([sys.executable, "-c", MEMORY, *words], check=True, capture_output=True, text=True)
    return int(done.stdout.split()[-1])


if __name__ == "__main__":
    main()
