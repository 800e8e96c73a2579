"""Shapes by the general offset rule: from strips, round templates, stars of diamonds, quarter circles."""

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from math import cos, floor, pi, sin, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Point as ShapelyPoint
from shapely import Polygon as ShapelyPolygon

from piecewright.bench.as_drawn import compare
from piecewright.bench.steps import CutApart, CutOut, Join
from piecewright.design.drawing import Group, Patch, Placed
from piecewright.design.kinds import KINDS
from piecewright.design.kinds.quarter_circle import curve
from piecewright.design.kinds.star_eight import side_of_diamond
from piecewright.design.read import design_from
from piecewright.geometry.isometry import moved, turned
from piecewright.geometry.offset import angles_of, cut_shape
from piecewright.geometry.point import distance
from piecewright.geometry.polygon import area, bounds, edges, grown, placed, rectangle
from piecewright.measure.length import Length, inches, mm
from piecewright.measure.rounding import exactly
from piecewright.methods import ways_for
from piecewright.methods.comparing import compare_ways, unit_wanted
from piecewright.methods.kinds import recognise
from piecewright.methods.method import Method, Unit
from piecewright.methods.recipe import Recipe, make_recipe
from piecewright.methods.shape_seen import shape_of
from piecewright.methods.shape_words import nearby_whole_marks, strip_height
from piecewright.methods.template_outlines import template_outlines
from piecewright.planning.make_plan import make_plan
from piecewright.planning.things import UnitThing
from piecewright.problems import Refused
from piecewright.toml_places import toml_from_text
from piecewright.workroom.workroom import METRIC_WORKROOM, Workroom
from promises import SAMPLES, keeps_its_promises, unit_of

SEAM = 0.25
ONE_PATCH = [key for key, kind in KINDS.items() if kind.patches == 1]
FROM_STRIPS = ["diamond45", "diamond60", "triangle60", "hexagon", "trapezoid", "trapezoid-upright"]

SHAPES = {
    "kite": ((2, 0), (3, 4), (2, 5), (1, 4)),
    "trapezoid": ((0, 0), (5, 0), (4, 2), (1, 2)),
    "obtuse": ((0, 0), (6, 0), (8, 1), (3, 1.5)),
    "L with a reflex corner": ((0, 0), (4, 0), (4, 1), (1, 1), (1, 3), (0, 3)),
    "dart": ((0, 0), (4, 0), (1, 1), (0, 4)),
    "triangle": ((0, 0), (3, 0), (0.5, 2)),
}


def shape(kind: str, *sizes: str, hand: str = "") -> Unit:
    """A unit of one patch: width, height, measures."""
    width, height, *more = map(inches, sizes)
    return Unit(kind, ("sail",), width, height, tuple(more), hand)


def way(unit: Unit, name: str, workroom: Workroom | None = None) -> Method:
    return next(m for m in ways_for(unit, workroom or Workroom()) if m.name == name)


def recipe(unit: Unit, name: str) -> Recipe:
    return make_recipe(way(unit, name), unit, Workroom())


def seam(take_up: Length) -> Workroom:
    return Workroom(needle=take_up - take_up / 16, fold=take_up / 16)


# ---------------------------------------------------------------- the general rule


@pytest.mark.parametrize("name", SHAPES)
@pytest.mark.parametrize("take_up", [0.1, 0.25, 0.3])
def test_the_cut_shape_is_the_outline_moved_out_with_sharp_corners(name, take_up):
    """Shapely's mitred buffer is an oracle that knows nothing of the rule."""
    cut = cut_shape(SHAPES[name], take_up)
    buffered = ShapelyPolygon(SHAPES[name]).buffer(take_up, join_style="mitre", mitre_limit=1000)
    assert ShapelyPolygon(cut.raw).symmetric_difference(buffered).area < 1e-9
    measured = sorted(distance(a, b) for a, b in edges(cut.raw))
    assert sorted(edge.cut for edge in cut.edges) == pytest.approx(measured, abs=1e-9)


