"""The cutting sheet: every piece told once, numbers as in the pictures, what is left, a choice, cautions."""

import re
from functools import cache
from pathlib import Path

import pytest

from piecewright.cutting.cloth_cut import ClothCut, from_bolt_alone
from piecewright.cutting.given.cloth import Bolt, Given, Offered, Pack, precut
from piecewright.cutting.given.shopping import from_shelf
from piecewright.cutting.laying import from_least_cloth_to_least_cutting
from piecewright.cutting.order_of_cuts import order_of_cuts
from piecewright.cutting.wanted import Demand, Supply
from piecewright.cutting.wishes import LITTLE_EFFORT, USUAL
from piecewright.handout.cutting_sheet import SheetWish, cutting_sheet_pdf, sheet_data, write_cutting_sheet
from piecewright.measure.length import inches
from piecewright.measure.showing import show_yards
from piecewright.problems import Refused

SAIL = Supply("sail", inches(40), inches("4 1/2"), straightening=inches(2))
WANTED = [
    Demand("points", inches("2 7/8"), inches("2 7/8"), 76),
    Demand("rails", inches("2 1/2"), inches("6 1/2"), 20),
    Demand("binding", inches(40), inches("2 1/4"), 5, whole_strip=True),
]


@cache
def from_a_bolt() -> ClothCut:
    found = from_least_cloth_to_least_cutting(WANTED, SAIL, USUAL)
    return ClothCut("sail", from_bolt_alone(found[1]), found)


@cache
def shelf_and_packs() -> ClothCut:
    wanted = [Demand("points", inches(4), inches(4), 60), Demand("oars", inches("2 1/2"), inches(15), 8)]
    shelf = (Given("odd scrap", inches(12), inches(20), 1, "sea"), precut("fat quarter", 2, "sea"))
    pack = Pack(precut("10 in square", 12, "sea"))
    return ClothCut("sea", from_shelf(wanted, Offered(shelf, (pack,), Bolt(SAIL)), USUAL, LITTLE_EFFORT))


def test_each_line_has_the_number_of_its_cut_and_strips_are_told_in_the_words_of_the_trade() -> None:
    cloth = from_a_bolt()
    layout = cloth.cut.bought
    assert layout is not None
    (data,) = sheet_data("Nets", [cloth], SheetWish())["cloths"]
    cuts = data["bolt"]["cuts"]
    assert [one.number for one in cuts] == [cut.number for cut in order_of_cuts(layout)]
    told = [one.words for one in cuts]
    assert told[0] == "straighten the end of the cloth"
    assert any(re.fullmatch(r"cut 5 strips 2 1/4 in × width of fabric", one) for one in told)
    assert any("leave whole, square the ends: 5 pieces 40 x 2 1/4 in (binding)" in one for one in told)


@pytest.mark.parametrize("make", [from_a_bolt, shelf_and_packs])
def test_all_pieces_are_told_and_each_as_often_as_it_is_wanted(make) -> None:
    cloth = make()
    (data,) = sheet_data("Nets", [cloth], SheetWish())["cloths"]
    lists = [one["cuts"] for one in data["given"]] + ([data["bolt"]["cuts"]] if data["bolt"] else [])
    told: dict[str, int] = {}
    for one in (line for lines in lists for line in lines):
        for count, name in re.findall(r"(\d[\d,]*) (?:squares?|pieces?) [^()]*\((\w+)\)", one.words):
            told[name] = told.get(name, 0) + int(count.replace(",", ""))
    wanted = {"points": 76, "rails": 20, "binding": 5} if data["choices"] else {"points": 60, "oars": 8}
    assert told == wanted


def test_pieces_are_told_by_where_they_go() -> None:
    wish = SheetWish(names={"points": "star, its points"})
    (data,) = sheet_data("Nets", [from_a_bolt()], wish)["cloths"]
    assert any("76 squares 2 7/8 in (star, its points)" in one.words for one in data["bolt"]["cuts"])
    assert any("star, its points" in one["svg"] for one in data["bolt"]["pictures"])


def test_what_to_buy_and_what_to_take_are_told_apart() -> None:
    cloth = shelf_and_packs()
    (data,) = sheet_data("Nets", [cloth], SheetWish())["cloths"]
    taken = " ".join(data["take"])
    assert all(f"{count} of {name} (" in taken for name, count in cloth.cut.count_used.items())
    assert cloth.cut.bought is not None
    assert data["buy"] == (f"{show_yards(cloth.cut.bought.buy)} of cloth 40 in wide",)


def test_packs_to_buy_are_told_with_what_is_in_them() -> None:
    wanted = [Demand("points", inches(4), inches(4), 60)]
    pack = Pack(precut("10 in square", 12, "sea"))
    cloth = ClothCut("sea", from_shelf(wanted, Offered((), (pack,)), USUAL, LITTLE_EFFORT))
    (data,) = sheet_data("Nets", [cloth], SheetWish())["cloths"]
    # Four from each square: 15 squares, two packs of twelve.
    assert data["buy"] == ("2 packs of 12: 10 in square sea; 15 are cut",)
    assert data["take"] == ()


def test_figures_stand_on_the_sheet() -> None:
    cloth = from_a_bolt()
    layout = cloth.cut.bought
    assert layout is not None
    (data,) = sheet_data("Nets", [cloth], SheetWish())["cloths"]
    figures = dict(data["figures"])
    assert figures["strips"] == str(layout.strips)
    assert figures["cuts, one by one"] == f"{layout.cuts:,}"
    assert figures["cuts in 2 layers"] == f"{layout.operations(2):,}"
    assert figures["ruler settings"] == str(layout.ruler_changes)
    assert figures["to buy"].endswith(f"({layout.purchase.steps} x 1/8 yd)")


def test_only_cautions_about_cutting_stand_on_the_sheet() -> None:
    cautions = sheet_data("Nets", [from_a_bolt()], SheetWish())["cautions"]
    assert [one.about for one in cautions] == ["Rotary cutter", "Local rules"]


def test_the_choice_is_there_only_where_there_is_one() -> None:
    cloth = from_a_bolt()
    (with_choice, without) = sheet_data("Nets", [cloth, ClothCut("sail", cloth.cut)], SheetWish())["cloths"]
    assert without["choices"] is None
    assert [row[0] for row in with_choice["choices"]["rows"]] == [
        "least cloth",
        "fewest settings",
        "least cutting",
    ]
    assert with_choice["choices"]["chosen"][1]


def test_a_sheet_is_a_pdf_and_the_same_every_time(tmp_path: Path) -> None:
    cloths = [from_a_bolt(), shelf_and_packs()]
    file = tmp_path / "cutting.pdf"
    write_cutting_sheet("Nets & sails", cloths, file, paper="a4")
    assert file.read_bytes().startswith(b"%PDF")
    assert file.read_bytes() == cutting_sheet_pdf("Nets & sails", cloths, SheetWish(paper="a4"))


def test_a_sheet_in_centimetres_speaks_of_metres_to_buy() -> None:
    (data,) = sheet_data("Nets", [from_a_bolt()], SheetWish(unit="cm"))["cloths"]
    assert re.search(r"\d m of cloth", data["buy"][0])
    assert cutting_sheet_pdf("Nets", [from_a_bolt()], SheetWish(unit="cm")).startswith(b"%PDF")


def test_a_place_that_cannot_be_written_is_refused_in_words(tmp_path: Path) -> None:
    with pytest.raises(Refused, match="expected a place to write the cutting sheet"):
        write_cutting_sheet("Nets", [from_a_bolt()], tmp_path / "nowhere" / "cutting.pdf")
