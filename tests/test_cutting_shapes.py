"""Shapes from strips and squares: sizes by geometry, layouts that are checked and replayed on the bench."""

from __future__ import annotations

from dataclasses import replace
from math import sqrt

import pytest

from piecewright.bench.bench import Bench, seam_of
from piecewright.bench.plan import Supply as BenchSupply
from piecewright.cutting.checking import check_layout
from piecewright.cutting.shapes.checking import check_shape_cuts
from piecewright.cutting.shapes.laying import LaidShapes, lay_out_shapes
from piecewright.cutting.shapes.outlines import as_cut, has_hand, mirrored
from piecewright.cutting.shapes.reading import ShapeEntry, shape_wanted
from piecewright.cutting.shapes.splitting import cut_from
from piecewright.cutting.shapes.steps import shape_steps
from piecewright.cutting.shapes.telling import cutting_words, short_words, turning_words
from piecewright.cutting.shapes.wanted import ShapeCut, ShapeDemand
from piecewright.cutting.wanted import Demand, Supply
from piecewright.drawing.palette import Palette
from piecewright.drawing.shape_strip import shape_strip_svg
from piecewright.geometry.matching import outline_turns
from piecewright.geometry.point import distance
from piecewright.geometry.polygon import bounds, edges, same_polygon
from piecewright.measure.length import inches
from piecewright.measure.rounding import exactly
from piecewright.measure.tolerance import AS_DRAWN, WELD
from piecewright.planning.writing import cutting_steps
from piecewright.problems import Refused
from piecewright.workroom.workroom import Workroom

CLOTH = Supply("sail", inches(40), inches("4 1/2"), ruler_length=inches(24))


def entry(kind: str, count: int = 10, w: str = "", h: str = "", **more: object) -> ShapeEntry:
    measures = {key: inches(text) for key, text in {"w": w, "h": h}.items() if text}
    return replace(ShapeEntry(kind, kind, count, measures), **more)  # type: ignore[arg-type]


def shape(kind: str, count: int = 10, w: str = "", h: str = "", **more: object) -> ShapeDemand:
    """`shape("60 degree triangle", 34, h="4 1/4")`."""
    return shape_wanted(entry(kind, count, w, h, **more))


def sides(demand: ShapeDemand) -> list[float]:
    return [distance(*edge) for edge in edges(demand.outline)]


# What a small quilt of boats takes of one cloth, invented.
BOATS = [
    shape("60 degree triangle", 56, h="3", finished=True, name="sails"),
    shape("60 degree triangle", 30, h="3", finished=True, blunted=True, name="tips"),
    shape("45 degree diamond", 40, h="3", name="points"),
    shape("hexagon", 17, h="5 1/2", name="buoys"),
    shape("square cut twice", 30, w="6", finished=True, name="waves"),
    shape("square cut once", 21, w="3 7/8", name="corners"),
    shape("rectangle cut once", 11, w="3", h="4", finished=True, hand="left", name="fins"),
    shape("60 degree trapezoid", 25, w="7", h="3", name="hulls"),
    shape("45 degree right trapezoid", 13, w="6", h="2 1/2", hand="left", name="decks"),
    shape("45 degree parallelogram", 19, w="3", h="2 1/2", hand="left", name="bows"),
    shape("half-square triangle", 33, h="2 1/2", name="jibs"),
    shape("quarter-square triangle", 15, h="2 1/2", name="keels"),
]
BRICKS = Demand("bricks", inches("2 1/2"), inches("4 1/2"), 24)


# Sizes, finished to cut, at a seam of 1/4 in: trade-checks.csv, each by plane geometry.


def test_sixty_degree_triangle_three_inches_high_takes_strips_of_three_and_three_quarters():
    sail = shape("60 degree triangle", h="3", finished=True)
    assert sail.strip == inches("3 3/4")  # seam_eq_height_add: 3s
    assert sides(sail)[0] == pytest.approx(4.330127, abs=1e-6)  # eq_side


def test_star_diamond_takes_a_strip_just_below_three_inches_or_the_mark_within_ease():
    # star_side and star_strip: a 12 in star has sides of 3.514719 and strips of 2.985281.
    side = 12 / (2 + sqrt(2))
    star = shape_wanted(replace(entry("45 degree diamond"), measures={"h": exactly(side / sqrt(2))}))
    assert as_cut(star.outline, 0.25)[2][1] == pytest.approx(2.985281, abs=1e-6)
    finished = replace(entry("45 degree diamond", finished=True), measures={"h": exactly(side / sqrt(2))})
    assert shape_wanted(finished).strip == inches(3)


