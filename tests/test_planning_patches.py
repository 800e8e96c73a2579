"""Patches cut from cloth: every straight-sided shape, proven on the bench.

For each shape: the pieces come out of their rectangles, as many as are said, with the outline that was drawn,
the grain that was chosen, and no cloth is lost.
"""

from collections import Counter
from dataclasses import dataclass
from math import cos, hypot, pi, sin, sqrt

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import Polygon as Shape

from piecewright.bench.bench import Bench, total_area
from piecewright.bench.cloth import Cloth
from piecewright.bench.grain import bias_edges
from piecewright.bench.plan import Have, Supply
from piecewright.bench.steps import CutOut
from piecewright.design.drawing import Patch
from piecewright.design.kinds.diamonds import diamond
from piecewright.design.read import design_from
from piecewright.geometry.isometry import folded, turned
from piecewright.geometry.point import distance
from piecewright.geometry.polygon import Line, Polygon, area, clean, edges, placed, same_polygon
from piecewright.handout.tell_pieces import pieces
from piecewright.measure.length import ZERO, inches
from piecewright.measure.rounding import round_up
from piecewright.methods.strip_rows import homed
from piecewright.piecing.straight_grain import grain_of, outside_edges
from piecewright.planning.cloths import Cloths
from piecewright.planning.counting import count_things, left_over
from piecewright.planning.how_cut import says, sums
from piecewright.planning.job import Job
from piecewright.planning.make_plan import make_plan
from piecewright.planning.patches import Patches, settle_cuttings
from piecewright.planning.record import Record
from piecewright.planning.shape_steps import shape_step
from piecewright.planning.things import Cut, Made, Shaped
from piecewright.problems import Refused
from piecewright.toml_places import toml_from_text
from piecewright.workroom.workroom import INCH_WORKROOM, METRIC_WORKROOM, Workroom, default_workroom

WIDE = inches(40)
HALF: Polygon = ((0, 0), (3, 0), (0, 3))
LONG_SIDE = ((3, 0), (0, 3))
HALF_RECTANGLE: Polygon = ((0, 0), (4, 0), (0, 2))
TRAPEZOID: Polygon = ((0, 0), (6, 0), (5, 2), (1, 2))
RIGHT_TRAPEZOID: Polygon = ((0, 0), (6, 0), (5, 2), (0, 2))
PARALLELOGRAM: Polygon = ((0, 0), (4, 0), (5, 2), (1, 2))
SLANTED: Polygon = ((0, 0), (5, 0), (3.5, 3))
TALL: Polygon = ((0, 0), (2, 0), (1, 6))
EVEN: Polygon = ((0, 0), (4, 0), (2, 2 * sqrt(3)))
KITE: Polygon = ((0, 0), (3, -1), (6, 0), (3, 4))
L_SHAPE: Polygon = ((0, 0), (4, 0), (4, 2), (2, 2), (2, 4), (0, 4))
ARROW: Polygon = ((0, 0), (3, 1), (6, 0), (3, 5))
HEXAGON: Polygon = tuple((3 * cos(k * pi / 3), 3 * sin(k * pi / 3)) for k in range(6))
HOUSE: Polygon = ((0, 0), (4, 0), (4, 3), (2, 5), (0, 3))
SHAPES = {
    "half of a square": HALF,
    "half of a rectangle": HALF_RECTANGLE,
    "trapezoid": TRAPEZOID,
    "right trapezoid": RIGHT_TRAPEZOID,
    "parallelogram": PARALLELOGRAM,
    "slanted triangle": SLANTED,
    "tall triangle": TALL,
    "even triangle": EVEN,
    "diamond 45": diamond(3, 45),
    "diamond 60": diamond(2, 60),
    "kite": KITE,
    "L": L_SHAPE,
    "arrow": ARROW,
    "hexagon": HEXAGON,
    "house": HOUSE,
}


