"""`piecewright strips` and `piecewright measure` as the command line's functions: words, files, refusals."""

import json
from pathlib import Path

import pytest

from piecewright.cli.endings import code_of
from piecewright.cli.hands import measure_quilt, strip_answer

EXAMPLES = Path(__file__).parents[1] / "examples"
STAR = EXAMPLES / "sawtooth-star.toml"
LIGHTS = EXAMPLES / "harbour-lights.toml"
THREE = {"strips": "3", "cut": "1 1/2", "across": "3 1/2", "inner": "1"}


def said(capsys, command, *words, **options) -> list[str]:
    assert code_of(lambda: command(*words, **options)) == 0
    out, err = capsys.readouterr()
    assert err == ""
    return out.splitlines()


def refused(capsys, command, *words, **options) -> str:
    assert code_of(lambda: command(*words, **options)) == 1
    out, err = capsys.readouterr()
    assert out == ""
    return err


def test_three_strips_that_measure_three_and_a_half_need_no_change(capsys):
    # published: quiltcentric.com 2012/09/16 (trade-checks.csv, strip_test)
    assert said(capsys, strip_answer, **THREE) == [
        "Take-up: 1/4 in ± 0.0285 in.",
        "Needle 15/64 in, fold 1/64 in: the fold is your workroom's; --needle tells them apart.",
        "Your strips are cut as wide as they were meant.",
        "",
        "A row of 6 squares, 2 in finished, should measure 12 1/2 in, unfinished.",
        "With your seam it measures 12 1/2 in.",
        "",
        "Change nothing: that is the 1/4 in of your workroom, as far as a ruler can tell.",
    ]


def test_a_wide_seam_is_told_with_what_it_does_to_a_row_and_what_to_change(capsys):
    lines = said(capsys, strip_answer, **{**THREE, "across": "3 3/8", "inner": "15/16"}, needle="1/4")
    # exact: t = (3 3/8 - 3 x 15/16)/2 = 9/32; ten take-ups of a row, each 1/32 in more
    assert lines[:2] == ["Take-up: 9/32 in ± 0.0285 in.", "Needle 1/4 in, fold 1/32 in."]
    assert "With your seam it measures 12 3/16 in." in lines
    assert lines[-1].startswith("Sew with the needle 1/32 in nearer to the raw edge; or leave it,")


def test_strips_cut_too_narrow_are_told_apart_from_the_seam(capsys):
    lines = said(capsys, strip_answer, **{**THREE, "across": "3 5/16", "inner": "15/16"})
    # exact: w = 3 5/16 - 2 x 15/16 = 1 7/16, t = 1/4; six squares, each 1/16 in narrower
    assert lines[0].startswith("Take-up: 1/4 in")
    assert "Your strips are cut 1/16 in narrower than meant." in lines
    assert "With your seam it measures 12 1/2 in, cut as your strips were 12 1/8 in." in lines


def test_one_inner_strip_of_many_leaves_more_doubt_than_a_ruler_should(capsys):
    nine = {"strips": "9", "cut": "1 1/2", "across": "9 1/2", "inner": "1"}
    hint = "To know it better, measure all inner strips together (--inner-strips), or sew more tests."
    assert hint in said(capsys, strip_answer, **nine)
    assert hint not in said(capsys, strip_answer, **{**nine, "inner": "7", "inner_strips": "7"})


def test_centimetres_are_read_from_the_figures(capsys):
    lines = said(capsys, strip_answer, strips="3", cut="4 cm", across="9 cm", inner="2.5 cm")
    assert lines[0] == "Take-up: 0.75 cm ± 0.046 cm."
    assert "A row of 6 squares, 5 cm finished, should measure 31.5 cm, unfinished." in lines


