"""One table of promises that every way of making a unit keeps, and the figures of the trade."""

from dataclasses import replace
from fractions import Fraction
from math import sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.bench.as_drawn import compare
from piecewright.bench.bench import seam_of
from piecewright.design.kinds import kind_of
from piecewright.design.units import draw_unit
from piecewright.geometry.polygon import area
from piecewright.measure.length import Length, inches, mm
from piecewright.measure.rounding import exactly
from piecewright.methods import METHODS, methods_for
from piecewright.methods.laying import every_laying
from piecewright.methods.method import Making, Method, Unit
from piecewright.methods.recipe import make_recipe, size_starts
from piecewright.methods.trial import solve, try_out
from piecewright.problems import Refused
from piecewright.workroom.workroom import METRIC_WORKROOM, Workroom
from promises import FABRICS, keeps_its_promises, label, raw, unit_of

MM = 25.4


def method(kind: str, name: str) -> Method:
    return next(m for m in METHODS if (m.kind, m.name) == (kind, name))


def seam(take_up: Length, **more) -> Workroom:
    """A workroom whose seam takes this much: a sixteenth of it in the fold."""
    fold = take_up / 16
    return Workroom(needle=take_up - fold, fold=fold, **more)


def metric(take_up: str) -> Workroom:
    half = mm(Fraction(1, 2))
    return Workroom(
        **{
            name: getattr(METRIC_WORKROOM, name)
            for name in ("unit", "rounding", "usable_width", "ruler_length", "ease", "trim")
        },
        needle=mm(take_up) - half,
        fold=half,
    )


@pytest.mark.parametrize("m", METHODS, ids=label)
@settings(max_examples=8)
@given(
    side=st.integers(2, 96).map(lambda eighths: inches(Fraction(eighths, 8))),
    take_up=st.integers(8, 12).map(lambda parts: inches(Fraction(parts, 32))),
)
def test_each_way_keeps_its_promises_in_inches(m, side, take_up):
    keeps_its_promises(m, unit_of(m.kind, side), seam(take_up))


@pytest.mark.parametrize("take_up", ["5", "6", "7.5"])
@pytest.mark.parametrize("m", METHODS, ids=label)
def test_each_way_keeps_its_promises_in_centimetres(m, take_up):
    for side in (mm(25), mm(60), mm("67.5"), mm(150)):
        workroom = metric(take_up)
        keeps_its_promises(m, unit_of(m.kind, side), workroom)
        sizing = size_starts(m, unit_of(m.kind, side), workroom)
        if m.may_round:
            assert all(cut.in_mm.denominator == 1 for cut in sizing.cut), "cut to whole millimetres"


@pytest.mark.parametrize("m", METHODS, ids=label)
@pytest.mark.parametrize(
    ("width", "height"),
    [("0", "0"), ("-1", "-1"), ("-2", "-1"), ("2", "3"), ("1000000", "1000000"), ("2000000", "1000000")],
)
def test_each_way_refuses_sizes_that_are_no_size(m, width, height):
    with pytest.raises(Refused) as refused:
        make_recipe(m, Unit(m.kind, FABRICS, inches(width), inches(height)), Workroom())
    assert str(refused.value).count("\n") == 0


@pytest.mark.parametrize("m", METHODS, ids=label)
@pytest.mark.parametrize("fabrics", [(), ("sail",), ("sail", "tide", "sea", "sky", "rope")])
def test_each_way_wants_the_fabrics_of_its_kind(m, fabrics):
    unit, kind = unit_of(m.kind, inches(2)), kind_of(m.kind)
    if len(fabrics) < len(kind.fabrics) or not kind.more_fabrics:
        with pytest.raises(Refused, match=r"(one|two|three|four) fabrics? (was|were) expected"):
            make_recipe(m, replace(unit, fabrics=fabrics), Workroom())


@pytest.mark.parametrize("m", METHODS, ids=label)
@pytest.mark.parametrize("side", ["1/8", "1/4", "3/8"])
def test_each_way_makes_units_smaller_than_its_seams(m, side):
    unit = unit_of(m.kind, inches(side))
    assert try_out(m, unit, solve(m, unit, Workroom()), Workroom()).size == pytest.approx(
        raw(unit, Workroom()), abs=1e-9
    )


@pytest.mark.parametrize("m", METHODS, ids=label)
def test_each_way_says_what_it_is_in_words(m):
    assert m.reason
    assert "\n" not in m.reason
    assert methods_for(m.kind).count(m) == 1


def test_no_two_ways_of_a_kind_have_one_name():
    assert len({label(m) for m in METHODS}) == len(METHODS)


