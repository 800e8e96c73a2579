"""A quilt made larger or smaller, and the search for few changes that bring it to a wanted size."""

from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.design.draw_quilt import draw_quilt
from piecewright.design.model import finished_size
from piecewright.design.read import design_from, read_design
from piecewright.measure.length import ZERO, inches, mm
from piecewright.problems import Refused
from piecewright.sizing.answer import USUAL_TOLERANCE, Target
from piecewright.sizing.parity import check_parity, wished_counts
from piecewright.sizing.resizing import cell_sizes, finished_lengths, scaled
from piecewright.sizing.search import answers
from piecewright.sizing.too_small import border_that_fits
from piecewright.toml_places import toml_from_text
from random_quilts import quilts

EXAMPLES = Path(__file__).parents[1] / "examples"


def harbour_lights():
    design, _ = read_design(EXAMPLES / "harbour-lights.toml")
    assert design is not None
    return design


def inch_target(width, height, tolerance=2):
    return Target(inches(width), inches(height), inches(tolerance))


def stars(across: int, down: int, rest: str = "", arrangement: str = "star"):
    text = f'''
title = "Tide marks"
[fabrics.sail]
colour = "#efe6d2"
[fabrics.tide]
colour = "#27465f"
[blocks.star]
size = "12"
picture = """
sail.nw.tide sail.ne.tide
sail.sw.tide sail.se.tide
"""
[setting]
across = {across}
down = {down}
arrangement = """
{arrangement}
"""
{rest}
'''
    design, problems = design_from(toml_from_text(text, "quilt.toml"))
    assert design is not None, problems
    return design


BORDER = '[[borders]]\nwidth = "4"\nrole = "tide"'


@given(quilt=quilts(), factor=st.sampled_from([Fraction(2), Fraction(1, 2), Fraction(3, 2)]))
@settings(max_examples=40, deadline=None)
def test_scaling_scales_every_finished_size_and_nothing_that_is_sewn_or_cut_by_hand(quilt, factor):
    before = quilt.read()
    after = scaled(before, factor)
    assert finished_lengths(after) == tuple(length * factor for length in finished_lengths(before))
    assert finished_size(after) == tuple(side * factor for side in finished_size(before))
    same = ("fabrics", "roles", "binding", "backing", "batting", "choices", "unit", "title")
    assert [name for name in same if getattr(after, name) != getattr(before, name)] == []
    for block, was in zip(after.blocks, before.blocks, strict=True):
        corners = [corner for shape in was.shapes for corner in shape.corners]
        grown = [(x * float(factor), y * float(factor)) for x, y in corners]
        assert [corner for shape in block.shapes for corner in shape.corners] == grown


@given(quilt=quilts())
@settings(max_examples=20, deadline=None)
def test_a_quilt_scaled_by_2_is_drawn_twice_as_large_patch_for_patch(quilt):
    before = quilt.read()
    small, large = draw_quilt(before).top, draw_quilt(scaled(before, Fraction(2))).top
    assert len(large.children) == len(small.children)
    for one, other in zip(small.children, large.children, strict=True):
        twice = [(2 * x, 2 * y) for x, y in one.drawing.outline]
        assert [pytest.approx(corner) for corner in twice] == list(other.drawing.outline)
        assert (2 * one.place.x, 2 * one.place.y) == pytest.approx((other.place.x, other.place.y))


def test_scaling_by_2_leaves_the_seam_so_a_cut_square_is_not_twice_as_large():
    design = scaled(stars(2, 2), Fraction(2))
    square, seam = design.blocks[0].units[0].width, inches("1/4")
    assert (square, square + seam * 2) == (inches(12), inches("12 1/2"))


@given(
    quilt=quilts(),
    by=st.tuples(st.integers(60, 300), st.integers(60, 300)),
)
@settings(max_examples=25, deadline=None)
def test_every_answer_makes_the_size_it_tells_on_whole_marks_with_the_parity_kept(quilt, by):
    design = quilt.read()
    size = finished_size(design)
    tolerance = USUAL_TOLERANCE[design.unit]
    target = Target(size[0] * Fraction(by[0], 100), size[1] * Fraction(by[1], 100), tolerance)
    try:
        found = answers(design, target)
    except Refused:
        assert min(by) < 100
        return
    mark = inches("1/8") if design.unit == "in" else mm(1)
    wrong_now = bool(check_parity(design))
    assert 1 <= len(found) <= 6
    for answer in found:
        made = answer.apply(design)
        assert finished_size(made) == answer.size
        assert answer.over == tuple(side - want for side, want in zip(answer.size, target.size, strict=True))
        near = all(-tolerance <= over <= tolerance for over in answer.over)
        assert near == answer.fits
        assert [side for side in cell_sizes(made) if side % mark] == []
        assert wrong_now or check_parity(made) == []
    assert len({answer.fits for answer in found}) == 1
    if found[0].fits:
        numbers = [len(answer.changes) for answer in found]
        assert numbers[0] == min(numbers)