@pytest.mark.parametrize(
    ("name", "grows", "kept"),
    [
        ("60 degree diamond", 0.577350, 3 / sqrt(0.75)),  # seam_diamond60_add
        ("45 degree diamond", 0.707107, 3 * sqrt(2)),  # seam_diamond45_add
        ("hexagon", 0.288675, 3 / sqrt(3)),  # seam_hexagon_add
    ],
)
def test_side_grows_by_what_the_geometry_of_its_angles_says(name: str, grows: float, kept: float):
    made = shape(name, h="3", finished=True)
    assert made.strip == inches("3 1/2")
    assert sides(made)[0] == pytest.approx(kept + grows, abs=1e-5)


def test_squares_for_triangles_are_the_finished_size_and_seven_eighths_or_an_inch_and_a_quarter():
    """Geometry adds 0.853553 and 1.207107 (seam_hst_add, seam_qst_add): the marks above are within ease."""
    once = shape("square cut once", w="3", finished=True)
    twice = shape("square cut twice", w="6", finished=True)
    assert (once.strip, twice.strip) == (inches("3 7/8"), inches("7 1/4"))


def test_half_rectangle_three_by_four_is_cut_from_three_and_three_quarters_by_five():
    (strip,) = cut_from(shape("rectangle cut once", w="3", h="4", finished=True, hand="left"), CLOTH).strips
    assert (strip.width, strip.height) == (inches("3 3/4"), inches(5))  # hrt_345


def test_half_rectangle_two_by_four_is_not_cut_from_marks():
    made = shape("rectangle cut once", w="2", h="4", finished=True, hand="left")
    assert bounds(made.outline)[2:] == pytest.approx((2.654508, 5.309017), abs=1e-6)  # hrt_12


def test_blunted_triangle_comes_from_a_strip_two_seams_higher_than_it_finishes():
    """The strip is the finished height and 1/2 in, the longer side that of the full triangle."""
    full = shape("60 degree triangle", h="3", finished=True)
    blunt = shape("60 degree triangle", h="3", finished=True, blunted=True)
    half = shape("half-square triangle", h="3", finished=True, blunted=True)
    assert (blunt.strip, half.strip) == (inches("3 1/2"), inches("3 1/2"))
    assert sides(blunt)[0] == pytest.approx(sides(full)[0])
    assert sides(half)[0] == pytest.approx(3.853553, abs=1e-6)


def test_blunted_triangle_is_the_same_told_by_its_cut_strip():
    finished = shape("60 degree triangle", h="3", finished=True, blunted=True)
    told = shape("60 degree triangle", h="3 1/2", blunted=True)
    assert same_polygon(told.outline, finished.outline, WELD)


# What a strip gives.


def strips(demand: ShapeDemand) -> list[tuple[int, int]]:
    return [(strip.count, strip.each) for strip in cut_from(demand, CLOTH).strips]


def test_triangles_turned_in_turn_need_half_an_edge_each_and_one_half_more():
    """Worked by hand: edge 4.9075, (17 + 1) / 2 edges would be 44.2; (15 + 1) / 2 are 39.26 of 40."""
    assert strips(shape("60 degree triangle", 34, h="4 1/4")) == [(2, 15), (1, 4)]


def test_diamonds_lose_only_their_first_lead():
    """Worked by hand: 3 in strips at 45 degrees, 3 in lead and 4.2426 each: (40 - 3) / 4.2426 = 8.7."""
    assert strips(shape("45 degree diamond", 16, h="3")) == [(2, 8)]


def test_hexagons_touch_tip_to_tip():
    """Worked by hand: across the tips 5.5 x 1.1547 = 6.351; 40 / 6.351 = 6.3."""
    assert strips(shape("hexagon", 13, h="5 1/2")) == [(2, 6), (1, 1)]


@pytest.mark.parametrize("hand", ["left", "right"])
def test_right_trapezoids_begin_with_their_square_end(hand: str):
    """Worked by hand: 6 and 3 1/2 on the edges, two in 9 1/2, eight in 38 with nothing lost at the ends."""
    (strip,) = cut_from(shape("45 degree right trapezoid", 8, w="6", h="2 1/2", hand=hand), CLOTH).strips
    assert (strip.each, strip.width) == (8, inches(38))