@dataclass
class Sewing:
    """A record with one fabric, sail, and the pieces made for it."""

    one_way: bool = False
    alike: int | None = None
    workroom: Workroom = INCH_WORKROOM

    def __post_init__(self) -> None:
        stands = frozenset({"sail"}) if self.one_way else frozenset()
        alike = {"sail": self.alike} if self.alike else {}
        self.record = Record(self.workroom, Cloths({"sail": "sail"}, stands, alike, {}))
        self.patches = Patches(self.record)

    def made(
        self, shape: Polygon, outside: tuple[Line, ...] = (), way: float | None = None, turn: float = 0.0
    ) -> Made:
        """The piece for a shape, turned with its outside lines and its print."""
        about = turned(turn)
        lines = tuple((about.at(a), about.at(b)) for a, b in outside)
        way = None if way is None else (way + turn) % 360
        return self.patches.made(Patch("sail", clean(placed(shape, about)), way), lines)

    def made_or_refused(
        self, shape: Polygon, outside: tuple[Line, ...] = (), way: float | None = None
    ) -> Made | None:
        """The piece for a shape; None, with the reason checked, where its allowances have no room."""
        try:
            return self.made(shape, outside, way)
        except Refused as refused:
            reason = str(refused)
        assert "allowances" in reason
        return None

    def settled(self, name: str, count: int) -> Shaped:
        settle_cuttings(self.record, {name: count}, {"sail": WIDE})
        thing = self.record.things[name]
        assert isinstance(thing, Shaped)
        return thing


def cut_on_the_bench(sewing: Sewing, thing: Shaped, count: int) -> Cloth:
    """The piece that the plan's step cuts on the bench; all are alike, none are missing, no cloth is lost."""
    things = sewing.record.things
    counts = count_things(things, {thing.name: count})
    ((name, _),) = thing.needs
    start = things[name]
    assert isinstance(start, Cut)
    bench = Bench(
        sewing.workroom,
        [Supply(fabric="sail", width=WIDE, length=ZERO, one_way=sewing.one_way)],
        [Have(name=name, count=counts[name], fabric="sail", width=start.width, height=start.height)],
    )
    bench.do(shape_step(thing, count, sewing.workroom))
    assert bench.count(name) == 0
    assert bench.count(thing.name) == count + left_over(things, counts).get(thing.name, 0)
    went_in, is_there = total_area(bench.table, {"sail": WIDE})["sail"]
    assert is_there == pytest.approx(went_in, abs=1e-6)
    return bench.cloth(thing.name)


def proven(sewing: Sewing, made: Made, drawn: Polygon, count: int, grain: float, period: float) -> Shaped:
    """The thing once settled; the bench's piece has the drawn outline, and the grain where it lies."""
    thing = sewing.settled(made.thing.name, count)
    cloth = cut_on_the_bench(sewing, thing, count)
    # Joins name sides by number: the piece must lie as the plan took it to lie.
    assert same_polygon(homed(cloth.net), homed(thing.cloth.net), 1e-3)
    assert same_polygon(placed(made.thing.cloth.net, made.place), drawn, 1e-3)
    assert cloth.faces[0].grain % period == pytest.approx(90 % period)
    off = (90 + made.place.degrees - grain) % period
    assert min(off, period - off) == pytest.approx(0, abs=0.2)
    return thing


def first_made(shape: Polygon, count: int, outside: tuple[Line, ...] = (), **how: object) -> Shaped:
    sewing = Sewing(**how)
    made = sewing.made(shape, outside)
    return sewing.settled(made.thing.name, count)


@pytest.mark.parametrize("turn", [0, 45, 90, 163.2])
@pytest.mark.parametrize("shape", SHAPES.values(), ids=SHAPES)
def test_every_shape_comes_off_the_bench_as_drawn(shape: Polygon, turn: float) -> None:
    for count in (1, 2, 7, 24):
        sewing = Sewing()
        drawn = clean(placed(shape, turned(turn)))
        made = sewing.made(shape, turn=turn)
        proven(sewing, made, drawn, count, grain_of(drawn), 90)


@pytest.mark.parametrize("way", [0, 90, 180, 270, 30])
@pytest.mark.parametrize("shape", SHAPES.values(), ids=SHAPES)
def test_a_print_stands_in_every_piece_as_it_was_drawn(shape: Polygon, way: float) -> None:
    sewing = Sewing(one_way=True)
    made = sewing.made(shape, way=way)
    proven(sewing, made, clean(shape), 5, way, 360)


