"""Cloth weighed against cutting: layouts of every cloth from the least cloth to the least cutting."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from piecewright.cutting.cloth_cut import ClothCut
from piecewright.cutting.laying import from_least_cloth_to_least_cutting
from piecewright.cutting.wanted import Demand
from piecewright.cutting.wishes import LITTLE_EFFORT
from piecewright.planning.cutting_wishes import bolt_of, spared, wish_of
from piecewright.planning.finish import BACKING
from piecewright.planning.job import Job
from piecewright.planning.laying_out import demands_of


def weighed(job: Job, effort: int = LITTLE_EFFORT) -> Job:
    """The job with the choices there are for every cloth that comes from the bolt alone; backing has none."""
    demands = demands_of(job.things, job.counts)
    return replace(job, cloth=tuple(_weighed(job, cloth, demands, effort) for cloth in job.cloth))


def _weighed(job: Job, cloth: ClothCut, demands: Mapping[str, Sequence[Demand]], effort: int) -> ClothCut:
    layout = cloth.cut.bought
    if layout is None or cloth.cut.used or cloth.name == BACKING:
        return cloth
    supply = bolt_of(cloth.name, job.design, job.workroom, layout.usable_width).supply
    wanted = spared(demands[cloth.name], job.workroom)
    return replace(
        cloth,
        choices=from_least_cloth_to_least_cutting(wanted, supply, wish_of(job.workroom, effort)),
    )