def test_squares_give_two_or_four_and_what_is_over_is_told():
    once, twice = shape("square cut once", 21, w="3 7/8"), shape("square cut twice", 30, w="7 1/4")
    cuts = [cut_from(one, CLOTH) for one in (once, twice)]
    assert [(cut.strips[0].count, cut.strips[0].each, cut.over) for cut in cuts] == [(11, 2, 1), (8, 4, 2)]


# One-way prints.


def test_upright_triangles_lie_a_whole_edge_apart():
    upright = shape("60 degree triangle", 34, h="4 1/4", turning="none")
    assert strips(upright) == [(4, 8), (1, 2)]
    assert turning_words(upright, CLOTH.usable_width) == (
        "All upright, 8 triangles come out of a strip; "
        "with every second one turned end for end it would be 15."
    )


@pytest.mark.parametrize(
    ("name", "w"), [("60 degree diamond", ""), ("hexagon", ""), ("45 degree parallelogram", "3")]
)
def test_shapes_that_are_alike_turned_cost_nothing_more_upright(name: str, w: str):
    hand = "left" if w else ""
    upright = shape(name, 20, w, "3", turning="none", hand=hand)
    assert strips(upright) == strips(shape(name, 20, w, "3", hand=hand))
    assert turning_words(upright, CLOTH.usable_width) == ""


def test_quarter_squares_of_a_print_with_two_ways_up_come_from_strips_half_as_high():
    """Of a square cut twice two triangles would lie on their sides."""
    waves = shape("square cut twice", 20, w="7 1/4", turning="end for end")
    (strip,) = cut_from(waves, CLOTH).strips
    assert (strip.height, strip.each, strip.count) == (inches("3 5/8"), 10, 2)


# Layouts.


def replayed(laid: LaidShapes, one_way: bool = False) -> Bench:
    layout, room = laid.layout, Workroom()
    cloth = BenchSupply(fabric="sail", width=layout.usable_width, length=layout.length, one_way=one_way)
    bench = Bench(room, (cloth,))
    for step in [*cutting_steps([layout], room), *shape_steps(laid.shapes, seam_of(room))]:
        bench.do(step)
    return bench


def one_kind(bench: Bench, cut: ShapeCut) -> bool:
    """Whether all pieces of a pile are alike, of the demand's outline and grain."""
    cloth = bench.pile(cut.demand.name).only(cut.demand.name)
    grain = cloth.faces[0].grain
    turns = [place.degrees for place in outline_turns(cut.demand.outline, cloth.raw, AS_DRAWN)]
    step = {"any": 90, "end for end": 180, "none": 360}[cut.demand.turning]
    return any(abs((90 + turn - grain + step / 2) % step - step / 2) < 0.01 for turn in turns)


@pytest.mark.parametrize("turning", ["any", "end for end", "none"])
def test_every_shape_is_cut_on_the_bench_from_one_layout_with_the_bricks(turning: str):
    wanted = [replace(boat, turning=turning) for boat in BOATS]
    laid = lay_out_shapes([replace(BRICKS, may_turn=turning == "any")], wanted, CLOTH)
    bench = replayed(laid, one_way=turning == "none")
    assert check_layout(laid.layout, laid.rectangles, CLOTH.ruler_length) == []
    assert check_shape_cuts(laid.shapes, laid.layout.patterns) == []
    assert {cut.demand.name: bench.count(cut.demand.name) for cut in laid.shapes} == {
        cut.demand.name: cut.given for cut in laid.shapes
    }
    assert [cut.demand.name for cut in laid.shapes if not one_kind(bench, cut)] == []
    piles = {name for name, pile in bench.table.piles.items() if pile.count}
    assert piles == {"bricks", *(boat.name for boat in BOATS)}
    assert laid.area_bound <= laid.bound <= laid.layout.length


def test_short_strips_share_a_strip_with_other_pieces():
    """15 triangles fill a strip; the other 4 leave 27 in of theirs, where five bricks lie."""
    sails = shape("60 degree triangle", 19, h="4 1/2", name="sails")
    laid = lay_out_shapes([replace(BRICKS, count=9)], [sails], CLOTH)
    assert laid.layout.length == inches(9)


