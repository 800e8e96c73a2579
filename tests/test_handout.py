"""The job sheet on paper: what it holds, how it is set, and that words stay words."""

import io
import re
import subprocess
import sys
from dataclasses import fields, is_dataclass, replace
from itertools import count
from pathlib import Path

import pypdf
import pytest

from handout_sample import cloth, sample, tide, unit
from piecewright.handout.printing import job_sheet_pdf, write_job_sheet
from piecewright.handout.sheet import JobSheet, Picture
from piecewright.problems import Refused

# Every sign that starts something in the language of the pages, and some of HTML.
HOSTILE = "#panic() $x$ *b* _u_ `c` @r = h <script> [k] \\ // /* ~ -- ... {{"
POINT_PER_INCH = 72
LETTER = (8.5 * 72, 11 * 72)
A4 = (210 / 25.4 * 72, 297 / 25.4 * 72)  # ISO 216: 210 mm x 297 mm


def read(sheet: JobSheet, **how: bool) -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(job_sheet_pdf(sheet, **how)))


def page_texts(pdf: pypdf.PdfReader) -> list[str]:
    return [" ".join(page.extract_text().split()) for page in pdf.pages]


def text_of(sheet: JobSheet, **how: bool) -> str:
    return " ".join(page_texts(read(sheet, **how)))


def uncompressed(pdf: bytes) -> bytes:
    writer = pypdf.PdfWriter(clone_from=io.BytesIO(pdf))
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()


def stations_of(sheet: JobSheet) -> list[str]:
    return [entry.title for entry in read(sheet).outline if not isinstance(entry, list)]


def with_words(value: object, word: object) -> object:
    """The value with every printed string in it replaced by `word(field name, string)`."""
    if isinstance(value, tuple):
        return tuple(with_words(one, word) for one in value)
    if is_dataclass(value):
        keep = {"svg", "words", "colours", "paper", "accent"} if not hasattr(value, "about") else set()
        return replace(
            value,
            **{
                field.name: with_words(getattr(value, field.name), word)
                for field in fields(value)
                if field.name not in keep
            },
        )
    return word() if isinstance(value, str) else value


def bars(page: pypdf.PageObject) -> list[float]:
    """The widths of all filled black rectangles of 5 points' height, in points."""
    matrix, kept, found, corners, colour = (1.0, 1.0), [], [], [], None
    for operands, sign in pypdf.generic.ContentStream(page.get_contents(), page.pdf).operations:
        if sign == b"q":
            kept.append(matrix)
        elif sign == b"Q":
            matrix = kept.pop()
        elif sign == b"cm":
            matrix = (matrix[0] * float(operands[0]), matrix[1] * float(operands[3]))
        elif sign in (b"scn", b"g", b"rg", b"sc"):
            colour = [float(part) for part in operands]
        elif sign in (b"m", b"l"):
            corners.append([float(part) for part in operands])
        elif sign == b"re":
            x, y, w, h = map(float, operands)
            corners += [[x, y], [x + w, y + h]]
        elif sign in (b"f", b"f*", b"S", b"n", b"B"):
            if sign in (b"f", b"f*") and corners and colour and max(colour) < 0.2:
                wide = (max(x for x, _ in corners) - min(x for x, _ in corners)) * abs(matrix[0])
                high = (max(y for _, y in corners) - min(y for _, y in corners)) * abs(matrix[1])
                if high == pytest.approx(5, abs=0.01):
                    found.append(wide)
            corners = []
    return found


def test_the_sheet_holds_its_figures_in_the_two_line_form_with_fractions_that_can_be_copied():
    text = text_of(sample())
    assert "cut 6 strips 2 7/8 in × WOF from these 76 squares 2 7/8 in" in text
    assert "fog, a warm pale grey 38 1/4 + 2 to straighten" in text
    assert "1 1/16 yd 1 1/4 yd" in text
    assert "before truing 2 5/8 in yours" in text
    assert "52 1/2 in × 61 1/2 in" in text


def test_the_stations_stand_in_the_order_of_the_work():
    stations = (
        *("To buy", "Before you cut", "The test block", "How to check", "To cut", "Units"),
        *("Pressing", "Joining", "Borders", "Finishing", "Take care"),
    )
    assert stations_of(sample()) == [f"{number} {name}" for number, name in enumerate(stations, start=1)]


def test_the_cautions_are_on_the_sheet():
    text = text_of(sample())
    for words in (
        "Close the blade every time",
        "Cut away from yourself",
        "a guard on the ruler",
        "Keep it where no child can reach it",
        "Lift it and set it down",
        "Count them when you start and count them again",
        "No quilt in a baby’s cot in the first year",
        "Follow your local safe-sleep advice",
        "those come first",
    ):
        assert words in text


def test_the_verdicts_say_never_to_trim_all_to_the_smallest():
    text = text_of(sample())
    assert all(verdict in text for verdict in ("fine", "ease", "sew again", "true all up alike"))
    assert "Never trim all to the smallest." in text


@pytest.mark.parametrize(("paper", "size"), [("letter", LETTER), ("a4", A4)])
def test_every_page_has_the_size_of_its_paper(paper, size):
    for page in read(sample(paper=paper)).pages:
        assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(size, abs=0.01)


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_the_bars_measure_one_inch_and_five_centimetres(paper):
    inch, five_cm = sorted(bars(read(sample(paper=paper)).pages[0]))
    assert inch == pytest.approx(POINT_PER_INCH, abs=0.01)
    assert five_cm == pytest.approx(5 / 2.54 * POINT_PER_INCH, abs=0.01)