@st.composite
def outlines(draw: st.DrawFn) -> Polygon:
    """Simple outlines of 3 to 8 corners, convex or not, seen from a point inside."""
    corners = draw(st.integers(3, 8))
    shares = [draw(st.integers(2, 8)) for _ in range(corners)]
    reach = [draw(st.integers(4, 16)) / 4 for _ in range(corners)]
    angle, points = draw(st.integers(0, 359)) * pi / 180, []
    for share, far in zip(shares, reach, strict=True):
        points.append((far * cos(angle), far * sin(angle)))
        angle += 2 * pi * share / sum(shares)
    outline = clean(points)
    assume(len(outline) >= 3 and area(outline) > 0.5 and Shape(outline).is_valid)
    assume(all(distance(a, b) > 0.25 for a, b in edges(outline)))
    return outline


@settings(max_examples=60, deadline=None)
@given(outlines(), st.integers(1, 30), st.sets(st.integers(0, 7)), st.sampled_from([None, 1, 2, 5]))
def test_any_outline_is_cut_with_its_grain_or_refused_for_want_of_room(
    shape: Polygon, count: int, outside: set[int], alike: int | None
) -> None:
    outside = {k for k in outside if k < len(shape)}
    sewing = Sewing(alike=alike)
    made = sewing.made_or_refused(shape, tuple(edges(shape)[k] for k in outside))
    if made is None or isinstance(made.thing, Cut):
        return
    thing = proven(sewing, made, shape, count, grain_of(shape, outside), 90)
    assert alike is None or thing.each <= alike


@settings(max_examples=40, deadline=None)
@given(outlines(), st.integers(1, 30), st.sampled_from(range(0, 360, 15)))
def test_any_outline_of_a_one_way_print_is_cut_with_its_print_or_refused(
    shape: Polygon, count: int, way: int
) -> None:
    sewing = Sewing(one_way=True)
    made = sewing.made_or_refused(shape, way=float(way))
    if made is not None and not isinstance(made.thing, Cut):
        proven(sewing, made, shape, count, way, 360)


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(list(SHAPES.values())), st.floats(0, 360), st.sets(st.integers(0, 7)))
def test_equal_shapes_are_one_pile_however_they_lie(shape: Polygon, turn: float, outside: set[int]) -> None:
    lines = tuple(side for k, side in enumerate(edges(clean(shape))) if k in outside)
    sewing = Sewing()
    first = sewing.made(shape, lines)
    again = sewing.made(shape, lines, turn=turn)
    assert again.thing is first.thing
    assert same_polygon(placed(again.thing.cloth.net, again.place), clean(placed(shape, turned(turn))), 1e-3)


@pytest.mark.parametrize("shape", [HALF_RECTANGLE, RIGHT_TRAPEZOID, PARALLELOGRAM, SLANTED])
def test_left_and_right_hands_are_two_piles(shape: Polygon) -> None:
    sewing = Sewing()
    one, other = sewing.made(shape).thing, sewing.made(placed(shape, folded((0, 0), (0, 1)))).thing
    assert other.name == f"{one.name} B"
    told = says(sewing.settled(one.name, 4), sewing.workroom)
    assert "Cut with the right side of the cloth up: turned over, it would be another shape." in told


@pytest.mark.parametrize("shape", [HALF, TRAPEZOID, diamond(3, 45), KITE, HEXAGON])
def test_a_shape_like_its_mirror_image_is_one_pile(shape: Polygon) -> None:
    sewing = Sewing()
    one, other = sewing.made(shape).thing, sewing.made(placed(shape, folded((0, 0), (0, 1)))).thing
    assert one is other


# Which way is taken


@pytest.mark.parametrize(
    ("shape", "outside", "count", "how", "each", "starts"),
    [
        (HALF, (), 5, "once", 2, 3),
        (HALF_RECTANGLE, (), 4, "once", 2, 2),
        (HALF, (LONG_SIDE,), 8, "twice", 4, 2),
        (HALF, (LONG_SIDE,), 1, "row", 1, 1),
        (diamond(3, 45), (), 4, "row", 4, 1),
        (TRAPEZOID, (), 2, "row", 2, 1),
        (SLANTED, (), 12, "row", 6, 2),
        (HEXAGON, (), 3, "template", 1, 3),
        (L_SHAPE, (), 3, "template", 1, 3),
    ],
)
def test_the_way_fits_the_shape_and_how_many_are_wanted(
    shape: Polygon, outside: tuple[Line, ...], count: int, how: str, each: int, starts: int
) -> None:
    thing = first_made(shape, count, outside)
    assert (thing.cutting.how, thing.each, thing.cutting.rectangles(count)) == (how, each, starts)


