"""`python -m benchmarks.virtual`: what a quilt will measure, by first order and by virtual quilts."""

from __future__ import annotations

from functools import partial

from rich import box
from rich.console import Console
from rich.table import Table

from benchmarks.quilts import timed_quilts
from benchmarks.timing import medians
from piecewright.planning.make_plan import make_plan
from piecewright.tolerance.hands import hands_of
from piecewright.tolerance.measuring import measure
from piecewright.tolerance.model import model_of
from piecewright.tolerance.virtual import virtual_quilts
from piecewright.workroom.workroom import INCH_WORKROOM

ROUNDS = 3


def main() -> None:
    """Prints the table; the largest quilt has fewer virtual ones."""
    hands = hands_of(INCH_WORKROOM)
    table = Table(title="Own hands", title_justify="left", box=box.SIMPLE_HEAD)
    for heading in ("quilt", "first order", "virtual quilts", "seconds", "deviation", "of virtual ones"):
        table.add_column(heading, justify="left" if heading == "quilt" else "right", no_wrap=True)
    for quilt in timed_quilts():
        job = make_plan(quilt.design, INCH_WORKROOM)
        model = model_of(job, hands)
        outlook, sewn = measure(job, hands), virtual_quilts(model)
        first, drawn = medians([partial(measure, job, hands), partial(virtual_quilts, model)], ROUNDS)
        side = model.order(model.top)[0]
        table.add_row(
            quilt.name,
            f"{first:.3f}",
            f"{sewn.quilts:,}",
            f"{drawn:.3f}",
            f"{outlook.top.deviation[0]:.4f}",
            f"{sewn.dims[model.top][:, side].std():.4f}",
        )
    Console(width=104).print(table)


if __name__ == "__main__":
    main()
