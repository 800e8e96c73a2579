"""Half- and quarter-square triangles and flying geese: grids, strips, cut triangles, bonus units, marks."""

from dataclasses import replace
from fractions import Fraction
from math import sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.bench.as_drawn import compare
from piecewright.bench.bench import seam_of
from piecewright.bench.steps import CutApart, Stack
from piecewright.design.kinds import quarters, three_patch
from piecewright.design.units import draw_unit
from piecewright.geometry.point import distance, middle
from piecewright.measure.length import Length, inches, mm
from piecewright.measure.rounding import round_up
from piecewright.methods import (
    geese_flip_bonus,
    geese_oversize,
    geese_triangles,
    hourglass_triangles,
    hourglass_two,
    hst_bonus,
    hst_eight,
    hst_four,
    hst_grid,
    hst_one,
    hst_sewn_strips,
    hst_strips,
    hst_two,
    quarters_triangles,
    quarters_two,
    three_patch_halves,
    three_patch_triangles,
)
from piecewright.methods.bonus import bonus_size
from piecewright.methods.cut_squares import square_cut_once, square_cut_twice
from piecewright.methods.grid_on_piece import grid_on_piece, grids_from_piece
from piecewright.methods.kinds import recognise
from piecewright.methods.marking import markings
from piecewright.methods.method import Making, Method, Unit
from piecewright.methods.recipe import make_recipe, size_starts
from piecewright.methods.trial import solve, try_out
from piecewright.problems import Refused
from piecewright.workroom.workroom import METRIC_WORKROOM, Workroom
from promises import keeps_its_promises

MM = 25.4
ROOM = Workroom()
SEAMS = st.integers(8, 12).map(lambda parts: inches(Fraction(parts, 32)))
SIDES = st.integers(6, 40).map(lambda eighths: inches(Fraction(eighths, 8)))
METRIC_SEAMS = ("5", "6", "7.5")


def seam(take_up: Length) -> Workroom:
    fold = take_up / 16
    return Workroom(needle=take_up - fold, fold=fold)


def metric(take_up: str) -> Workroom:
    half = mm(Fraction(1, 2))
    return METRIC_WORKROOM.__class__(
        **{
            name: getattr(METRIC_WORKROOM, name)
            for name in ("unit", "rounding", "usable_width", "ruler_length", "ease", "trim")
        },
        needle=mm(take_up) - half,
        fold=half,
    )


def hst(side: str | Length) -> Unit:
    size = inches(side) if isinstance(side, str) else side
    return Unit("hst", ("sail", "tide"), size, size)


def geese(height: str | Length) -> Unit:
    size = inches(height) if isinstance(height, str) else height
    return Unit("geese", ("sail", "tide"), size * 2, size)


def three(side: str | Length, hand: str) -> Unit:
    size = inches(side) if isinstance(side, str) else side
    return Unit("threepatch", ("sail", "tide", "sea"), size, size, (), hand)


def four(side: str | Length, *fabrics: str) -> Unit:
    size = inches(side) if isinstance(side, str) else side
    return Unit("quarters", fabrics or ("sail", "tide", "sea", "sky"), size, size)


def member(found: tuple[Method, ...], name: str) -> Method:
    return next(one for one in found if one.name == name)


# Kinds


@pytest.mark.parametrize("hand", ["left", "right"])
@pytest.mark.parametrize("facing", three_patch.KIND.facings)
def test_a_three_patch_is_recognised_at_every_turn_with_its_hand(facing, hand):
    drawing = draw_unit("threepatch", ("a", "b", "c"), facing, 3.0, 3.0, (None,) * 3, (), hand)
    assert recognise(drawing) == Unit("threepatch", ("a", "b", "c"), inches(3), inches(3), (), hand)


def test_left_is_where_the_first_small_triangle_lies_when_the_large_one_is_below():
    # Plane geometry: facing south-east, standing on that corner, west is on the left.
    drawing = draw_unit("threepatch", ("a", "b", "c"), "se", 2.0, 2.0, (None,) * 3, (), "left")
    first = next(patch for patch in drawing.patches if patch.role == "b")
    assert set(first.outline) == {(0.0, 2.0), (0.0, 0.0), (1.0, 1.0)}


