"""From the pieces wanted of one cloth to its layout: the one call that planning makes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from piecewright.cutting.aims import ever_better
from piecewright.cutting.layout import Layout
from piecewright.cutting.shelves import own_strips
from piecewright.cutting.task import CuttingTask
from piecewright.cutting.wanted import Demand, Supply, check_wanted
from piecewright.cutting.wishes import AIMS, USUAL, CuttingWish
from piecewright.problems import Refused


def lay_out(demands: Sequence[Demand], supply: Supply, wish: CuttingWish = USUAL) -> Layout:
    """The best layout for a wish; usually the one that buys least, and of those the fewest ruler settings.

    It is never longer than each size in its own strips. Raises Refused with every reason why the pieces
    cannot be cut from the cloth. Equal sizes are best wanted together, under one name.
    """
    *_, last = layouts(demands, supply, wish)
    return last


def layouts(demands: Sequence[Demand], supply: Supply, wish: CuttingWish = USUAL) -> Iterator[Layout]:
    """Whole layouts, each better for the wish than those before; the first is there at once.

    The last knows the best bound. Raises Refused as `lay_out`.
    """
    task = _task(demands, supply, wish)
    if task.list is None:
        yield task.layout([])
        return
    last = None
    for strips in ever_better(task, wish):
        last = task.layout(strips)
        yield last
    if last is not None and last.bound != task.bound:
        yield replace(last, bound=task.bound)


def own_strips_layout(demands: Sequence[Demand], supply: Supply) -> Layout:
    """Each size in its own strips: what the best layout is measured against. Raises Refused as `lay_out`."""
    task = _task(demands, supply, USUAL)
    return task.layout(own_strips(task.list) if task.list else [])


def from_least_cloth_to_least_cutting(
    demands: Sequence[Demand], supply: Supply, wish: CuttingWish
) -> tuple[Layout, ...]:
    """One layout for each aim, in the order of AIMS, so that they can be weighed against each other."""
    return tuple(lay_out(demands, supply, replace(wish, aim=aim)) for aim in AIMS)


def _task(demands: Sequence[Demand], supply: Supply, wish: CuttingWish) -> CuttingTask:
    problems = check_wanted(demands, supply)
    if problems:
        raise Refused(*problems)
    return CuttingTask(demands, supply, wish.way_of_cutting)