@given(
    spokes=st.lists(st.floats(0.6, 3.0), min_size=3, max_size=9),
    take_up=st.floats(0.01, 0.15),
)
def test_every_edge_of_any_patch_grows_by_the_rule(spokes, take_up):
    """Patches with a corner on each spoke of a wheel; many of their corners point inwards."""
    turn = 2 * pi / len(spokes)
    net = tuple((r * cos(k * turn), r * sin(k * turn)) for k, r in enumerate(spokes))
    try:
        cut = cut_shape(net, take_up)
    except Refused:
        return
    buffered = ShapelyPolygon(net).buffer(take_up, join_style="mitre", mitre_limit=1000)
    assert ShapelyPolygon(cut.raw).symmetric_difference(buffered).area < 1e-6
    assert sorted(edge.cut for edge in cut.edges) == pytest.approx(
        sorted(distance(a, b) for a, b in edges(cut.raw)), abs=1e-6
    )


def test_the_sum_is_written_out():
    # Plane geometry: 4 + s(cot 45 + cot 45) = 4 1/2; at the reflex corner of an L s(cot 45 + cot 135) = 0.
    cut = cut_shape(SHAPES["L with a reflex corner"], SEAM)
    assert cut.edges[0].sum_in("in") == (
        "4.0000 in + 0.2500 in x (cot 45 + cot 45) = 4.0000 in + 0.2500 in x (1.0000 + 1.0000) = 4.5000 in"
    )
    assert cut.edges[2].sum_in("cm") == (
        "7.620 cm + 0.635 cm x (cot 45 + cot 135) = 7.620 cm + 0.635 cm x (1.0000 + -1.0000) = 7.620 cm"
    )
    assert cut.edges[2].growth == pytest.approx(0, abs=1e-12)


def test_angles_are_inner_angles():
    assert angles_of(rectangle(2, 3)) == pytest.approx((90,) * 4)
    assert angles_of(SHAPES["L with a reflex corner"])[3] == pytest.approx(270)


def test_an_edge_that_would_vanish_is_refused_with_its_length():
    # A notch 3/8 in wide: its allowances, 1/4 in from either side, would lie over one another.
    notched = ((0, 0), (4, 0), (4, 2), (2.375, 2), (2.375, 1), (2, 1), (2, 2), (0, 2))
    with pytest.raises(Refused, match=r"an edge finished 0.3750 in would be cut -0.1250 in long"):
        cut_shape(notched, SEAM)


@pytest.mark.parametrize("net", [(), ((0, 0), (1, 0)), ((0, 0), (0, 1), (1, 0)), ((0, 0), (1, 0), (2, 0))])
def test_what_is_no_patch_is_refused(net):
    with pytest.raises(Refused, match="a patch with an inside"):
        cut_shape(net, SEAM)


# ---------------------------------------------------------------- figures of the trade


@pytest.mark.parametrize(
    ("kind", "added"),
    # seam_diamond60_add, seam_diamond45_add, seam_hexagon_add: plane geometry, seam 1/4.
    [("diamond60", 0.577350), ("diamond45", 0.707107), ("hexagon", 0.288675)],
)
def test_what_is_added_to_the_side(kind, added):
    drawn = shape(kind, "3", "3").drawing.outline
    assert [edge.growth for edge in cut_shape(drawn, SEAM).edges] == pytest.approx(
        [added] * len(drawn), abs=1e-6
    )


def test_a_sixty_degree_triangle_grows_by_three_seams_in_height():
    # seam_eq_height_add: plane geometry, 3s. eq_side: finished height 3, cut side 4.330127.
    unit = shape("triangle60", "3", "3")
    assert strip_height(unit, Workroom()) - 3 == pytest.approx(0.75, abs=1e-9)
    assert cut_shape(unit.drawing.outline, SEAM).edges[0].cut == pytest.approx(4.330127, abs=1e-6)


def test_a_hexagon_from_flat_to_flat():
    # hex_flat: side 3, plane geometry.
    _, low, _, high = bounds(shape("hexagon", "3", "3").drawing.outline)
    assert high - low == pytest.approx(5.196152, abs=1e-6)