def test_no_strip_is_longer_than_the_cloth_is_wide_and_strips_share_the_pieces_evenly() -> None:
    thing = first_made(diamond(3, 45), 30)
    assert thing.cutting.width <= WIDE
    assert (thing.each, thing.cutting.rectangles(30)) == (10, 3)


def test_no_more_pieces_than_may_be_alike_come_from_one_print() -> None:
    assert [first_made(HALF, 8, alike=k).each for k in (1, 2, 3)] == [1, 2, 2]
    assert first_made(HALF, 8, (LONG_SIDE,), alike=3).each <= 3
    assert first_made(diamond(2, 60), 20, alike=5).each == 5


@pytest.mark.parametrize(("shape", "way"), [(HALF, 90), (TRAPEZOID, 90), (TRAPEZOID, 0), (TALL, 270)])
def test_a_print_that_stands_allows_no_half_turns(shape: Polygon, way: float) -> None:
    sewing = Sewing(one_way=True)
    thing = sewing.settled(sewing.made(shape, way=way).thing.name, 6)
    assert (thing.cutting.how, thing.each) == ("row", 1)


def test_a_diamond_turned_by_half_is_itself_so_that_a_print_may_stand_in_a_row_of_them() -> None:
    sewing = Sewing(one_way=True)
    thing = sewing.settled(sewing.made(diamond(3, 45), way=90.0).thing.name, 6)
    assert (thing.cutting.how, thing.each) == ("row", 6)


def test_a_rectangle_at_any_angle_is_cut_as_a_rectangle() -> None:
    sewing = Sewing()
    made = [sewing.made(((0, 0), (2, 0), (2, 5), (0, 5)), turn=turn).thing for turn in (0, 45, 90, 33.3)]
    assert {thing.name for thing in made} == {"sail 2 1/2 x 5 1/2"}


def test_a_square_on_point_of_a_standing_print_is_cut_by_template_with_the_print_upright() -> None:
    sewing = Sewing(one_way=True)
    side: Polygon = ((0, 0), (3, 0), (3, 3), (0, 3))
    flat, on_point = sewing.made(side, way=90.0).thing, sewing.made(side, way=45.0).thing
    assert (flat.name, on_point.name) == ("sail 3 1/2 square", "sail square 4 15/16")
    thing = sewing.settled(on_point.name, 4)
    assert thing.cutting.how == "template"
    assert bias_edges(thing.cloth) == 4


def test_a_rectangle_of_a_standing_print_has_its_print_along_the_side_that_was_drawn() -> None:
    sewing = Sewing(one_way=True)
    long: Polygon = ((0, 0), (4, 0), (4, 2), (0, 2))
    names = [sewing.made(long, way=way, turn=turn).thing.name for way in (90, 0) for turn in (0, 90, 30)]
    assert names == ["sail 4 1/2 x 2 1/2"] * 3 + ["sail 2 1/2 x 4 1/2"] * 3


# The straight grain


@pytest.mark.parametrize(
    ("shape", "outside", "grain"),
    [
        (HALF, (), 0),
        (HALF, (LONG_SIDE,), 45),
        (HALF, (((0, 0), (3, 0)), ((0, 0), (0, 3))), 0),
        (TALL, (), 0),
        (TRAPEZOID, (), 0),
        (ARROW, (((0, 0), (3, 5)),), 59.036),
        # A short outside edge is held by its neighbours: a stripe is cut along its length.
        (((0, 0), (8, 0), (7, 1), (1, 1)), (((0, 0), (1, 1)),), 0),
    ],
)
def test_outside_edges_lie_on_the_straight_grain_else_as_many_as_can(
    shape: Polygon, outside: tuple[Line, ...], grain: float
) -> None:
    outline = clean(shape)
    assert grain_of(outline, outside_edges(outline, outside)) == pytest.approx(grain, abs=1e-3)


def test_an_edge_is_outside_only_where_it_runs_along_the_outline_of_the_block() -> None:
    block = edges(((0, 0), (6, 0), (6, 6), (0, 6)))
    inside_corner: Polygon = ((0, 0), (3, 0), (0, 3))
    assert outside_edges(inside_corner, block) == {0, 2}
    assert outside_edges(((7, 0), (9, 0), (8, 1)), block) == frozenset()


# Outside figures: trade-checks, with their sources


def square_for(thing: Shaped) -> float:
    assert thing.cutting.width == thing.cutting.height
    return float(thing.cutting.width)


