"""Cutting lists in files: what they may say, and what is said of mistakes in them."""

from __future__ import annotations

from pathlib import Path

import pytest

from piecewright.cutting.lists.file import read_list
from piecewright.cutting.lists.listed import CuttingList
from piecewright.measure.length import inches, mm
from piecewright.problems import Refused

GOOD = """
unit = "in"
width = 42
spare = "one extra of each"

[[items]]
name = "squares"
w = "2 7/8"
h = 2.875
count = 76

[[items]]
w = 2.5
h = "4 1/2"
count = 8
may_turn = false
"""


@pytest.fixture
def lists(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def listed(lists: Path, text: str, name: str = "list.toml", **more: str) -> CuttingList:
    (lists / name).write_text(text, "utf-8")
    return read_list(name, **more)  # type: ignore[arg-type]


def told(lists: Path, text: str, name: str = "list.toml", **more: str) -> list[str]:
    with pytest.raises(Refused) as refused:
        listed(lists, text, name, **more)
    return [str(problem) for problem in refused.value.problems]


def test_a_list_of_one_cloth_is_read(lists: Path) -> None:
    (cloth,) = listed(lists, GOOD).fabrics
    assert [(d.name, d.width, d.height, d.count, d.may_turn) for d in cloth.demands] == [
        ("squares", inches("2 7/8"), inches("2 7/8"), 77, True),
        ("2 1/2 x 4 1/2", inches("2 1/2"), inches("4 1/2"), 9, False),
    ]
    assert (cloth.name, cloth.bolt.usable_width, cloth.bolt.buying_step) == (
        "cloth",
        inches(42),
        inches("4 1/2"),
    )


def test_several_fabrics_share_what_stands_above_them(lists: Path) -> None:
    text = """
unit = "cm"
squaring = 0.5
[[fabric]]
name = "sail"
items = [{w = 10, h = 20, count = 3}]
[[fabric]]
name = "tide"
squaring = 1
supplies = [{width = 140, shrinkage = 0.05}]
items = [{w = 10, h = 20, count = 3}]
"""
    sail, tide = (fabric.bolt for fabric in listed(lists, text).fabrics)
    assert (sail.squaring, sail.usable_width, sail.shrinkage) == (mm(5), mm(1070), 0.0)
    assert (tide.squaring, tide.usable_width, tide.shrinkage) == (mm(10), mm(1400), 0.05)


def test_a_csv_has_a_row_for_each_size(lists: Path) -> None:
    text = "w,h,count,may_turn,name,fabric\n2 1/2,4 1/2,8,no,geese,sail\n3,3,10,,,tide\n3,3,5,yes,,tide\n"
    sail, tide = listed(lists, text, "list.csv", width="41").fabrics
    assert [(d.name, d.count, d.may_turn) for d in sail.demands] == [("geese", 8, False)]
    assert [(d.name, d.count, d.may_turn) for d in tide.demands] == [
        ("3 x 3", 10, True),
        ("3 x 3 (2)", 5, True),
    ]
    assert sail.bolt.usable_width == inches(41)


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("", "list.toml:1: expected pieces to cut, got none. Write [[items]] with w, h and count."),
        (
            "[[items]]\nw = 2\nh = 3",
            "list.toml:1: expected a count for every piece, got none. Write count = ...",
        ),
        (
            "width = 0\nitems = [{w = 2, h = 3, count = 1}]",
            "list.toml:1: expected width from 1/8 in to 200 in, got 0 in.",
        ),
        (
            'width = "wide"\nitems = [{w = 2, h = 3, count = 1}]',
            "list.toml:1: expected a length, got 'wide'; write it as 2 1/2, 2.5, 2½, 6.5 cm or 65 mm.",
        ),
        (
            "items = [{w = 2, h = 3, count = 1.5}]",
            "list.toml:1: expected count to be a whole number from 1 to 10,000,000, got 1.5.",
        ),
        (
            "items = [{w = 2, h = 3, count = 99999999999}]",
            "list.toml:1: expected count to be a whole number from 1 to 10,000,000, got 99999999999.",
        ),
        (
            "items = [{w = -2, h = 3, count = 1}]",
            "list.toml:1: expected w from 1/8 in to 3600 in, got -2 in.",
        ),
        (
            "items = [{w = 2, h = 3, cuont = 1, count = 1}]",
            "list.toml:1: 'cuont' is not read here. Did you mean count?",
        ),
        ("items = 5", "list.toml:1: expected items as tables. Write [[items]] on its own line."),
        (
            'unit = "ell"\nitems = [{w = 2, h = 3, count = 1}]',
            'list.toml:1: expected unit = "in" or unit = "cm", got \'ell\'.',
        ),
    ],
)
def test_mistakes_in_a_list_are_told_with_their_line(lists: Path, text: str, sentence: str) -> None:
    assert sentence in told(lists, text)


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        (
            "2,3,4\n",
            "list.csv:1: expected a first line that names the entries, such as w, h, count, got '2, 3, 4'."
            " Known here: w, h, count, may_turn, lengthwise, name, shape, hand, finished, blunted, turning,"
            " fabric.",
        ),
        (
            "w,h,count\n2,3\n",
            "list.csv:2: expected 3 entries in a row, as the first line names them."
            " Count the commas; a comma inside an entry needs quotes.",
        ),
        ("w,h,count\n", "list.csv: expected pieces to cut, got none. Write a row for each size."),
        (
            "w,h,count\n2,3,many\n",
            "list.csv:2: expected count to be a whole number from 1 to 10,000,000, got 'many'.",
        ),
        (
            "w,h,count,may_turn\n2,3,4,perhaps\n",
            "list.csv:2: expected may_turn to be yes or no, got 'perhaps'.",
        ),
    ],
)
def test_mistakes_in_a_csv_are_told_with_their_line(lists: Path, text: str, sentence: str) -> None:
    assert told(lists, text, "list.csv") == [sentence]


def test_everything_wrong_is_told_at_once(lists: Path) -> None:
    text = 'width = 900\nspare = "some"\n[[items]]\nw = "x"\nh = 0\ncount = 0\n'
    assert [line.split(": ")[0] for line in told(lists, text)] == [
        "list.toml:1",
        "list.toml:2",
        "list.toml:4",
        "list.toml:5",
        "list.toml:6",
    ]


def test_a_file_of_another_kind_is_no_list(lists: Path) -> None:
    assert told(lists, "w,h,count", "list.txt") == [
        "list.txt: expected a cutting list in a .toml or .csv file."
    ]