def test_the_diamonds_of_a_star():
    # star_side, star_strip: plane geometry, B / (2 + sqrt 2).
    assert side_of_diamond(12) == pytest.approx(3.514719, abs=1e-6)
    assert strip_height(unit_of("star8", inches(12)), Workroom()) == pytest.approx(2.985281, abs=1e-6)


def test_the_diamonds_of_a_star_in_print():
    # star_pub: S. Collins, Drafting for the Creative Quilter (C&T 2010), 18 / 3.414 = 5.2724. The published
    # divisor is 2 + sqrt 2 cut off after three figures; geometry, 5.2721, is right.
    published = 18 / 3.414
    assert published == pytest.approx(5.2724, abs=5e-5)
    assert side_of_diamond(18) == pytest.approx(5.2724, abs=5e-4)
    assert side_of_diamond(18) == pytest.approx(18 / (2 + sqrt(2)), abs=1e-12)


# ---------------------------------------------------------------- single shapes


@pytest.mark.parametrize("kind", [*ONE_PATCH, "quarter-circle"])
@settings(max_examples=6)
@given(
    side=st.integers(7, 40).map(lambda eighths: inches(Fraction(eighths, 8))),
    take_up=st.integers(8, 12).map(lambda parts: inches(Fraction(parts, 32))),
)
def test_shapes_keep_the_promises_in_inches(kind, side, take_up):
    unit, workroom = unit_of(kind, side), seam(take_up)
    methods = ways_for(unit, workroom)
    assert methods
    for m in methods:
        keeps_its_promises(m, unit, workroom)


@pytest.mark.parametrize("kind", [*ONE_PATCH, "quarter-circle"])
@pytest.mark.parametrize("take_up", ["5", "6", "7.5"])
def test_shapes_keep_the_promises_in_centimetres(kind, take_up):
    half = mm(Fraction(1, 2))
    workroom = Workroom(
        unit="cm",
        needle=mm(take_up) - half,
        fold=half,
        rounding=METRIC_WORKROOM.rounding,
        usable_width=METRIC_WORKROOM.usable_width,
    )
    for side in (mm(30), mm("67.5"), mm(150)):
        unit = unit_of(kind, side)
        for m in ways_for(unit, workroom):
            keeps_its_promises(m, unit, workroom)


@pytest.mark.parametrize(
    ("unit", "count"),
    [
        # Plane geometry, floors; cloth 40 in: (40 - 2.6213) / 3.7071, (40 - 3.5774 / 2) / 3.5774,
        # 40 / 2.1651 half sides of which one is lost, (40 - 3.2887) / 6.5774.
        (shape("diamond45", "3", "3"), floor((40 - 2.6213) / 3.7071)),
        (shape("diamond60", "3", "3"), floor((40 - 3.5774 / 2) / 3.5774)),
        (shape("triangle60", "3", "3"), floor(40 / 2.1651) - 1),
        (shape("hexagon", "3", "3"), floor((40 - 3.2887) / 6.5774)),
        # Each takes half the sum of both cut sides, 4.8090 and 2.3090; a slant of 1.25 is lost.
        (shape("trapezoid", "4", "2", "2"), floor((40 - 1.25) / ((4.8090 + 2.3090) / 2))),
        # Two take 4.8536 and 2.3536 together, the first of a pair 4.8536: five pairs take 36.04.
        (shape("trapezoid-upright", "4", "2", "2"), 2 * floor(40 / (4.8536 + 2.3536))),
    ],
    ids=lambda value: getattr(value, "kind", value),
)
def test_how_many_come_out_of_a_strip(unit, count):
    made = recipe(unit, "from strips")
    assert made.method.makes == count
    (strip,) = made.start_sizes()
    assert strip == (inches(40), exactly(strip_height(unit, Workroom())))
    assert isinstance(made.steps[0], CutApart)