@pytest.mark.parametrize("facing", quarters.KIND.facings)
def test_four_quarters_are_recognised_at_every_turn_and_not_as_their_mirror_image(facing):
    drawing = draw_unit("quarters", ("a", "b", "c", "d"), facing, 3.0, 3.0, (None,) * 4)
    found = recognise(drawing)
    assert found is not None
    turns = {tuple("abcd"[(k + n) % 4] for n in range(4)) for k in range(4)}
    assert found.kind == "quarters"
    assert found.fabrics in turns


def test_two_fabrics_opposite_each_other_are_still_an_hourglass():
    drawing = draw_unit("quarters", ("a", "b", "a", "b"), "s", 3.0, 3.0, (None,) * 4)
    assert recognise(drawing).kind == "hourglass"


# Grids


def test_a_grid_of_three_by_four_makes_24():
    # hst_grid: plane geometry, two units for each square of the grid.
    recipe = make_recipe(member(hst_grid.members(hst("2"), ROOM), "grid 3 x 4"), hst("2"), ROOM)
    assert recipe.method.makes == 24
    assert recipe.start_sizes() == [(inches("8 5/8"), inches("11 1/2"))] * 2
    assert recipe.bias_edges == 0


@pytest.mark.parametrize(("across", "up"), [(2, 3), (3, 3), (1, 2)])
def test_a_unit_of_a_grid_is_its_cell_less_a_seam_on_the_diagonal(across, up):
    # Design page, plane geometry: a grid of m rows makes S/m - sqrt(2) s.
    way = hst_grid.grid(across, up, lambda unit, take_up, extra: (3.0, 3.0 * across, 3.0 * up))
    trial = try_out(way, hst("2"), (3.0, 3.0 * across, 3.0 * up), ROOM)
    assert trial.size == pytest.approx((3 - sqrt(2) / 4,) * 2, abs=1e-9)
    assert trial.bench.count("unit") == 2 * across * up


@pytest.mark.parametrize(("across", "up"), [(2, 3), (3, 3), (3, 4), (4, 5), (1, 1), (5, 2)])
def test_every_cell_has_one_diagonal_and_neighbours_have_the_other(across, up):
    long = hst_grid.diagonals(across, up, 2.0)
    cells: dict[tuple[int, int], bool] = {}
    for line in long:
        rises = line.to_y > line.y
        for k in range(round((line.to_x - line.x) / 2)):
            row = line.y / 2 + k if rises else line.y / 2 - k - 1
            cell = (round(line.x / 2) + k, round(row))
            assert cell not in cells
            cells[cell] = rises
    assert set(cells) == {(i, j) for i in range(across) for j in range(up)}
    assert all(rises == ((i + j) % 2 == 0) for (i, j), rises in cells.items())


def test_the_seams_of_a_grid_run_from_edge_to_edge():
    """One turns at the edge: each diagonal starts and stops on it."""
    for line in hst_grid.diagonals(3, 4, 1.0):
        assert {line.x, line.to_x} & {0.0, 3.0} or {line.y, line.to_y} & {0.0, 4.0}
        for x, y in ((line.x, line.y), (line.to_x, line.to_y)):
            assert x in (0.0, 3.0) or y in (0.0, 4.0)


def test_sheets_too_large_to_handle_are_not_offered():
    assert [way.name for way in hst_grid.members(hst("5"), ROOM)] == ["grid 2 x 3", "grid 3 x 3"]
    assert hst_grid.members(hst("12"), ROOM) == ()


def test_the_same_unit_has_the_same_grids():
    assert hst_grid.members(hst("2"), ROOM) is hst_grid.members(hst("2"), Workroom())


@settings(max_examples=4)
@given(side=SIDES, take_up=SEAMS)
def test_grids_keep_their_promises(side, take_up):
    workroom = seam(take_up)
    for way in hst_grid.members(hst(side), workroom)[:2]:
        keeps_its_promises(way, hst(side), workroom)


@pytest.mark.parametrize("take_up", METRIC_SEAMS)
def test_a_grid_keeps_its_promises_in_centimetres(take_up):
    workroom = metric(take_up)
    (way, *_) = hst_grid.members(hst(mm("67.5")), workroom)
    keeps_its_promises(way, hst(mm("67.5")), workroom)
    assert all(cut.in_mm.denominator == 1 for cut in size_starts(way, hst(mm("67.5")), workroom).cut)


