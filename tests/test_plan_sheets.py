"""A job's templates and foundations, at true scale: one for every shape that is cut or sewn by them."""

from dataclasses import replace

from piecewright.blocks.reading import find
from piecewright.drawing.plan_sheets import plan_foundations, plan_templates
from piecewright.geometry.polygon import bounds
from piecewright.handout.files import job_files
from piecewright.handout.tell_piecing import together
from piecewright.planning.job import Job
from piecewright.planning.make_plan import make_plan
from piecewright.planning.things import PaperSection, Shaped
from piecewright.workroom.workroom import INCH_WORKROOM


def job_of(name: str, prefer: str = "") -> Job:
    design = find(name).design
    blocks = tuple(replace(block, prefer=prefer) for block in design.blocks)
    return make_plan(replace(design, blocks=blocks), INCH_WORKROOM)


def test_every_pile_cut_by_template_has_one_as_large_as_its_pieces() -> None:
    job = job_of("grandmother's flower garden")
    cut = [t for t in job.things.values() if isinstance(t, Shaped) and t.cutting.how == "template"]
    sheet = plan_templates(job)
    assert cut
    assert sheet is not None
    assert [shape.count for shape in sheet.shapes] == [job.counts[thing.name] for thing in cut]
    for thing, shape in zip(cut, sheet.shapes, strict=True):
        edge = next(line.points for line in shape.lines if line.kind == "cut")
        assert bounds(edge) == bounds(thing.cloth.raw)


def test_a_block_on_paper_prints_each_of_its_sections_as_often_as_it_is_sewn() -> None:
    job = job_of("pineapple", "foundation")
    sections = [t for t in job.things.values() if isinstance(t, PaperSection)]
    sheet = plan_foundations(job)
    assert job.replay.made_as_drawn
    assert sheet is not None
    assert [(shape.count) for shape in sheet.shapes] == [job.counts[section.name] for section in sections]


def test_the_sheet_tells_how_a_block_on_paper_is_sewn_and_the_scrap_for_every_number() -> None:
    job = job_of("churn dash", "foundation")
    told = {part.name: part for part in together(job)}
    sections = [t for t in job.things.values() if isinstance(t, PaperSection)]
    assert [name for name in told if name in {section.name for section in sections}]
    for section in sections:
        assert [number for number, _ in told[section.name].key] == [p.number for p in section.section.patches]
        assert "printed line" in " ".join(told[section.name].stages[0].says)


def test_they_lie_beside_the_job_sheet_and_only_where_they_are_needed() -> None:
    assert "foundations.pdf" in job_files(job_of("pineapple", "foundation"))
    assert not {"templates.pdf", "foundations.pdf"} & {*job_files(job_of("churn dash"))}