def test_six_strips_make_fifty_six_diamonds():
    ways = compare_ways(unit_wanted("diamond45", inches(3), inches(3)), 56, Workroom())
    assert {way.name for way in ways} == {"from strips", "by template"}
    strips = next(way for way in ways if way.name == "from strips")
    assert (strips.batches, strips.left_over) == (6, 4)


def test_a_shape_too_large_for_a_strip_is_cut_by_template_only():
    assert [m.name for m in ways_for(shape("hexagon", "20", "20"), Workroom())] == ["by template"]


def test_triangles_of_a_one_way_print_do_not_look_alike_from_strips():
    unit = shape("triangle60", "3", "3")
    with pytest.raises(Refused, match="since the print runs one way"):
        make_recipe(way(unit, "from strips"), unit, Workroom(), frozenset({"sail"}))
    assert make_recipe(way(unit, "by template"), unit, Workroom(), frozenset({"sail"})).method.makes == 1


def test_a_template_is_cut_out_of_the_rectangle_that_holds_it():
    unit = shape("kite", "3", "5", "2")
    made = recipe(unit, "by template")
    (step,) = made.steps
    assert isinstance(step, CutOut)
    assert made.offcuts == pytest.approx(made.cloth_area - area(grown(unit.drawing.outline, SEAM)), abs=1e-9)


@pytest.mark.parametrize(
    ("unit", "message"),
    [
        (
            shape("diamond45", "3", "2"),
            "expected a 45 degree diamond to be told by one size, its finished side",
        ),
        (shape("triangle60", "3", "2"), "told by one size, its finished height"),
        (shape("hexagon", "3", "2"), "expected a hexagon to be told by one size"),
        (shape("kite", "3", "5", "5"), "expected a kite to be widest below its upper point"),
        (shape("trapezoid", "3", "2", "3"), "to have a top shorter than its long side"),
        (shape("trapezoid", "3", "2"), "a trapezoid needs top besides its size"),
        (shape("trapezoid", "3", "2", "0"), "cannot be made"),
        (replace(shape("kite", "3", "5", "2"), fabrics=()), "one fabric was expected"),
        (Unit("quarter-circle", ("a", "b"), inches(3), inches(3), (inches(3),)), "a radius below its side"),
        (Unit("quarter-circle", ("a", "b"), inches(3), inches(4), (inches(2),)), "to be square"),
        (
            Unit("quarter-circle", ("a", "b"), inches(3), inches(3), (inches("1/4"),)),
            "Choose a larger radius",
        ),
    ],
    ids=lambda value: getattr(value, "kind", ""),
)
def test_shapes_that_are_none_are_refused(unit, message):
    with pytest.raises(Refused, match=message) as refused:
        ways_for(unit, Workroom())
    assert "\n" not in str(refused.value)


def test_the_hand_of_a_trapezoid_is_the_side_of_its_upright_leg():
    left, right = (shape("trapezoid-upright", "4", "2", "2", hand=hand) for hand in ("left", "right"))
    assert left.drawing.outline[3] == (0, 2)
    assert right.drawing.outline[2] == (4, 2)
    for name in ("from strips", "by template"):
        made = recipe(left, name).cloth
        assert compare(made, left.drawing, {}).differences == ()
        assert compare(made, right.drawing, {}).differences != ()


@pytest.mark.parametrize("kind", ONE_PATCH)
@pytest.mark.parametrize("degrees", [0, 15, 90, 180, 270])
def test_a_drawn_shape_is_recognised_at_every_angle(kind, degrees):
    for hand in KINDS[kind].hands:
        unit = replace(unit_of(kind, inches("2 1/2")), hand=hand)
        (patch,) = unit.drawing.patches
        found = shape_of(patch.placed(moved(7, -3).after(turned(degrees))))
        assert found is not None
        assert (found.kind, found.fabrics, found.hand) == (kind, ("sail",), hand)
        assert (found.width, found.height) == (unit.width, unit.height)


@pytest.mark.parametrize(
    "outline", [rectangle(2, 3), rectangle(2, 2), ((0, 0), (3, 0), (0, 3)), ((0, 0), (5, 0), (6, 2), (2, 1))]
)
def test_rectangles_and_shapes_of_no_kind_are_not_recognised(outline):
    assert shape_of(Patch("sail", placed(outline, turned(45)))) is None