def test_every_page_says_which_of_how_many_and_of_what_quilt():
    texts = page_texts(read(sample()))
    for number, text in enumerate(texts, start=1):
        assert f"Ropewalk lanterns {number} of {len(texts)}" in text


def test_no_word_can_act_as_markup_wherever_it_stands():
    numbers = count(1)
    sheet = with_words(sample(), lambda: f"{HOSTILE} n{next(numbers)}n")
    text = text_of(sheet).replace(" ", "")
    wanted = [f"{HOSTILE} n{number}n".replace(" ", "") for number in range(1, next(numbers))]
    assert [one for one in wanted if one not in text] == []


def test_sums_are_printed_only_when_they_are_wanted():
    assert "2.8536" in text_of(sample())
    without = text_of(sample(), sums=False)
    assert "2.8536" not in without
    assert "38 1/4 + 2 to straighten" not in without


def test_a_station_with_nothing_in_it_is_left_out_and_the_numbers_close_up():
    bare = JobSheet(
        title="Bare", finished_size="9 in x 9 in", picture=sample().picture, units=(unit("HST", "4", "w"),)
    )
    assert stations_of(bare) == ["1 How to check", "2 Units", "3 Take care"]


@pytest.mark.parametrize("left_out", [{}, {"test_block": None, "verdicts": ()}])
def test_no_heading_stands_alone_at_the_foot_of_a_page(left_out):
    lone = r"\d+ (To cut|How to check|Units|Joining|Borders|Finishing|Take care|The test block)"
    for many in range(0, 46, 2):
        sheet = sample(before_you_cut=("Press every piece flat.",) * many, **left_out)
        for page in read(sheet).pages:
            lines = [line.strip() for line in page.extract_text().splitlines() if line.strip()]
            last = lines[-2]  # above the foot of the page
            assert not re.fullmatch(lone, last)
            assert not last.startswith(("Cut in this order", "After every unit"))


def test_a_unit_card_and_a_cloth_stay_on_one_page():
    units = tuple(
        unit(
            f"First {n}",
            "4",
            "way",
        )
        for n in range(5)
    )
    units = tuple(replace(one, sums=(f"Last {n}",)) for n, one in enumerate(units))
    cloths = tuple(replace(cloth(tide, "#3d5a73", 4), note=f"Top {n}", sums=(f"End {n}",)) for n in range(5))
    for lines in range(0, 30, 4):
        steps = ("Press every piece flat.",) * lines
        texts = page_texts(read(sample(before_you_cut=steps, units=units, cutting=cloths)))
        for n in range(5):
            assert sum(f"First {n} " in text and f"Last {n}" in text for text in texts) == 1
            assert sum(f"Top {n} " in text and f"End {n}" in text for text in texts) == 1


def test_a_card_longer_than_a_page_goes_on_upon_the_next():
    steps = tuple(f"Step number {n}." for n in range(150))
    pdf = read(sample(units=(replace(unit("Long", "1", "way"), steps=steps),)))
    below: list[str] = []

    def see(text: str, page: list[float], line: list[float], *_: object) -> None:
        if text.strip() and not 30 < page[3] * line[5] + page[5] < LETTER[1]:
            below.append(text)

    texts = [page.extract_text(visitor_text=see) for page in pdf.pages]
    assert below == []
    assert sum("Step number 149." in text for text in texts) == 1


def test_the_same_sheet_gives_the_same_bytes_also_in_another_process():
    call = (
        "import sys, hashlib; sys.path.insert(0, sys.argv[1]); from handout_sample import sample; "
        "from piecewright.handout.printing import job_sheet_pdf; "
        "print(hashlib.sha256(job_sheet_pdf(sample())).hexdigest())"
    )
    command = [sys.executable, "-c", call, str(Path(__file__).parent)]
    digests = {subprocess.run(command, capture_output=True, text=True, check=True).stdout for _ in range(2)}
    assert len(digests) == 1
    assert read(sample()).metadata.get("/CreationDate") is None


def test_only_bundled_fonts_are_used_also_where_a_picture_asks_for_another():
    words = '<text y="9" font-family="DejaVu Serif">WOF</text>'
    lettered = Picture(svg=f'<svg xmlns="http://www.w3.org/2000/svg" width="40" height="20">{words}</svg>')
    names = re.findall(rb"/BaseFont /\w+\+(\w+)", uncompressed(job_sheet_pdf(sample(picture=lettered))))
    assert set(names) == {b"LibertinusSerif"}


def test_a_file_is_written_whole_and_replaces_the_one_before(tmp_path):
    place = tmp_path / "job-sheet.pdf"
    place.write_text("old")
    write_job_sheet(sample(), place)
    assert place.read_bytes() == job_sheet_pdf(sample())
    assert [file.name for file in tmp_path.iterdir()] == ["job-sheet.pdf"]


def test_a_place_that_does_not_exist_is_refused_in_a_sentence(tmp_path):
    with pytest.raises(Refused, match=r"expected a place to write the job sheet.*Name a file in a folder"):
        write_job_sheet(sample(), tmp_path / "nowhere" / "job-sheet.pdf")


def test_a_colour_or_a_picture_that_cannot_be_printed_is_refused(tmp_path):
    with pytest.raises(Refused, match="expected a colour like #1b2a41, got mauvish"):
        job_sheet_pdf(sample(accent="mauvish"))
    with pytest.raises(Refused, match="the job sheet could not be set"):
        write_job_sheet(sample(picture=Picture(svg="<svg")), tmp_path / "a.pdf")
    assert list(tmp_path.iterdir()) == []