def test_the_strip_test_for_other_programs_is_in_decimal_inches(capsys):
    data = json.loads("\n".join(said(capsys, strip_answer, **THREE, as_json=True)))
    assert (data["take_up"], data["needle"], data["fold"], data["cut_off"]) == (0.25, 0.234375, 0.015625, 0.0)
    assert data["tests"] == [{"width": 1.5, "take_up": 0.25, "doubt": 0.014264}]
    assert data["row"] == {"planned": 12.5, "sewn": 12.5, "cut_and_sewn": 12.5}
    assert data["deviation"] is None


def test_every_test_is_kept_in_a_file_and_the_answer_is_over_all_of_them(capsys, tmp_path):
    tests = tmp_path / "tests.toml"
    said(capsys, strip_answer, **THREE, tests=tests)
    said(capsys, strip_answer, **{**THREE, "across": "3 7/16", "inner": "31/32"}, tests=tests)
    lines = said(capsys, strip_answer, tests=tests)
    # exact: 1/4 and (3 7/16 - 3 x 31/32)/2 = 17/64; their deviation is 1/64 / sqrt(2), of single seams 1/64
    assert lines[0].startswith("Take-up over 2 tests: 0.2578 in")
    assert "Spread: 0.0110 in between tests, 0.0156 in between single seams." in lines


def test_a_test_that_cannot_be_right_names_its_option_and_is_not_kept(capsys, tmp_path):
    tests = tmp_path / "tests.toml"
    said(capsys, strip_answer, **THREE, tests=tests)
    before = tests.read_text("utf-8")
    err = refused(capsys, strip_answer, **{**THREE, "inner": "1 1/4"}, tests=tests)
    assert err.startswith(
        "--inner: the inner strip looks wrong: the other figures lead to about 1 in, got 1 1/4"
    )
    assert tests.read_text("utf-8") == before


def test_needle_and_fold_are_kept_in_the_workroom_with_its_remarks(capsys, tmp_path):
    room = tmp_path / "room.toml"
    room.write_text('# my machine\nneedle = "15/64 in"\n', "utf-8")
    wide = {**THREE, "across": "3 3/8", "inner": "15/16", "needle": "1/4"}
    lines = said(capsys, strip_answer, **wide, workroom=room, keep=True)
    assert lines[-1] == f"Needle and fold are written into {room}."
    assert room.read_text("utf-8") == '# my machine\nneedle = "1/4 in"\nfold = "1/32 in"\n'
    # sewn again, the workroom knows the seam
    assert said(capsys, strip_answer, **wide, workroom=room)[-1].startswith("Change nothing")


WRONG = {
    "nothing typed": ({}, "--strips: a strip test needs --strips, --cut, --across and --inner."),
    "half typed": ({"strips": "3", "cut": "2"}, "Give --across and --inner as well."),
    "no count": ({**THREE, "strips": "some"}, "--strips: expected a whole number"),
    "no length": ({**THREE, "across": "wide"}, "--across: expected a length"),
    "no inner strips": (
        {**THREE, "inner_strips": "2"},
        "--inner-strips: of 3 strips 1 are inner ones, got 2",
    ),
    "four strips counted as three": (
        {**THREE, "across": "4 1/2"},
        "--across: the total, 4 1/2 in, is not less",
    ),
    "keep without a workroom": ({**THREE, "keep": True}, "--workroom: expected a workroom file"),
}


@pytest.mark.parametrize("why", WRONG)
def test_a_wrong_figure_is_one_sentence_that_names_its_option(why, capsys):
    options, sentence = WRONG[why]
    err = refused(capsys, strip_answer, **options)
    assert sentence in err
    assert err.count("\n") == 1


def test_a_quilt_in_steady_hands_measures_what_the_sheet_says(capsys):
    lines = said(capsys, measure_quilt, STAR, spread="0", cut_spread="0")
    assert lines[0].endswith(", in your hands")
    assert lines[1] == "Take-up 1/4 in, as planned; single seams vary by 0.0000 in, cuts by 0.0000 in."
    sheet, yours = lines[2].removeprefix("The top, unfinished: ").split(" on the sheet, yours ")
    assert f"{sheet}." == yours
    assert {line.split()[-1] for line in lines if line.startswith("Sawtooth")} - {"hands"} == {"fine"}
    assert not any("Edges that do not go together" in line or "hurts" in line for line in lines)


