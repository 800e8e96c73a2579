"""`piecewright hearsay`: what it prints for a rule of thumb or a printed size, and for other programs."""

import json

import pytest

from piecewright.cli.endings import code_of
from piecewright.cli.hearsay import tell_hearsay


def said(capsys, subject: str, rule: str, **more) -> list[str]:
    assert code_of(lambda: tell_hearsay(subject, rule, **more)) == 0
    out, err = capsys.readouterr()
    assert err == ""
    return out.splitlines()


def line_with(lines: list[str], start: str) -> str:
    return next(line for line in lines if line.startswith(start))


def test_one_reading_is_told_in_full(capsys):
    lines = said(capsys, "hst", "unfinished / 0.64", way="four at a time", sizes="2 1/2, 4 1/2")
    assert lines[0] == "Half-square triangles (what to cut for it): unfinished / 0.64"
    assert "Understood: four at a time: the squares = unfinished size / 0.64" in lines
    # plane geometry: crossing 3.372; from 3.90625 in a unit of 2.408582 in comes, 0.0914 short of 2 1/2
    verdict = line_with(lines, "Verdict")
    assert verdict.startswith("Verdict: short below 3.372 in (unfinished): by 0.0914 in at the unit")
    rows = [line.split("  ") for line in lines if line.startswith(("2 1/2  ", "4 1/2  "))]
    assert [[cell.strip() for cell in row if cell] for row in rows] == [
        ["2 1/2", "3.9062", "4.0355", "-0.1293", "2.4086", "-0.0914", "4 1/8"],
        ["4 1/2", "7.0312", "6.8640", "+0.1673", "4.6183", "+0.1183", "6 7/8"],
    ]
    assert line_with(lines, "Truly") == (
        "Truly: 1.4142 x unfinished size + 0.5000 in; "
        "to print: 1.4143 x unfinished size + 1/2 in, rounded up to the next 1/8 in"
    )
    assert line_with(lines, "Why").startswith(
        "Why: It takes the seam as a share of the size, but the seam takes as"
    )
    assert line_with(lines, "What to do").startswith("What to do: Cut what stands in the last column instead")
    assert lines[-1].endswith("a seam takes 1/4 in.")
    assert not any(line.startswith("Which is meant?") for line in lines)


def test_what_is_added_is_held_against_what_is_needed(capsys):
    lines = said(capsys, "hst", "finished + 5/8", way="two at a time", sizes="2")
    assert line_with(lines, "Verdict") == "Verdict: short always: by 0.2286 in"
    assert line_with(lines, "Why").startswith("Why: It adds 0.6250 in, and 0.8536 in is needed.")
    assert line_with(lines, "Truly").endswith("to print: finished size + 7/8 in")


def test_several_readings_are_told_in_one_table_with_the_question(capsys):
    lines = said(capsys, "hst", "finished + 5/8")
    table = {line.split("  ")[0]: line for line in lines[: lines.index("Why")]}
    assert "right, then trim" in table["one at a time"]
    assert "short always" in table["two at a time"]
    question = lines.index("Which is meant? Say --way.")
    assert lines[question + 1] == "- right, then trim for: one at a time, finished sizes"
    assert lines[question + 2].startswith("- short for: two at a time, finished sizes; four at a time")


def test_finished_or_unfinished_is_asked(capsys):
    lines = said(capsys, "hst", "2X + 1", way="8 at a time")
    assert lines[lines.index("Which is meant? Say --means.") + 1 :][:2] == [
        "- right, then trim for: eight at a time, unfinished sizes",
        "- short for: eight at a time, finished sizes",
    ]
    answered = said(capsys, "hst", "2X + 1", way="8 at a time", means="unfinished")
    assert not any(line.startswith("Which is meant?") for line in answered)


def test_pieces_that_belong_together_are_summed_up(capsys):
    lines = said(capsys, "hrt", "finished + 7/8", sizes="3 x 4")
    assert "from cut rectangles: all in all short (finished), for the height of the rectangle" in lines


def test_little_that_is_short_is_told_with_its_figure(capsys):
    lines = said(capsys, "setting square", "14 -> 21", means="finished")
    # plane geometry: 14 sqrt(2) + 1.207107 = 21.0061
    assert line_with(lines, "Verdict") == (
        "Verdict: short: by 0.0061 in; so little can be eased in, but nothing is left to true up, "
        "and along a row it adds up"
    )


def test_centimetres_are_taken_from_the_rule(capsys):
    lines = said(capsys, "hst", "finished + 2.5 cm", way="two at a time", sizes="10 cm")
    # plane geometry: 2.5607 cm are needed at a 7.5 mm seam
    row = ["10", "12.500", "12.561", "-0.061", "9.939", "-0.061", "12.6"]
    assert line_with(lines, "10  ").split() == row
    assert line_with(lines, "Verdict").startswith("Verdict: short always: by 0.061 cm")
    assert line_with(lines, "Truly") == "Truly: finished size + 2.561 cm; to print: finished size + 2.6 cm"


