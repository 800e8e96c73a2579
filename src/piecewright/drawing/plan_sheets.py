"""True-scale sheets of a job: templates for what is cut by them, foundations for what is sewn on paper."""

from __future__ import annotations

from piecewright.drawing.foundations import foundation_sheet
from piecewright.drawing.templates import raw_template, template_sheet
from piecewright.drawing.true_scale import TrueSheet
from piecewright.drawing.unit_sheets import section_shape
from piecewright.planning.job import Job
from piecewright.planning.motif import CutDown
from piecewright.planning.things import PaperSection, Shaped


def plan_templates(job: Job) -> TrueSheet | None:
    """A template for every pile that is cut by one; None where nothing is."""
    take_up, unit = float(job.workroom.take_up), job.design.unit
    shapes = tuple(
        raw_template(thing.cloth.raw, take_up, thing.name, count=job.counts[thing.name], unit=unit)
        for thing in job.things.values()
        if isinstance(thing, Shaped) and thing.cutting.how == "template" and job.counts[thing.name]
        if not (isinstance(thing, CutDown) and thing.is_trimmed)
    )
    return template_sheet(f"{job.design.title}: templates", shapes) if shapes else None


def plan_foundations(job: Job) -> TrueSheet | None:
    """The sections of every block that is sewn on paper; None where none is."""
    shapes = tuple(
        section_shape(
            thing.section,
            thing.name,
            str,
            float(job.workroom.fold),
            job.counts[thing.name],
            job.design.unit,
        )
        for thing in job.things.values()
        if isinstance(thing, PaperSection) and job.counts[thing.name]
    )
    return foundation_sheet(f"{job.design.title}: foundations", shapes) if shapes else None
