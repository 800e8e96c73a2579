"""Ways of cutting: what each may do, how near the least there is it comes, and the bench does it too."""

from __future__ import annotations

import random
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cutting_exhaustive import least_length
from piecewright.bench.plan import Finish, Plan
from piecewright.bench.plan import Supply as ClothThere
from piecewright.bench.replay import run
from piecewright.cutting.checking import check_layout
from piecewright.cutting.cuts import CROSSCUTS, STACKS, TALL_STRIPS, WAYS_OF_CUTTING, Cuts
from piecewright.cutting.laying import lay_out, layouts, own_strips_layout
from piecewright.cutting.marks import Cut, Strip, in_marks
from piecewright.cutting.settling import counts_of, settled
from piecewright.cutting.wanted import Demand, Supply, check_wanted
from piecewright.cutting.wishes import AIMS, Aim, CuttingWish
from piecewright.measure.length import Length, inches
from piecewright.planning.writing import cutting_steps
from piecewright.workroom.workroom import INCH_WORKROOM
from test_cutting_properties import cloths, pieces

CLOTH = Supply("sail", inches(20), inches("1/8"), ruler_length=inches(12))


def wanted(size: str, count: int, may_turn: bool = True) -> Demand:
    width, height = size.split(" x ")
    return Demand(size, inches(width), inches(height), count, may_turn)


def least(cuts: Cuts, effort: int = 20_000) -> CuttingWish:
    return CuttingWish("least cloth", cuts, effort=effort)


def test_stacks_fill_what_crosscuts_trim_off() -> None:
    # exact: two of 8 x 6 leave 4 x 6 of a strip: two of 2 x 2 in crosscuts, six in stacks.
    demands = [wanted("8 x 6", 2, may_turn=False), wanted("2 x 2", 6)]
    lengths = [lay_out(demands, CLOTH, least(cuts)).length for cuts in (CROSSCUTS, STACKS)]
    assert lengths == [inches(8), inches(6)]


def test_a_strip_as_high_as_two_pieces_leaves_room_for_a_stack() -> None:
    # exact: strips of 6 in leave room for one 4 x 4 each; one of 12 in for a stack of three.
    demands = [wanted("8 x 6", 4, may_turn=False), wanted("4 x 4", 3)]
    lengths = [lay_out(demands, CLOTH, least(cuts)).length for cuts in (STACKS, TALL_STRIPS)]
    assert lengths == [inches(16), inches(12)]


def test_crosscuts_hold_one_piece_each() -> None:
    demands = [wanted("6 x 6", 6), wanted("2 x 2", 6)]
    layout = lay_out(demands, CLOTH, least(CROSSCUTS))
    assert all(section.stack == 1 for pattern in layout.patterns for section in pattern.sections)


def test_a_tall_strip_is_never_higher_than_the_ruler() -> None:
    # exact: a 12 in ruler takes strips of 4 x 3 in.
    layout = lay_out([wanted("3 x 3", 200)], CLOTH, least(TALL_STRIPS))
    assert max(pattern.strip_height for pattern in layout.patterns) <= inches(12)


def test_a_strip_beyond_the_ruler_holds_a_piece_as_tall_and_its_rest_is_filled_with_stacks() -> None:
    # exact: two borders 5 in wide leave 10 of 20 in; 2 1/2 in squares fill it in 4 stacks of 16.
    border = Demand("border", inches(5), inches(40), 2, may_turn=False)
    demands = [border, wanted("2 1/2 x 2 1/2", 64)]
    layout = lay_out(demands, CLOTH)
    assert layout.length == inches(40)
    assert [(s.name, s.count, s.stack) for s in layout.patterns[0].sections] == [
        ("border", 2, 1),
        ("2 1/2 x 2 1/2", 4, 16),
    ]


def test_a_piece_as_tall_is_what_a_strip_beyond_the_ruler_is_cut_for() -> None:
    # With 100 more squares no second strip of 40 in is cut for squares alone.
    border = Demand("border", inches(5), inches(40), 2, may_turn=False)
    for cuts in WAYS_OF_CUTTING:
        layout = lay_out([border, wanted("2 1/2 x 2 1/2", 164)], CLOTH, CuttingWish(cuts=cuts))
        tall = [pattern for pattern in layout.patterns if pattern.strip_height > inches(12)]
        assert all(any(s.name == "border" for s in pattern.sections) for pattern in tall)


def test_the_bound_knows_that_a_strip_beyond_the_ruler_needs_a_piece_as_tall() -> None:
    # exact: strips of 40 in could hold 5 of 12 x 8 beside 4 of 8 x 10, and 120 in would do; but only the one
    # with the border may be so high.
    fixed = [wanted("12 x 8", 15, may_turn=False), wanted("8 x 10", 12, may_turn=False)]
    layout = lay_out([wanted("5 x 40", 1, may_turn=False), *fixed], CLOTH, least(STACKS))
    assert inches(145) < layout.bound <= layout.length == inches(150)


