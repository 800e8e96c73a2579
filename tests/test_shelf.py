"""The shelf: what is read and what is wrong in it, comments kept in writing, and that nothing is lost."""

from __future__ import annotations

import json
from collections import Counter
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.cutting.given.cloth import Bolt, Given, Offered, Pack
from piecewright.cutting.given.shopping import from_shelf
from piecewright.cutting.wanted import Demand, Supply
from piecewright.measure.length import Length, inches, mm
from piecewright.problems import Refused
from piecewright.shelf.after_cutting import after, change_of, read_change, shelf_part
from piecewright.shelf.entries import shelf_from
from piecewright.shelf.file import read_shelf, shelf_text, write_shelf
from piecewright.shelf.shelf import Shelf, ShelfCloth, by_fabric, given_from, put_in, take_out
from piecewright.toml_places import toml_from_text

HARBOUR = """\
# What lies in the sail loft.
unit = "in"

[[cloth]]
fabric = "net"        # the dark one
width = "20 1/2"
length = "17 1/2"
count = 6
bought = 2024-05-03

# washed twice
[[cloth]]
fabric = "sail"
width = 41
height = "1 1/4 yd"
note = "a stain near one end"
price = 7.25

[[cloth]]
fabric = "net"
width = "2 1/2"
length = "10 cm"
count = 12
"""
NET = ShelfCloth("net", inches("20 1/2"), inches("17 1/2"), 6, bought="2024-05-03")
SAIL = ShelfCloth("sail", inches(41), inches(45), 1, "a stain near one end", Fraction(29, 4))
SCRAPS = ShelfCloth("net", inches("2 1/2"), mm(100), 12)


def shelf_in(text: str) -> Shelf:
    shelf, problems = shelf_from(toml_from_text(text, "shelf.toml"))
    assert problems == []
    return shelf


def wrong_in(text: str) -> list[str]:
    return [str(problem) for problem in shelf_from(toml_from_text(text, "shelf.toml"))[1]]


def test_a_shelf_file_says_what_cloth_there_is():
    assert shelf_in(HARBOUR) == Shelf("in", (NET, SAIL, SCRAPS))


def test_bare_numbers_count_in_the_unit_of_the_file():
    text = 'unit = "cm"\n[[cloth]]\nfabric = "tide"\nwidth = 50\nlength = 55.5\n'
    assert shelf_in(text).cloth == (ShelfCloth("tide", mm(500), mm(555)),)


def test_an_empty_shelf_is_a_shelf():
    assert shelf_in("") == Shelf("in", ())


def test_all_that_is_wrong_is_told_at_once_each_with_its_line():
    text = """\
unit = "ell"
colour = "red"
[[cloth]]
fabric = ""
width = "wide"
length = 0
count = 0
[[cloth]]
width = 20
length = 20
height = 20
price = -3
notes = "torn"
[[cloth]]
fabric = "net"
note = 7
"""
    assert wrong_in(text) == [
        'shelf.toml:1: expected unit = "in" or unit = "cm", got \'ell\'.',
        "shelf.toml:2: 'colour' is not read here. Known here: unit, cloth.",
        "shelf.toml:4: expected fabric to be a text of up to 200 signs, got ''.",
        "shelf.toml:5: expected a length, got 'wide'; write it as 2 1/2, 2.5, 2½, 6.5 cm or 65 mm.",
        "shelf.toml:6: expected length from 1/4 in to 3600 in, got 0 in.",
        "shelf.toml:7: expected count to be a whole number from 1 to 100,000, got 0. "
        "Leave out what is not there any more.",
        "shelf.toml:8: expected a fabric for the cloth, got none. Write fabric = ...",
        "shelf.toml:11: expected length or height, got both. Leave one out.",
        "shelf.toml:12: expected price to be an amount such as 3.50, got -3. Write the number alone.",
        "shelf.toml:13: 'notes' is not read here. Did you mean note?",
        "shelf.toml:14: expected a width for the cloth, got none. "
        "Write width = ..., what can be used from selvedge to selvedge.",
        "shelf.toml:14: expected a length for the cloth, got none. Write length = ..., along the selvedge.",
        "shelf.toml:16: expected note to be a text of up to 200 signs, got 7.",
    ]


def test_cloth_that_is_no_list_of_tables_is_told():
    assert wrong_in("cloth = 5\n") == [
        "shelf.toml:1: expected cloth as tables. Write [[cloth]] on a line of its own."
    ]


def test_what_is_used_is_taken_out_and_what_comes_to_nothing_goes():
    shelf = take_out(shelf_in(HARBOUR), [replace(NET, count=4), SAIL])
    assert shelf.cloth == (replace(NET, count=2), SCRAPS)