# A grid on a piece of cloth on hand


def test_what_comes_off_a_ten_inch_square():
    found = {(one.across, one.up): one for one in grids_from_piece(inches(10), inches(10), ROOM)}
    eighteen = found[3, 3]
    # Plane geometry: 10 in three are 3 1/3, marked as 3 1/4; 3 1/4 - sqrt(2)/4 = 2.8964, for 2 7/8.
    assert (eighteen.units, eighteen.cell, eighteen.suits) == (18, inches("3 1/4"), inches("2 3/8"))
    assert eighteen.raw == pytest.approx(2.896447, abs=1e-6)
    # The same for eight: cells of 5 in make 4.6464, for 4 5/8.
    assert (found[2, 2].units, found[2, 2].suits) == (8, inches("4 1/8"))


def test_what_a_grid_on_a_piece_makes_is_what_the_bench_makes():
    for one in grids_from_piece(inches(7), inches(10), ROOM)[:4]:
        assert one.suits is not None
        made = grid_on_piece(hst(one.suits), inches(7), inches(10), ROOM)
        assert (made.across, made.up, made.cell) == (one.across, one.up, one.cell)
        recipe = make_recipe(made.method, hst(one.suits), ROOM)
        assert recipe.sizing.before == pytest.approx((one.raw, one.raw), abs=1e-9)
        assert recipe.start_sizes() == [(inches(7), inches(10))] * 2


def test_the_best_grid_for_a_piece_of_any_size():
    # Plane geometry: cells of 2 7/8; 9 15/16 holds three, 21 1/4 seven; 9.9375 x 21.25 - 21 x 2.875^2 left.
    found = grid_on_piece(hst("2"), inches("9 15/16"), inches("21 1/4"), ROOM)
    assert (found.across, found.up, found.units) == (3, 7, 42)
    assert found.left == pytest.approx(37.5938, abs=1e-3)
    recipe = make_recipe(found.method, hst("2"), ROOM)
    assert recipe.sizing.truing == "ease"
    # The sheets are cut on marks of the ruler that the piece has.
    assert recipe.start_sizes()[0] == (inches("9 7/8"), inches("21 1/4"))


def test_a_piece_too_small_for_one_cell_is_refused():
    with pytest.raises(Refused, match="too small: finished 3 in needs cells of 3 7/8 in"):
        grid_on_piece(hst("3"), inches("3 3/4"), inches(10), ROOM)
    with pytest.raises(Refused, match="sides above 0"):
        grids_from_piece(inches(0), inches(10), ROOM)


# Strips


@pytest.mark.parametrize("finished", ["1", "2", "2 3/8", "6"])
def test_strips_are_seven_eighths_larger_for_full_points_and_half_an_inch_for_blunted_ones(finished):
    # Plane geometry: F + s(cot 45 + cot 22.5) = F + 0.8536, and F + 2s; in print as + 7/8 and + 1/2
    # (common practice, no source).
    (full,), (blunted,) = (
        family.members(hst(finished), ROOM) for family in (hst_strips.FULL_POINTS, hst_strips.BLUNTED_POINTS)
    )
    assert size_starts(full, hst(finished), ROOM).cut[0] == inches(finished) + inches("7/8")
    assert size_starts(blunted, hst(finished), ROOM).cut[0] == inches(finished) + inches("1/2")
    assert solve(full, hst(finished), ROOM)[0] == pytest.approx(float(inches(finished)) + 0.853553, abs=1e-6)


def test_how_many_come_off_a_strip():
    # Plane geometry: two for each 2 7/8; two for each 2 1/2 + 2 sqrt(2)/4 = 3.2071; each on its neighbour's
    # point, less one, an odd number: 20 / 2 1/8 - 1.
    half = inches(20)
    assert hst_strips.full_points(hst("2"), half, ROOM)[0].makes == 2 * 6
    assert hst_strips.blunted_points(hst("2"), half, ROOM)[0].makes == 2 * 6
    assert hst_sewn_strips.sewn_strips(hst("2"), half, ROOM)[0].makes == 7
    whole = inches(40)
    assert hst_strips.full_points(hst("2"), whole, ROOM)[0].makes == 2 * 13
    assert hst_strips.blunted_points(hst("2"), whole, ROOM)[0].makes == 2 * 12
    assert hst_sewn_strips.sewn_strips(hst("2"), whole, ROOM)[0].makes == 17
    assert hst_strips.full_points(hst("2"), inches("2 3/4"), ROOM) == ()