def test_a_half_square_is_cut_seven_eighths_larger() -> None:
    # Plane geometry s(cot 45 + cot 22.5) = 0.853553; rounded up as published: 1 7/8, 2 3/8, 2 7/8, 3 3/8,
    # 3 7/8, 4 7/8, 6 7/8 for finished 1, 1 1/2, 2, 2 1/2, 3, 4, 6 (K. Combs, Formulas for Quilters, 2002).
    published = {1: "1 7/8", 1.5: "2 3/8", 2: "2 7/8", 2.5: "3 3/8", 3: "3 7/8", 4: "4 7/8", 6: "6 7/8"}
    for side, square in published.items():
        found = square_for(first_made(((0, 0), (side, 0), (0, side)), 2))
        assert found - side == pytest.approx(0.853553, abs=1e-6)
        assert round_up(found, INCH_WORKROOM.ruler) == inches(square)


def test_a_quarter_square_is_cut_one_and_a_quarter_larger() -> None:
    # Plane geometry 2s cot 22.5 = 1.207107; published 3 1/4, 4 1/4, 5 1/4, 7 1/4 for finished 2, 3, 4, 6
    # (K. Combs, Formulas for Quilters, 2002; christaquilts.com/quilty-math).
    for side, square in {2: "3 1/4", 3: "4 1/4", 4: "5 1/4", 6: "7 1/4"}.items():
        shape: Polygon = ((0, 0), (side, 0), (side / 2, side / 2))
        found = square_for(first_made(shape, 4, (((0, 0), (side, 0)),)))
        assert found - side == pytest.approx(1.207107, abs=1e-6)
        assert round_up(found, INCH_WORKROOM.ruler) == inches(square)


def test_half_rectangles_are_cut_as_plane_geometry_says() -> None:
    # 3 x 4 from 3 3/4 x 5 (the 3-4-5 triangle), 2 x 4 from 2.654508 x 5.309017: plane geometry.
    whole = first_made(((0, 0), (3, 0), (0, 4)), 2).cutting
    assert (whole.width, whole.height) == (inches("3 3/4"), inches(5))
    slim = first_made(HALF_RECTANGLE, 2).cutting
    assert (float(slim.width), float(slim.height)) == pytest.approx((2.654508, 5.309017), abs=1e-6)


@pytest.mark.parametrize(
    ("shape", "grows"),
    [(diamond(3, 45), 0.707107), (diamond(3, 60), 0.577350), (HEXAGON, 0.288675)],
)
def test_sides_of_diamonds_and_hexagons_grow_as_plane_geometry_says(shape: Polygon, grows: float) -> None:
    # Cut minus finished side at a seam of 1/4 in: plane geometry.
    thing = first_made(shape, 4)
    assert [edge.growth for edge in thing.shape.edges] == pytest.approx([grows] * len(shape), abs=1e-6)


def test_an_even_triangle_is_cut_three_seams_higher() -> None:
    # 3s = 0.75: plane geometry.
    thing = first_made(EVEN, 7)
    assert float(thing.cutting.height) - 2 * sqrt(3) == pytest.approx(0.75, abs=1e-9)


def test_the_diamonds_of_a_twelve_inch_star_come_from_its_strip() -> None:
    # Side B/(2 + sqrt 2) = 3.514719, strip 2.985281: plane geometry.
    thing = first_made(diamond(12 / (2 + sqrt(2)), 45), 4)
    assert float(thing.cutting.height) == pytest.approx(2.985281, abs=1e-6)


def test_the_sum_behind_a_half_square_in_centimetres() -> None:
    # Cut minus finished at a seam of 7.5 mm: 25.607 mm: plane geometry (the rule in print, 25, is short).
    sewing = Sewing(workroom=METRIC_WORKROOM)
    side = 100 / 25.4
    thing = sewing.settled(sewing.made(((0, 0), (side, 0), (0, side))).thing.name, 2)
    assert square_for(thing) * 25.4 - 100 == pytest.approx(25.607, abs=1e-3)
    assert sums(thing, METRIC_WORKROOM)[0].endswith(" = 12.561 cm")


# Sizes, names and words


