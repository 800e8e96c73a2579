"""Geometry: isometries, polygons that grow by the seam, clipping, pictures that match up to a turn."""

from itertools import pairwise
from math import acos, cos, dist, pi, radians, sin, sqrt, tan

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import Polygon as ShapelyPolygon

from piecewright.geometry.isometry import STILL, Isometry, cos_of, folded, laying, moved, sin_of, turned
from piecewright.geometry.matching import Marked, Picture, turn_onto, turns_onto
from piecewright.geometry.point import side_of, where_lines_meet
from piecewright.geometry.polygon import (
    area,
    bounds,
    clean,
    clip,
    clip_segment,
    clip_to,
    edges,
    extent,
    grown,
    joined_outline,
    placed,
    rectangle,
    same_polygon,
)

SEAM = 0.25

places = st.floats(-50, 50)
points = st.tuples(places, places)
angles = st.one_of(st.sampled_from([0, 30, 45, 60, 90, 135, 180, 270, 300]), st.floats(-720, 720))


@st.composite
def isometries(draw) -> Isometry:
    place = moved(*draw(points)).after(turned(draw(angles), draw(points)))
    if draw(st.booleans()):
        place = place.after(folded((0.0, 0.0), (cos(1.0), sin(1.0))))
    return place


@st.composite
def convex_polygons(draw):
    """Corners on a circle, none too near to the next, no side through or beyond the centre."""
    gaps = draw(st.lists(st.floats(1.0, 3.0), min_size=3, max_size=8))
    turns = [2 * pi * sum(gaps[:k]) / sum(gaps) for k in range(len(gaps))]
    radius, (x, y) = draw(st.floats(3, 20)), draw(points)
    first = draw(st.floats(0, 2 * pi))
    corners = [(x + radius * cos(first + t), y + radius * sin(first + t)) for t in turns]
    assume(all(b - a < 0.9 * pi for a, b in pairwise([*turns, 2 * pi])))
    return clean(corners)


def close(p, q, tolerance=1e-9):
    return dist(p, q) <= tolerance


@given(isometries(), isometries(), points)
def test_one_isometry_after_another_is_doing_both(first, second, p):
    assert close(second.after(first).at(p), second.at(first.at(p)), 1e-8)


@given(isometries(), points)
def test_back_undoes_an_isometry(place, p):
    assert close(place.back().at(place.at(p)), p, 1e-8)
    assert place.back().mirrored == place.mirrored


@given(isometries(), points, points)
def test_an_isometry_keeps_distances(place, p, q):
    assert dist(place.at(p), place.at(q)) == pytest.approx(dist(p, q), abs=1e-9)


@given(points, points, points)
def test_a_fold_leaves_its_line_and_carries_the_rest_across_it(a, b, p):
    assume(dist(a, b) > 0.01)
    over = folded(a, b)
    assert close(over.at(a), a, 1e-6)
    assert close(over.at(b), b, 1e-6)
    assert side_of(over.at(p), a, b) == pytest.approx(-side_of(p, a, b), abs=1e-6)
    assert close(over.at(over.at(p)), p, 1e-6)
    assert over.mirrored


@pytest.mark.parametrize("degrees", range(-720, 721, 30))
def test_turns_by_thirds_of_a_quarter_are_exact_to_the_last_digit(degrees):
    assert cos_of(degrees) == pytest.approx(cos(radians(degrees)), abs=1e-12)
    assert sin_of(degrees) == pytest.approx(sin(radians(degrees)), abs=1e-12)
    if degrees % 90 == 0:
        assert {abs(cos_of(degrees)), abs(sin_of(degrees))} == {0.0, 1.0}
    if degrees % 60 == 30 and degrees % 90:
        assert abs(sin_of(degrees)) == 0.5


@given(points, points, points, angles)
def test_laying_puts_one_edge_along_another(a, b, onto, degrees):
    assume(dist(a, b) > 0.01)
    along = turned(degrees, onto).at((onto[0] + 1.0, onto[1]))
    place = laying(a, b, onto, along)
    assert close(place.at(a), onto, 1e-7)
    assert side_of(place.at(b), onto, along) == pytest.approx(0, abs=1e-7)
    assert dist(place.at(b), onto) == pytest.approx(dist(a, b), abs=1e-7)


def test_a_turn_over_of_a_polygon_stays_counter_clockwise():
    assert area(placed(rectangle(2, 3), folded((0, 0), (1, 1)))) == pytest.approx(6)


def angle_at(before, corner, after):
    u = (before[0] - corner[0], before[1] - corner[1])
    v = (after[0] - corner[0], after[1] - corner[1])
    return acos((u[0] * v[0] + u[1] * v[1]) / (dist(before, corner) * dist(after, corner)))


def cot_half(angle):
    return 1 / tan(angle / 2)