# ---------------------------------------------------------------- strips on the ruler's marks


@pytest.mark.parametrize("kind", [*FROM_STRIPS, "star8"])
def test_nearby_sizes_have_strips_that_the_ruler_shows(kind):
    workroom = Workroom()
    unit = unit_of(kind, inches("3 3/64"))
    near = nearby_whole_marks(unit, workroom)
    assert len(near) == 2
    below, above = near
    assert below.finished < float(unit.height) < above.finished
    assert float(above.strip - below.strip) == pytest.approx(1 / 8)
    for mark in near:
        scaled = mark.finished / float(unit.height)
        net = [(x * scaled, y * scaled) for x, y in _strip_net(unit)]
        _, low, _, high = bounds(grown(tuple(net), SEAM))
        assert high - low == pytest.approx(float(mark.strip), abs=1e-9)


def _strip_net(unit: Unit):
    return (
        next(outline for number, outline in KINDS["star8"].shapes(unit.form))
        if unit.kind == "star8"
        else unit.drawing.outline
    )


def test_a_strip_that_is_on_a_mark_is_its_own_neighbour():
    # Plane geometry: a triangle finished 3 in high is cut 3 + 3s = 3 3/4 in high.
    (own,) = nearby_whole_marks(shape("triangle60", "3", "3"), Workroom())
    assert (own.strip, own.finished) == (inches("3 3/4"), pytest.approx(3))
    assert not any("No mark" in line for line in way(shape("triangle60", "3", "3"), "from strips").says)


def test_a_strip_that_is_on_no_mark_is_told_with_its_neighbours():
    # Plane geometry: strips of 2 7/8 and 3 in make diamonds of (H - 2s) sqrt 2 = 3.3588 and 3.5355 in.
    told = " ".join(way(shape("diamond45", "3 1/2", "3 1/2"), "from strips").says)
    assert "3.3588 in from strips 2 7/8 in or 3.5355 in from strips 3 in" in told


# ---------------------------------------------------------------- stars


def test_squares_and_triangles_of_a_star_are_cut_by_the_rule():
    # Plane geometry: squares F + 2s; side triangles from F sqrt 2 + 2s cot 22.5 (seam_qst_add 1.207107), cut
    # on both diagonals; halves from F + s(cot 45 + cot 22.5) (seam_hst_add 0.853553), cut on one.
    side = 12 / (2 + sqrt(2))
    _, height, square, large = recipe(unit_of("star8", inches(12)), "set in").sizing.exact
    assert height == pytest.approx(2.985281, abs=1e-6)
    assert square == pytest.approx(side + 0.5, abs=1e-9)
    assert large == pytest.approx(side * sqrt(2) + 1.207107, abs=1e-6)
    _, _, small, other = recipe(unit_of("star8-wedges", inches(12)), "in wedges").sizing.exact
    assert small == pytest.approx(side / sqrt(2) + 0.853553, abs=1e-6)
    assert other == pytest.approx(side + 0.853553, abs=1e-6)


def test_set_in_seams_run_round_a_corner_and_wedges_have_none():
    seams = recipe(unit_of("star8", inches(12)), "set in").cloth.seams
    assert sum(len(seam.segments) == 2 for seam in seams) == 8
    straight = recipe(unit_of("star8-wedges", inches(12)), "in wedges").cloth.seams
    assert {len(seam.segments) for seam in straight} == {1}


def test_wedges_take_more_seams_and_more_cloth():
    star, wedges = (
        recipe(unit_of("star8", inches(12)), "set in"),
        recipe(unit_of("star8-wedges", inches(12)), "in wedges"),
    )
    joins = [sum(step.times for step in r.steps if isinstance(step, Join)) for r in (star, wedges)]
    # Counted by hand: 4 pairs, 2 halves, 1, and 8 set in; 16 triangles, 4, 2 and 1.
    assert joins == [15, 23]
    assert wedges.cloth_area > star.cloth_area


