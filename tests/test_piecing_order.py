"""The sewing order of a block: full seams, what they cost, the cheapest order, what is alike in it."""

import random
from itertools import pairwise
from math import sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.design.drawing import Group, Patch, Placed
from piecewright.geometry.isometry import folded, moved, turned
from piecewright.geometry.polygon import Polygon
from piecewright.piecing.contraction import contracted
from piecewright.piecing.costs import (
    AWKWARD,
    BIAS_INCH,
    CROWDED,
    LONG_THIN,
    SLANTED,
    TRIANGLE,
    Meeting,
    meetings,
    shape_cost,
)
from piecewright.piecing.difficulty import Difficulty, difficulty_of
from piecewright.piecing.full_seams import full_splits
from piecewright.piecing.looks import look, mirror_look
from piecewright.piecing.order import best_order
from piecewright.piecing.patchwork import Patchwork, Split, patchwork
from piecewright.piecing.piece_block import piece_block
from piecewright.piecing.rows import cuts_of
from piecewright.piecing.sets_alike import Alike
from piecewright.piecing.tree import Piecing, Sewn, leaves
from piecewright.problems import Refused
from piecing_blocks import bears_paw, block_of, churn_dash, ohio_star, sawtooth_star, squares, unit
from piecing_orders import cost_of, cut_at_random, cut_blocks, least_cost, nodes, region, seams

RING = (
    ("a", ((0, 0), (2, 0), (2, 1), (0, 1))),
    ("b", ((2, 0), (3, 0), (3, 2), (2, 2))),
    ("a", ((1, 2), (3, 2), (3, 3), (1, 3))),
    ("b", ((0, 1), (1, 1), (1, 3), (0, 3))),
    ("c", ((1, 1), (2, 1), (2, 2), (1, 2))),
)


def drawn(shapes: list[tuple[str, Polygon]] | tuple[tuple[str, Polygon], ...]) -> Patchwork:
    """Every patch a part of its own."""
    return patchwork("Slipway", block_of(shapes).children)


def shown(tree: Piecing) -> str:
    """A tree in letters: the role of each patch, units in brackets."""
    if isinstance(tree, Placed):
        return tree.drawing.role if isinstance(tree.drawing, Patch) else f"[{tree.drawing.name}]"
    return f"{tree.name}({' '.join(map(shown, tree.parts))})"


# --- Random blocks ------------------------------------------------------------------------------------------


@pytest.mark.parametrize("level", [False, True], ids=["any angle", "level and upright"])
def test_a_block_that_full_seams_take_apart_always_has_an_order(level: bool) -> None:
    @settings(max_examples=40, deadline=None)
    @given(cut_blocks(most=14, level=level))
    def check(work: Patchwork) -> None:
        order = best_order(work)
        assert sorted(map(id, leaves(order.tree))) == sorted(map(id, work.parts))
        assert len(seams(order.tree)) == len(work.parts) - 1
        assert all(node.how == "row" for node in nodes(order.tree))
        assert order.bound == order.cost == pytest.approx(cost_of(order.tree, work), abs=1e-3)
        assert order.exact

    check()


@pytest.mark.parametrize("level", [False, True], ids=["any angle", "level and upright"])
def test_no_order_of_a_small_block_is_cheaper(level: bool) -> None:
    """Every order there is, tried one after another, with another kernel for what lies beside what."""

    @settings(max_examples=20, deadline=None)
    @given(cut_blocks(most=8, least=5, level=level))
    def check(work: Patchwork) -> None:
        assert best_order(work).cost == pytest.approx(least_cost(work), abs=1e-3)

    check()


def test_no_order_of_a_small_grid_is_cheaper() -> None:
    for picture in ("aba bab", "ab ba ab", "abca baac"):
        work = drawn(squares(picture, 2))
        assert best_order(work).cost == pytest.approx(least_cost(work), abs=1e-3)


def any_order(work: Patchwork, parts: int, chance: random.Random) -> Piecing:
    """An order of full seams, each taken at random."""
    if parts & (parts - 1) == 0:
        return work.parts[parts.bit_length() - 1]
    split = chance.choice(full_splits(work, parts))
    return Sewn("row", "part", tuple(any_order(work, part, chance) for part in split.sets))