def test_what_a_strip_without_its_tall_piece_held_is_laid_anew() -> None:
    # exact: one border and 64 squares are wanted; the second strip would hold 64 squares and no border.
    border = Demand("border", inches(5), inches(40), 1, may_turn=False)
    task = in_marks([border, wanted("2 1/2 x 2 1/2", 100)], CLOTH)
    strip = Strip(task.heights[-1], (Cut(0, 1, 1), Cut(1, 4, 16)), 2)
    strips = settled(task, [strip], task.counts)
    assert counts_of(task, strips) == [1, 100]
    assert [height for height in task.heights if task.tall(height)] == [strips[0].height]
    assert all(not task.tall(strip.height) for strip in strips[1:])


def test_squaring_up_counts_for_every_strip_and_is_priced() -> None:
    # exact: 40 of 2 x 2 take four strips of 2 1/2 with what squares them up, or one of 8 1/2 in stacks of 4.
    squares, cloth = [wanted("2 x 2", 40)], replace(CLOTH, squaring=inches("1/2"))
    assert lay_out(squares, cloth, least(STACKS)).length == inches(10)
    tall = lay_out(squares, cloth, least(TALL_STRIPS))
    assert (tall.length, tall.strips) == (inches("8 1/2"), 1)
    assert tall.sum_lines()[-3] == "8 + 1 x 1/2 to square up = 8 1/2 in"


@pytest.mark.parametrize("cuts", WAYS_OF_CUTTING)
def test_small_lists_are_cut_as_short_as_any_layout_nearly_always(cuts: Cuts) -> None:
    chance, missed = random.Random(7), 0
    for _ in range(12):
        demands = [
            Demand(
                f"size {number}",
                Length(Fraction(chance.randint(4, 20), 2)),
                Length(Fraction(chance.randint(4, 20), 2)),
                chance.randint(1, 5),
                chance.random() < 0.5,
            )
            for number in range(3)
        ]
        cloth = replace(CLOTH, squaring=Length(Fraction(chance.randint(0, 1), 2)))
        task = in_marks(demands, cloth, cuts)
        layout, shortest = lay_out(demands, cloth, least(cuts)), Length(least_length(task) * task.mark)
        assert layout.bound <= shortest <= layout.length
        missed += layout.length > shortest
    assert missed <= 1


aims, ways = st.sampled_from(AIMS), st.sampled_from(WAYS_OF_CUTTING)


@settings(max_examples=60, deadline=None)
@given(pieces(), cloths(), aims, ways, st.integers(1, 4))
def test_whatever_is_wished_for_every_piece_is_cut_once_inside_the_cloth(
    demands: list[Demand], cloth: Supply, aim: Aim, cuts: Cuts, layers: int
) -> None:
    layout = lay_out(demands, cloth, CuttingWish(aim, cuts, layers, effort=5_000))
    assert check_layout(layout, demands, cloth.ruler_length) == []
    assert layout.cuts_as == cuts
    assert layout.bound <= layout.length <= own_strips_layout(demands, cloth).length
    assert -(-layout.cuts // layers) <= layout.operations(layers) <= layout.cuts


@settings(max_examples=25, deadline=None)
@given(pieces(), cloths(), aims, ways)
def test_every_layout_can_be_cut_on_the_bench(
    demands: list[Demand], cloth: Supply, aim: Aim, cuts: Cuts
) -> None:
    layout = lay_out(demands, cloth, CuttingWish(aim, cuts, effort=5_000))
    there = ClothThere(fabric=layout.key, width=layout.usable_width, length=layout.length)
    steps = tuple(cutting_steps([layout], INCH_WORKROOM))
    finish = Finish(top=demands[0].name)
    plan = Plan(title="cut", workroom=INCH_WORKROOM, cloth=(there,), steps=steps, finish=finish)
    bench, problems = run(plan)
    assert problems == []
    counts = {name: pile.count for name, pile in bench.table.piles.items() if pile.count}
    assert counts == {demand.name: demand.count for demand in demands}


@settings(max_examples=40, deadline=None)
@given(pieces(), cloths(), st.integers(1, 400))
def test_more_cloth_never_makes_it_impossible(demands: list[Demand], cloth: Supply, eighths: int) -> None:
    narrow = replace(cloth, usable_width=Length(Fraction(eighths, 8)))
    wider = replace(narrow, usable_width=narrow.usable_width + Length(Fraction(eighths, 8)))
    if not check_wanted(demands, narrow):
        assert check_wanted(demands, wider) == []


@settings(max_examples=20, deadline=None)
@given(pieces(), cloths(), ways)
def test_the_first_layout_is_whole_and_every_next_one_is_better(
    demands: list[Demand], cloth: Supply, cuts: Cuts
) -> None:
    found = list(layouts(demands, cloth, least(cuts, effort=5_000)))
    assert all(check_layout(layout, demands, cloth.ruler_length) == [] for layout in found)
    lengths = [layout.length for layout in found]
    assert lengths == sorted(lengths, reverse=True)


@settings(max_examples=20, deadline=None)
@given(pieces(), cloths(), aims, ways)
def test_the_same_wish_gives_the_same_layout_to_the_byte(
    demands: list[Demand], cloth: Supply, aim: Aim, cuts: Cuts
) -> None:
    wish = CuttingWish(aim, cuts, effort=5_000)
    assert repr(lay_out(demands, cloth, wish)).encode() == repr(lay_out(demands, cloth, wish)).encode()