@pytest.mark.parametrize("kind", ["star8", "star8-wedges", "quarter-circle"])
@pytest.mark.parametrize("degrees", [0, 90, 180, 270])
def test_a_drawn_block_is_recognised_at_every_quarter_turn(kind, degrees):
    unit = unit_of(kind, inches(6))
    drawn = unit.drawing
    place = moved(3, 3).after(turned(degrees)).after(moved(-3, -3))
    block = Group("block", tuple(Placed(patch.placed(place)) for patch in drawn.patches), drawn.outline)
    found = recognise(block)
    assert found is not None
    assert (found.kind, found.width, found.measures) == (kind, unit.width, unit.measures)
    assert set(found.fabrics) == set(unit.fabrics)
    first = ways_for(found, Workroom())[0]
    assert compare(make_recipe(first, found, Workroom()).cloth, block, {}).differences == ()


DRAFTED = {
    # A 12 in block as one types it: what geometry makes of 12 / (2 + sqrt 2), and the word for it.
    0.0: "0",
    6.0: "6",
    12.0: "12",
    12 - 6 * sqrt(2): "12 - 6 sqrt 2",
    6 * sqrt(2) - 6: "6 sqrt 2 - 6",
    6 * sqrt(2): "6 sqrt 2",
    18 - 6 * sqrt(2): "18 - 6 sqrt 2",
}


def drafted(unit: Unit) -> str:
    """A design of one block whose patches are a unit's, told by their corners."""

    def word(place: float) -> str:
        return next(word for value, word in DRAFTED.items() if abs(value - place) < 1e-9)

    def corners(patch: Patch) -> str:
        return ", ".join(f'["{word(x)}", "{word(y)}"]' for x, y in patch.outline)

    patches = [f'{{ role = "{p.role}", corners = [{corners(p)}] }},' for p in unit.drawing.patches]
    fabrics = [f'[fabrics.{key}]\nname = "{key}"\ncolour = "#334455"' for key in unit.fabrics]
    return "\n".join(
        [
            'title = "Lamp"\nunit = "in"',
            *fabrics,
            '[blocks.lamp]\nname = "Lamp"\nsize = "12"\npatches = [',
            *patches,
            ']\n[setting]\nacross = 2\ndown = 1\narrangement = "lamp"',
        ]
    )


@pytest.mark.parametrize(("kind", "name"), [("star8", "set in"), ("star8-wedges", "in wedges")])
def test_a_quilt_of_stars_drawn_by_corners_is_planned_and_made_as_drawn(kind, name):
    design, problems = design_from(toml_from_text(drafted(unit_of(kind, inches(12))), "lamp.toml"))
    assert design is not None, problems
    job = make_plan(design, Workroom(liked=(name,)))
    assert job.replay.made_as_drawn
    (unit,) = (thing for thing in job.things.values() if isinstance(thing, UnitThing))
    assert (unit.recipe.method.name, job.counts[unit.name]) == (name, 2)


def test_a_star_of_other_colours_is_the_same_kind_with_its_fabrics_in_order():
    unit = Unit("star8", ("tide", "sail", "sea"), inches(6), inches(6))
    found = recognise(unit.drawing)
    assert found is not None
    assert (found.kind, found.fabrics[2]) == ("star8", "sea")


# ---------------------------------------------------------------- quarter circles


def test_the_curve_is_as_near_the_circle_as_is_told():
    for radius, count in ((3.0, 32), (12.0, 62)):
        points = curve(radius)
        assert len(points) - 1 == count
        off = [abs(distance((0, 0), p) - radius) for p in points]
        assert max(off) <= 1e-3
        assert max(off) > 0.5e-3
        middles = [distance((0, 0), ((a + c) / 2, (b + d) / 2)) for (a, b), (c, d) in pairwise(points)]
        assert all(radius - 1e-9 <= middle <= radius + 1e-3 for middle in middles)