def test_two_halves_of_the_rest_are_taken_where_they_fill_gaps():
    """Half a strip is free beside each of the two long flags."""
    flags = Demand("flags", inches(28), inches("4 1/4"), 2, may_turn=False)
    sails = shape("60 degree triangle", 6, h="4 1/4", name="sails")
    laid = lay_out_shapes([flags], [sails], CLOTH)
    assert laid.layout.length == inches("8 1/2")
    assert [(strip.count, strip.each) for strip in laid.shapes[0].strips] == [(2, 3)]


def test_layouts_are_the_same_every_time():
    assert lay_out_shapes([BRICKS], BOATS, CLOTH) == lay_out_shapes([BRICKS], BOATS, CLOTH)


# The checker.

SAILS = cut_from(shape("60 degree triangle", 34, h="4 1/4", name="sails"), CLOTH)


def spoiled(**changes: object) -> ShapeCut:
    first, *others = SAILS.strips
    return replace(SAILS, strips=(replace(first, **changes), *others))  # type: ignore[arg-type]


def found(cut: ShapeCut) -> str:
    return " ".join(problem.what for problem in check_shape_cuts([cut]))


def test_checker_finds_nothing_in_sound_strips():
    assert check_shape_cuts([SAILS]) == []


def test_checker_finds_what_is_spoiled():
    first = SAILS.strips[0]
    moved = tuple((x + 0.5, y) for x, y in first.pieces[2])
    assert "overlap" in found(spoiled(pieces=(*first.pieces[:2], moved, *first.pieces[3:])))
    assert "inside its strip" in found(spoiled(width=inches(30)))
    assert "got 32" in found(spoiled(pieces=first.pieces[:-1]))
    assert "got 19" in found(spoiled(count=1))
    assert "a cut along each side" in found(spoiled(cuts=first.cuts[:-1]))
    assert "goes through" in found(spoiled(cuts=(*first.cuts, ((1.0, 0.0), (1.0, 4.0)))))
    assert "turned as it may be" in found(replace(SAILS, demand=replace(SAILS.demand, turning="none")))


def test_checker_tells_a_mirrored_piece_from_a_turned_one():
    bows = cut_from(shape("45 degree parallelogram", 8, "3", "2 1/2", hand="left", name="bows"), CLOTH)
    other = replace(bows, demand=replace(bows.demand, outline=mirrored(bows.demand.outline)))
    assert check_shape_cuts([bows]) == []
    assert "turned as it may be" in found(other)


def test_checker_counts_the_strips_in_the_layout():
    laid = lay_out_shapes([], [SAILS.demand], CLOTH)
    problems = check_shape_cuts(laid.shapes, laid.layout.patterns[1:])
    assert [problem.what for problem in problems] == [
        "expected 2 of 'sails, strip of 15' in the layout, got 0."
    ]


# Words.


def test_strips_are_told_in_a_line():
    assert short_words(SAILS, "in") == (
        "sails: 15 triangles from each of 2 strips 4 1/4 x 39 3/8 in, 4 from 1 strip 4 1/4 x 12 3/8 in; "
        "turn every second one"
    )


def test_squares_are_told_with_what_is_over():
    waves = cut_from(shape("square cut twice", 30, w="7 1/4", name="waves"), CLOTH)
    assert short_words(waves, "in") == (
        "waves: 4 triangles from each of 8 squares 7 1/4 in, cut twice on the diagonal, 2 over"
    )


def test_first_cut_and_measures_are_told():
    assert cutting_words(SAILS, "in")[1:] == (
        "Cut first from the lower left corner, at 60 degrees, leaning to the right.",
        "Each triangle is 4.9075 in long on one edge of the strip, to a point on the other; "
        "both ends at 60 degrees.",
        "Each cut begins where the one before it ended.",
    )


def test_shape_with_a_hand_is_cut_right_side_up():
    fins = cut_from(shape("rectangle cut once", 4, w="3", h="5", hand="right", name="fins"), CLOTH)
    assert cutting_words(fins, "in")[1:] == (
        "Lay each rectangle upright; cut it from the lower left corner to the upper right one.",
        "Keep the right side of the cloth up in every layer: turned over, it is another shape.",
    )


# Hands.


