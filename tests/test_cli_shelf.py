"""`piecewright shelf`: what it shows, what it changes in the file, and what it refuses."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from piecewright.cli.main import call

SHELF = """\
# the loft
[[cloth]]
fabric = "net"
width = "20 1/2"
length = "17 1/2"
count = 6   # folded
note = "dark"

[[cloth]]
fabric = "sail"
width = 41
length = 45
price = 7.25
"""


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "shelf.toml"
    path.write_text(SHELF, "utf-8")
    return path


def test_it_shows_every_cloth_and_what_there_is_of_each_fabric(file, capsys):
    assert call(["shelf", str(file)]) == 0
    assert capsys.readouterr().out.splitlines() == [
        f"The shelf in {file}",
        "fabric  count  width x length      price  note",
        "net     6      20 1/2 x 17 1/2 in         dark",
        "sail    1      41 x 45 in          7.25",
        "",
        "in all  pieces  length          area",
        "net     6       about 2 7/8 yd  1.66 square yd",
        "sail    1       1 1/4 yd        1.42 square yd",
    ]
    assert [path.name for path in file.parent.iterdir()] == ["shelf.toml"]


def test_without_a_name_it_is_the_shelf_in_the_current_folder(file, capsys, monkeypatch):
    monkeypatch.chdir(file.parent)
    assert call(["shelf", "--fabric", "sail"]) == 0
    out = capsys.readouterr().out
    assert "The shelf in shelf.toml" in out
    assert "net" not in out


def test_cloth_is_put_in_and_the_rest_of_the_file_stays(file, capsys):
    assert (
        call(["shelf", str(file), "--fabric", "tar", "--put", "2 of 18 x 21, 40 x 9", "--note", "new"]) == 0
    )
    text = file.read_text("utf-8")
    assert text.startswith(SHELF)
    assert text.count("[[cloth]]") == 4
    assert 'note = "new"' in text
    assert (file.parent / "shelf.toml.before").read_text("utf-8") == SHELF
    assert "18 x 21 in" in capsys.readouterr().out


def test_cloth_is_taken_out(file, capsys):
    assert call(["shelf", str(file), "--fabric", "net", "--take", "2 of 20 1/2 x 17 1/2"]) == 0
    assert file.read_text("utf-8") == SHELF.replace("count = 6 ", "count = 4 ")
    capsys.readouterr()


def test_the_first_cloth_makes_a_new_file(tmp_path, capsys):
    path = tmp_path / "new.toml"
    assert call(["shelf", str(path), "--fabric", "net", "--put", "3 of 50 x 55", "--unit", "cm"]) == 0
    assert 'unit = "cm"' in path.read_text("utf-8")
    assert "50 x 55 cm" in capsys.readouterr().out


def test_after_a_quilt_is_cut_what_was_used_goes_and_what_is_left_comes(file, capsys):
    part = {
        "used": [{"fabric": "net", "width": "20 1/2 in", "length": "17 1/2 in", "count": 6}],
        "left": [{"fabric": "net", "width": "20 1/2 in", "length": "3 in", "count": 2}],
    }
    plan = file.parent / "plan.json"
    plan.write_text(json.dumps({"title": "Wake", "shelf": part}), "utf-8")
    assert call(["shelf", str(file), "--cut", str(plan)]) == 0
    assert "left of Wake" in capsys.readouterr().out
    after = file.read_text("utf-8")
    assert call(["shelf", str(file), "--cut", str(plan)]) == 1
    assert "expected 6 pieces of 'net', 20 1/2 x 17 1/2 in, on the shelf, got 0." in capsys.readouterr().err
    assert file.read_text("utf-8") == after


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--put", "3 of 18 x 21"], "--fabric: expected the name of the fabric, got none."),
        (["--fabric", "net", "--put", "3 of wide"], "--put: expected a length"),
        (["--fabric", "net", "--put", "0 of 3"], "--put: expected from 1 to 100,000 pieces"),
        (["--fabric", "net", "--put", "many of 3"], "--put: expected a whole number such as 48"),
        (
            ["--fabric", "net", "--put", "3 of 0 x 4"],
            "--put: expected a width from 1/4 in to 200 in, got 0 in",
        ),
        (
            ["--fabric", "net", "--put", "40 x 1 yd"],
            "--put: expected a width from 1/4 in to 200 in, got 1440 in",
        ),
        (["--fabric", "net", "--take", "3 of 18 x 21"], "--take: expected 3 pieces of 'net', 18 x 21 in, on"),
        (["--unit", "cm"], "--unit: expected the unit of the file, in, got cm."),
        (["--cut", "none.json"], "none.json: the plan cannot be read"),
    ],
)
def test_what_cannot_be_is_told_and_nothing_is_written(file, capsys, words, said):
    assert call(["shelf", str(file), *words]) == 1
    assert said in capsys.readouterr().err
    assert file.read_text("utf-8") == SHELF
    assert [path.name for path in file.parent.iterdir()] == ["shelf.toml"]


def test_a_shelf_that_is_not_there_is_told(tmp_path, capsys):
    assert call(["shelf", str(tmp_path / "none.toml")]) == 1
    assert "none.toml: expected a file to read, got: No such file or directory." in capsys.readouterr().err
