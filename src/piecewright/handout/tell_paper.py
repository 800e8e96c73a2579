"""The sheet's words on what is sewn on paper: each foundation section, and the scrap for every number."""

from __future__ import annotations

from piecewright.drawing.joining import joining_svg
from piecewright.drawing.palette import palette_of
from piecewright.drawing.writing import size_in_words
from piecewright.handout.sheet import Part, Picture, Stage
from piecewright.handout.tell_units import size_of
from piecewright.methods.foundation.way import SAYS
from piecewright.planning.job import Job
from piecewright.planning.things import PaperSection


def paper_sections(job: Job) -> tuple[Part, ...]:
    """Every section that is sewn, each with its scraps by number."""
    return tuple(
        _section(job, thing)
        for thing in job.things.values()
        if isinstance(thing, PaperSection) and job.counts[thing.name]
    )


def _section(job: Job, thing: PaperSection) -> Part:
    unit = job.design.unit
    scraps = tuple(
        (p.number, f"{p.role} {size_in_words(p.scrap.cut_width, p.scrap.cut_height, unit)}")
        for p in thing.section.patches
    )
    picture = Picture(svg=joining_svg(thing.cloth, palette_of(job.design), thing.name), words=thing.name)
    stage = Stage(name=thing.name, says=SAYS, size=size_of(thing.cloth.size, unit), picture=picture)
    return Part(
        name=thing.name,
        count=f"make {job.counts[thing.name]}",
        says=("Sewn on paper: print foundations.pdf at full size. The scrap for each number, at least:",),
        key=scraps,
        stages=(stage,),
        picture=picture,
    )
