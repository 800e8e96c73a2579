"""Ways side by side: which comes first, what is left out, and what squares of a given size would make."""

import pytest
from msgspec.structs import replace

from piecewright.measure.length import inches
from piecewright.methods import methods_for, ways_for
from piecewright.methods.comparing import check_count, compare_ways, from_size, unit_wanted, ways_left_out
from piecewright.problems import Refused
from piecewright.workroom.workroom import INCH_WORKROOM

TWO_INCH = unit_wanted("hst", inches(2), inches(2))
GOOSE = unit_wanted("geese", inches(4), inches(2))


def standings(unit, *sizes: str, workroom=INCH_WORKROOM) -> dict[str, str]:
    made = from_size(unit, tuple(map(inches, sizes)), workroom)
    return {one.recipe.method.name: one.standing for one in made}


def test_ways_come_by_cost_unless_one_is_liked():
    ways = compare_ways(TWO_INCH, 48, INCH_WORKROOM)
    assert {way.name for way in ways} >= {method.name for method in methods_for("hst")}
    assert [(way.off_marks, way.cost) for way in ways] == sorted((way.off_marks, way.cost) for way in ways)
    dearest = ways[-1].name
    liked = compare_ways(TWO_INCH, 48, replace(INCH_WORKROOM, liked=(dearest,)))
    assert [way.name for way in liked] == [dearest, *(way.name for way in ways[:-1])]


def test_for_one_unit_a_way_that_makes_many_is_not_the_cheapest():
    assert compare_ways(TWO_INCH, 48, INCH_WORKROOM)[0].recipe.method.makes >= 8
    assert compare_ways(TWO_INCH, 1, INCH_WORKROOM)[0].recipe.method.makes <= 2


def test_a_refused_way_is_left_out_with_the_reason():
    workroom = replace(INCH_WORKROOM, refused=("four at a time",))
    assert "four at a time" not in {way.name for way in compare_ways(TWO_INCH, 4, workroom)}
    assert [str(note) for note in ways_left_out(TWO_INCH, workroom)] == [
        "four at a time: your workroom refuses this way."
    ]
    assert ways_left_out(TWO_INCH, INCH_WORKROOM) == ()


def test_where_every_way_is_refused_there_is_nothing_to_compare():
    every = tuple(method.name for method in ways_for(GOOSE, INCH_WORKROOM))
    workroom = replace(INCH_WORKROOM, refused=every)
    with pytest.raises(Refused, match="stitch and flip: your workroom refuses this way"):
        compare_ways(GOOSE, 4, workroom)


@pytest.mark.parametrize("count", [0, -1, 100_001, 10**9])
def test_a_count_that_nobody_makes_is_refused(count):
    with pytest.raises(Refused, match="expected from 1 to 100,000 units"):
        check_count(count)
    with pytest.raises(Refused, match="expected from 1 to 100,000 units"):
        compare_ways(TWO_INCH, count, INCH_WORKROOM)


# exact: two at a time makes S - sqrt(2)/4 of a square S; 2 1/2 is wanted; ease to 1/16, trims from 1/8 on
@pytest.mark.parametrize(
    ("square", "standing"),
    [
        ("2 3/4", "short"),
        ("2 27/32", "short"),
        ("2 7/8", "ease"),
        ("2 29/32", "ease"),
        ("2 15/16", "sliver"),
        ("3", "over"),
        ("1/8", "no such unit"),
    ],
)
def test_squares_are_short_or_over_by_the_rule_of_the_workroom(square, standing):
    assert standings(TWO_INCH, square)["two at a time"] == standing


def test_squares_of_the_unfinished_size_are_as_wanted_one_at_a_time():
    assert standings(TWO_INCH, "2 1/2")["one at a time"] == "as wanted"


def test_the_published_squares_make_geese():
    assert standings(GOOSE, "5 1/4", "2 7/8")["four at a time"] == "ease"
    found = standings(GOOSE, "4 1/2", "2 1/2")
    assert (found["stitch and flip"], found["four at a time"]) == ("as wanted", "short")


def test_geese_that_are_large_enough_but_whose_point_is_elsewhere_are_none():
    # exact: squares of 2 1/2 on a rectangle 5 1/4 wide leave the point flat
    assert standings(GOOSE, "5 1/4", "2 1/2")["stitch and flip"] == "no such unit"


@pytest.mark.parametrize(
    ("unit", "sizes", "message"),
    [
        (TWO_INCH, ["4", "5"], "starts from one size"),
        (GOOSE, ["4"], "starts from two sizes"),
        (TWO_INCH, ["0"], "expected squares above 0"),
        (TWO_INCH, ["361"], "up to 360 in, got 361 in"),
    ],
)
def test_sizes_that_are_none_are_refused(unit, sizes, message):
    with pytest.raises(Refused, match=message):
        from_size(unit, tuple(map(inches, sizes)), INCH_WORKROOM)


def test_the_same_comparison_in_millimetres_differs_only_by_rounding():
    metric = replace(INCH_WORKROOM, unit="cm")
    ways = {way.name: way for way in compare_ways(TWO_INCH, 48, metric)}
    for way in compare_ways(TWO_INCH, 48, INCH_WORKROOM):
        assert ways[way.name].start_exact == way.start_exact