@settings(max_examples=25, deadline=None)
@given(cut_blocks(most=10), st.randoms(use_true_random=False))
def test_every_order_of_full_seams_has_as_many_joins_and_as_much_to_sew(
    work: Patchwork, chance: random.Random
) -> None:
    best, other = seams(best_order(work).tree), seams(any_order(work, work.whole, chance))
    assert len(other) == len(best) == len(work.parts) - 1
    assert sum(s.length for s in other) == pytest.approx(sum(s.length for s in best), abs=0.01)


@settings(max_examples=25, deadline=None)
@given(cut_blocks(most=12, least=6), st.integers(3, 8))
def test_with_few_states_there_is_an_order_still_and_its_bound_is_true(work: Patchwork, most: int) -> None:
    best, quick = best_order(work), best_order(work, most_states=most)
    assert sorted(map(id, leaves(quick.tree))) == sorted(map(id, work.parts))
    assert quick.bound <= best.cost + 1e-9
    assert quick.cost >= best.cost - 1e-9


@settings(max_examples=30, deadline=None)
@given(cut_blocks(most=9), st.sampled_from((0, 90, 180, 270)), st.booleans())
def test_a_block_turned_or_mirrored_costs_the_same(work: Patchwork, angle: float, mirror: bool) -> None:
    place = moved(20, 0).after(turned(angle))
    if mirror:
        place = place.after(folded((0.0, 0.0), (0.0, 1.0)))
    turned_round = patchwork("Slipway", [Placed(part.drawing, place) for part in work.parts])
    assert best_order(turned_round).cost == pytest.approx(best_order(work).cost)


def test_slabs_that_cost_less_together_are_sewn_before_the_row() -> None:
    """Nine slanted columns of two and one whole one: four and five of them are cut across first.

    On the way are then the four, the five, and two rows of each: six things. With every column sewn by itself
    there are nine; with one seam after the other at least one more.
    """
    columns = [(k, low) for k in range(10) if k != 4 for low in (0.0, 3.0)]
    shapes = [("a", leaning(k, low, 3.0)) for k, low in columns] + [("b", leaning(4, 0.0, 6.0))]
    work = drawn(shapes)
    order = best_order(work)
    assert [len(node.parts) for node in nodes(order.tree)] == [3, 2, 4, 4, 2, 5, 5]
    assert order.cost == pytest.approx(cost_of(order.tree, work), abs=1e-3)


def leaning(k: int, low: float, height: float) -> Polygon:
    """A piece of column number k, one inch wide, that leans to the right."""
    a, b = k + low / 2, k + (low + height) / 2
    return ((a, low), (a + 1, low), (b + 1, low + height), (b, low + height))


def test_crossings_inside_a_unit_count_for_no_bound() -> None:
    work = contracted(block_of([*unit("star8", "abc", (0, 0, 12, 12)), *unit("plain", "x", (12, 0, 4, 12))]))
    for most in (0, 100):
        assert best_order(work, most_states=most).bound == best_order(work, most_states=most).cost == 0


# --- Full seams ---------------------------------------------------------------------------------------------


def test_a_grid_is_cut_in_rows_as_one_reads_and_in_two() -> None:
    """Two rows of three squares, numbered from the top: a level cut, two upright ones, and these as a row."""
    work = drawn(squares("abc def"))
    assert [split.sets for split in full_splits(work, work.whole)] == [
        (0b001001, 0b010010, 0b100100),
        (0b000111, 0b111000),
        (0b001001, 0b110110),
        (0b011011, 0b100100),
    ]


def test_a_seam_must_be_the_whole_side_of_both() -> None:
    """Two arms on a base: no line leaves one piece on each side. One arm: its side is shorter than that."""
    base, arm = ((0, 0), (3, 0), (3, 1), (0, 1)), ((0, 1), (1, 1), (1, 2), (0, 2))
    other = ((2, 1), (3, 1), (3, 2), (2, 2))
    gap = ((1, 1), (2, 1), (2, 2), (1, 2))
    work = drawn([("a", base), ("b", arm), ("b", other), ("c", gap)])
    assert full_splits(work, 0b0111) == []
    assert full_splits(work, 0b0011) == []
    assert [split.sets for split in full_splits(work, 0b1010)] == [(0b0010, 0b1000)]


