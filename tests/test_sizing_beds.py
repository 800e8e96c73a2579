"""From a bed to the size of its quilt; every mattress with a source; figures from outside."""

import pytest

from piecewright.measure.length import ZERO, inches, mm
from piecewright.sizing.beds import BEDS, USUAL_QUILTS, bed_named
from piecewright.sizing.on_bed import Hang, check_hang, hang_of, quilt_for_bed


def test_a_queen_bed_with_a_drop_of_13_in_on_three_sides_wants_86_by_93_in():
    # Published: generations-quilt-patterns.com (bed_queen).
    hang = hang_of("in", drop=inches(13))
    assert quilt_for_bed(bed_named("us queen"), hang) == (inches(86), inches(93))


def test_a_twin_quilt_with_a_drop_of_12_in_is_63_by_87_and_a_bedspread_tucks_15_in_more():
    # Published: ciaspalette.com, mattresses: 39 + 12 + 12 by 75 + 12, and 15 in at the head for the pillow.
    twin = bed_named("us twin")
    assert quilt_for_bed(twin, hang_of("in", drop=inches(12))) == (inches(63), inches(87))
    tucked = hang_of("in", drop=inches(12), tuck=inches(15))
    assert quilt_for_bed(twin, tucked) == (inches(63), inches(102))


def test_without_a_drop_the_quilt_covers_the_depth_of_the_mattress_and_a_little_more():
    assert hang_of("in", depth=inches(10)) == Hang(inches(12), inches(12), ZERO)
    assert hang_of("cm") == Hang(mm(350), mm(350), ZERO)


def test_the_foot_may_hang_another_way_than_the_sides():
    hang = hang_of("cm", drop=mm(300), foot=ZERO, tuck=mm(200))
    assert quilt_for_bed(bed_named("eu 140 x 200"), hang) == (mm(2000), mm(2200))


def test_a_drop_shorter_than_the_mattress_is_deep_is_told_with_what_shows():
    (sides, foot) = check_hang(hang_of("in", drop=inches(8)), inches(12), "in")
    assert (sides.weight, foot.weight) == ("note", "note")
    assert "4 in of it shows" in sides.what
    assert "14 in covers it" in sides.do
    assert check_hang(hang_of("in", depth=inches(12)), inches(12), "in") == []


@pytest.mark.parametrize("length", [inches(-1), inches(61)])
def test_a_drop_that_is_none_is_refused_with_its_figure(length):
    with pytest.raises(ValueError, match="a drop from 0 in to 60 in, got"):
        hang_of("in", drop=length)


def test_every_bed_has_its_own_name_a_size_longer_than_wide_or_square_and_a_source():
    assert len({bed.key for bed in BEDS}) == len(BEDS)
    assert {bed.country for bed in BEDS} == {"US", "UK", "EU", "AU"}
    assert [bed.key for bed in BEDS if not bed.width <= bed.length] == []
    assert [quilt.name for quilt in (*BEDS, *USUAL_QUILTS) if not quilt.source] == []


@pytest.mark.parametrize(
    ("key", "width", "length"),
    [
        ("us twin", inches(39), inches(75)),  # shopbedmart.com mattress-sizes-dimensions
        ("us california king", inches(72), inches(84)),  # phatfusion.net mattress-size-dimension-chart
        ("uk double", mm(1350), mm(1900)),  # barkerandstonehouse.co.uk mattress-size-guide
        ("uk super king", mm(1800), mm(2000)),  # thebedsupermarket.co.uk bed-mattress-sizes-guide
        ("au double", mm(1380), mm(1880)),  # upmove.com.au mattress-sizes-australia
        ("au king single", mm(1070), mm(2030)),  # rowes.com.au mattress size guide
        ("eu 90 x 200", mm(900), mm(2000)),  # bedsizes.biz european.htm
    ],
)
def test_a_mattress_is_as_a_second_source_says(key, width, length):
    bed = bed_named(key)
    assert (bed.width, bed.length) == (width, length)


def test_a_bed_is_found_in_any_writing_and_without_its_country_where_only_one_has_it():
    assert bed_named("  US  Queen ") is bed_named("us queen")
    assert bed_named("160x200").key == bed_named("EU 160×200").key == "eu 160 x 200"
    assert bed_named("california king").country == "US"


def test_a_name_that_two_countries_have_is_asked_for():
    with pytest.raises(ValueError, match="us queen or au queen"):
        bed_named("queen")


def test_an_unknown_bed_is_answered_with_the_nearest_name():
    with pytest.raises(ValueError, match="did you mean us queen"):
        bed_named("us quen")


def test_cots_and_baby_quilts_are_known_as_such():
    for_babies = {quilt.name for quilt in (*BEDS, *USUAL_QUILTS) if quilt.is_for_baby}
    assert for_babies == {"crib", "cot", "baby"}
