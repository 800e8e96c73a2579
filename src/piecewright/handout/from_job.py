"""From a job to its sheet: every station of the work in words, figures and pictures."""

from __future__ import annotations

from piecewright.design.model import Design, finished_size
from piecewright.drawing.palette import palette_of
from piecewright.drawing.quilt import quilt_svg
from piecewright.handout.sheet import JobSheet, Paper, Picture
from piecewright.handout.tell_cloth import cutting, purchases
from piecewright.handout.tell_finish import finishing
from piecewright.handout.tell_finishing_more import finishing_more
from piecewright.handout.tell_joining import borders, joining, made_blocks, trial_block
from piecewright.handout.tell_piecing import together
from piecewright.handout.tell_pressing import iron, pressing
from piecewright.handout.tell_units import units
from piecewright.measure.showing import figure, show
from piecewright.planning.finish_job import finish_job
from piecewright.planning.job import Job
from piecewright.workroom.workroom import Workroom


def job_sheet(job: Job, paper: Paper = "letter") -> JobSheet:
    """The whole sheet of a job."""
    design, workroom = job.design, job.workroom
    unit = design.unit
    return JobSheet(
        title=design.title,
        reason=design.reason,
        finished_size=size_words(design),
        picture=Picture(
            svg=quilt_svg(job.drawing, palette_of(design), _binding_role(design), unit),
            words=f"{design.title}, finished",
        ),
        facts=_facts(job),
        worth_knowing=tuple(str(note) for note in job.notes if "nest" not in note.what),
        purchases=purchases(job),
        purchase_notes=(
            f"Bare minimum: what the pieces take from cloth {show(workroom.usable_width, unit)} wide between "
            f"the selvedges. To buy: with {show(workroom.straightening, unit)} to straighten, "
            f"{_spare(workroom)}, rounded up to what the shop cuts.",
        ),
        before_you_cut=(
            "Decide whether to wash: all the cloth, or none of it. Press it and straighten one end.",
            "Borders and long strips are cut first, so that nothing has to be pieced that could be whole.",
            f"Check your seam: it should take {show(workroom.take_up, unit)} from each side, fold included.",
            "WOF is the width of fabric between the selvedges. Check your own size at each station.",
        ),
        test_block=trial_block(job),
        cutting=cutting(job),
        units=units(job),
        together=together(job),
        pressing=pressing(job),
        iron=iron(job),
        joining=joining(job),
        borders=borders(job),
        finishing=(*finishing(job), *finishing_more(finish_job(job))),
        made_with=(
            f"Planned for a seam that takes up {show(workroom.take_up, unit)} "
            f"(needle {show(workroom.needle, unit)}, fold {show(workroom.fold, unit)}), cut sizes rounded up "
            f"to {show(workroom.rounding, unit)}."
        ),
        replayed=(
            f"The plan was run through first: {job.replay.operations} steps, {job.replay.patches} patches, "
            "and it made the quilt that was drawn. Arithmetic is run through, hands are not: "
            "check your own size at each station."
        ),
        accent=_accent(design),
        paper=paper,
    )


def size_words(design: Design) -> str:
    """The finished size: `52 x 61 in`."""
    width, height = finished_size(design)
    return f"{figure(width, design.unit)} x {show(height, design.unit)}"


def _facts(job: Job) -> tuple[tuple[str, str], ...]:
    made = ", ".join(f"{job.counts[block.name]} {called}" for called, block in made_blocks(job))
    facts = [("patches", f"{job.replay.patches:,}")]
    if made:
        facts.append(("blocks", made))
    return tuple(facts)


def _spare(workroom: Workroom) -> str:
    strips = f"{workroom.spare_strips} spare strip{'' if workroom.spare_strips == 1 else 's'}"
    return f"{strips}, {workroom.shrinkage:.0%} for shrinkage" if workroom.shrinkage else strips


def _binding_role(design: Design) -> str | None:
    return design.binding.role if design.binding else None


def _accent(design: Design) -> str:
    """The quilt's strongest colour: that of its binding, or of its first fabric."""
    if design.binding and design.role[design.binding.role].fabric:
        return design.fabric[str(design.role[design.binding.role].fabric)].colour
    return design.fabrics[0].colour if design.fabrics else ""