def test_a_set_that_turns_a_corner_is_cut_where_a_whole_side_goes_through() -> None:
    """An L of a strip and, beside its foot, a square as high as the foot; the strip is of two."""
    work = drawn(
        [
            ("a", ((0, 0), (1, 0), (1, 1), (0, 1))),
            ("a", ((0, 1), (1, 1), (1, 3), (0, 3))),
            ("b", ((1, 0), (2, 0), (2, 1), (1, 1))),
            ("c", ((1, 1), (2, 1), (2, 3), (1, 3))),
        ]
    )
    assert full_splits(work, 0b0111) == []
    assert [split.sets for split in full_splits(work, 0b0011)] == [(0b0010, 0b0001)]


# --- Costs --------------------------------------------------------------------------------------------------

SQUARE = ((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0))


@pytest.mark.parametrize(
    ("outline", "cost"),
    [
        (SQUARE, 0.0),
        (((0.0, 0.0), (16.0, 0.0), (16.0, 4.0), (0.0, 4.0)), 0.0),
        (((0.0, 0.0), (17.0, 0.0), (17.0, 4.0), (0.0, 4.0)), LONG_THIN),
        (((0.0, 0.0), (24.0, 0.0), (24.0, 4.0), (0.0, 4.0)), 0.0),
        (((0.0, 0.0), (4.0, 0.0), (0.0, 4.0)), TRIANGLE + BIAS_INCH * 4 * sqrt(2)),
        (((0.0, 0.0), (6.0, 0.0), (4.0, 2.0), (2.0, 2.0)), AWKWARD + BIAS_INCH * 4 * sqrt(2)),
        (((0.0, 0.0), (2.0, 2.0), (0.0, 4.0), (-2.0, 2.0)), BIAS_INCH * 8 * sqrt(2)),
    ],
    ids=["square", "four times as long", "thin", "across the block", "triangle", "trapezoid", "on point"],
)
def test_what_a_sub_assembly_costs_in_a_block_of_24(outline: Polygon, cost: float) -> None:
    assert shape_cost(outline, 24.0) == pytest.approx(cost)


def test_where_four_squares_meet_the_seams_nest() -> None:
    assert (
        sum(m.cost_along((1.0, 0.0)) for m in meetings(p.drawing for p in drawn(squares("ab ba")).parts)) == 0
    )


def test_a_crossing_costs_where_more_than_two_seams_run_in_or_one_at_a_slant() -> None:
    """Rays are told by their angles; the seam that is sewn runs level."""

    def cost(*angles: float) -> float:
        rays = [turned(angle).at((1.0, 0.0)) for angle in angles]
        return Meeting((0.0, 0.0), tuple(rays), len(rays)).cost_along((1.0, 0.0))

    assert cost(0, 180, 90, 270) == 0
    assert cost(0, 180, 90) == cost(0, 180, 45, 135) == 0
    assert cost(0, 180, 60, 240) == cost(0, 180, 60, 270) == SLANTED
    assert cost(0, 180, 45, 90, 270) == cost(0, 180, 45, 90, 135, 225, 270, 315) == CROWDED


def test_where_eight_corners_meet_all_seams_are_seen_once() -> None:
    around = [(2, 2), (0, 2), (-2, 2), (-2, 0), (-2, -2), (0, -2), (2, -2), (2, 0)]
    eight = [Patch("a", ((0, 0), around[k - 1], around[k])) for k in range(8)]
    (middle,) = [m for m in meetings(eight) if m.at == (0, 0)]
    assert (middle.corners, len(middle.rays)) == (8, 8)


# --- Traditional blocks, counted by hand --------------------------------------------------------------------


