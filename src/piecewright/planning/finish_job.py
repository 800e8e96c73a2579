"""The finishing of a planned quilt: what the job knows of its top, handed to the arithmetic of finishing."""

from __future__ import annotations

from dataclasses import replace

from piecewright.design.model import Design, fabric_of, finished_size
from piecewright.finishing.backing import BackingCloth
from piecewright.finishing.cost import Prices
from piecewright.finishing.finish_quilt import PlannedTop, finish_quilt
from piecewright.finishing.finish_wishes import FinishWishes, usual_wishes
from piecewright.finishing.finished import Finished
from piecewright.planning.cutting_wishes import usable_width_of
from piecewright.planning.finish import backing_cloth
from piecewright.planning.job import Job
from piecewright.planning.things import UnitThing


def finish_job(job: Job, wishes: FinishWishes | None = None, prices: Prices | None = None) -> Finished:
    """The finishing of a job as it is wished, or as its quilt file and common practice have it.

    Prices of the file's fabrics are known; those given go before them. Raises Refused as `finish_quilt`.
    """
    design = job.design
    return finish_quilt(wishes or wishes_of(job), planned_top(job), _with_prices(prices or Prices(), design))


def planned_top(job: Job) -> PlannedTop:
    """What the finishing must know of a job's top."""
    made = [thing for thing in job.things.values() if job.counts[thing.name]]
    return PlannedTop(
        size=finished_size(job.design),
        plan=job.plan,
        layouts=job.layouts,
        workroom=job.workroom,
        unit=job.design.unit,
        stations={thing.name: thing.station for thing in job.things.values()},
        ways=len({thing.recipe.method.name for thing in made if isinstance(thing, UnitThing)}),
        leftovers=tuple(left for cloth in job.cloth for left in cloth.cut.leftovers),
    )


def wishes_of(job: Job) -> FinishWishes:
    """The usual wishes with what the quilt file says: margins, cloths of back and binding, cut width."""
    design, usual = job.design, usual_wishes(job.design.unit)
    key = backing_cloth(design)
    width = usable_width_of(key, design, job.workroom)
    fabric = design.fabric.get(key)
    back = BackingCloth(key, width, fabric.one_way if fabric else False, fabric.price if fabric else None)
    wishes = replace(
        usual,
        back=replace(usual.back, margin=design.backing.margin),
        backs=(back,),
        batting=replace(usual.batting, margin=design.batting.margin),
    )
    if design.binding is None:
        return wishes
    cloth = fabric_of(design, design.binding.role)
    return replace(
        wishes,
        edge_cloth=cloth,
        edge_width=usable_width_of(cloth, design, job.workroom),
        binding=replace(usual.binding, cut_width=design.binding.width),
    )


def _with_prices(prices: Prices, design: Design) -> Prices:
    known = {fabric.key: fabric.price for fabric in design.fabrics if fabric.price is not None}
    return replace(prices, cloth={**known, **prices.cloth})