@given(convex_polygons(), st.floats(0.05, 1.0))
def test_an_edge_grows_by_the_seam_times_the_cotangents_of_its_half_angles(polygon, seam):
    n = len(polygon)
    corner_angles = [angle_at(polygon[k - 1], polygon[k], polygon[(k + 1) % n]) for k in range(n)]
    larger = grown(polygon, seam)
    assert len(larger) == n
    for k, (a, b) in enumerate(edges(polygon)):
        added = seam * (cot_half(corner_angles[k]) + cot_half(corner_angles[(k + 1) % n]))
        beside = [
            dist(c, d)
            for c, d in edges(larger)
            if abs(side_of(c, a, b) + seam) < 1e-7 and abs(side_of(d, a, b) + seam) < 1e-7
        ]
        assert beside == [pytest.approx(dist(a, b) + added, abs=1e-7)]
    around = sum(dist(a, b) for a, b in edges(polygon))
    corners = sum(map(cot_half, corner_angles))
    assert area(larger) == pytest.approx(area(polygon) + seam * around + seam**2 * corners, abs=1e-6)


@given(convex_polygons(), st.floats(0.05, 1.0))
def test_what_has_grown_shrinks_back(polygon, seam):
    assert same_polygon(grown(grown(polygon, seam), -seam), polygon, 1e-6)


# Figures that are exact; their source is plane geometry: an edge between angles a and b grows by
# s(cot a/2 + cot b/2), rounded here to six places.
LEG = 4.0
HALF_SQUARE = ((0.0, 0.0), (LEG, 0.0), (0.0, LEG))
QUARTER_SQUARE = ((0.0, 0.0), (LEG, 0.0), (LEG / 2, LEG / 2))
EQUILATERAL = ((0.0, 0.0), (LEG, 0.0), (LEG / 2, LEG * sqrt(3) / 2))
HEXAGON = tuple((LEG * cos_of(60 * k), LEG * sin_of(60 * k)) for k in range(6))
MITRED_BORDER = ((0.0, 0.0), (LEG + 4, 0.0), (LEG + 2, 2.0), (2.0, 2.0))


def diamond(degrees):
    c, s = LEG * cos_of(degrees), LEG * sin_of(degrees)
    return ((0.0, 0.0), (LEG, 0.0), (LEG + c, s), (c, s))


@pytest.mark.parametrize(
    ("check", "shape", "added"),
    [
        ("seam_hst_add", HALF_SQUARE, 0.853553),
        ("seam_qst_add", QUARTER_SQUARE, 1.207107),
        ("seam_diamond60_add", diamond(60), 0.577350),
        ("seam_diamond45_add", diamond(45), 0.707107),
        ("seam_hexagon_add", HEXAGON, 0.288675),
        ("border_mitred", MITRED_BORDER, 1.207107),
    ],
)
def test_the_lower_edge_of_a_patch_is_cut_so_much_longer(check, shape, added):
    def lower_edge(polygon):
        return min(edges(polygon), key=lambda edge: edge[0][1] + edge[1][1])

    assert dist(*lower_edge(grown(shape, SEAM))) - dist(*lower_edge(shape)) == pytest.approx(
        added, abs=1e-6
    ), check


def test_an_equilateral_triangle_is_cut_three_seams_higher():
    # seam_eq_height_add 0.75: plane geometry, 3s.
    _, low, _, high = bounds(grown(EQUILATERAL, SEAM))
    assert high - low - LEG * sqrt(3) / 2 == pytest.approx(0.75, abs=1e-9)


def test_a_dog_ear_stands_out_by_the_seam_times_root_two():
    # dog_ear 0.353553: plane geometry, s sqrt 2. The triangle's tip against the end of a square laid on it.
    tip = max(x for x, _ in grown(HALF_SQUARE, SEAM))
    square_end = max(x for x, _ in grown(rectangle(LEG, LEG), SEAM))
    assert tip - square_end == pytest.approx(0.353553, abs=1e-6)


def test_a_patch_smaller_than_its_seams_is_nothing_once_sewn():
    assert grown(rectangle(0.4, 3), -SEAM) == ()


@given(convex_polygons(), points, angles)
def test_a_line_parts_a_polygon_in_two_that_make_the_whole(polygon, a, degrees):
    b = turned(degrees, a).at((a[0] + 1.0, a[1]))
    left, right = clip(polygon, a, b), clip(polygon, a, b, -1)
    whole = sum(area(part) for part in (left, right) if part)
    assert whole == pytest.approx(area(polygon), abs=1e-4)
    assert all(side_of(p, a, b) > -1e-6 for p in left)
    assert all(side_of(p, a, b) < 1e-6 for p in right)


@given(convex_polygons(), convex_polygons())
def test_what_is_inside_a_window_is_what_shapely_finds(polygon, window):
    inside = clip_to(polygon, window)
    expected = ShapelyPolygon(polygon).intersection(ShapelyPolygon(window)).area
    assert (area(inside) if inside else 0.0) == pytest.approx(expected, abs=1e-4)


def test_a_segment_is_clipped_at_the_sides_of_its_window():
    assert clip_segment(((-1.0, 1.0), (9.0, 1.0)), rectangle(4, 2)) == ((0.0, 1.0), (4.0, 1.0))
    assert clip_segment(((-1.0, 3.0), (9.0, 3.0)), rectangle(4, 2)) is None