def test_a_quilt_that_has_the_size_already_stays_as_it_is():
    (answer,) = answers(harbour_lights(), inch_target(55, 64))
    assert answer.is_as_it_is
    assert answer.off == ZERO
    assert answer.apply(harbour_lights()) == harbour_lights()


def test_one_change_comes_before_two_and_each_says_what_it_was():
    found = answers(harbour_lights(), inch_target(60, 69))
    assert found[0].changes == ("outer border 6 in instead of 3 1/2 in",)
    assert found[1].changes == ("blocks 9 in instead of 8 in",)
    assert found[1].off_words("in") == "width as wanted, height 1 in over (1.4 %)"
    assert [len(answer.changes) for answer in found] == [1, 1, 1, 2]


def test_more_blocks_alone_make_a_larger_quilt():
    (answer, *_) = answers(stars(4, 5), inch_target(84, 96))
    assert answer.changes == ("7 x 8 blocks instead of 4 x 5",)
    assert answer.cloth == Fraction(7 * 8, 4 * 5)


def test_figures_of_four_stay_whole():
    turned = "star star.right\nstar.left star.half"
    for answer in answers(stars(4, 4, BORDER, turned), inch_target(80, 104)):
        assert (answer.across % 2, answer.down % 2) == (0, 0)


def test_where_nothing_comes_near_the_nearest_are_told_as_such():
    # Two blocks that take turns, odd by odd, of one size: 60 x 78 in has no square blocks 5 x 6.
    design = stars(5, 5, "", "star sail\nsail star")
    assert all(wish.offset == 1 for wish in wished_counts(design))
    found = answers(design, inch_target(60, 78, 1))
    assert [answer.fits for answer in found] == [False] * len(found)
    assert found[0].off == min(answer.off for answer in found)


def test_a_bed_smaller_than_a_block_is_told_by_how_much_and_what_works():
    with pytest.raises(Refused) as refused:
        answers(stars(4, 5), inch_target(5, 60))
    (problem,) = refused.value.problems
    assert problem.what == "expected room for one block of 12 in, got a width of 5 in, 7 in less."
    changed = "blocks 10 in instead of 12 in, 1 x 6 blocks instead of 4 x 5"
    assert problem.do == f"The nearest that works is 10 x 60 in: {changed}."


def test_a_setting_with_too_few_blocks_is_told_how_many_it_wants():
    turned = "star star.right\nstar.left star.half"
    with pytest.raises(Refused, match=r"at least 2 blocks across .24 in.*got a width of 14 in, 10 in less"):
        answers(stars(4, 4, "", turned), inch_target(14, 48, 1))


def test_borders_that_leave_no_room_for_the_blocks_are_told():
    wide = '[[borders]]\nwidth = "9"\nrole = "tide"\n[[borders]]\nwidth = "1"\nrole = "sail"'
    with pytest.raises(
        Refused, match=r"at least 32 in for the blocks and borders that take 20 in.*12 in less"
    ):
        answers(stars(1, 1, wide), inch_target(20, 40, 1))


def test_the_border_that_fits_and_one_that_cannot():
    assert border_that_fits(stars(4, 5, BORDER), inch_target(60, 72)) == inches(6)
    with pytest.raises(Refused, match="is 48 in wide, the quilt wanted 40 in, 8 in too little"):
        border_that_fits(stars(4, 5, BORDER), inch_target(40, 50))
    with pytest.raises(Refused, match="got none"):
        border_that_fits(stars(4, 5), inch_target(60, 72))


@pytest.mark.parametrize("side", [ZERO, inches(-5), inches(5000)])
def test_a_size_that_is_none_is_refused(side):
    with pytest.raises(ValueError, match="expected a width from"):
        answers(stars(2, 2), Target(side, inches(50), inches(2)))