@pytest.mark.parametrize(
    ("name", "start"),
    [
        ("one at a time", 2.5),
        ("two at a time", 2.8536),
        ("four at a time", 4.0355),
        ("eight at a time", 5.7071),
    ],
)
def test_an_unfinished_two_and_a_half_inch_half_square_triangle(name, start):
    # Plane geometry: U; U + sqrt(2) s; sqrt(2) U + 2s (hst_four_start); 2 (U + sqrt(2) s).
    (exact,) = solve(method("hst", name), unit_of("hst", inches(2)), Workroom())
    assert exact == pytest.approx(start, abs=5e-5)


def test_four_inch_squares_sewn_round_the_edge_come_out_short():
    # hst_four_unit's rule, (S - 2s) / sqrt 2.
    trial = try_out(method("hst", "four at a time"), unit_of("hst", inches(2)), (4.0,), Workroom())
    assert trial.size == pytest.approx((2.4749, 2.4749), abs=5e-5)


def test_two_at_a_time_from_a_five_inch_square():
    # hst_two_unit: plane geometry.
    trial = try_out(method("hst", "two at a time"), unit_of("hst", inches(4)), (5.0,), Workroom())
    assert trial.size == pytest.approx((4.646447, 4.646447), abs=1e-6)


@pytest.mark.parametrize(("raw_unit", "too_small"), [("3.371", True), ("3.373", False)])
def test_the_rule_of_thumb_for_four_is_too_small_below_three_and_three_eighths(raw_unit, too_small):
    # hst_four_folk: plane geometry against common practice; U / 0.64 and sqrt(2) U + 2s cross at 3.372.
    unit = unit_of("hst", inches(raw_unit) - inches("1/2"))
    (exact,) = solve(method("hst", "four at a time"), unit, Workroom())
    assert (float(inches(raw_unit)) / 0.64 < exact) == too_small


def test_eight_at_a_time_for_finished_three():
    # hst_eight_start: plane geometry.
    (exact,) = solve(method("hst", "eight at a time"), unit_of("hst", inches(3)), Workroom())
    assert exact == pytest.approx(7.707107, abs=1e-6)


def test_an_hourglass_from_five_and_a_quarter_inch_squares():
    # hourglass_unit: plane geometry, S - 2 sqrt(2) s.
    trial = try_out(
        method("hourglass", "two at a time"), unit_of("hourglass", inches(4)), (5.25,), Workroom()
    )
    assert trial.size == pytest.approx((4.542893, 4.542893), abs=1e-6)


@pytest.mark.parametrize(
    ("kind", "added", "added_mm"),
    # seam_hst_add and metric_hst, s(cot 45 + cot 22.5); seam_qst_add and metric_qst, 2s cot 22.5: plane
    # geometry. The rules in print, 25 and 35 mm at a 7.5 mm seam, are short.
    [("hst", 0.853553, 25.607), ("hourglass", 1.207107, 36.213)],
)
def test_what_is_added_to_the_finished_size(kind, added, added_mm):
    two = method(kind, "two at a time")
    (exact,) = solve(two, unit_of(kind, inches(3)), Workroom())
    assert exact - 3 == pytest.approx(added, abs=1e-6)
    (exact,) = solve(two, unit_of(kind, mm(75)), METRIC_WORKROOM)
    assert exact * MM - 75 == pytest.approx(added_mm, abs=1e-3)


PUBLISHED = [
    # hst_two_table: K. Combs, Formulas for Quilters (2002); north-hampshire-quilters.org.uk/hblk402b.htm
    *[
        ("hst", "two at a time", finished, (start,))
        for finished, start in [
            ("1", "1 7/8"),
            ("1 1/2", "2 3/8"),
            ("2", "2 7/8"),
            ("2 1/2", "3 3/8"),
            ("3", "3 7/8"),
            ("4", "4 7/8"),
            ("6", "6 7/8"),
        ]
    ],
    # hst_eight_table: American Patchwork & Quilting, August 2019; craftsy.com 2014
    ("hst", "eight at a time", "1 1/2", ("4 3/4",)),
    ("hst", "eight at a time", "3", ("7 3/4",)),
    # qst_table: K. Combs, Formulas for Quilters (2002); christaquilts.com/quilty-math
    *[
        ("hourglass", "two at a time", finished, (start,))
        for finished, start in [("2", "3 1/4"), ("3", "4 1/4"), ("4", "5 1/4"), ("6", "7 1/4")]
    ],
    # geese_table: members.shaw.ca/beverlysquiltingpage/ffg.htm; alinequilts.blogspot.com 2011/03
    *[
        ("geese", "four at a time", finished, starts)
        for finished, starts in [
            ("1", ("3 1/4", "1 7/8")),
            ("1 1/2", ("4 1/4", "2 3/8")),
            ("2", ("5 1/4", "2 7/8")),
            ("3", ("7 1/4", "3 7/8")),
        ]
    ],
    # geese_flip: patchworktimes.com 2011/11/11
    ("geese", "stitch and flip", "2", ("4 1/2", "2 1/2")),
]


