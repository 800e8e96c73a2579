"""Truing up: every landmark finds the exact size, whichever way a unit lies; verdicts; the pictures."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drawn_things import COARSE, PALETTE
from piecewright.bench.as_drawn import compare
from piecewright.bench.bench import seam_of
from piecewright.bench.cloth import Cloth
from piecewright.bench.landmarks import points_of, window_at
from piecewright.bench.steps import TrueUp
from piecewright.bench.truing import Allowed, measured, true_up
from piecewright.drawing.method import run_through
from piecewright.drawing.recorder_pen import RecorderPen
from piecewright.drawing.truing import BEYOND, LANDMARK_WORDS, draw_truing, truing_svg
from piecewright.geometry.isometry import moved, turned
from piecewright.geometry.point import distance, near, side_of
from piecewright.geometry.polygon import area, edges, grown
from piecewright.measure.length import inches
from piecewright.methods import insquare_triangles, ways_for
from piecewright.methods.method import Method, Unit
from piecewright.methods.recipe import Recipe, make_recipe
from piecewright.methods.trial import solve, try_out
from piecewright.methods.verdicts import standing_of, verdict_of, verdict_tables
from piecewright.problems import Refused
from piecewright.workroom.workroom import METRIC_WORKROOM, Workroom
from promises import FABRICS, SAMPLES, unit_of

SEAM = seam_of(Workroom())
FREELY = Allowed(float("inf"), 0.0)
TRUED = [
    kind
    for kind in SAMPLES
    if any(m.landmark != "edges" for m in ways_for(unit_of(kind, inches(3)), Workroom()))
]


def way(unit: Unit, name: str) -> Method:
    return next(m for m in ways_for(unit, Workroom()) if m.name == name)


def half(width: str, height: str, hand: str = "right") -> Unit:
    return Unit("hrt", FABRICS, inches(width), inches(height), (), hand)


def made(unit: Unit, name: str, *sizes: float) -> Cloth:
    """What a way makes from these start sizes, before truing."""
    return try_out(way(unit, name), unit, sizes, Workroom()).kinds[0]


def recipe_of(kind: str, name: str, side: str = "3") -> Recipe:
    unit = unit_of(kind, inches(side))
    return make_recipe(way(unit, name), unit, Workroom())


@pytest.mark.parametrize("turn", [0.0, 90.0, 133.0])
@pytest.mark.parametrize("kind", TRUED)
def test_every_unit_has_a_landmark_that_finds_it_whichever_way_it_lies(kind, turn):
    unit = unit_of(kind, inches(3))
    size = tuple(map(float, unit.raw(Workroom().take_up)))
    for method in (m for m in ways_for(unit, Workroom()) if m.landmark != "edges"):
        recipe = make_recipe(method, unit, Workroom())
        cloth = recipe.cloth.placed(moved(2.0, 1.0).after(turned(turn)))
        trued = true_up(cloth, method.landmark, size, "ease", SEAM, Allowed(1 / 16, 1 / 8))
        assert sorted(trued.size) == pytest.approx(sorted(size), abs=1e-9), method.name
        assert compare(trued, unit.drawing, {}).differences == (), method.name


# Half-rectangle triangles


def test_the_seam_of_a_half_rectangle_triangle_runs_to_the_finished_corners_and_not_to_the_raw_ones():
    cloth = made(half("3", "4"), "from cut rectangles", 4.0, 5.5)
    window = window_at(cloth, "finished corners", (3.5, 4.5), SEAM)
    (seam,) = cloth.seams
    # Plane geometry: the 3-4-5 triangle; the seam is a diagonal of the finished 3 x 4.
    finished = [p for p in grown(window, -0.25) if abs(side_of(p, seam.path[0], seam.path[-1])) < 1e-9]
    assert len(finished) == 2
    assert distance(*finished) == pytest.approx(5)
    assert min(abs(side_of(p, seam.path[0], seam.path[-1])) for p in window) == pytest.approx(0.05)


@settings(max_examples=25)
@given(
    width=st.integers(16, 80),
    ratio=st.integers(20, 64),
    wider=st.integers(6, 12),
    higher=st.integers(6, 12),
    hand=st.sampled_from(["left", "right"]),
)
def test_rectangles_of_other_proportions_are_turned_until_the_seam_runs_true(
    width, ratio, wider, higher, hand
):
    unit = Unit("hrt", FABRICS, inches(Fraction(width, 16)), inches(Fraction(width * ratio, 256)), (), hand)
    method = way(unit, "from cut rectangles")
    exact = solve(method, unit, Workroom())
    # The longer side is enlarged by more, or there would not be enough on it.
    sizes = exact[0] + wider / 16, (exact[0] + wider / 16) * exact[1] / exact[0] + (higher - 6) / 32
    size = tuple(map(float, unit.raw(inches("1/4"))))
    trued = true_up(made(unit, method.name, *sizes), "finished corners", size, "trim", SEAM, FREELY)
    assert compare(trued, unit.drawing, {}).differences == ()


# Squares-in-a-square


def test_points_a_little_too_far_apart_are_eased_in_to_their_places():
    # Plane geometry: a square of 9 has its points sqrt 2 x 8 1/2 = 12.0208 apart, 12 is wanted.
    unit = Unit("insquare", FABRICS, inches(12), inches(12))
    cloth = made(unit, "from cut triangles", 9.0, 6.875)
    assert points_of(cloth).apart == pytest.approx(12.020815, abs=1e-6)
    for by, allowed in (("ease", Allowed(1 / 16, 1 / 8)), ("trim", Allowed(1 / 16, 0.0))):
        trued = true_up(cloth, "square", (12.5, 12.5), by, SEAM, allowed)
        assert compare(trued, unit.drawing, dict(zip(FABRICS, FABRICS, strict=True)), 0.25).differences == ()
        assert points_of(trued).apart == pytest.approx(12)


@pytest.mark.parametrize(("square", "apart"), [(9.25, "12.3744"), (8.75, "11.6673")])
def test_a_square_of_another_size_is_not_trued_up_whatever_its_corners(square, apart):
    # Plane geometry: sqrt 2 (S - 1/2).
    unit = Unit("insquare", FABRICS, inches(12), inches(12))
    cloth = made(unit, "from cut triangles", square, 7.5)
    with pytest.raises(Refused, match=f"the points are {apart} in apart, 12.0000 in was expected"):
        true_up(cloth, "square", (12.5, 12.5), "trim", SEAM, Allowed(1 / 16, 1 / 8))


def test_trimming_corners_that_are_only_a_hair_larger_would_be_a_sliver():
    unit = Unit("insquare", FABRICS, inches(12), inches(12))
    square, corner = insquare_triangles.exact(unit, 0.25, 0.0)
    cloth = made(unit, "from cut triangles", square, corner + 0.1)
    with pytest.raises(Refused, match=r"a sliver of 0\.1000 in"):
        true_up(cloth, "square", (12.5, 12.5), "trim", SEAM, Allowed(1 / 16, 1 / 8))


# Corner-flipped units


def test_a_corner_flipped_unit_is_measured_by_its_base():
    unit = Unit("corner1", FABRICS, inches(2), inches(4), (inches(2),), "right")
    cloth = make_recipe(way(unit, "stitch and flip"), unit, Workroom()).cloth
    assert measured(cloth, "base") == pytest.approx((2.5, 4.5))
    window = window_at(cloth, "base", (2.5, 4.5), SEAM)
    assert all(any(near(p, q, 1e-9) for q in cloth.raw) for p in window)


def test_edges_alone_are_no_landmark_where_seams_slant():
    cloth = recipe_of("snowball", "stitch and flip").cloth
    with pytest.raises(Refused, match="Measure from the seams"):
        true_up(cloth, "edges", (3.5, 3.5), "ease", SEAM, FREELY)


# Verdicts

# Common practice, no source: ease up to 1/16; house rule: at least 1/8 is trimmed.
VERDICTS = [
    ("2 7/16", "sew again"),
    ("2 1/2", "fine"),
    ("2 17/32", "ease"),
    ("2 9/16", "ease"),
    ("2 19/32", "sew again"),
    ("2 5/8", "true all up alike"),
    ("3", "true all up alike"),
]


@pytest.mark.parametrize(("size", "verdict"), VERDICTS)
def test_the_verdict_on_a_half_square_triangle_that_is_to_measure_two_and_a_half(size, verdict):
    recipe = recipe_of("hst", "two at a time", "2")
    assert verdict_of(recipe, (inches(size),), Workroom()).verdict == verdict


def test_what_lies_between_ease_and_trim_is_told_so():
    (table,) = verdict_tables(recipe_of("hst", "two at a time", "2"), Workroom())
    gap = table.row(inches("2 19/32"), Workroom())
    assert gap.do.startswith("Too little to trim well (under 1/8 in), too much to ease (over 1/16 in): ")
    assert gap.sizes("in") == "2 9/16 to 2 5/8 in"


def test_the_rows_of_a_table_follow_one_another_without_a_gap():
    for workroom in (Workroom(), METRIC_WORKROOM, Workroom(ease=inches("1/8")), Workroom(ease=inches(0))):
        for table in verdict_tables(recipe_of("hrt", "from cut rectangles", "4"), workroom):
            assert table.rows[0].least is None
            assert table.rows[-1].most is None
            assert all(one.most == two.least for one, two in zip(table.rows, table.rows[1:], strict=False)), (
                workroom
            )
            for row in table.rows:
                least, most = row.least or row.most - inches(1), row.most or row.least + inches(1)
                assert table.row((least + most) / 2, workroom) == row


def test_of_two_sides_the_worse_decides():
    # hrt_345's unit: 3 x 4 finished is 3 1/2 x 4 1/2 raw.
    unit = half("3", "4")
    recipe = make_recipe(way(unit, "from cut rectangles"), unit, Workroom())
    for sizes, verdict in (
        (("3 1/2", "4 1/2"), "fine"),
        (("3 1/2", "4 17/32"), "ease"),
        (("3 17/32", "4 5/8"), "true all up alike"),
        (("3 7/16", "4 5/8"), "sew again"),
    ):
        assert verdict_of(recipe, tuple(map(inches, sizes)), Workroom()).verdict == verdict
    with pytest.raises(ValueError, match="two for a rectangle"):
        verdict_of(recipe, (inches("3 1/2"),), Workroom())


def test_no_trims_below_a_sixteenth_are_ever_ordered():
    eager = Workroom(ease=inches("1/64"), trim=inches("1/32"))
    assert standing_of(3 / 64, eager) == "sliver"
    assert standing_of(1 / 16, eager) == "over"


def test_a_base_that_was_cut_too_large_is_not_trimmed_afterwards():
    recipe = recipe_of("snowball", "stitch and flip")
    row = verdict_of(recipe, (inches("3 3/4"),), Workroom())
    assert (row.verdict, row.standing) == ("sew again", "over")
    assert "too large" in row.do


# Pictures


def trimmed(unit: Unit, name: str, workroom: Workroom) -> tuple[Cloth, TrueUp]:
    recipe = make_recipe(next(m for m in ways_for(unit, workroom) if m.name == name), unit, workroom)
    moment = next(m for m in run_through(recipe, workroom) if isinstance(m.step, TrueUp))
    assert isinstance(moment.step, TrueUp)
    return moment.before.piles["unit"].kinds[0][0], moment.step


@pytest.mark.parametrize(
    ("unit", "name", "workroom", "spots", "lines", "offcuts"),
    [
        # Counted by hand: two finished corners, the diagonal and four seam lines, two edge lines.
        (half("2", "4"), "from cut rectangles, trimmed", COARSE, 2, 7, 4),
        # Four points, two middle lines and four seam lines, two edge lines.
        (unit_of("insquare", inches(3)), "from cut triangles, trimmed", Workroom(), 4, 8, 4),
        # One point, the middle line and one seam line, two edge lines; nothing comes off above.
        (unit_of("geese", inches(2)), "four at a time", COARSE, 1, 4, 3),
    ],
)
def test_the_ruler_lies_on_the_landmark(unit, name, workroom, spots, lines, offcuts):
    cloth, step = trimmed(unit, name, workroom)
    pen = RecorderPen()
    draw_truing(pen, cloth, step, seam_of(workroom), PALETTE)
    assert len(pen.of_style("landmark spot")) == spots
    assert len(pen.of_style("ruler line")) == lines
    assert len(pen.of_style("cut line")) == 2
    assert len(pen.of_style("offcut")) == offcuts


def test_what_is_hatched_is_what_comes_off():
    unit = half("2", "4")
    cloth, step = trimmed(unit, "from cut rectangles, trimmed", COARSE)
    pen = RecorderPen()
    draw_truing(pen, cloth, step, seam_of(COARSE), PALETTE)
    hatched = sum(abs(area(s.points)) for s in pen.of_style("offcut"))
    window = window_at(cloth, step.landmark, (2.5, 4.5), seam_of(COARSE))
    # 120 points are the longer side of the box: the scale comes from the ruler's own length.
    edge = next(s.points for s in pen.of_style("ruler line") if s.points[0][0] == s.points[1][0])
    scale = abs(edge[0][1] - edge[1][1]) / (4.5 + _beyond(cloth))
    assert hatched / scale**2 == pytest.approx(area(cloth.raw) - area(window), rel=1e-6)


def _beyond(cloth: Cloth) -> float:
    """How far the ruler reaches below the unit: a share of its longer side, or what sticks out."""
    step = window_at(cloth, "finished corners", (2.5, 4.5), seam_of(COARSE))
    a, b = edges(step)[0]
    depth = max(-side_of(p, a, b) for p in cloth.raw)
    tall = max(side_of(p, a, b) for p in cloth.raw) + depth
    return max(depth, BEYOND * tall)


def test_every_landmark_is_told_in_words():
    methods = [m for kind in TRUED for m in ways_for(unit_of(kind, inches(3)), Workroom())]
    assert {m.landmark for m in methods} <= set(LANDMARK_WORDS)
    cloth, step = trimmed(half("2", "4"), "from cut rectangles, trimmed", COARSE)
    assert "two corners of the ruler's seam lines" in truing_svg(cloth, step, seam_of(COARSE), PALETTE)