def test_equal_cloth_in_two_entries_is_taken_from_both():
    shelf = Shelf("in", (replace(NET, count=2), replace(NET, count=3, note="old")))
    assert take_out(shelf, [replace(NET, count=4)]).cloth == (replace(NET, count=1, note="old"),)


def test_more_than_there_is_cannot_be_taken_out():
    with pytest.raises(Refused) as told:
        take_out(shelf_in(HARBOUR), [replace(NET, count=7), replace(SAIL, fabric="tar")])
    assert [problem.what for problem in told.value.problems] == [
        "expected 7 pieces of 'net', 20 1/2 x 17 1/2 in, on the shelf, got 6.",
        "expected 1 piece of 'tar', 41 x 45 in, on the shelf, got 0.",
    ]


def test_what_is_put_in_is_counted_with_what_is_the_same():
    shelf = put_in(shelf_in(HARBOUR), [replace(SCRAPS, count=2), ShelfCloth("tar", inches(4), inches(9))])
    assert shelf.cloth == (NET, SAIL, replace(SCRAPS, count=14), ShelfCloth("tar", inches(4), inches(9)))


def test_cloth_with_another_note_keeps_an_entry_of_its_own():
    shelf = put_in(Shelf("in", (SCRAPS,)), [replace(SCRAPS, note="faded")])
    assert shelf.cloth == (SCRAPS, replace(SCRAPS, note="faded"))


def test_what_there_is_of_each_fabric_is_added_up():
    net, sail = by_fabric(shelf_in(HARBOUR))
    assert (net.fabric, net.pieces, net.length) == ("net", 18, inches(105) + mm(1200))
    assert net.area == 6 * Fraction(41, 2) * Fraction(35, 2) + 12 * Fraction(5, 2) * mm(100).exact
    assert (sail.fabric, sail.pieces, sail.length, sail.area) == ("sail", 1, inches(45), 41 * 45)


def test_cloth_is_given_to_cutting_with_equal_pieces_together():
    shelf = Shelf("in", (NET, SAIL, replace(NET, count=2, note="old")))
    assert given_from(shelf, ["net"]) == (
        Given("net 20 1/2 x 17 1/2 in", inches("20 1/2"), inches("17 1/2"), 8, "net"),
    )
    assert [one.fabric for one in given_from(shelf)] == ["net", "sail"]


def test_sizes_that_look_alike_on_the_ruler_keep_names_of_their_own():
    other = replace(SCRAPS, length=mm("100.1"))
    names = [one.name for one in given_from(Shelf("in", (SCRAPS, other)))]
    assert len(set(names)) == 2


# Writing.


def test_comments_and_untouched_lines_stay_as_they_are():
    text = shelf_text(take_out(shelf_in(HARBOUR), [replace(NET, count=2)]), HARBOUR)
    assert text == HARBOUR.replace("count = 6", "count = 4")


def test_an_unchanged_shelf_is_the_same_text():
    assert shelf_text(shelf_in(HARBOUR), HARBOUR) == HARBOUR


def test_new_cloth_stands_behind_the_old():
    new = ShelfCloth("tar", inches(4), inches("9 1/8"), 2, "left of Wake", Fraction(3, 2), "2026")
    text = shelf_text(put_in(shelf_in(HARBOUR), [new]), HARBOUR)
    assert text.startswith(HARBOUR)
    assert text.removeprefix(HARBOUR).splitlines() == [
        "",
        "[[cloth]]",
        'fabric = "tar"',
        'width = "4 in"',
        'length = "9 1/8 in"',
        "count = 2",
        'note = "left of Wake"',
        "price = 1.5",
        'bought = "2026"',
    ]


def test_the_version_before_is_kept_beside(tmp_path: Path):
    path = tmp_path / "shelf.toml"
    path.write_text(HARBOUR, "utf-8")
    write_shelf(take_out(read_shelf(path), [SAIL]), path)
    assert (tmp_path / "shelf.toml.before").read_text("utf-8") == HARBOUR
    assert read_shelf(path).cloth == (NET, SCRAPS)
    assert sorted(p.name for p in tmp_path.iterdir()) == ["shelf.toml", "shelf.toml.before"]


def test_a_file_with_mistakes_is_not_written_over(tmp_path: Path):
    path = tmp_path / "shelf.toml"
    path.write_text("[[cloth]]\nwidth = 3\n", "utf-8")
    with pytest.raises(Refused, match=r"shelf\.toml:1: expected a fabric"):
        write_shelf(Shelf("in", (NET,)), path)
    assert path.read_text("utf-8") == "[[cloth]]\nwidth = 3\n"


