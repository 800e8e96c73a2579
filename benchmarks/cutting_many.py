"""Tables over lists made up by chance, and beside peers."""

from __future__ import annotations

import statistics

from rich.table import Table

from benchmarks.cutting_instances import Instance
from benchmarks.cutting_peers import packed
from benchmarks.cutting_random import made_up
from benchmarks.cutting_tables import (
    first_fit_length,
    last_row,
    least_steps,
    marks,
    measured,
    new_table,
    removed,
)
from piecewright.cutting.cuts import STACKS, TALL_STRIPS
from piecewright.cutting.laying import own_strips_layout
from piecewright.cutting.wishes import FULL_EFFORT, CuttingWish
from piecewright.measure.length import Length

SEEDS = range(1000, 1016)
LEAST = [CuttingWish("least cloth", cuts, effort=FULL_EFFORT) for cuts in (STACKS, TALL_STRIPS)]
USUAL = CuttingWish(effort=FULL_EFFORT)


def made_up_table() -> Table:
    """Lists made up by chance: least cloth in two ways of cutting, and the usual choice."""
    headings = ("sizes", "pieces", "stacks / LP", "waste removed", "steps", "of LP", "tall / LP")
    usual = ("usual: steps", "in 2 layers / own", "length / own", "s")
    table = new_table("Lists made up by chance", "list", *headings, *usual)
    figures = []
    for one in map(made_up, SEEDS):
        own = own_strips_layout(one.demands, one.supply)
        stacks, tall, choice = (measured(one, wish) for wish in (*LEAST, USUAL))
        figures.append(
            (
                _ratio(stacks.layout.length, stacks.layout.bound),
                removed(own, stacks.layout),
                _ratio(tall.layout.length, tall.layout.bound),
                choice.layout.operations(2) / own.operations(2),
                _ratio(choice.layout.length, own.length),
            )
        )
        table.add_row(
            one.name,
            str(len(one.demands)),
            f"{sum(demand.count for demand in one.demands):,}",
            f"{figures[-1][0]:.4f}",
            f"{figures[-1][1]:.3f}",
            str(stacks.layout.purchase.steps),
            str(least_steps(one, stacks.layout)),
            f"{figures[-1][2]:.4f}",
            str(choice.layout.purchase.steps),
            f"{figures[-1][3]:.3f}",
            f"{figures[-1][4]:.3f}",
            f"{choice.seconds:.2f}",
        )
    means = [statistics.mean(column) for column in zip(*figures, strict=True)]
    last_row(table, "mean", dict(zip((3, 4, 7, 9, 10), means, strict=True)))
    return table


def _ratio(length: Length, other: Length) -> float:
    return float(length) / float(other)


def peers_table(quilts: list[Instance]) -> Table:
    """Beside a general packer, and beside the best length that is known however pieces are cut out."""
    headings = ("own strips", "first fit", "packer", "s", "stacks", "tall strips", "s", "area", "best known")
    table = new_table("Beside peers: least cloth", "list", *headings, "tall / best")
    for one in quilts:
        stacks, tall = (measured(one, wish) for wish in LEAST)
        peer = packed(one)
        length = marks(tall.layout.length)
        table.add_row(
            one.name,
            f"{marks(own_strips_layout(one.demands, one.supply).length):,.0f}",
            f"{first_fit_length(one, STACKS):,}",
            f"{peer.length:,}" if peer else "none",
            f"{peer.seconds:.2f}" if peer else "",
            f"{marks(stacks.layout.length):,.0f}",
            f"{length:,.0f}",
            f"{tall.seconds:.2f}",
            f"{marks(tall.layout.area_bound):,.0f}",
            f"{one.best_known:,}",
            f"{length / one.best_known:.4f}",
        )
    return table