def test_a_blunted_triangle_has_no_dog_ear_at_its_point():
    (way,) = hst_strips.blunted_points(hst("2"), inches(20), ROOM)
    sizes = solve(way, hst("2"), ROOM)
    trial = try_out(way, hst("2"), sizes, ROOM)
    triangle = trial.bench.pile("unit triangles start 0").kinds[0][0]
    # Plane geometry: the point is blunted sqrt(2) s wide, where the strip ends; inside the seam it is whole.
    shortest = min(
        distance(*side) for side in zip(triangle.raw, triangle.raw[1:] + triangle.raw[:1], strict=True)
    )
    assert (len(triangle.raw), len(triangle.net)) == (4, 3)
    assert shortest == pytest.approx(sqrt(2) / 4, abs=1e-9)


def test_strips_sewn_along_both_edges_give_units_with_bias_all_round():
    # Plane geometry: the triangle stands on its long side: U = sqrt(2) (h - s).
    (way,) = hst_sewn_strips.members(hst("2"), ROOM)
    trial = try_out(way, hst("2"), (2.25, 20.0), ROOM)
    assert trial.size == pytest.approx((2 * sqrt(2),) * 2, abs=1e-9)
    assert make_recipe(way, hst("2"), ROOM).bias_edges == 4
    for family in (hst_strips.FULL_POINTS, hst_strips.BLUNTED_POINTS):
        assert make_recipe(family.members(hst("2"), ROOM)[0], hst("2"), ROOM).bias_edges == 0


@pytest.mark.parametrize(
    "family",
    [hst_strips.FULL_POINTS, hst_strips.BLUNTED_POINTS, hst_sewn_strips.FAMILY],
    ids=lambda f: f.name,
)
@settings(max_examples=4)
@given(side=SIDES, take_up=SEAMS)
def test_strips_keep_their_promises(family, side, take_up):
    workroom = seam(take_up)
    for way in family.members(hst(side), workroom):
        keeps_its_promises(way, hst(side), workroom)


@pytest.mark.parametrize("take_up", METRIC_SEAMS)
def test_strips_keep_their_promises_in_centimetres(take_up):
    workroom = metric(take_up)
    for family in (hst_strips.FULL_POINTS, hst_strips.BLUNTED_POINTS, hst_sewn_strips.FAMILY):
        keeps_its_promises(family.members(hst(mm(60)), workroom)[0], hst(mm(60)), workroom)


# Bonus units


@pytest.mark.parametrize("take_up", ["1/4", "9/32", "3/8"])
def test_how_large_a_bonus_unit_is(take_up):
    # Plane geometry: a corner square q loses sqrt(2) s to the cut and sqrt(2) s to the fold.
    workroom, s = seam(inches(take_up)), float(inches(take_up))
    corner = 3 + 2 * s
    for found, unit in (
        (hst_bonus.members(hst("3"), workroom), hst("3")),
        (geese_flip_bonus.members(geese("3"), workroom), geese("3")),
    ):
        size = bonus_size(make_recipe(found[0], unit, workroom), workroom)
        assert size == pytest.approx((corner - 2 * sqrt(2) * s,) * 2, abs=1e-6)


def test_a_quarter_inch_seam_leaves_half_an_inch_between_the_two_seams():
    # Common practice, no source: the second seam half an inch away; here twice the needle's distance.
    (way,) = hst_bonus.members(hst("2"), ROOM)
    recipe = make_recipe(way, hst("2"), ROOM)
    first, second = (one.line for one in markings(recipe, "sewing", ROOM)[0].lines)
    assert distance(middle(*first), middle(*second)) == pytest.approx(2 * float(ROOM.needle), abs=1e-9)