@pytest.mark.parametrize(
    ("block", "parts", "rows", "distinct"),
    [(sawtooth_star, 9, 3, 2), (ohio_star, 9, 3, 2), (churn_dash, 9, 3, 2), (bears_paw, 29, 3, 6)],
)
def test_a_traditional_block_is_sewn_in_rows(block, parts: int, rows: int, distinct: int) -> None:
    """Parts, rows, and unlike things on the way are counted on paper.

    Of the bear's paw: two claws side by side, those with the square, two claws with the pad, the paw, and the
    outer and the middle row of the block.
    """
    pieced = piece_block(block())
    assert (pieced.difficulty.parts, len(pieced.tree.parts), pieced.order.distinct) == (parts, rows, distinct)
    assert {node.how for node in nodes(pieced.tree)} == {"row"}
    assert [node.name for node in pieced.tree.parts] == ["row"] * 3
    assert pieced.order.exact


def test_the_sawtooth_star_reads_from_the_top_left() -> None:
    assert shown(piece_block(sawtooth_star()).tree) == (
        "column(row(b [flying goose] b) row([flying goose] a [flying goose]) row(b [flying goose] b))"
    )


@pytest.mark.parametrize(
    ("picture", "name"),
    [("ab cd", "four-patch"), ("abc bca cab", "nine-patch"), ("abc cab", "column"), ("abcd", "row")],
)
def test_plain_squares_are_named_by_the_trade(picture: str, name: str) -> None:
    assert best_order(drawn(squares(picture))).tree.name == name


def test_what_is_sewn_along_a_slanted_seam_has_no_name_of_the_trade() -> None:
    work = drawn([("a", ((0, 0), (3, 0), (2, 4), (0, 4))), ("b", ((3, 0), (6, 0), (6, 4), (2, 4)))])
    assert best_order(work).tree.name == "part"


