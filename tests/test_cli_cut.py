"""`piecewright cut`: figures for people and for other programs, and what it says of wrong input."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from piecewright.cli.main import call

LIST = """
width = 40
[[fabric]]
name = "sail"
items = [
  {name = "squares", w = "2 7/8", h = "2 7/8", count = 76},
  {name = "geese", w = "2 1/2", h = "4 1/2", count = 64},
]
[[fabric]]
name = "tide"
items = [{name = "sixes", w = 6, h = 6, count = 6}, {name = "twos", w = 2, h = 2, count = 6}]
"""
KEYS = {"length", "area_bound", "lp_bound", "purchase_steps", "strips", "cuts", "operations", "seconds"}


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("NO_COLOR", "1")
    (tmp_path / "list.toml").write_text(LIST, "utf-8")
    return tmp_path


def run(*words: str) -> int:
    return call(["cut", *words])


def test_json_has_the_figures_of_every_fabric(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run("list.toml", "--json") == 0
    answer = json.loads(capsys.readouterr().out)
    sail, tide = answer["fabrics"]
    assert (answer["unit"], answer["layers"], sail["name"], tide["name"]) == ("in", 2, "sail", "tide")
    for fabric in (sail, tide):
        assert set(fabric) >= KEYS
        assert fabric["area_bound"] <= fabric["lp_bound"] <= fabric["length"] <= fabric["own_strips_length"]
    # exact: own strips are 6 + 2 in, which buys 9 in; in one strip of 6 in a second step of 4 1/2 in as well.
    assert (tide["purchase_steps"], tide["buy"]) == (2, 9.0)


def test_the_least_cloth_is_there_for_the_asking(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run("list.toml", "--json", "--cloth", "least", "--cuts", "stacks", "--effort", "1") == 0
    _, tide = json.loads(capsys.readouterr().out)["fabrics"]
    # exact: six of 6 x 6 leave 4 in, which hold two stacks of three.
    assert (tide["length"], tide["lp_bound"], tide["strips"], tide["cuts"]) == (6.0, 6.0, 1, 13)


def test_people_read_what_to_buy_and_how_to_cut(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run("list.toml", "--cloth", "least", "--cuts", "stacks") == 0
    assert capsys.readouterr().out.split("tide\n")[1].splitlines() == [
        "Buy 1/4 yd of cloth 40 in wide.",
        "The strips take 6 in; cut in this way, they cannot take less.",
        "That is 2 in less than each size in its own strips.",
        "1 strip, 13 cuts, with 2 ruler settings.",
        "",
        "Cut 1 strip 6 in high:",
        "  from 1: 6 x 6 in (sixes), 2 x 2 in, each subcut into 3 x 2 in (twos)",
    ]


def test_a_table_compares_cloth_and_cutting(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run("list.toml", "--compare") == 0
    lines = capsys.readouterr().out.splitlines()
    rows = [line.split("  ")[0] for line in lines[lines.index("tide") :]]
    assert rows[-4:] == ["least cloth", "fewest settings", "least cutting", "each size in its own strips"]


def test_a_csv_and_a_width_are_enough(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (folder / "list.csv").write_text("w,h,count\n6 1/2,6 1/2,56\n", "utf-8")
    assert run("list.csv", "--width", "42", "--json") == 0
    # K. Childress worked example (cortezquiltcompany.com): 56 squares of 6 1/2 in from 42 in take 65 in.
    assert json.loads(capsys.readouterr().out)["fabrics"][0]["length"] == 65.0


def test_centimetres_are_answered_in_centimetres(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    text = 'unit = "cm"\nwidth = 100\nitems = [{w = 10, h = 10, count = 20}]\n'
    (folder / "metric.toml").write_text(text, "utf-8")
    assert run("metric.toml", "--json") == 0
    answer = json.loads(capsys.readouterr().out)
    # exact: ten across, two strips of 10 cm, sold by the 10 cm.
    assert (answer["fabrics"][0]["length"], answer["fabrics"][0]["purchase_steps"]) == (20.0, 2)


@pytest.mark.parametrize(
    ("text", "words", "sentence"),
    [
        (
            "width = 40\nitems = [{name = 'map', w = 50, h = 60, count = 1}]",
            (),
            "cloth 'cloth': expected 'map' to fit across the cloth, 40 in, got 50 x 60 in."
            " Turning it would not help; join it from smaller pieces, or take wider cloth.",
        ),
        (
            "width = 0\nitems = [{w = 5, h = 6, count = 1}]",
            (),
            "list.toml:1: expected width from 1/8 in to 200 in, got 0 in.",
        ),
        (LIST, ("--layers", "0"), "--layers: expected a whole number from 1 to 12, got 0."),
        (LIST, ("--effort", "much"), "--effort: expected a whole number such as 48, got 'much'."),
        (
            LIST,
            ("--width", "wide"),
            "--width: expected a length, got 'wide'; write it as 2 1/2, 2.5, 2½, 6.5 cm or 65 mm.",
        ),
    ],
)
def test_wrong_input_ends_with_1_and_one_sentence(
    folder: Path, capsys: pytest.CaptureFixture[str], text: str, words: tuple[str, ...], sentence: str
) -> None:
    (folder / "list.toml").write_text(text, "utf-8")
    ends = run("list.toml", *words)
    captured = capsys.readouterr()
    assert (ends, captured.out, captured.err.strip()) == (1, "", sentence)


def test_a_file_that_is_not_there_is_told_so(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run("nowhere.csv") == 1
    told = capsys.readouterr().err
    assert told == "nowhere.csv: expected a file to read, got: No such file or directory.\n"