def test_both_corners_of_a_goose_are_saved():
    (way,) = geese_flip_bonus.members(geese("2"), ROOM)
    assert [(one.pile, one.count) for one in way.besides] == [("bonus", 1), ("second bonus", 1)]
    trial = try_out(way, geese("2"), solve(way, geese("2"), ROOM), ROOM)
    assert [trial.bench.count(one.name("unit")) for one in way.besides] == [1, 1]


def test_bonus_units_smaller_than_their_seams_are_not_offered():
    # Plane geometry: 1 1/2 - 0.7071 = 0.79, of which half an inch is seam: 0.29 finished.
    assert hst_bonus.members(hst("1"), ROOM) == geese_flip_bonus.members(geese("1"), ROOM) == ()
    assert len(hst_bonus.members(hst("1 1/4"), ROOM)) == 1


def test_ways_without_bonus_units_have_no_bonus_size():
    with pytest.raises(ValueError, match="saves no bonus"):
        bonus_size(make_recipe(hst_one.METHOD, hst("2"), ROOM), ROOM)


# Quarter-square triangles

QST_TABLE = [("2", "3 1/4"), ("3", "4 1/4"), ("4", "5 1/4"), ("6", "7 1/4")]


@pytest.mark.parametrize(("finished", "start"), QST_TABLE)
def test_squares_for_quarters_are_those_in_print(finished, start):
    # qst_table: K. Combs, Formulas for Quilters (2002); christaquilts.com/quilty-math
    pair = Unit("hourglass", ("sail", "tide"), inches(finished), inches(finished))
    for way, unit in (
        (hourglass_triangles.METHOD, pair),
        (quarters_triangles.METHOD, four(finished)),
        (quarters_two.METHOD, four(finished)),
    ):
        assert size_starts(way, unit, ROOM).cut == (inches(start),)


@pytest.mark.parametrize(
    ("needed", "added", "added_mm"),
    # seam_hst_add and metric_hst; seam_qst_add and metric_qst: plane geometry.
    [(square_cut_once, 0.853553, 25.607), (square_cut_twice, 1.207107, 36.213)],
)
def test_what_squares_to_be_cut_are_larger(needed, added, added_mm):
    assert needed(3.0, 0.25) - 3 == pytest.approx(added, abs=1e-6)
    assert needed(75 / MM, 7.5 / MM) * MM - 75 == pytest.approx(added_mm, abs=1e-3)


@pytest.mark.parametrize("fabrics", [("a", "b", "c", "d"), ("a", "b", "a", "c"), ("a", "a", "b", "c")])
def test_stacked_halves_give_the_square_and_its_mirror_image(fabrics):
    unit = four("3", *fabrics)
    trial = try_out(quarters_two.METHOD, unit, solve(quarters_two.METHOD, unit, ROOM), ROOM)
    (others,) = quarters_two.METHOD.besides
    assert compare(trial.kinds[0], unit.drawing, {}).differences == ()
    for cloth, _ in trial.bench.pile(others.name("unit")).kinds:
        assert compare(cloth, others.unit(unit).drawing, {}).differences == ()
    assert trial.bench.count(others.name("unit")) == others.count == 2


def test_the_mirror_image_of_four_fabrics_is_another_square():
    unit = four("3")
    trial = try_out(quarters_two.METHOD, unit, solve(quarters_two.METHOD, unit, ROOM), ROOM)
    assert compare(trial.kinds[0], quarters_two.mirrored(unit).drawing, {}).differences


# Three-patches: the two hands are counted apart


@pytest.mark.parametrize("hand", ["left", "right"])
def test_stacked_squares_give_as_many_of_each_hand(hand):
    unit = three("3", hand)
    (way,) = three_patch_halves.members(unit, ROOM)
    trial = try_out(way, unit, solve(way, unit, ROOM), ROOM)
    (others,) = way.besides
    other = replace(unit, hand="right" if hand == "left" else "left")
    assert others.unit(unit) == other
    assert (trial.bench.count("unit"), trial.bench.count(others.name("unit"))) == (2, 2)
    assert compare(trial.kinds[0], unit.drawing, {}).differences == ()
    assert compare(trial.kinds[0], other.drawing, {}).differences
    for cloth, _ in trial.bench.pile(others.name("unit")).kinds:
        assert compare(cloth, other.drawing, {}).differences == ()


