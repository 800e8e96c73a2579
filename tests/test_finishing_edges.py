"""Bindings straight and bias, facings, folded points, sleeve and label, against worked figures."""

import math
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.finishing.bias import (
    continuous_bias,
    from_length,
    from_square,
    length_for,
    square_for,
    squares_for,
)
from piecewright.finishing.binding import (
    BindingWishes,
    binding_length,
    cut_width,
    finished_width,
    straight_binding,
)
from piecewright.finishing.edges import EdgeKind, edge_of, whole_facing
from piecewright.finishing.facing import straight_facing
from piecewright.finishing.hanging import hanging_sleeve, label_of
from piecewright.finishing.points import folded_points
from piecewright.finishing.strips import strips_across
from piecewright.finishing.thread import Thickness
from piecewright.measure.length import Length, inches, mm
from piecewright.measure.rounding import Ruler
from piecewright.problems import Refused
from piecewright.workroom.workroom import INCH_WORKROOM, METRIC_WORKROOM

QUARTER = inches("1/4")
EIGHTHS = Ruler("in", Fraction(1, 8))
MILLIMETRES = Ruler("cm", Fraction(1))
TOP = (inches(60), inches(72))


def test_straight_binding_counts_a_strip_width_for_each_slanted_join() -> None:
    # trade-checks binding_a, exact: 60 x 72 top, 2 1/2 in strips, 40 in cloth, 10 in spare: 8 strips.
    strips = straight_binding(TOP, BindingWishes(), inches("2 1/2"), inches(40), QUARTER, EIGHTHS)
    assert (strips.count, strips.joins) == (8, 7)
    assert strips.sum_lines("in") == (
        "8 x 40 - 7 x 2 1/2 for slanted joins = 302 1/2 in, needed 274 in",
        "8 strips x 2 1/2 = 20 in of cloth",
    )


def test_straight_joins_cost_two_take_ups_each() -> None:
    # 7 x 40 - 6 x 1/2 = 277 in reach 274 in, where slanted joins need an eighth strip.
    wishes = BindingWishes(joined="straight")
    strips = straight_binding(TOP, wishes, inches("2 1/2"), inches(40), QUARTER, EIGHTHS)
    assert (strips.count, strips.made) == (7, inches(277))


@settings(max_examples=100, deadline=None)
@given(st.integers(10, 2000), st.integers(1, 8), st.integers(9, 60))
def test_strips_reach_and_one_fewer_would_not(least: int, width: int, usable: int) -> None:
    strips = strips_across(inches(least), inches(width), inches(usable), QUARTER, "slanted", EIGHTHS)
    made = strips.made
    assert made >= inches(least)
    assert strips.count == 1 or made - inches(usable) + inches(width) < inches(least)


def test_a_strip_as_wide_as_its_cloth_is_refused_with_the_nearest_that_works() -> None:
    wishes = BindingWishes()
    with pytest.raises(
        Refused, match=r"cloth is 40 in wide: 1 in too little\. Strips up to about 20 in wide"
    ):
        straight_binding(TOP, wishes, inches(41), inches(40), QUARTER, EIGHTHS)


def test_the_cut_width_covers_seam_both_sides_and_the_edge() -> None:
    # Plane arithmetic: 1/4 + 2 x 3/8 + 1/8 + 1/16 = 1 3/16; double twice that; single 1/4 more, 1 7/16.
    double = cut_width(inches("3/8"), "double", QUARTER, inches("1/8"), EIGHTHS)
    single = cut_width(inches("3/8"), "single", QUARTER, inches("1/8"), EIGHTHS)
    assert (double.cut, single.cut) == (inches("2 3/8"), inches("1 1/2"))
    assert double.sum_line("in") == (
        "2 x (1/4 seam + 2 x 3/8 + 1/8 thick + 1/16 over the stitches): cut 2 3/8 in"
    )


@pytest.mark.parametrize("fold", ["double", "single"])
@pytest.mark.parametrize("seam", [None, mm(7)])
def test_finished_and_cut_width_are_each_others_answer(fold: str, seam: Length | None) -> None:
    cut = cut_width(mm(10), fold, seam, mm(3), MILLIMETRES)  # type: ignore[arg-type]
    back = finished_width(cut.cut, fold, seam, mm(3), "cm")  # type: ignore[arg-type]
    assert mm(10) <= back.finished < mm(11)