def test_a_clean_polygon_starts_at_its_lowest_left_corner_without_needless_ones():
    assert clean([(4, 2), (2, 2), (0, 2), (0, 0), (0, 0), (4, 0)]) == ((0, 0), (4, 0), (4, 2), (0, 2))
    assert clean([(0, 0), (4, 0), (2, 0)]) == ()


def test_a_corner_a_hair_off_a_side_stays_unless_one_says_how_far_off_is_straight():
    corners = [(0, 0), (2, 0.0005), (4, 0), (4, 2), (0, 2)]
    assert len(clean(corners)) == 5
    assert clean(corners, straight=0.001) == ((0, 0), (4, 0), (4, 2), (0, 2))


def test_pieces_that_lie_apart_have_no_outline_together():
    touching = [rectangle(2, 2), placed(rectangle(2, 2), moved(2, 0))]
    assert same_polygon(joined_outline(touching), rectangle(4, 2), 1e-5)
    with pytest.raises(ValueError, match="do not touch"):
        joined_outline([rectangle(2, 2), placed(rectangle(2, 2), moved(3, 0))])


@given(st.floats(1, 20), st.floats(1, 20), isometries())
def test_the_extent_of_a_rectangle_is_its_size_however_it_lies(width, height, place):
    longer, shorter = max(width, height), min(width, height)
    assume(longer - shorter > 1e-3)
    assert extent(placed(rectangle(width, height), place)) == pytest.approx((longer, shorter), abs=1e-6)


def test_parallel_lines_do_not_meet():
    assert where_lines_meet((0, 0), (1, 1), (1, 0), (2, 1)) is None
    assert where_lines_meet((0, 0), (1, 1), (2, 0), (0, 2)) == (1, 1)


grids = st.integers(1, 3).flatmap(
    lambda n: st.lists(
        st.lists(st.sampled_from(["sail", "tide"]), min_size=n, max_size=n), min_size=n, max_size=n
    )
)


def picture_of(rows):
    """Squares of 2 in, rows from the bottom."""
    n = len(rows)
    patches = tuple(
        Marked(label, placed(rectangle(2, 2), moved(2 * x, 2 * y)))
        for y, row in enumerate(rows)
        for x, label in enumerate(row)
    )
    return Picture(rectangle(2 * n, 2 * n), patches)


def quarter_turned(rows):
    """The grid turned a quarter to the left, by indices only."""
    return [list(column) for column in zip(*reversed(rows), strict=True)]


def turned_over(rows):
    return [row[::-1] for row in rows]


def placed_picture(picture, place):
    return Picture(
        clean(placed(picture.outline, place)), tuple(patch.placed(place) for patch in picture.patches)
    )


@given(grids, angles, points)
def test_a_picture_is_found_again_however_it_is_turned(rows, degrees, at):
    picture = picture_of(rows)
    other = placed_picture(picture, turned(degrees).after(moved(*at)))
    place = turn_onto(picture, other, 1e-3)
    assert place is not None
    assert not place.mirrored


@given(grids)
def test_a_picture_lies_on_another_in_as_many_ways_as_its_grid_turns_onto_the_other(rows):
    other, ways = rows, 0
    for _ in range(4):
        ways += other == rows
        other = quarter_turned(other)
    assert len(list(turns_onto(picture_of(rows), picture_of(rows), 1e-3))) == ways


@given(grids)
def test_a_mirrored_picture_is_refused_unless_a_turn_makes_the_same(rows):
    mirrored, turns = turned_over(rows), [rows]
    for _ in range(3):
        turns.append(quarter_turned(turns[-1]))
    found = turn_onto(picture_of(rows), picture_of(mirrored), 1e-3)
    assert (found is not None) == (mirrored in turns)


def test_a_left_handed_corner_is_not_a_right_handed_one():
    left, right = [["sail", "sail"], ["tide", "sail"]], [["sail", "tide"], ["sail", "sail"]]
    assert turn_onto(picture_of(left), picture_of(right), 1e-3) is not None
    three = [["sail", "tide", "tide"], ["tide", "sail", "sail"], ["tide", "tide", "tide"]]
    assert turn_onto(picture_of(three), picture_of(turned_over(three)), 1e-3) is None


def test_a_print_that_runs_one_way_matches_only_whole_turns():
    square = rectangle(3, 3)

    def cloth(way, period):
        return Picture(square, (Marked("sea", square, way, period),))

    assert turn_onto(cloth(90, 90), cloth(0, 90), 1e-3) is not None
    assert len(list(turns_onto(cloth(90, 90), cloth(0, 90), 1e-3))) == 4
    assert [round(p.degrees) for p in turns_onto(cloth(90, 360), cloth(0, 360), 1e-3)] == [270]


def test_nothing_lies_on_nothing():
    nothing = Picture((), ())
    assert turn_onto(nothing, nothing, 1e-3) is None
    assert STILL.at((1, 2)) == (1, 2)
