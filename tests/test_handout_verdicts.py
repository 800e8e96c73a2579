"""What a unit's card says of each size that the ruler may show."""

from __future__ import annotations

import io

import pypdf

from drawn_things import WORKROOM, recipe
from handout_sample import sample, unit
from piecewright.handout.printing import job_sheet_pdf
from piecewright.handout.sheet import SizeVerdicts
from piecewright.handout.tell_units import size_verdicts


def told(verdicts: SizeVerdicts) -> list[tuple[str, str]]:
    return [(row.when, row.verdict) for row in verdicts.verdicts]


def test_sizes_of_a_square_have_a_verdict_each_with_no_gap() -> None:
    # 2 in finished is 2 1/2 in raw at a seam of 1/4 in. Ease up to 1/16 in and trims from 1/8 in: common
    # practice, no source.
    (only,) = size_verdicts(recipe("hst", "eight at a time"), WORKROOM, "in")
    assert only.side == "in"
    assert told(only) == [
        ("under 2 1/2", "sew again"),
        ("2 1/2", "fine"),
        ("2 1/2 to 2 9/16", "ease"),
        ("2 9/16 to 2 5/8", "sew again"),
        ("2 5/8 and over", "true all up alike"),
    ]


def test_a_rectangle_has_a_column_for_each_side_and_the_same_verdicts_in_both() -> None:
    wide, high = size_verdicts(recipe("geese", "four at a time"), WORKROOM, "in")
    assert (wide.side, high.side) == ("in wide", "in high")
    assert told(wide)[1] == ("4 1/2", "fine")
    assert told(high)[1] == ("2 1/2", "fine")
    assert [verdict for _, verdict in told(wide)] == [verdict for _, verdict in told(high)]


def test_figures_are_in_the_unit_of_the_design() -> None:
    # Exact: 2 1/2 in are 63.5 mm.
    (only,) = size_verdicts(recipe("hst", "eight at a time"), WORKROOM, "cm")
    assert (only.side, told(only)[0]) == ("cm", ("under 6.35", "sew again"))


def test_a_unit_that_is_no_rectangle_has_no_verdicts_by_width() -> None:
    assert size_verdicts(recipe("diamond45", "from strips"), WORKROOM, "in") == ()


def test_verdicts_are_printed_on_the_card() -> None:
    measured = size_verdicts(recipe("geese", "four at a time"), WORKROOM, "in")
    sheet = sample(units=(unit("Geese", "make 12", "four at a time", measured=measured),))
    pages = pypdf.PdfReader(io.BytesIO(job_sheet_pdf(sheet))).pages
    words = " ".join(" ".join(page.extract_text() for page in pages).split()).replace("⁄", "/")
    after = words.partition("If it measures")[2]
    for expected in ("in wide", "in high", "under 4 1/2", "2 5/8 and over", "true all up alike"):
        assert expected in after[:400], expected
