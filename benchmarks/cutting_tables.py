"""What the cutting tables share: a layout with its seconds, lengths in marks, and how a table looks."""

from __future__ import annotations

import time
from dataclasses import dataclass

from rich import box
from rich.table import Table

from benchmarks.cutting_instances import MARK, Instance
from piecewright.cutting.checking import check_layout
from piecewright.cutting.cuts import Cuts
from piecewright.cutting.laying import layouts
from piecewright.cutting.layout import Layout
from piecewright.cutting.marks import in_marks
from piecewright.cutting.shelves import first_fit, low, tall, upright
from piecewright.cutting.wishes import CuttingWish
from piecewright.measure.length import Length


@dataclass(frozen=True)
class Measured:
    """One layout with the processor seconds to the first whole one and to the last."""

    layout: Layout
    first: float
    seconds: float


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


def marks(length: Length) -> float:
    """A length in marks of the lists."""
    return float(length) / float(MARK)


def least_steps(one: Instance, layout: Layout) -> int:
    """The buying steps of a length as short as the bound."""
    return int(-(-layout.bound.exact // one.supply.buying_step.exact))


def removed(own: Layout, layout: Layout) -> float:
    """The share of what own strips waste beyond the bound that a layout does not waste."""
    most, least = marks(own.length), marks(layout.bound)
    return (most - marks(layout.length)) / (most - least) if most > least else 1.0


def first_fit_length(one: Instance, cuts: Cuts) -> int:
    """The shortest of three layouts by first fit, in marks; pieces of whole strips come besides."""
    sharing = [demand for demand in one.demands if not demand.whole_strip]
    task = in_marks(sharing, one.supply, cuts)
    least = min(task.length(first_fit(task, preferred)) for preferred in (upright, low, tall))
    whole = sum(demand.height.exact * demand.count for demand in one.demands if demand.whole_strip)
    return round((least * task.mark + whole) / MARK)


def new_table(title: str, first: str, *headings: str) -> Table:
    """An empty table; the columns of figures are flush right."""
    table = Table(title=title, title_justify="left", box=box.SIMPLE_HEAD)
    table.add_column(first, no_wrap=True)
    for heading in headings:
        table.add_column(heading, justify="left" if heading == "choice" else "right", no_wrap=True)
    return table


def last_row(table: Table, name: str, figures: dict[int, float]) -> None:
    """A row below the others, with figures in some columns."""
    cells = [f"{figures[k]:.4f}" if k in figures else "" for k in range(1, len(table.columns))]
    table.add_row(name, *cells, style="bold")