def test_nine_unlike_units_are_sewn_in_three_rows() -> None:
    """Half-square triangles of eighteen fabrics; up to eight corners meet, on whichever seam comes first."""
    shapes = [
        shape
        for k in range(9)
        for shape in unit(
            "hst", chr(97 + k) + chr(65 + k), (2 * (k % 3), 2 * (k // 3), 2, 2), "nwse"[k % 2 * 2 :][:2]
        )
    ]
    tree = piece_block(block_of(shapes)).tree
    assert [len(node.parts) for node in nodes(tree)] == [3, 3, 3, 3]


# --- Likeness -----------------------------------------------------------------------------------------------


def test_of_equally_cheap_orders_the_one_with_most_alike_is_taken() -> None:
    """By rows there are two unlike things, by columns three."""
    work = drawn(squares("abc cba abc cba", 2))
    assert shown(best_order(work).tree) == "column(row(a b c) row(c b a) row(a b c) row(c b a))"
    assert best_order(work).distinct == 1
    upright = drawn(squares("acac bbbb caca", 2))
    assert shown(best_order(upright).tree) == "row(column(a b c) column(c b a) column(a b c) column(c b a))"


def test_mirror_images_are_counted_apart_and_turned_ones_together() -> None:
    """Rows of a square beside a slanted pair: turned by half they are one thing, mirrored they are two."""
    row = [
        ("a", ((0, 0), (2, 0), (2, 2), (0, 2))),
        ("b", ((2, 0), (5, 0), (4, 2), (2, 2))),
        ("c", ((5, 0), (8, 0), (8, 2), (4, 2))),
    ]
    around, over = moved(8, 4).after(turned(180)), moved(0, 4).after(folded((0.0, 0.0), (1.0, 0.0)))
    for place, rows in ((around, 1), (over, 2)):
        second = [(role, Patch(role, outline).placed(place).outline) for role, outline in row]
        order = best_order(drawn([*row, *second]))
        assert [len(node.parts) for node in nodes(order.tree)] == [2] * 5
        assert order.distinct == 2 * rows


@settings(max_examples=40, deadline=None)
@given(cut_blocks(most=7), st.floats(-400, 400), st.floats(-30, 30))
def test_a_look_does_not_change_when_it_is_turned(work: Patchwork, angle: float, off: float) -> None:
    patches = [part.drawing for part in work.parts]
    place = moved(off, 3.3).after(turned(angle))
    lying = [patch.placed(place) for patch in patches]
    assert look(lying) == look(patches)
    assert mirror_look(lying) == mirror_look(patches)


def test_sets_are_alike_in_shape_when_mirrored_and_in_look_when_turned_by_any_angle() -> None:
    """A pair of triangles as it is, turned by 30 degrees, by 90, mirrored, and of other fabrics."""
    pair = [
        Patch("a", ((0.0, 0.0), (3.0, 0.0), (0.0, 2.0))),
        Patch("b", ((3.0, 0.0), (3.0, 2.0), (0.0, 2.0))),
    ]
    places = (
        moved(0, 0),
        moved(10, 0).after(turned(30)),
        moved(20, 0).after(turned(90)),
        moved(30, 0).after(folded((0.0, 0.0), (0.0, 1.0))),
    )
    patches = [patch.placed(place) for place in places for patch in pair]
    other = [Patch("c", patch.placed(moved(40, 0)).outline) for patch in pair]
    alike = Alike(patchwork("Slipway", [*map(Placed, patches), *map(Placed, other)]))
    sets = [0b11 << 2 * k for k in range(5)]
    shapes, looks = ([key(parts).key for parts in sets] for key in (alike.shape, alike.look))
    assert [shape == shapes[0] for shape in shapes] == [True, False, True, True, True]
    assert [look == looks[0] for look in looks] == [True, True, True, False, False]


def test_the_rows_of_a_set_are_those_of_both_directions() -> None:
    work = drawn(squares("abc bca cab"))
    level, upright = cuts_of(full_splits(work, work.whole))
    assert level.slabs == (0b000000111, 0b000111000, 0b111000000)
    assert upright.slabs == (0b001001001, 0b010010010, 0b100100100)
    assert upright.row((1, 3)).sets == (0b001001001, 0b110110110)


def test_a_look_tells_hands_and_fabrics_and_prints_apart() -> None:
    patches = [Patch("a", ((0, 0), (3, 0), (0, 2))), Patch("b", ((3, 0), (3, 2), (0, 2)))]
    assert look(patches) != mirror_look(patches)
    assert look(patches) != look([Patch("c", patches[0].outline), patches[1]])
    print_up = [Patch("a", patches[0].outline, 90.0), patches[1]]
    assert look(print_up) != look(patches)
    assert look([p.placed(turned(33)) for p in print_up]) == look(print_up)


# --- Few states ---------------------------------------------------------------------------------------------


def test_a_grid_of_a_hundred_and_fifty_squares_has_few_states() -> None:
    """Fifteen by ten: rectangles of at most that size, each once whichever way it lies, and their looks."""
    checks = drawn(squares(" ".join(("ababababababababababab"[k % 2 :])[:15] for k in range(10))))
    assert best_order(checks).states <= 15 * 10 + 15 * 10 * 2
    unlike = [(f"{role}{k}", outline) for k, (role, outline) in enumerate(squares(" ".join(["a" * 15] * 10)))]
    assert best_order(drawn(unlike)).states < 50


@pytest.mark.parametrize("seed", range(3))
@pytest.mark.parametrize("level", [False, True], ids=["any angle", "level and upright"])
def test_a_hundred_and_fifty_patches_cut_at_random_have_few_states(level: bool, seed: int) -> None:
    order = best_order(cut_at_random(150, seed, level))
    assert order.exact
    assert order.states < 3000


def test_strips_of_all_sorts_side_by_side_are_one_row() -> None:
    """Nothing is gained by sewing some of them first, however many there are."""
    ends = [0.0, *(k + (k * k % 7) / 10 for k in range(1, 60)), 60.0]
    strips = [
        ("ab"[k % 2], ((a, 0), (b, 0), (b + 3, 9), (a + 3, 9))) for k, (a, b) in enumerate(pairwise(ends))
    ]
    order = best_order(drawn(strips))
    assert len(order.tree.parts) == 60
    assert order.states < 5


# --- Where no full seam goes through ------------------------------------------------------------------------


def test_a_ring_without_another_way_is_refused_with_its_place() -> None:
    shapes = [*RING, ("d", ((3, 0), (5, 0), (5, 3), (3, 3)))]
    with pytest.raises(
        Refused, match="no straight seam goes all the way through the part of 'Slipway' from 0, 0 to 3, 3"
    ):
        best_order(drawn(shapes))


def test_other_ways_are_asked_only_where_no_full_seam_goes_through() -> None:
    asked: list[int] = []

    def ring(work: Patchwork, parts: int) -> list[Split]:
        asked.append(parts)
        return [Split("ring", (0b10000, 0b1, 0b10, 0b100, 0b1000), 4.0, 0)]

    order = best_order(drawn([*RING, ("d", ((3, 0), (5, 0), (5, 3), (3, 3)))]), ring)
    assert set(asked) == {0b11111}
    assert shown(order.tree) == "row(part(c a b a b) d)"
    assert [node.how for node in nodes(order.tree)] == ["row", "ring"]
    assert (order.cost, order.bound, order.exact) == (4.0 + 0.0, 0.0, False)


def test_a_ring_is_pieced_with_a_partial_seam_and_the_note_says_where() -> None:
    pieced = piece_block(block_of(RING))
    assert pieced.difficulty.partial == 1
    assert [note.weight for note in pieced.notes] == ["note"]
    assert "from 0, 0 to 3, 3 (in)" in pieced.notes[0].what


# --- Difficulty ---------------------------------------------------------------------------------------------


def test_what_makes_an_ohio_star_hard_is_where_six_corners_meet() -> None:
    """A corner of the middle square: it, the plain corner, and two triangles of each hourglass beside it."""
    block = ohio_star()
    pieced = piece_block(block)
    assert pieced.difficulty == Difficulty(
        patches=21,
        units=4,
        parts=9,
        seams=8,
        set_in=0,
        corners=0,
        partial=0,
        bias_edges=0,
        crossings=((4, 4), (6, 4)),
        distinct=2,
    )
    assert difficulty_of(block, pieced.order) == pieced.difficulty


def test_bias_sides_are_those_of_what_is_joined_and_only_points_inside_are_crossings() -> None:
    """A fan of four about a point on the lower edge: two slanted seams, an upright one that joins halves."""
    fan = [((8, 0), (8, 5), (6, 5)), ((6, 5), (4, 5)), ((4, 5), (2, 5)), ((2, 5), (0, 5), (0, 0))]
    pieced = piece_block(block_of([("abcd"[k], ((4, 0), *ends)) for k, ends in enumerate(fan)]))
    assert pieced.difficulty.crossings == ()
    assert pieced.difficulty.bias_edges == 4


def test_a_block_that_is_made_often_is_pieced_with_rails() -> None:
    bars = [*unit("plain", "a", (0, 0, 1, 3)), *unit("plain", "b", (1, 0, 2, 3))]
    block = block_of([*bars, *unit("hst", "ab", (3, 0, 3, 3))])
    assert [piece_block(block, times=times).difficulty.parts for times in (1, 4)] == [3, 2]


@pytest.mark.parametrize(
    ("harder", "words"),
    [
        ({}, "easy"),
        ({"set_in": 1}, "some care"),
        ({"set_in": 2, "corners": 2}, "patience"),
        ({"partial": 6}, "a challenge"),
    ],
)
def test_how_hard_a_block_is_in_plain_words(harder: dict[str, int], words: str) -> None:
    plain = {"patches": 9, "units": 0, "parts": 9, "seams": 8, "set_in": 0, "corners": 0, "partial": 0}
    found = Difficulty(**(plain | harder), bias_edges=0, crossings=((4, 4),), distinct=2)
    assert found.hardness == words


def test_a_single_patch_or_unit_has_no_seam_to_sew() -> None:
    assert piece_block(block_of([("a", SQUARE)])).difficulty.seams == 0
    whole = piece_block(block_of(squares("ab ba")))
    assert isinstance(whole.tree, Placed)
    assert isinstance(whole.tree.drawing, Group)
    assert (whole.difficulty.parts, whole.order.cost, whole.difficulty.hardness) == (1, 0.0, "easy")
    assert region(whole.tree).area == pytest.approx(4.0, abs=1e-3)
