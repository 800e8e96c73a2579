"""True-scale sheets of a job: templates for what is cut by them, foundations for what is sewn on paper."""

from __future__ import annotations

from piecewright.drawing.foundations import NumberPart, foundation, foundation_sheet
from piecewright.drawing.templates import raw_template, template_sheet
from piecewright.drawing.true_scale import TrueShape, TrueSheet
from piecewright.drawing.writing import size_in_words
from piecewright.planning.job import Job
from piecewright.planning.things import PaperSection, Shaped


def plan_templates(job: Job) -> TrueSheet | None:
    """A template for every pile that is cut by one; None where nothing is."""
    take_up, unit = float(job.workroom.take_up), job.design.unit
    shapes = tuple(
        raw_template(thing.cloth.raw, take_up, thing.name, count=job.counts[thing.name], unit=unit)
        for thing in job.things.values()
        if isinstance(thing, Shaped) and thing.cutting.how == "template" and job.counts[thing.name]
    )
    return template_sheet(f"{job.design.title}: templates", shapes) if shapes else None


def plan_foundations(job: Job) -> TrueSheet | None:
    """The sections of every block that is sewn on paper; None where none is."""
    shapes = tuple(
        _section(job, thing)
        for thing in job.things.values()
        if isinstance(thing, PaperSection) and job.counts[thing.name]
    )
    return foundation_sheet(f"{job.design.title}: foundations", shapes) if shapes else None


def _section(job: Job, thing: PaperSection) -> TrueShape:
    section, unit = thing.section, job.design.unit
    fold = float(job.workroom.fold)
    scraps = "; ".join(
        f"{p.number} {size_in_words(p.scrap.cut_width, p.scrap.cut_height, unit)}" for p in section.patches
    )
    return foundation(
        section.outline,
        [NumberPart(p.number, p.outline, p.role) for p in section.patches],
        [line for patch in section.patches if (line := patch.stitching(fold))],
        section.rule.take_up,
        thing.name,
        count=job.counts[thing.name],
        caption=f"{thing.name}; scraps at least: {scraps}",
    )
