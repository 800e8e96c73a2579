"""From a job to its files: the sheet says what the plan does, and every quilt that is planned is printed."""

import io
from pathlib import Path

import pytest
from hypothesis import HealthCheck, assume, given, settings
from pypdf import PdfReader

from piecewright.design.read import read_design
from piecewright.handout.files import job_files
from piecewright.handout.from_job import job_sheet
from piecewright.measure.length import ZERO
from piecewright.measure.showing import show_cloth
from piecewright.planning.job import Job
from piecewright.planning.make_plan import make_plan
from piecewright.problems import Refused
from piecewright.workroom.workroom import default_workroom
from random_quilts import Quilt, quilts

EXAMPLES = Path(__file__).parent.parent / "examples"


def job_of(name: str) -> Job:
    design, problems = read_design(EXAMPLES / f"{name}.toml")
    assert design is not None, problems
    return make_plan(design, default_workroom(design.unit))


def words_of(pdf: bytes) -> str:
    return " ".join(" ".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages).split())


def test_the_sheet_of_the_star_has_its_published_cut_sizes_and_its_cautions() -> None:
    # Geese 6 x 3 four at a time, 7 1/4 and 3 7/8: members.shaw.ca/beverlysquiltingpage/ffg.htm.
    words = words_of(job_files(job_of("sawtooth-star"))["job-sheet.pdf"])
    for expected in ("7 1/4", "3 7/8", "6 1/2", "12 1/2", "Rotary cutter", "cot in the first year"):
        assert expected in words.replace("⁄", "/"), expected


def test_every_picture_of_the_throw_is_a_file_of_its_own() -> None:
    files = job_files(job_of("harbour-lights"))
    names = {name.removeprefix("pictures/").removesuffix(".svg") for name in files if name.endswith(".svg")}
    assert {"quilt", "block-light", "block-wake", "cutting-night", "cutting-rust"} <= names
    assert {
        "unit-1-four-patches",
        "unit-2-half-square-triangles",
        "unit-3-flying-geese",
        "unit-4-hourglasses",
    } <= names
    assert {"pressing-wake", "joining-lantern-star", "joining-block-row-b"} <= names
    assert all(files[name].startswith(b"<svg") for name in files if name.endswith(".svg"))


def test_the_test_block_takes_one_of_each_block_and_says_what_it_measures() -> None:
    part = job_sheet(job_of("harbour-lights")).test_block
    assert part is not None
    told = {line.cut: line.then[0] for line in part.lines}
    # A lantern star: four corners, four geese from a large and four small squares, one pair for two
    # hourglasses, by the formulas of the methods: 4 + 1.2071 and 2 + 0.8536, up to 1/8 (plane geometry).
    assert told["for one Lantern star, from night"] == "4 squares 2 1/2 in, 1 square 5 1/4 in"
    assert told["for one Lantern star, from lantern"] == "4 squares 2 7/8 in"
    assert {size.size for size in part.sizes} == {"8 1/2 in"}


def test_a_row_is_shown_as_it_lies_in_the_quilt() -> None:
    sheet = job_sheet(job_of("slack-water"))
    sizes = {part.name: part.sizes[0].size for part in sheet.joining}
    # Seven blocks of 9 in side by side, a seam allowance of 1/4 in all round: plane arithmetic.
    assert sizes["Block row"] == "63 1/2 x 9 1/2 in"


def test_an_assortment_is_told_to_be_shared_out_over_its_prints() -> None:
    sheet = job_sheet(job_of("slack-water"))
    (blues,) = [cloth for cloth in sheet.cutting if cloth.fabric.name.startswith("blues")]
    assert "18 prints" in blues.note
    assert "at most 10 alike" in blues.note


def test_what_is_bought_of_an_assortment_is_what_its_prints_come_to() -> None:
    """One cloth would take 2 5/8 yd; the sums and the leftovers of one cloth would contradict the prints."""
    job = job_of("slack-water")
    sheet = job_sheet(job)
    (bought,) = [row for row in sheet.purchases if row.fabric.name.startswith("blues")]
    (blues,) = [cloth for cloth in sheet.cutting if cloth.fabric.name.startswith("blues")]
    shares = job.prints["blues"].shares
    assert bought.buy == show_cloth(sum((s.layout.buy * s.prints for s in shares), ZERO), "in")
    assert bought.buy in bought.note
    assert bought.sums == ()
    assert not any("to buy" in line for line in blues.sums)
    assert blues.keep == ""
    assert {left.fabric for left in job.shelf.left} == {"linen", "deep", "backing"}


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_equal_jobs_give_equal_bytes(paper) -> None:
    assert job_files(job_of("metric-nets"), paper) == job_files(job_of("metric-nets"), paper)


@settings(max_examples=25, suppress_health_check=list(HealthCheck))
@given(quilts())
def test_every_quilt_that_is_planned_is_printed(quilt: Quilt) -> None:
    try:
        job = make_plan(quilt.read(), quilt.workroom)
    except Refused:
        assume(False)
        raise
    assert job_files(job, "a4")["job-sheet.pdf"].startswith(b"%PDF")