@pytest.mark.parametrize(
    ("family", "across"),
    # Plane geometry: a square is cut on two sides, a pieced half on its long side, at 45 degrees to them.
    [(three_patch_halves.FAMILY, 1.0), (three_patch_triangles.FAMILY, sqrt(2))],
)
@given(side=SIDES, more=st.integers(0, 7), take_up=SEAMS)
def test_what_is_cut_off_to_fit_is_no_sliver(family, across, side, more, take_up):
    """Whatever the ruler makes of the two sizes, at least the trim allowance comes off."""
    workroom, unit = seam(take_up), three(side + inches(Fraction(more, 64)), "left")
    (way,) = family.members(unit, workroom)
    small, large = (float(round_up(size, workroom.ruler)) for size in way.derived(unit, float(take_up), 0.0))
    assert (small - sqrt(2) * float(take_up) - large) / across >= 1 / 8 - 1e-6


@pytest.mark.parametrize("hand", ["left", "right"])
@settings(max_examples=4)
@given(side=SIDES, take_up=SEAMS)
def test_three_patches_from_cut_triangles_keep_their_promises(hand, side, take_up):
    workroom, unit = seam(take_up), three(side, hand)
    (way,) = three_patch_triangles.members(unit, workroom)
    keeps_its_promises(way, unit, workroom)


@pytest.mark.parametrize("take_up", METRIC_SEAMS)
def test_three_patches_from_cut_triangles_keep_their_promises_in_centimetres(take_up):
    workroom, unit = metric(take_up), three(mm("67.5"), "right")
    keeps_its_promises(three_patch_triangles.members(unit, workroom)[0], unit, workroom)


# Flying geese


@pytest.mark.parametrize(
    ("height", "starts"),
    # Plane geometry: 2H + 2s cot 22.5 and H + s(cot 45 + cot 22.5), rounded up; the same squares as in
    # geese_table, since both ways grow alike.
    [
        ("1", ("3 1/4", "1 7/8")),
        ("1 1/2", ("4 1/4", "2 3/8")),
        ("2", ("5 1/4", "2 7/8")),
        ("3", ("7 1/4", "3 7/8")),
    ],
)
def test_squares_for_geese_from_cut_triangles(height, starts):
    way = member(geese_triangles.members(geese(height), ROOM), "from cut triangles")
    recipe = make_recipe(way, geese(height), ROOM)
    assert recipe.sizing.cut == tuple(map(inches, starts))
    assert (recipe.method.makes, recipe.sizing.truing, recipe.bias_edges) == (4, "ease", 0)


def test_squares_that_the_ruler_rounds_apart_are_refused_and_cut_larger_instead():
    # Plane geometry: F + 17.07 and 2F + 24.14 mm go up by 0.93 and 0.86; twice 0.93 was wanted.
    workroom, unit = metric("5"), geese(mm(60))
    close, larger = geese_triangles.members(unit, workroom)
    with pytest.raises(Refused, match="no squares on the marks of the ruler fit each other"):
        make_recipe(close, unit, workroom)
    keeps_its_promises(larger, unit, workroom)
    assert make_recipe(larger, unit, workroom).sizing.truing == "trim"


@pytest.mark.parametrize("which", [0, 1])
@settings(max_examples=4)
@given(side=SIDES, take_up=st.sampled_from([inches("1/4"), inches("5/16"), inches("3/8")]))
def test_geese_from_cut_triangles_keep_their_promises(which, side, take_up):
    workroom = seam(take_up)
    way = geese_triangles.members(geese(side), workroom)[which]
    try:
        make_recipe(way, geese(side), workroom)
    except Refused:
        assert which == 0, "what is trimmed fits the ruler"
        return
    keeps_its_promises(way, geese(side), workroom)


@pytest.mark.parametrize("way", [geese_oversize.FLIP, geese_oversize.FOUR], ids=lambda m: m.name)
def test_geese_that_are_trimmed_lose_at_least_the_trim_allowance(way):
    for height in ("1", "2", "2 3/8", "3 5/64"):
        sizing = size_starts(way, geese(height), ROOM)
        over = [
            before - float(raw)
            for before, raw in zip(sizing.before, geese(height).raw(ROOM.take_up), strict=True)
        ]
        assert sizing.truing == "trim"
        assert min(over) >= 1 / 8 - 1e-6