def test_the_unit_may_be_said(capsys):
    lines = said(capsys, "hst", "finished + 2.5", way="two at a time", unit="cm", sizes="10")
    assert line_with(lines, "10  ").split()[1:4] == ["12.500", "12.561", "-0.061"]


def test_a_workroom_file_brings_its_own_seam(capsys, tmp_path):
    room = tmp_path / "workroom.toml"
    room.write_text('unit = "in"\nneedle = "3/16"\nfold = "1/64"\n', "utf-8")
    lines = said(capsys, "hst", "finished + 3/4", way="two at a time", workroom=room)
    # plane geometry: (2 + sqrt 2) x 13/64 = 0.6935
    assert line_with(lines, "Truly").startswith("Truly: finished size + 0.6935 in")
    assert line_with(lines, "Verdict").startswith("Verdict: right")
    lines = said(capsys, "hst", "F + 2", way="two", sizes="10", workroom=room, unit="cm")
    # plane geometry: 0.6935 in are 1.762 cm, on a ruler of millimetres 1.8
    assert line_with(lines, "Truly") == "Truly: finished size + 1.762 cm; to print: finished size + 1.8 cm"


def test_counts_are_told_as_counts_and_cloth_as_bought(capsys):
    lines = said(capsys, "binding", "perimeter / 40", way="45 degree joins", sizes="60 x 72")
    assert line_with(lines, "60 x 72 x 2 1/2").split()[-3:] == ["7", "8", "-1"]
    lines = said(capsys, "backing", "(W + 8) x (H + 8) / 40 / 36 in yards", sizes="60 x 60")
    # panels along and across compared: two of 68 in; by area 68 x 68 / 40
    assert line_with(lines, "60 x 60").split()[-4:] == ["115.6000", "136.0000", "-20.4000", "136"]
    assert line_with(lines, "What to do").startswith("What to do: Buy what stands in the last column")


def test_nothing_trimmed_and_something_over(capsys):
    lines = said(capsys, "hst", "finished + 1", way="two at a time")
    assert line_with(lines, "Verdict").endswith("if nothing is trimmed off, it is too large by that much")
    lines = said(capsys, "hst", "finished + 1", way="two at a time", trimmed=False)
    assert line_with(lines, "Verdict") == "Verdict: too large: 0.1464 in over unless it is trimmed"
    lines = said(capsys, "hst", "finished + 7/8", way="two at a time", trimmed=True)
    assert line_with(lines, "Verdict").endswith("which is eased in; there is nothing to trim")


def test_other_programs_get_the_figures(capsys):
    lines = said(capsys, "hst", "unfinished / 0.64", way="four at a time", sizes="2 1/2", as_json=True)
    data = json.loads("\n".join(lines))
    assert list(data) == ["subject", "rule", "unit", "question", "findings"]
    (finding,) = data["findings"]
    assert (finding["verdict"], finding["crossings"]) == ("short below", [pytest.approx(3.3719, abs=1e-4)])
    # plane geometry: (3.90625 - 1/2) / sqrt(2), sqrt(2) x 2 1/2 + 1/2
    (example,) = finding["examples"]
    assert example["made"] == pytest.approx(2.408582, abs=1e-6)
    assert (example["given"], example["needed"]) == (3.90625, 4.035534)
    assert (example["standing"], example["cut"]) == ("short", 4.125)
    asked = json.loads("\n".join(said(capsys, "hst", "finished + 5/8", as_json=True)))
    assert asked["question"][0] == "Which is meant? Say --way."


@pytest.mark.parametrize(
    ("subject", "rule", "more", "expected"),
    [
        ("hst", "finised + 1", {}, "rule, sign 1: expected a number or a name, got 'finised'. Did you mean"),
        ("tea", "x", {}, "subject: no rule is known to be about 'tea'."),
        ("hst", "finished + 1", {"way": "six"}, "--way: hst has no way 'six'."),
        ("hst", "finished + 1", {"sizes": "big"}, "--for: expected a length, got 'big';"),
        ("backing", "W x H / 40", {"way": "x"}, "--way: backing has only one way. Leave it out."),
    ],
)
def test_a_wrong_word_ends_with_1_and_one_clear_sentence(subject, rule, more, expected, capsys):
    assert code_of(lambda: tell_hearsay(subject, rule, **more)) == 1
    out, err = capsys.readouterr()
    assert (out, err.count("\n")) == ("", 1)
    assert err.startswith(expected)
