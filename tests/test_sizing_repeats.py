"""Whole repeats of a pieced border: by coping strips, other repeats or blocks; proven by arithmetic."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.design.model import finished_size
from piecewright.design.read import design_from
from piecewright.measure.length import ZERO, Length, inches, mm
from piecewright.problems import Refused
from piecewright.sizing.repeats import blocks_that_fit, check_repeats, coping, inner_side, repeats_that_fit
from piecewright.sizing.resizing import with_blocks
from piecewright.toml_places import toml_from_text

QUARTER = inches("1/4")
EIGHTH = inches("1/8")


def test_46_in_come_to_a_multiple_of_5_with_strips_cut_2_and_a_half():
    # Published: patchworktimes.com, making-a-pieced-border-fit (coping).
    found = coping((inches(46), inches(46)), inches(5))
    assert (found.across, found.side) == (10, inches(2))
    assert found.cut(QUARTER) == (inches("2 1/2"), inches("2 1/2"))


def test_where_one_direction_fits_already_only_the_other_gets_strips():
    found = coping((inches(46), inches(50)), inches(5))
    assert (found.side, found.end, found.down) == (inches(2), ZERO, 10)
    assert found.cut(QUARTER) == (inches("2 1/2"), ZERO)
    strips = "coping strips 2 in on the sides (cut 2 1/2 in), none above and below"
    assert found.words("in", QUARTER) == f"10 x 10 repeats of 5 in fit with {strips}"


def test_a_strip_too_narrow_to_sew_well_becomes_one_of_a_repeat_more():
    # 49 1/2 in lack 1/2 in: strips of 1/4 in finished would be all seam.
    found = coping((inches("49 1/2"), inches(50)), inches(5))
    assert (found.across, found.side) == (11, inches("2 3/4"))


lengths = st.integers(8, 1200).map(lambda n: inches(Fraction(n, 8)))


@given(width=lengths, height=lengths, repeat=st.integers(8, 96).map(lambda n: inches(Fraction(n, 8))))
@settings(max_examples=200)
def test_repeats_times_their_length_are_the_side_and_two_strips(width, height, repeat):
    found = coping((width, height), repeat)
    assert repeat * found.across == width + found.side * 2
    assert repeat * found.down == height + found.end * 2
    for strip in (found.side, found.end):
        assert strip == ZERO or inches("1/2") <= strip < repeat / 2 + inches("1/2")


@given(width=lengths, height=lengths, repeat=st.integers(8, 96).map(lambda n: inches(Fraction(n, 8))))
@settings(max_examples=200)
def test_other_repeats_fit_whole_in_both_directions_lie_on_marks_and_none_nearer_is_left_out(
    width, height, repeat
):
    found = repeats_that_fit((width, height), repeat, EIGHTH)
    for one in found:
        assert (one.repeat * one.across, one.repeat * one.down) == (width, height)
        assert not one.repeat % EIGHTH
    all_of_them = {
        mark
        for n in range(1, 120)
        if not width % (mark := EIGHTH * n) and not height % mark and repeat * 7 <= mark * 8 <= repeat * 9
    }
    assert {one.repeat for one in found} == all_of_them
    assert [one.repeat for one in found] == sorted(
        all_of_them, key=lambda one: (abs((one - repeat).exact), -one.exact)
    )


def test_a_border_that_does_not_come_out_is_noted_with_what_makes_it_fit():
    (note,) = check_repeats((inches(46), inches(50)), inches(5), "in", QUARTER, EIGHTH)
    assert note.weight == "note"
    assert "46 in across are 9 repeats of 5 in and 1 in." in note.what
    assert note.do.startswith("10 x 10 repeats of 5 in fit with coping strips 2 in on the sides")
    (other,) = check_repeats((inches(45), inches(54)), inches(4), "in", QUARTER, EIGHTH)
    assert other.do.endswith("; or repeats of 4 1/2 in fit.")
    assert check_repeats((inches(45), inches(50)), inches(5), "in", QUARTER, EIGHTH) == []


def bars(size: str, across: int, down: int, borders: str = "", cells: int = 2):
    text = f'''
title = "Nets and bars"
[fabrics.sail]
colour = "#efe6d2"
[blocks.bar]
size = "{size}"
picture = "{"sail " * cells}"
[setting]
across = {across}
down = {down}
arrangement = "bar"
{borders}
'''
    design, problems = design_from(toml_from_text(text, "quilt.toml"))
    assert design is not None, problems
    return design


def test_other_blocks_make_whole_repeats_in_both_directions():
    # 5 x 6 blocks of 9 in are 45 x 54 in, which repeats of 4 in do not fit; 40 x 48 in they do.
    design = bars("9", 5, 6)
    found = blocks_that_fit(design, inches(4), EIGHTH)
    assert found == ((inches(8), inches(8)),)
    assert finished_size(with_blocks(design, Fraction(8, 9))) == (inches(40), inches(48))


def test_repeats_that_fit_one_direction_only_are_not_enough():
    # 40 and 45 in are whole fives too, but 48 and 54 in are not; 50 x 60 in is.
    assert blocks_that_fit(bars("9", 5, 6), inches(5), EIGHTH) == ((inches(10), inches(10)),)


def test_blocks_that_no_ruler_shows_are_not_offered():
    # In blocks of 8 in the three bars would be 2 2/3 in.
    assert blocks_that_fit(bars("9", 5, 6, cells=3), inches(4), EIGHTH) == ()


def test_the_inner_side_of_a_border_is_what_it_goes_round():
    design = bars(
        "9", 5, 6, '[[borders]]\nwidth = "1"\nrole = "sail"\n[[borders]]\nwidth = "4"\nrole = "sail"'
    )
    assert inner_side(design, 0) == (inches(45), inches(54))
    assert inner_side(design, 1) == (inches(47), inches(56))


@pytest.mark.parametrize("repeat", [ZERO, -inches(1)])
def test_a_repeat_that_is_no_length_is_refused(repeat: Length):
    with pytest.raises(Refused, match=r"a repeat of .* along 46 in x 46 in"):
        coping((inches(46), inches(46)), repeat)


def test_centimetres_come_out_in_centimetres():
    found = coping((mm(1150), mm(1200)), mm(100), mm(10))
    assert (found.across, found.side, found.end) == (12, mm(25), ZERO)
    assert found.cut(mm("7.5"))[0] == mm(40)