lengths = st.one_of(
    st.integers(2, 800).map(lambda number: inches(Fraction(number, 8))), st.integers(10, 2000).map(mm)
)
texts = st.text(st.characters(codec="utf-8", exclude_categories=["Cc", "Cs"]), max_size=12).map(str.strip)
entries = st.builds(
    ShelfCloth,
    fabric=st.sampled_from(["net", "sail", "tide 'n' tar", 'the "wake"']),
    width=lengths,
    length=lengths,
    count=st.integers(1, 40),
    note=texts,
    price=st.one_of(st.none(), st.integers(0, 9999).map(lambda cents: Fraction(cents, 100))),
    bought=st.sampled_from(["", "2024-05-03", "at the regatta"]),
)
shelves = st.builds(Shelf, unit=st.sampled_from(["in", "cm"]), cloth=st.lists(entries, max_size=6).map(tuple))


@settings(max_examples=80, deadline=None)
@given(shelves)
def test_a_written_shelf_is_read_as_it_was(shelf):
    text = shelf_text(shelf)
    again, problems = shelf_from(toml_from_text(text, "shelf.toml"))
    assert problems == []
    assert again == shelf
    assert shelf_text(again, text) == text


def cloth_of(shelf: Shelf) -> Counter[tuple[str, Length, Length]]:
    found: Counter[tuple[str, Length, Length]] = Counter()
    for entry in shelf.cloth:
        found[entry.size] += entry.count
    return found


@settings(max_examples=80, deadline=None)
@given(shelves, st.lists(entries, max_size=4), st.data())
def test_nothing_is_lost_by_putting_in_and_taking_out(shelf, new, data):
    more = put_in(shelf, new)
    assert cloth_of(more) == cloth_of(shelf) + sum((cloth_of(Shelf("in", (one,))) for one in new), Counter())
    taken = [
        replace(entry, count=data.draw(st.integers(1, entry.count)))
        for entry in more.cloth
        if data.draw(st.booleans())
    ]
    less = take_out(more, taken)
    assert cloth_of(put_in(less, taken)) == cloth_of(more)
    before = shelf_text(shelf)
    after_all, problems = shelf_from(toml_from_text(shelf_text(less, before), "shelf.toml"))
    assert (problems, cloth_of(after_all)) == ([], cloth_of(less))


# After a quilt is cut.

SQUARES = [Demand("squares", inches(5), inches(5), 12)]


def test_a_layout_says_what_goes_and_what_is_left():
    shelf = Shelf("in", (ShelfCloth("net", inches(20), inches(17), 2),))
    given = given_from(shelf)
    change = change_of(from_shelf(SQUARES, Offered(given)), given, "left of Wake")
    # 20 x 17 gives 12 squares in 3 rows of 4; 2 in at the end are too narrow to keep.
    assert change.used == (ShelfCloth("net", inches(20), inches(17), 1),)
    assert change.left == ()
    assert after(shelf, change).cloth == (ShelfCloth("net", inches(20), inches(17), 1),)


def test_pack_pieces_that_were_not_cut_are_left_too():
    pack = Pack(Given("fives", inches(5), inches(5), 20, "tide"), Fraction(9))
    change = change_of(from_shelf(SQUARES, Offered((), (pack,))), ())
    assert (change.used, change.left) == ((), (ShelfCloth("tide", inches(5), inches(5), 8),))


def test_what_a_plan_says_of_the_shelf_is_read_back(tmp_path: Path):
    shelf = Shelf("in", (ShelfCloth("net", inches(20), inches(30), 1), ShelfCloth("tar", mm(90), mm(95))))
    given = given_from(shelf, ["net"])
    bolt = Bolt(Supply("net", inches(40), inches("4 1/2")))
    change = change_of(from_shelf(SQUARES, Offered(given, (), bolt)), given)
    path = tmp_path / "plan.json"
    path.write_text(json.dumps({"title": "Wake", "steps": [], "shelf": shelf_part(change)}), "utf-8")
    read = read_change(path)
    assert read.used == change.used
    assert read.left == tuple(replace(cloth, note="left of Wake") for cloth in change.left)
    assert after(shelf, read).cloth == (shelf.cloth[1], *read.left)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("{", "expected a plan, got"),
        ("{}", "says nothing of it"),
        ('{"shelf": {"used": [{"fabric": "net", "width": "2 in", "length": "wide"}]}}', "expected a plan"),
        (
            '{"shelf": {"used": [{"fabric": "net", "width": "2 in", "length": "-2 in"}]}}',
            "got 1 of 2 in x -2 in",
        ),
        (
            '{"shelf": {"left": [{"fabric": "net", "width": "2 in", "length": "2 in", "count": 0}]}}',
            "expected pieces of cloth with sizes and counts, got 0 of",
        ),
    ],
)
def test_a_file_that_is_no_plan_for_the_shelf_is_told(tmp_path: Path, text: str, said: str):
    path = tmp_path / "plan.json"
    path.write_text(text, "utf-8")
    with pytest.raises(Refused) as told:
        read_change(path)
    assert said in str(told.value)
    with pytest.raises(Refused, match="cannot be read"):
        read_change(tmp_path / "none.json")
