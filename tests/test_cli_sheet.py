"""`piecewright sheet`: one file, to print or for a machine, and a word on what is in it."""

import io
from pathlib import Path

import ezdxf
import pypdf
import pytest

from piecewright.cli.endings import code_of
from piecewright.cli.sheet import write_sheet
from piecewright.measure.length import inches
from piecewright.methods.comparing import compare_ways, unit_wanted
from piecewright.workroom.workroom import INCH_WORKROOM


@pytest.fixture(autouse=True)
def in_a_folder_of_its_own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def said(capsys, *words, **options) -> str:
    assert code_of(lambda: write_sheet(*words, **options)) == 0
    out, err = capsys.readouterr()
    assert err == ""
    return out


def refused(capsys, *words, **options) -> str:
    assert code_of(lambda: write_sheet(*words, **options)) == 1
    out, err = capsys.readouterr()
    assert out == ""
    assert not list(Path().iterdir())
    return err


def pages(file: str) -> list[pypdf.PageObject]:
    return list(pypdf.PdfReader(io.BytesIO(Path(file).read_bytes())).pages)


def test_a_sheet_is_written_under_the_name_of_its_way(capsys):
    out = said(capsys, "hst", "2", way="two at a time")
    assert [file.name for file in Path().iterdir()] == ["hst-two-at-a-time.pdf"]
    assert "2 squares 2 7/8 in, face to face; makes 2" in out
    assert "print at 100 %" in out
    assert out.splitlines()[-1] == "True-scale sheet, 1 page, letter: hst-two-at-a-time.pdf"


def test_it_says_how_many_to_print_for_so_many_units(capsys):
    out = said(capsys, "hst", "2", way="eight at a time", count="96", out="sheets/eight.pdf")
    assert "12 are needed: print this page 12 times." in out
    assert len(pages("sheets/eight.pdf")) == 1


def test_centimetres_come_on_a4_and_inches_on_letter_unless_one_says_otherwise(capsys):
    for finished, how, wide in (
        ("5 cm", {}, 210 / 25.4),  # ISO 216: A4 is 210 mm wide
        ("2", {}, 8.5),
        ("2", {"paper": "a4"}, 210 / 25.4),
        ("5 cm", {"unit": "in"}, 8.5),
    ):
        said(capsys, "hst", finished, way="two at a time", out="sheet.pdf", **how)
        assert float(pages("sheet.pdf")[0].mediabox.width) == pytest.approx(wide * 72, abs=0.01)


@pytest.mark.parametrize(
    ("kind", "finished", "way"),
    [
        ("hst", "3", "one at a time"),
        ("hst", "3", "four at a time"),
        ("hourglass", "4", "two at a time"),
        ("geese", "4 x 2", "four at a time"),
        ("geese", "4 x 2", "stitch and flip"),
        ("hst", "7.5 cm", "from cut triangles"),
    ],
)
def test_every_way_has_its_sheet_for_the_printer_and_for_a_machine(capsys, kind, finished, way):
    said(capsys, kind, finished, way=way, out="a.pdf")
    said(capsys, kind, finished, way=way, out="a.svg")
    out = said(capsys, kind, finished, way=way, out="a.DXF")
    assert pages("a.pdf")
    assert Path("a.svg").read_text().startswith("<svg ")
    assert not ezdxf.readfile("a.DXF").audit().errors
    assert out.splitlines()[-1] == "DXF in millimetres: a.DXF"


def test_a_way_with_nothing_to_mark_tells_what_to_cut(capsys):
    out = said(capsys, "hst", "2", way="from cut triangles", count="10")
    assert "A: first fabric" in out
    assert "cut 10" in out


def test_lines_may_be_chosen(capsys):
    assert "Sew beside the line" in said(capsys, "hst", "2", way="two at a time", lines="cutting")
    assert "Sew exactly on" in said(capsys, "hst", "2", way="two at a time", lines="sewing")


def test_a_seam_of_ones_own_moves_the_sewing_lines(capsys):
    Path("mine.toml").write_text('unit = "in"\nneedle = "7/32 in"\n')
    out = said(capsys, "hst", "2", way="two at a time", workroom=Path("mine.toml"))
    assert "the needle's distance, 7/32 in, from the cut" in out


def test_what_cannot_be_is_refused_in_a_sentence_and_nothing_is_written(capsys):
    assert "unknown way" in refused(capsys, "hst", "2", way="nine at a time")
    assert "unknown kind" in refused(capsys, "hts", "2")
    assert "--finished" in refused(capsys, "hst", "two")
    assert "--count" in refused(capsys, "hst", "2", count="0")
    assert "ends in .pdf, .svg or .dxf" in refused(capsys, "hst", "2", out="sheet.png")
    assert "at most 80 pages" in refused(capsys, "hst", "90", way="eight at a time")


def test_a_sheet_too_large_for_paper_may_still_go_to_a_machine(capsys):
    said(capsys, "hst", "90", way="eight at a time", out="large.svg")
    assert Path("large.svg").exists()


def test_any_unit_has_templates_of_its_patches_whatever_way_is_recommended(capsys):
    out = said(capsys, "geese", "4 x 2", way="templates", count="10")
    # trade-checks.csv seam_qst_add and seam_hst_add, plane geometry: 4 + 1.2071, 2 + 0.8536; half of 5.2071
    assert "A: goose, cut 10, finished 4 x 2 in, cut size about 5 3/16 x 2 5/8 in" in out
    assert "B: corners, cut 20, finished 2 in, cut size about 2 7/8 in" in out
    assert [file.name for file in Path().iterdir()] == ["geese-templates.pdf"]


def test_a_unit_can_be_had_as_a_foundation_with_the_scraps_it_needs(capsys):
    out = said(capsys, "geese", "4 x 2", way="on a foundation", count="10", out="f.pdf")
    assert "Section A; scraps at least: A1 " in out
    text = " ".join(" ".join(page.extract_text() for page in pages("f.pdf")).split())
    for word in ("A1", "A2", "A3", "goose", "Printed mirrored", "10 are needed"):
        assert word in text


def test_seams_that_only_follow_raw_edges_need_no_sheet_so_there_are_templates(capsys):
    ways = compare_ways(unit_wanted("insquare", inches(6), inches(6)), 2, INCH_WORKROOM)
    way = next(one.name for one in ways if one.name.startswith("from cut triangles"))
    out = said(capsys, "insquare", "6", way=way, count="2")
    # a square-in-a-square is one square and four triangles
    assert ": corners, cut 8, finished" in out
    assert "Stack" not in out