def test_a_strip_too_narrow_for_its_edge_is_refused_with_the_width_that_shows() -> None:
    with pytest.raises(Refused, match=r"1/8 in too little .* Cut them wider than 7/8 in"):
        finished_width(inches("3/4"), "double", QUARTER, inches("1/8"), "in")


def test_the_binding_length_says_what_it_is_made_of() -> None:
    length = binding_length(TOP, BindingWishes(), "in")
    assert length.sum_line("in") == "264 round the quilt + 10 to join the ends = 274 in"
    corners = binding_length(TOP, BindingWishes(a_turn=inches(1)), "in")
    assert corners.least == inches(278)


@pytest.mark.parametrize(
    ("side", "made"),
    [
        (20, 165.46),  # trade-checks bias_a, exact: floor((S-2s)/(w sqrt 2)) (S-2s) sqrt 2
        (15, 102.53),  # trade-checks bias_b, exact: the same; a printed chart says 100 (chart ronbd.com)
    ],
)
def test_continuous_bias_counts_whole_strips(side: int, made: float) -> None:
    assert continuous_bias(inches(side), inches(2), QUARTER).made == pytest.approx(made, abs=0.05)


def test_continuous_bias_says_how_far_area_would_mislead() -> None:
    # trade-checks README, rule 7: S x S / w is 5 to 20 per cent optimistic; 400 / 2 = 200 against 165.46.
    assert continuous_bias(inches(20), inches(2), QUARTER).sum_lines("in") == (
        "(20 - 2 x 1/4) / (2 x 1.414) -> 6 whole strips",
        "6 x 19 1/2 x 1.414 = about 165 7/16 in",
        "area alone would promise 200 in, 21 per cent more than there is",
    )


@settings(max_examples=150, deadline=None)
@given(st.integers(20, 900), st.integers(8, 32))
def test_the_square_for_a_length_is_the_smallest_on_the_ruler(least: int, eighths: int) -> None:
    width = inches(Fraction(eighths, 8))
    square = square_for(inches(least), width, QUARTER, EIGHTHS)
    assert square.made >= least - 1e-6
    smaller = continuous_bias(square.side - inches("1/8"), width, QUARTER)
    assert smaller.made < least


def test_a_long_bias_binding_takes_several_squares() -> None:
    squares = squares_for(inches(700), inches("2 1/2"), inches(40), QUARTER, EIGHTHS)
    assert len(squares) == 2
    # Two strips with one bias join, which costs 2 x 1/4 x sqrt 2.
    assert sum(square.made for square in squares) - math.sqrt(2) / 2 >= 700
    assert squares[0].side <= inches(40)


def test_bias_strips_of_a_square_lie_beside_its_diagonal() -> None:
    # Plane geometry: half of a 10 in square is 7.071 deep: three strips, middles D - 2, D - 6, D - 10.
    strips = from_square(inches(10), inches(2), QUARTER)
    diagonal = 10 * math.sqrt(2)
    assert strips.lengths == pytest.approx([diagonal - 2] * 2 + [diagonal - 6] * 2 + [diagonal - 10] * 2)
    assert strips.joins == 5
    assert strips.made == pytest.approx(6 * diagonal - 36 - 5 * 2 * 0.25 * math.sqrt(2))


@settings(max_examples=100, deadline=None)
@given(st.integers(6, 60), st.integers(6, 60), st.integers(1, 4))
def test_bias_strips_take_no_more_than_their_cloth(along: int, across: int, width: int) -> None:
    strips = from_length(inches(along), inches(across), inches(width), QUARTER)
    assert sum(strips.lengths) * width <= along * across + 1e-6
    assert list(strips.lengths) == sorted(strips.lengths, reverse=True)


def test_the_length_for_bias_strips_is_the_shortest_on_the_ruler() -> None:
    strips = length_for(inches(274), inches("2 1/2"), inches(40), QUARTER, EIGHTHS)
    shorter = from_length(strips.along - inches("1/8"), inches(40), inches("2 1/2"), QUARTER)
    assert shorter.made < 274 <= strips.made


def test_bias_that_no_width_of_cloth_gives_is_refused_with_how_much_lacks() -> None:
    # Plane geometry: 2 x (25.78 + 20.78 + 15.78 + 10.78 + 5.78) - 9 x 0.707 = 151.5 of 500.
    with pytest.raises(Refused, match=r"square as wide as the cloth, 20 in, .* about 348 1/2 in too little"):
        length_for(inches(500), inches("2 1/2"), inches(20), QUARTER, EIGHTHS)