def test_only_what_falls_away_is_rounded_up() -> None:
    row, template = first_made(diamond(3, 45), 4).cutting, first_made(HEXAGON, 4).cutting
    ruler = INCH_WORKROOM.ruler
    assert (ruler.shows(row.width), ruler.shows(row.height)) == (True, False)
    assert (template.width, template.height) == (inches("5 3/4"), inches("6 5/8"))


@pytest.mark.parametrize(
    ("shape", "name"),
    [
        (HALF, "sail triangle 3 7/8"),
        (HALF_RECTANGLE, "sail triangle 2 5/8 x 5 5/16"),
        (diamond(3, 45), "sail diamond 2 5/8"),
        (TRAPEZOID, "sail trapezoid 2 1/2 x 6 13/16"),
        (PARALLELOGRAM, "sail parallelogram 2 1/2 x 5 13/16"),
        (HEXAGON, "sail hexagon 5 11/16"),
        (KITE, "sail kite 5 7/16 x 5 11/16"),
        (L_SHAPE, "sail L-shape 4 1/2"),
        (HOUSE, "sail pentagon 4 1/2 x 5 5/8"),
        (ARROW, "sail piece 6 1/8 x 6 15/16"),
    ],
)
def test_piles_have_the_names_of_the_trade(shape: Polygon, name: str) -> None:
    assert Sewing().made(shape).thing.name == name


def test_how_squares_are_cut_in_a_sentence_or_two() -> None:
    assert says(first_made(HALF, 5), INCH_WORKROOM)[:2] == (
        "Cut squares 3.8536 in; cut each once on the diagonal.",
        "3 7/8 in on the ruler is near enough: the little that is over is ease.",
    )
    assert says(first_made(HALF, 8, (LONG_SIDE,)), INCH_WORKROOM)[:2] == (
        "Cut squares 5.4497 in; cut each twice on the diagonal.",
        "5 1/2 in on the ruler is near enough: the little that is over is ease.",
    )


def test_a_strip_that_no_mark_shows_is_said_so() -> None:
    told = says(first_made(diamond(3, 45), 4), INCH_WORKROOM)
    assert "No mark of the ruler shows 2.6213 in: set it as near as you can." in told
    assert "Cut the left end off at 45 degrees, leaning to the left." in told
    assert told[3].endswith("3.7071 in apart on the edge of the strip: 4 come out of a strip.")
    level = says(first_made(TRAPEZOID, 4), INCH_WORKROOM)
    assert not any("No mark" in line for line in level)


def test_a_template_is_told_with_every_edge() -> None:
    told = says(first_made(L_SHAPE, 2), INCH_WORKROOM)
    assert told[0].endswith("its edges measure 4 1/2 in, 2 1/2 in, 2 in, 2 in, 2 1/2 in, 4 1/2 in.")
    assert told[1].startswith("Cut rectangles 4 1/2 x 4 1/2 in")


def test_the_step_round_a_template_takes_an_outline_that_is_not_convex() -> None:
    sewing = Sewing()
    thing = sewing.settled(sewing.made(L_SHAPE).thing.name, 3)
    step = shape_step(thing, 3, sewing.workroom)
    assert isinstance(step, CutOut)
    assert (step.times, len(step.outline)) == (3, 6)


# What stands in the way


@pytest.mark.parametrize(
    "shape",
    [
        ((0, 0), (6, 0), (6, 4), (3.2, 4), (3.2, 1), (2.8, 1), (2.8, 4), (0, 4)),
        ((0, 0), (4, 0), (4, 1), (3.9, 1.1), (4, 1.2), (4, 3), (0, 3)),
    ],
    ids=["a notch narrower than its allowances", "an edge that vanishes"],
)
def test_a_patch_whose_allowances_meet_is_refused_in_a_sentence(shape: Polygon) -> None:
    with pytest.raises(Refused) as refused:
        Sewing().made(shape)
    assert "sail" in str(refused.value)
    assert "allowances" in str(refused.value)


def test_small_misfits_of_a_drawing_do_no_harm() -> None:
    off = 3e-4
    sewing = Sewing()
    made = sewing.made(((0, 0), (6, off), (5, 2), (1 + off, 2 - off)))
    again = sewing.made(((0, off), (6, 0), (5 - off, 2), (1, 2)), turn=90)
    assert again.thing is made.thing
    thing = sewing.settled(made.thing.name, 6)
    cut_on_the_bench(sewing, thing, 6)
    assert thing.cutting.how == "row"