def test_a_wide_needle_is_told_with_the_top_the_worst_edges_and_what_to_cut_larger(capsys):
    lines = said(capsys, measure_quilt, LIGHTS, needle="1/4")
    assert lines[1].startswith("Take-up 17/64 in, where the plan has 1/4 in; single seams vary by 0.0078 in")
    assert "With your own needle and fold in the workroom, everything is cut for your seam." in lines
    # arithmetic: twelve seams between the rows, each takes twice 1/64 in more
    worst = lines[lines.index("Where it hurts most") + 1]
    assert worst.startswith("- 12 seams in centre: the length of the top 3/8 in less")
    edges = lines[lines.index("Edges that do not go together") + 2]
    assert edges.startswith("centre")
    assert "true all up alike" in edges
    larger = lines[lines.index("Cut larger, so that 95 of 100 can be trued up") + 1 :]
    assert all("instead of" in line and "of 100 would be large enough" in line for line in larger)


def test_hands_are_taken_from_strip_tests_and_what_is_typed_goes_before(capsys, tmp_path):
    tests = tmp_path / "tests.toml"
    said(capsys, strip_answer, **{**THREE, "across": "3 7/16", "inner": "31/32"}, tests=tests)
    data = json.loads("\n".join(said(capsys, measure_quilt, STAR, tests=tests, as_json=True)))
    assert data["hands"]["needle"] + data["hands"]["fold"] == 0.265625
    assert data["hands"]["spread"] == pytest.approx(1 / 32 / 12**0.5, abs=1e-6)
    data = json.loads("\n".join(said(capsys, measure_quilt, STAR, tests=tests, needle="7/32", as_json=True)))
    assert data["hands"]["needle"] == 0.21875


def test_the_outlook_for_other_programs_has_everything(capsys):
    data = json.loads("\n".join(said(capsys, measure_quilt, STAR, needle="1/4", as_json=True)))
    assert list(data) == [
        "hands",
        "top",
        "virtual_quilts",
        "things",
        "mismatches",
        "contributions",
        "cut_larger",
        "left_in",
        "not_followed",
    ]
    assert data["virtual_quilts"]["count"] == 10_000
    assert data["top"] == data["things"][-1]
    for side in (0, 1):
        assert data["virtual_quilts"]["lowest"][side] == pytest.approx(data["top"]["lowest"][side], abs=0.01)


def test_a_metric_quilt_is_measured_in_millimetres(capsys):
    lines = said(capsys, measure_quilt, EXAMPLES / "metric-nets.toml", needle="7.5 mm")
    assert lines[1].startswith("Take-up 0.8 cm, where the plan has 0.75 cm; single seams vary by 0.020 cm")


@pytest.mark.parametrize(
    ("options", "sentence"),
    [
        ({"needle": "3"}, "--needle: expected needle from 1/16 in to 1 in, got 3 in."),
        ({"fold": "1"}, "--fold: expected fold from 0 in to 1/8 in, got 1 in."),
        ({"spread": "-1/64"}, "--spread: expected spread from 0 in to 1/8 in, got -1/64 in."),
        ({"cut_spread": "1"}, "--cut-spread: expected cut spread from 0 in to 1/8 in, got 1 in."),
        ({"needle": "wide"}, "--needle: expected a length"),
        ({"tests": Path("none.toml")}, "none.toml: expected a file to read"),
        ({"workroom": Path("none.toml")}, "none.toml: expected a file to read"),
    ],
)
def test_hands_that_nobody_has_are_refused(options, sentence, capsys):
    assert sentence in refused(capsys, measure_quilt, STAR, **options)