def test_the_square_for_a_quarter_of_radius_three():
    # quarter_circle: 3.490370. Where that comes from: the cut curve is the circle of radius R + s about the
    # finished corner; carried on through the allowance it meets the raw edges, which lie s outside that
    # corner, s + sqrt((R + s)^2 - s^2) from theirs. So 3.490370 is the length of the straight raw edges. Just
    # above them the circle bulges to R + s, and a square that really holds the patch has R + 2s = 3 1/2:
    # geometry is right, the square of the check is short by 0.0096.
    round_it = ShapelyPoint(0, 0).buffer(3 + SEAM, quad_segs=4000)
    raw = round_it.intersection(ShapelyPolygon([(-SEAM, -SEAM), (9, -SEAM), (9, 9), (-SEAM, 9)]))
    on_edge = [x for x, y in raw.exterior.coords if abs(y + SEAM) < 1e-9]
    assert max(on_edge) - min(on_edge) == pytest.approx(3.490370, abs=1e-5)
    assert raw.bounds[2] - raw.bounds[0] == pytest.approx(3.5, abs=1e-6)

    unit = Unit("quarter-circle", ("sail", "tide"), inches(4), inches(4), (inches(3),))
    quarter, rest = recipe(unit, "by template").sizing.cut
    assert (quarter, rest) == (inches("3 1/2"), inches("4 1/2"))
    # The template's edges run on straight through the allowance: a little more than the circle, never less.
    cut = ShapelyPolygon(grown(unit.drawing.patches[0].outline, SEAM))
    assert cut.buffer(1e-6).covers(raw)
    assert cut.difference(raw).area < 0.01


def test_a_quarter_circle_is_sewn_in_one_seam_along_the_curve():
    unit = Unit("quarter-circle", ("sail", "tide"), inches(4), inches(4), (inches(3),))
    (seam_,) = recipe(unit, "by template").cloth.seams
    assert len(seam_.segments) == 32
    # Plane geometry: a quarter of the circumference.
    assert sum(distance(a, b) for a, b in seam_.segments) == pytest.approx(pi * 3 / 2, abs=2e-3)


def test_the_rest_of_a_tight_quarter_circle_keeps_its_cloth():
    """The bench cuts nothing off a patch that a curve runs into."""
    unit = Unit("quarter-circle", ("sail", "tide"), inches("3/4"), inches("3/4"), (inches("3/8"),))
    made = recipe(unit, "by template").cloth
    rest = next(face for face in made.faces if face.fabric == "tide")
    assert area(rest.seen) == pytest.approx(area(grown(unit.drawing.patches[1].outline, SEAM)), abs=1e-9)


# ---------------------------------------------------------------- templates


@pytest.mark.parametrize("kind", SAMPLES)
def test_templates_of_a_unit_cover_it(kind):
    unit = unit_of(kind, inches(3))
    found = template_outlines(unit)
    assert len({name for name, *_ in found}) == len(found)
    assert sum(area(outline) * count for _, outline, _, count in found) == pytest.approx(
        area(unit.drawing.outline), abs=1e-6
    )
    for _, outline, number, _ in found:
        assert bounds(outline)[:2] == pytest.approx((0, 0), abs=1e-9)
        assert 0 <= number < len(unit.fabrics)


def test_the_templates_of_a_quarter_circle():
    unit = Unit("quarter-circle", ("sail", "tide"), inches(4), inches(4), (inches(3),))
    (quarter, pie, first, one), (rest, corner, second, other) = template_outlines(unit)
    assert (quarter, first, one, rest, second, other) == ("quarter", 0, 1, "background", 1, 1)
    assert area(pie) == pytest.approx(pi * 9 / 4, abs=4e-3)
    assert area(pie) + area(corner) == pytest.approx(16)


def test_the_halves_of_squares_and_triangles_are_two_templates():
    wedges = template_outlines(unit_of("star8-wedges", inches(6)))
    assert [(name, count) for name, _, _, count in wedges] == [
        ("first points", 4),
        ("second points", 4),
        ("background 1", 8),
        ("background 2", 8),
    ]