def test_rectangles_are_on_record_before_what_is_cut_out_of_them_and_shared_by_equal_ones() -> None:
    sewing = Sewing()
    left = sewing.made(HALF_RECTANGLE).thing
    right = sewing.made(placed(HALF_RECTANGLE, folded((0, 0), (0, 1)))).thing
    settle_cuttings(sewing.record, {left.name: 4, right.name: 6}, {"sail": WIDE})
    order = list(sewing.record.things)
    counts = count_things(sewing.record.things, {left.name: 4, right.name: 6})
    cuts = Counter({name: counts[name] for name in order if isinstance(sewing.record.things[name], Cut)})
    assert list(cuts.values()) == [2 + 3]
    assert order[0] in cuts


def test_rectangles_that_only_look_equal_on_the_ruler_are_two_piles() -> None:
    record = Sewing().record
    sizes = ["2 131/256", "2 131/256", "2 135/256", "2 1/2"]
    names = [record.cut("sail", inches(size), inches(4)).name for size in sizes]
    assert names == [
        "sail about 2 1/2 x 4",
        "sail about 2 1/2 x 4",
        "sail about 2 1/2 x 4 B",
        "sail 2 1/2 x 4",
    ]


def test_a_cutting_tells_how_much_cloth_it_takes() -> None:
    thing = first_made(((0, 0), (3, 0), (0, 4)), 3)
    assert thing.cutting.cloth_for(3) == pytest.approx(2 * 3.75 * 5)
    assert hypot(3, 4) == pytest.approx(thing.shape.edges[1].finished)


# From the quilt file to the sheet

HARBOUR = """
title = "Breakwater"
reason = "Stones that lean on one another."
unit = "in"
[fabrics.sail]
name = "sail"
colour = "#f1ead8"
[fabrics.tide]
name = "tide"
colour = "#223355"
[blocks.stones]
name = "Stones"
size = "6"
patches = [
  {role = "sail", corners = [[0, 0], [1, 0], [0, 2]]},
  {role = "tide", corners = [[1, 0], [6, 0], [5, 2], [0, 2]]},
  {role = "sail", corners = [[6, 0], [6, 2], [5, 2]]},
  {role = "sail", corners = [[0, 2], [6, 2], [5, 4], [1, 4]]},
  {role = "tide", corners = [[0, 2], [1, 4], [0, 4]]},
  {role = "tide", corners = [[6, 2], [6, 4], [5, 4]]},
  {role = "tide", corners = [[0, 4], [4, 4], [4, 6], [0, 6]]},
  {role = "sail", corners = [[4, 4], [6, 4], [6, 6], [4, 6]]},
]
[setting]
across = 3
down = 1
arrangement = "stones"
"""


def stones() -> Job:
    design, problems = design_from(toml_from_text(HARBOUR, "breakwater.toml"))
    assert design is not None, problems
    return make_plan(design, default_workroom("in"))


def test_a_block_of_shapes_is_planned_and_made_as_drawn() -> None:
    job = stones()
    assert job.replay.problems == ()
    wanted = {name: job.counts[name] for name, thing in job.things.items() if isinstance(thing, Shaped)}
    assert wanted == {
        "tide parallelogram 2 1/2 x 6 13/16": 3,
        "sail triangle 1 5/8 x 3 5/16": 6,
        "sail trapezoid 2 1/2 x 6 13/16": 3,
        "tide triangle 1 5/8 x 3 5/16": 3,
        "tide triangle 1 5/8 x 3 5/16 B": 3,
    }
    over = {name: count for name, count in job.plan.left_over.items() if count}
    assert over == {name: 1 for name in wanted if "tide triangle" in name}


def test_the_sheet_has_a_card_with_a_picture_for_every_pile_of_shapes() -> None:
    job = stones()
    cards = {card.name: card for card in pieces(job)}
    half = cards["Sail triangle 1 5/8 x 3 5/16"]
    assert (half.count, half.method) == ("cut 6", "cut once on the diagonal")
    assert half.starts == ("3 pieces about 1 5/8 x about 3 5/16 in of sail",)
    assert half.sums[-2] == "6 / 2 from each = 3"
    assert half.sums[-1].startswith("they go into: Stones")
    assert cards["Tide triangle 1 5/8 x 3 5/16"].count == "cut 3 (1 over)"
    assert all(card.pictures[0].svg.startswith("<svg") for card in cards.values())
    assert len(cards) == 5
