"""`piecewright cut`: figures for people and for other programs, and what it says of wrong input."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from piecewright.cli.cut import cut_list
from piecewright.cli.endings import code_of
from piecewright.cli.main import call
from piecewright.shelf.after_cutting import read_change

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
        "Worth keeping: 40 x 3 in.",
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
            " A bolt at least 50 in wide would do; or join it from smaller pieces.",
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


THROW = """
title = "Evening tide throw"

[[fabric]]
name = "net"
stand_ins = ["rope"]
items = [{name = "centres", w = 5, h = 5, count = 44}]

[[fabric.supplies]]
kind = "fat quarter"
measured = "20 1/4 x 17 1/2"
count = 3

[[fabric.supplies]]
kind = "bolt"
width = 42
selvedge = 1
price = "12 a yard"

[[fabric]]
name = "night"
may_buy = false
items = [{name = "corners", w = 2, h = 2, count = 30}]
supplies = [{kind = "10 in square", count = 9}]
"""
SHELF = """
[[cloth]]
fabric = "rope"
width = 10
length = 10
count = 1
"""


def tell(name: str, **options: object) -> int:
    return code_of(lambda: cut_list(Path(name), effort="1", **options))  # type: ignore[arg-type]


@pytest.fixture
def throw(folder: Path) -> Path:
    (folder / "throw.toml").write_text(THROW, "utf-8")
    (folder / "shelf.toml").write_text(SHELF, "utf-8")
    return folder


def test_people_read_what_to_take_and_what_to_buy(throw: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert tell("throw.toml") == 0
    net, night = capsys.readouterr().out.split("\nnight\n")
    # exact: 4 x 3 squares from each of three, 8 of 44 from one strip of 40 in.
    assert net.splitlines()[:5] == [
        "net",
        "Take all 3 on hand: net fat quarter, 20 1/4 x 17 1/2 in.",
        "Buy 1/4 yd of cloth 42 in wide (40 in to cut from) for 3.00.",
        "Cut in this way, no less would do.",
        "The strips from it take 5 in; cut in this way, they cannot take less.",
    ]
    assert "Cut 3 alike: net fat quarter, strips " in net
    # exact: 25 squares of 2 in from 10 x 10 in, so 30 take two.
    assert night.splitlines()[:2] == [
        "Take 2 of the 9 on hand: night 10 in square, 10 x 10 in.",
        "Nothing need be bought, and fewer pieces of cloth would not do.",
    ]


def test_the_shelf_goes_before_the_shop(throw: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert tell("throw.toml", shelf=Path("shelf.toml")) == 0
    lines = capsys.readouterr().out.splitlines()
    # exact: four of the eight squares that are lacking come from 10 x 10 in of a fabric that stands in.
    assert "Take the one on hand: rope 10 x 10 in." in lines
    assert "  from 1: 4 x 5 in (centres)" in lines
    assert "The shelf has none of it: shelf.toml." in lines


def test_json_tells_what_is_used_bought_and_left(throw: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert tell("throw.toml", as_json=True) == 0
    net, night = json.loads(capsys.readouterr().out)["fabrics"]
    for fabric in (net, night):
        assert set(fabric) >= KEYS | {
            "used",
            "packs",
            "cost",
            "leftovers",
            "price",
            "pieces_used",
            "least_pieces",
        }
    sizes = [{key: cloth[key] for key in ("cloth", "fabric", "w", "h", "count")} for cloth in net["used"]]
    assert sizes == [{"cloth": "net fat quarter", "fabric": "net", "w": 20.25, "h": 17.5, "count": 3}]
    assert (net["length"], net["purchase_steps"], net["least_purchase_steps"]) == (5.0, 2, 2)
    assert (net["cost"], net["price"], net["pieces_used"], net["least_pieces"]) == (3.0, 1.5, 3, None)
    assert (night["length"], night["purchase_steps"], night["cost"]) == (0.0, 0, 0.0)
    assert (night["pieces_used"], night["least_pieces"]) == (2, 2)


def test_packs_are_told_with_their_price(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    text = """
name = "sails"
items = [{name = "squares", w = 5, h = 5, count = 90}]
supplies = [{kind = "10 in square", pack = 10, price = 9.5}]
"""
    (folder / "packs.toml").write_text(text, "utf-8")
    assert tell("packs.toml") == 0
    # exact: four squares from each, so 23 of 30.
    lines = capsys.readouterr().out.splitlines()
    assert lines[1:3] == [
        "Buy 3 packs of 10: sails 10 in square, 10 x 10 in, at 9.50 for 28.50.",
        "Cut in this way, no less would do.",
    ]
    assert any(line.startswith("Worth keeping: 7 whole sails 10 in square and ") for line in lines)
    assert tell("packs.toml", as_json=True) == 0
    (sails,) = json.loads(capsys.readouterr().out)["fabrics"]
    (pack,) = sails["packs"]
    assert (pack["pieces"], pack["packs"], pack["price"], pack["cost"], sails["cost"]) == (
        10,
        3,
        9.5,
        28.5,
        28.5,
    )


def test_the_shelf_is_minded_from_the_json(throw: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert tell("throw.toml", shelf=Path("shelf.toml"), as_json=True) == 0
    (throw / "cut.json").write_text(capsys.readouterr().out, "utf-8")
    change = read_change(throw / "cut.json")
    assert [(cloth.fabric, float(cloth.width), cloth.count) for cloth in change.used] == [("rope", 10.0, 1)]
    assert {cloth.note for cloth in change.left} == {"left of Evening tide throw"}
    assert call(["shelf", "shelf.toml", "--cut", "cut.json"]) == 0
    assert "rope" not in (throw / "shelf.toml").read_text("utf-8")


def test_ones_own_workroom_is_heeded(throw: Path, capsys: pytest.CaptureFixture[str]) -> None:
    room = 'usable_width = "44"\nbuying_step = "9"\nstraightening = "0"\nspare_strips = 0\n'
    (throw / "workroom.toml").write_text(room, "utf-8")
    (throw / "plain.toml").write_text("items = [{w = 4, h = 4, count = 11}]", "utf-8")
    assert tell("plain.toml", workroom=Path("workroom.toml"), as_json=True) == 0
    (cloth,) = json.loads(capsys.readouterr().out)["fabrics"]
    assert (cloth["usable_width"], cloth["buying_step"], cloth["length"]) == (44.0, 9.0, 4.0)


def test_the_cutting_sheet_is_written(throw: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert tell("throw.toml", sheet="throw.pdf", paper="a4") == 0
    assert (throw / "throw.pdf").read_bytes().startswith(b"%PDF")
    assert capsys.readouterr().out.splitlines()[-1] == "Cutting sheet: throw.pdf"


@pytest.mark.parametrize(
    ("options", "sentence"),
    [
        (
            {"sheet": "throw.txt"},
            "--sheet: expected a file that ends in .pdf, got 'throw.txt'."
            " Name the sheet to write, such as cutting.pdf.",
        ),
        (
            {"sheet": "nowhere/throw.pdf"},
            "--sheet: expected a folder that is there, got 'nowhere'."
            " Make the folder first, or name another.",
        ),
        (
            {"shelf": Path("nowhere.toml")},
            "nowhere.toml: expected a file to read, got: No such file or directory. Check the path.",
        ),
    ],
)
def test_wrong_options_end_with_1_and_one_sentence(
    throw: Path, capsys: pytest.CaptureFixture[str], options: dict[str, object], sentence: str
) -> None:
    ends = tell("throw.toml", **options)
    captured = capsys.readouterr()
    assert (ends, captured.out, captured.err.strip()) == (1, "", sentence)