def test_four_straight_facings_are_joined_from_strips() -> None:
    # Plane arithmetic: 1 1/2 + 1/4 + 1/4 = 2 in; 2 x (72 1/2 + 60 1/2) = 266 in; 7 x 40 - 6 x 1/2 = 277.
    facing = straight_facing(TOP, inches("1 1/2"), inches(40), QUARTER, EIGHTHS)
    assert (facing.width, facing.sides, facing.ends) == (inches(2), inches("72 1/2"), inches("60 1/2"))
    assert (facing.strips.count, facing.cloth) == (7, inches(14))


def test_a_whole_facing_runs_the_way_that_takes_less_cloth() -> None:
    # Plane arithmetic: 60 1/2 x 72 1/2 raw; two lengths either way, of 60 1/2 in if they run across.
    facing = whole_facing(TOP, inches(40), INCH_WORKROOM)
    assert (facing.lengths, facing.cloth, facing.joins) == (2, inches(121), 1)


def test_folded_points_fill_each_edge_with_whole_ones() -> None:
    # A 4 in square is 3 1/2 in long in the seam; nested by half, the second starts 1 3/4 in on.
    points = folded_points(TOP, inches(4), inches(40), QUARTER, "in")
    assert (points.across, points.down, points.count) == (33, 40, 146)
    assert points.pitches[0] * 32 + inches("3 1/2") == TOP[0]
    assert (points.strips, points.cloth) == (15, inches(60))


def test_a_point_longer_than_its_edge_is_refused() -> None:
    with pytest.raises(Refused, match="shorter edge 3 in"):
        folded_points((inches(3), inches(30)), inches(4), inches(40), QUARTER, "in")


def test_a_sleeve_for_a_rod_is_half_its_girth_deep_and_a_little_more() -> None:
    # Plane geometry: pi x 1 1/2 / 2 = 2.356, and 1/2 in of ease, up to 2 7/8.
    sleeve = hanging_sleeve(inches(60), inches("1 1/2"), inches(40), QUARTER, EIGHTHS)
    assert (sleeve.depth, sleeve.height, sleeve.length) == (inches("2 7/8"), inches("6 1/4"), inches(60))
    assert (sleeve.strips.count, sleeve.cloth) == (2, inches("12 1/2"))


def test_the_usual_sleeve_is_four_inches_deep() -> None:
    # Common practice, no source: 4 in suits the rods of most shows; cut 8 1/2 in.
    assert hanging_sleeve(inches(30), None, inches(40), QUARTER, EIGHTHS).height == inches("8 1/2")


def test_a_quilt_narrower_than_its_sleeve_is_refused() -> None:
    with pytest.raises(Refused, match="only 1 in wide: 1 in too narrow"):
        hanging_sleeve(inches(1), None, inches(40), QUARTER, EIGHTHS)


def test_a_label_is_cut_with_a_seam_all_round() -> None:
    assert label_of((mm(120), mm(80)), mm("7.5"), "cm").cut == (mm(135), mm(95))


@pytest.mark.parametrize(
    ("kind", "wishes"),
    [
        ("binding", BindingWishes()),
        ("binding", BindingWishes(cut="bias strips")),
        ("binding", BindingWishes(cut="continuous bias")),
        ("binding", BindingWishes(fold="single", finished=inches("1/4"))),
        ("facing", BindingWishes()),
        ("whole facing", BindingWishes()),
        ("folded points", BindingWishes()),
    ],
)
@pytest.mark.parametrize("room", [INCH_WORKROOM, METRIC_WORKROOM])
def test_every_edge_reaches_round_the_quilt_and_shows_its_sums(
    kind: EdgeKind, wishes: BindingWishes, room: object
) -> None:
    workroom = METRIC_WORKROOM if room is METRIC_WORKROOM else INCH_WORKROOM
    edge = edge_of(kind, wishes, TOP, Thickness(), workroom.usable_width, workroom)
    assert edge.cloth > workroom.take_up
    assert 0 < edge.area <= float(edge.cloth) * float(workroom.usable_width) * edge.times
    assert all(edge.sum_lines(workroom.unit))


def test_metric_binding() -> None:
    # Plane arithmetic: 2 x (1500 + 1500) + 250 = 6250 mm; 7 x 1070 - 6 x 65 = 7100, 6 x 1070 - 5 x 65 = 6095.
    edge = edge_of(
        "binding",
        BindingWishes(cut_width=mm(65)),
        (mm(1500), mm(1500)),
        Thickness(),
        mm(1070),
        METRIC_WORKROOM,
    )
    assert (edge.joins, edge.cloth) == (6, mm(455))