@pytest.mark.parametrize(("kind", "name", "finished", "starts"), PUBLISHED)
def test_start_sizes_are_those_in_print(kind, name, finished, starts):
    sizing = size_starts(method(kind, name), unit_of(kind, inches(finished)), Workroom())
    assert sizing.cut == tuple(map(inches, starts))
    assert sizing.truing in ("none", "ease")


def test_cloth_for_four_geese():
    # geese_cloth: plane geometry on the published cut sizes; finished 4 x 2, square inches.
    unit = unit_of("geese", inches(2))
    four = make_recipe(method("geese", "four at a time"), unit, Workroom())
    flip = make_recipe(method("geese", "stitch and flip"), unit, Workroom())
    assert four.cloth_area * four.batches(4) == pytest.approx(60.6, abs=0.05)
    assert flip.cloth_area * flip.batches(4) == pytest.approx(95.0, abs=0.05)


@pytest.mark.parametrize(
    "m", [m for m in METHODS if m.may_round and not m.derived and not m.oversize], ids=label
)
def test_ways_that_only_stack_and_cut_waste_nothing_but_what_is_trued_away(m):
    recipe = make_recipe(m, unit_of(m.kind, inches(3)), Workroom(ease=inches("1/8")))
    assert recipe.sizing.truing in ("none", "ease")
    assert recipe.offcuts == pytest.approx(0, abs=1e-9)


def test_batches_are_rounded_up():
    recipe = make_recipe(method("hst", "eight at a time"), unit_of("hst", inches(2)), Workroom())
    assert [recipe.batches(n) for n in (1, 8, 9, 16, 17)] == [1, 1, 2, 2, 3]


def test_no_sliver_is_trimmed():
    """What is over by more than the ease is cut so much larger that the trim allowance comes off."""
    workroom = Workroom(ease=inches("1/64"))
    for m in (m for m in METHODS if m.may_round):
        for eighths in (5, 9, 14, 31):
            unit = unit_of(m.kind, inches(Fraction(eighths, 8)))
            sizing = size_starts(m, unit, workroom)
            over = max(a - b for a, b in zip(sizing.before, raw(unit, workroom), strict=True))
            if sizing.truing == "trim":
                assert over >= 1 / 8 - 1e-6
            else:
                assert over <= 1 / 64 + 1e-3


def test_sizes_that_are_not_trued_are_not_rounded():
    for m in (m for m in METHODS if not m.may_round):
        unit = unit_of(m.kind, inches("2 5/64"))
        sizing = size_starts(m, unit, Workroom())
        if m.derived:
            assert tuple(map(float, sizing.cut)) == pytest.approx(sizing.exact, abs=1e-9)
        else:
            assert sizing.cut[-1] == inches("2 37/64")
        assert sizing.truing == "none"


def test_a_seam_of_two_figures_takes_their_sum():
    """All in the needle or half in the fold: the unit is the same, only the stitching lies elsewhere."""
    for m in METHODS:
        unit = unit_of(m.kind, inches(2))
        deep = solve(m, unit, Workroom(needle=inches("1/4"), fold=inches(0)))
        folded = solve(m, unit, Workroom(needle=inches("1/8"), fold=inches("1/8")))
        assert deep == pytest.approx(folded, abs=1e-9)


@pytest.mark.parametrize("m", [m for m in METHODS if m.upright], ids=label)
def test_some_laying_of_an_upright_way_stands_both_one_way_prints_up(m):
    unit, prints, workroom = unit_of(m.kind, inches(2)), frozenset(FABRICS), Workroom()
    form = unit.form
    drawing = draw_unit(unit.kind, FABRICS, form.facing, form.width, form.height, (90.0, 90.0))
    plain = m.steps(Making(tuple(solve(m, unit, workroom)), ("a", "b"), "unit", seam_of(workroom)))
    tilted = [
        compare(make_recipe(m, unit, workroom, prints, laying).cloth, drawing, {}).tilted
        for laying in every_laying(plain)
    ]
    assert min(tilted) == 0
    assert max(tilted) > 0


def test_the_area_of_a_recipe_is_that_of_its_pieces():
    recipe = make_recipe(method("hst", "two at a time"), unit_of("hst", inches(2)), Workroom())
    assert recipe.start_sizes() == [(inches("2 7/8"), inches("2 7/8"))] * 2
    assert recipe.cloth_area == 2 * 2.875**2
    assert area(recipe.cloth.raw) == pytest.approx(6.25)
    assert exactly(2.875 - sqrt(2) / 4) > inches("2 1/2")