@pytest.mark.parametrize(
    ("name", "w", "h"),
    [
        ("rectangle cut once", "3", "5"),
        ("45 degree parallelogram", "3", "2 1/2"),
        ("60 degree right trapezoid", "5", "2"),
    ],
)
def test_left_and_right_are_mirror_images_and_not_the_same(name: str, w: str, h: str):
    left, right = (shape(name, w=w, h=h, hand=hand) for hand in ("left", "right"))
    assert has_hand(left.outline)
    assert same_polygon(mirrored(left.outline), right.outline, WELD)


def test_diamonds_hexagons_and_whole_triangles_have_no_hand():
    names = ("45 degree diamond", "hexagon", "60 degree triangle", "half-square triangle")
    assert [name for name in names if has_hand(shape(name, h="3").outline)] == []


# What is wrong, in sentences.


@pytest.mark.parametrize(
    ("wrong", "says"),
    [
        (entry("hexogon", h="3"), "expected the name of a shape, got 'hexogon'. Did you mean hexagon?"),
        (
            entry("diamond", h="3"),
            "expected the angle of a diamond, from 15 to 89 degrees, got none. "
            'Write shape = "60 degree diamond", say.',
        ),
        (
            entry("120 degree diamond", h="3"),
            "expected the angle of a diamond, from 15 to 89 degrees, got 120 degrees. "
            'Write shape = "60 degree diamond", say.',
        ),
        (entry("hexagon"), "expected h of a hexagon, got no h. Write h = ..."),
        (
            entry("hexagon", w="2", h="3"),
            "w is no measure of a hexagon: it has h. Leave it out.",
        ),
        (
            entry("hexagon", h="1/16"),
            "expected h of a hexagon to be 1/8 in or more, got 1/16 in.",
        ),
        (
            entry("rectangle cut once", w="3", h="4"),
            "expected the hand of a rectangle cut once, left or right, got none. "
            'Write hand = "right", say: turned over, it is another shape.',
        ),
        (entry("hexagon", h="3", hand="left"), "a hexagon has no hand, got 'left'. Leave it out."),
        (
            entry("hexagon", h="3", blunted=True),
            "a hexagon has no point to blunt. Leave blunted out; triangles from strips can be blunted.",
        ),
        (
            entry("60 degree trapezoid", w="3", h="3"),
            "expected w of a 60 degree trapezoid from a strip of 3 in "
            "to be more than about 3 7/16 in, got 3 in. "
            "Its slants would meet below the upper edge: make it longer, or the strip lower.",
        ),
        (
            entry("hexagon", h="3", turning="round"),
            "expected turning to be any, end for end or none, got 'round'. "
            "Say how the pieces may be turned on the cloth.",
        ),
    ],
)
def test_wrong_entry_is_told_in_a_sentence(wrong: ShapeEntry, says: str):
    with pytest.raises(Refused) as refused:
        shape_wanted(wrong)
    assert str(refused.value) == says


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("60 degree triangles", "60 degree triangle"),
        ("60° diamond", "60 degree diamond"),
        ("60-degree diamond", "60 degree diamond"),
        ("Equilateral triangle", "60 degree triangle"),
        ("half square triangle", "half-square triangle"),
    ],
)
def test_shapes_are_read_as_people_write_them(written: str, meant: str):
    assert shape(written, h="3").shape == meant


def test_square_may_be_told_by_both_its_sides():
    assert shape("squares cut once", w="3", h="3") == shape("square cut once", w="3", name="squares cut once")


def test_piece_longer_than_the_cloth_is_wide_is_refused():
    long = shape("60 degree trapezoid", 2, w="50", h="41", name="hulls")
    with pytest.raises(Refused) as refused:
        lay_out_shapes([], [long], CLOTH)
    assert str(refused.value) == (
        "cloth 'sail': expected one piece of 'hulls' to fit across the cloth, 40 in, got 50 x 41 in. "
        "Join it from smaller pieces, or take wider cloth."
    )


def test_shapes_and_pieces_of_one_name_are_refused():
    with pytest.raises(Refused, match="expected every shape to have its own name, got 'bricks' twice"):
        lay_out_shapes([BRICKS], [shape("hexagon", h="3", name="bricks")], CLOTH)


# Pictures.


def test_picture_of_a_strip_shows_every_piece_and_cut():
    drawn = shape_strip_svg(SAILS.demand, SAILS.strips[0], Palette({}), "sail")
    assert drawn.count('<polygon class="piece"') == 15
    assert drawn.count('<polyline class="cut-line"') == 16
    assert "15 triangles in a strip" in drawn