# Lines to mark


@pytest.mark.parametrize(
    ("way", "unit", "drawn"),
    [
        (hst_two.METHOD, hst("2"), [1]),
        (hst_eight.METHOD, hst("2"), [2]),
        (hst_one.METHOD, hst("2"), [1]),
        (hst_four.METHOD, hst("2"), [0]),
        (hourglass_two.METHOD, Unit("hourglass", ("sail", "tide"), inches(2), inches(2)), [1, 1]),
    ],
    ids=lambda one: getattr(one, "name", ""),
)
def test_how_many_lines_are_drawn(way, unit, drawn):
    """Cutting lines once; sewing lines on both sides of them; a corner's line has one sewing line."""
    recipe = make_recipe(way, unit, ROOM)
    cutting, sewing = markings(recipe, "cutting", ROOM), markings(recipe, "sewing", ROOM)
    assert [len(one.lines) for one in cutting] == drawn
    each = 1 if way is hst_one.METHOD else 2
    assert [len(one.lines) for one in sewing] == [each * count for count in drawn]


def test_sewing_lines_lie_the_needles_distance_from_the_cut_and_not_a_seams():
    workroom = Workroom(needle=inches("3/16"), fold=inches("1/16"))
    recipe = make_recipe(hst_two.METHOD, hst("2"), workroom)
    (cutting,), (sewing,) = markings(recipe, "cutting", workroom), markings(recipe, "sewing", workroom)
    (x, y), (to_x, to_y) = sewing.lines[0].line
    # Plane geometry: the distance of a line y = x + c from the diagonal is c / sqrt(2).
    assert (y - x) / sqrt(2) == pytest.approx(3 / 16, abs=1e-9)
    assert (to_y - to_x) / sqrt(2) == pytest.approx(3 / 16, abs=1e-9)
    assert (cutting.off, sewing.off) == (inches("3/16"), inches(0))
    assert "3/8 in apart" in sewing.says[0]
    assert "3/16 in" in cutting.says[1]


def test_stitching_on_the_sewing_lines_makes_the_same_unit():
    """What is drawn is where the bench sews."""
    recipe = make_recipe(hst_eight.METHOD, hst("2"), ROOM)
    (step,) = (one for one in recipe.steps if isinstance(one, Stack))
    (marking,) = markings(recipe, "sewing", ROOM)
    upon = tuple(type(step.sew[0])(*a, *b) for a, b in (one.line for one in marking.lines))
    size = float(recipe.sizing.cut[0])

    def steps(making: Making):
        plain = hst_eight.METHOD.steps(making)
        return (
            type(step)(**{**{f: getattr(plain[0], f) for f in step.__struct_fields__}, "sew": upon}),
            plain[1],
        )

    same = try_out(replace(hst_eight.METHOD, steps=steps), hst("2"), (size,), ROOM)
    assert same.size == pytest.approx(recipe.sizing.before, abs=1e-9)


def test_a_corners_line_is_sewn_a_thread_beside():
    recipe = make_recipe(hst_one.METHOD, hst("2"), ROOM)
    (cutting,) = markings(recipe, "cutting", ROOM)
    assert cutting.off == ROOM.fold
    assert "a thread beside" in cutting.says[0]


def test_where_the_edge_is_the_guide_nothing_is_drawn():
    recipe = make_recipe(hst_four.METHOD, hst("2"), ROOM)
    (marking,) = markings(recipe, "cutting", ROOM)
    assert (marking.lines, marking.says) == ((), ("Nothing is drawn: the edge is the guide.",))


def test_a_grid_is_sewn_and_cut_in_one_stack_with_what_is_over_cut_off_first():
    way = grid_on_piece(hst("2"), inches(6), inches(9), ROOM).method
    steps = way.steps(Making((2.875, 6.0, 9.0), ("one", "two"), "unit", seam_of(ROOM)))
    assert [type(step) for step in steps[:3]] == [CutApart, CutApart, Stack]
    assert steps[0].gives == ("unit sheet one", "", "", "")
