"""Layers of cloth: counted from the real allowances, right by hand at crossings, every inch accounted for.

Hand counts: close to a point where n corners meet, each piece covers the whole way round, corners beyond its
seams included. It is cut by the seams and folded over them, so that n sectors have n times n layers together.
"""

from __future__ import annotations

from dataclasses import replace
from math import cos, pi, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon, unary_union

from drawn_things import WORKROOM, star
from piecewright.bench.cloth import Cloth, Towards
from piecewright.bench.joining import Joining, join
from piecewright.geometry.isometry import turned
from piecewright.geometry.polygon import area
from piecewright.measure.length import inches
from piecewright.methods import ways_for
from piecewright.methods.recipe import make_recipe
from piecewright.pressing.allowances import sheets_of
from piecewright.pressing.bulk import bulk_of, layers_of
from piecewright.problems import Refused
from promises import SAMPLES
from sewn_things import LEFT, LOW, RIGHT, SEAM, TOP, bar, patch, pinwheel, pressed, set_in, sewn


def square(fabric: str, side: float = 2.0) -> Cloth:
    return bar(side, side, fabric)


def pair(left: str, right: str, way: Towards) -> Cloth:
    return pressed(sewn(square(left), RIGHT, square(right), LEFT), way)


def four_patch(upper: Towards, lower: Towards) -> Cloth:
    """Two pairs, the lower one first; its long seam not yet pressed, its middle at (2, 2)."""
    return sewn(pair("net", "sea", lower), TOP, pair("sky", "sail", upper), LOW)


def spun(cloth: Cloth) -> Cloth:
    """The long seam changes side in the middle: to the upper pair on the left, to the lower on the right."""
    (seam,) = cloth.own_seams
    (right, _), (left, _) = seam.path
    assert left < right
    path = (seam.path[0], (2.0, 2.0), seam.path[1])
    return replace(cloth, own_seams=(replace(seam, path=path, pressed=("first", "second")),), _ends={})


def quadrants(cloth: Cloth) -> list[int]:
    """The layers beside the middle: upper left, upper right, lower left, lower right."""
    layers, off = layers_of(cloth), 0.1
    return [layers.at((2.0 + x, 2.0 + y)) for y in (off, -off) for x in (-off, off)]


# By hand, all with the long seam pressed up. Away from it a pair has 1 layer beside its seam and 3 where both
# allowances lie. The upper pair's allowance is folded up onto itself; the lower pair's lies flat on top.
FOUR_PATCHES = {
    # Upper pair 1, 3 from left to right; lower pair 3, 1. Up: 1 + 1 + 3 and 3 + 3 + 1.
    "opposite": ("second", "first", "second", [5, 7, 3, 1]),
    # Both pairs 1, 3. Up: 1 + 1 + 1 and 3 + 3 + 3.
    "the same way": ("second", "second", "second", [3, 9, 1, 3]),
    # Every pair 2, 2; each folds its own allowance under itself: 2 + 2.
    "open": ("open", "open", "open", [4, 4, 4, 4]),
    # Pairs pressed opposite, the long seam open: each doubles what it has.
    "long seam open": ("second", "first", "open", [2, 6, 6, 2]),
}


@pytest.mark.parametrize("name", FOUR_PATCHES)
def test_a_four_patch_has_the_layers_at_its_middle_that_one_counts_by_hand(name: str) -> None:
    upper, lower, across, counted = FOUR_PATCHES[name]
    cloth = pressed(four_patch(upper, lower), across)
    assert quadrants(cloth) == counted
    assert sum(counted) == 4 * 4
    assert layers_of(cloth).most == max(counted)


def test_a_spun_four_patch_has_four_layers_all_round_its_middle() -> None:
    # In each quadrant its own piece, one allowance folded back, one flat, and one small corner (a square of
    # the little four-patch that one sees from the back).
    cloth = spun(four_patch("second", "first"))
    assert quadrants(cloth) == [4, 4, 4, 4]
    assert layers_of(cloth).most == 4


def test_from_the_back_a_spun_centre_shows_a_small_four_patch() -> None:
    sheets = sheets_of(spun(four_patch("second", "first")))
    corners = [s for s in sheets if s.over and area(s.outline) == pytest.approx(0.25**2)]
    assert sorted(s.fabric for s in corners) == ["net", "sail", "sea", "sky"]


def one_way_round(last: str) -> Cloth:
    """Eight diamonds about (0, 0): pairs, quarters, halves, each pressed on against the clock.

    The last seam runs from left to right through the middle, the upper half on its left.
    """
    x, y = 3 * cos(pi / 4), 3 * sin(pi / 4)
    one = patch(((0.0, 0.0), (3.0, 0.0), (3.0 + x, y), (x, y)))
    for _ in range(2):
        one = pressed(sewn(one, (len(one.net) - 1,), one, LOW), "second")
    whole = sewn(one, LOW, one, LOW)
    (seam,) = whole.own_seams
    ways: dict[str, tuple[Towards, Towards]] = {
        "open": ("open", "open"),
        "to one side": ("first", "first"),
        "spun": ("second", "first"),
    }
    path = (seam.path[0], (0.0, 0.0), seam.path[1])
    return replace(whole, own_seams=(replace(seam, path=path, pressed=ways[last]),), _ends={})


# By hand, sector by sector of 45 degrees from the right on round to the left; a fold over the line at 45 d
# degrees brings sector k to sector 2 d - 1 - k (counted round 8). A pair has 1 in its own first sector, where
# the second diamond was folded away, and 3 in the next four: [1, 3, 3, 3, 3, 1, 1, 1]. A half is a pair and a
# pair turned by two sectors, folded over the line at 90 degrees: [1, 3, 5, 7, 7, 7, 1, 1].
EIGHT_POINTS = {
    # Each half folds its other side under itself: 1 + 1, 3 + 1, 5 + 7, 7 + 7.
    "open": [2, 4, 12, 14, 2, 4, 12, 14],
    # The upper half has that and the flat lower half's 7, 7, 1, 1; the lower half only its own 1, 3, 5, 7.
    "to one side": [9, 11, 13, 15, 1, 3, 5, 7],
    # The two diamonds at the right end of each half are folded, the two at its left end lie flat.
    "spun": [6, 10, 6, 10, 6, 10, 6, 10],
}


@pytest.mark.parametrize("last", EIGHT_POINTS)
def test_a_star_of_eight_points_has_the_layers_at_its_middle_that_one_counts_by_hand(last: str) -> None:
    layers = layers_of(one_way_round(last))
    angles = [(45 * k + 22.5) * pi / 180 for k in range(8)]
    counted = [layers.at((0.02 * cos(a), 0.02 * sin(a))) for a in angles]
    assert counted == EIGHT_POINTS[last]
    assert sum(counted) == 8 * 8
    assert layers.most == max(counted)
    assert any(abs(x) + abs(y) < 0.5 for x, y in layers.thickest)


def test_beside_a_plain_seam_lie_three_layers_to_a_side_or_two_open() -> None:
    # The seam lies at 2 in. To a side: the fabric and two allowances there; open: one on each side.
    to_right, opened = layers_of(pair("sky", "sea", "second")), layers_of(pair("sky", "sea", "open"))
    assert [to_right.at((x, 1.0)) for x in (1.0, 1.9, 2.1, 3.0)] == [1, 1, 3, 1]
    assert [opened.at((x, 1.0)) for x in (1.0, 1.9, 2.1, 3.0)] == [1, 2, 2, 1]


def test_the_bulk_of_a_seam_is_counted_where_it_is_thickest_for_every_pressing() -> None:
    # As in the four-patch by hand: 5 or 7 layers either way opposite, so 7; open 2 and 6. The same way 9.
    opposite = bulk_of(
        Joining(pair("net", "sea", "first"), (), TOP), Joining(pair("sky", "sail", "second"), LOW, ()), SEAM
    )
    assert (opposite.to_first, opposite.to_second, opposite.opened) == (7, 7, 6)
    # Against a plain strip the pair's allowance, 3 thick, is folded onto itself, or lies flat on the strip.
    strip = bar(4, 2, "rope")
    plain = bulk_of(Joining(pair("net", "sea", "first"), (), TOP), Joining(strip, LOW, ()), SEAM)
    assert (plain.to_first, plain.to_second, plain.opened) == (3 + 3 + 1, 1 + 1 + 3, 3 + 3)
    assert (plain.more("first"), plain.more("second"), plain.more("open")) == (2, 0, 1)


def test_bulk_is_counted_where_cloths_can_be_joined_only() -> None:
    with pytest.raises(Refused):
        bulk_of(Joining(square("sea"), (), TOP), Joining(square("sky", 3.0), LOW, ()), SEAM)


def test_a_seam_sewn_in_part_and_closed_lies_to_one_side_along_its_whole_length() -> None:
    layers = layers_of(pinwheel("second"))
    for x in (-2.0, 1.0, 2.2):
        assert (layers.at((x, 3.1)), layers.at((x, 2.9))) == (3, 1), x


def test_at_the_end_of_a_ring_s_seams_five_layers_lie_at_most() -> None:
    # By hand at a corner of the middle: a seam that has 1 and 3 layers beside it ends on a log. Pressed to
    # the log, that has itself, its own allowance folded back, and the 1 or 3 flat on it: 5 at most.
    layers = layers_of(pinwheel("second"))
    assert layers.most == 5
    assert len(layers.thickest) == 4


def test_a_square_set_in_folds_at_its_corner_with_both_sides() -> None:
    # Pressed to the corner that it is set into: its two allowances lie flat there, on two folded ones.
    to_corner, to_square = layers_of(set_in("first")), layers_of(set_in("second"))
    assert [to_corner.at(p) for p in ((4.5, 2.9), (2.9, 4.5), (4.5, 3.1), (3.1, 4.5))] == [3, 3, 1, 1]
    assert [to_square.at(p) for p in ((4.5, 2.9), (2.9, 4.5), (4.5, 3.1), (3.1, 4.5))] == [1, 1, 3, 3]


def accounted_for(cloth: Cloth) -> None:
    """Every inch of cloth lies somewhere, and something lies everywhere inside the net outline."""
    sheets = [Polygon(sheet.outline) for sheet in sheets_of(cloth)]
    caught = sum(more for _, more in cloth.all_caught)
    assert sum(sheet.area for sheet in sheets) == pytest.approx(cloth.area - caught, abs=1e-3)
    covered, net = unary_union(sheets, grid_size=1e-6).buffer(1e-4), Polygon(cloth.net)
    assert net.difference(covered).area == pytest.approx(0, abs=1e-4)
    # Seen from the front every place shows one cloth: what lies behind a seam does not stick out beyond it.
    front = [Polygon(sheet.outline).intersection(net) for sheet in sheets_of(cloth) if not sheet.allowance]
    assert sum(part.area for part in front) == pytest.approx(net.area, abs=1e-3)
    layers = layers_of(cloth)
    assert all(layers.at(point) == layers.most for point in layers.thickest)


@pytest.mark.parametrize("kind", SAMPLES)
def test_all_cloth_of_a_unit_is_accounted_for_whatever_the_way(kind: str) -> None:
    unit = SAMPLES[kind](inches(6))
    for way in ways_for(unit, WORKROOM)[:3]:
        accounted_for(make_recipe(way, unit, WORKROOM).cloth)


def goose_on_a_square(way_pressed: Towards = "first") -> Cloth:
    """A goose whose ears were not cut off, its point to a square, the seam at 6 in up."""
    unit = SAMPLES["geese"](inches(3))
    way = next(way for way in ways_for(unit, WORKROOM) if way.name == "four at a time")
    goose = make_recipe(way, unit, WORKROOM).cloth
    # Both its seams end in the middle of the side with the point.
    (points,) = (k for k in range(4) if [round(end.at, 2) for end in goose.ends_on(k)] == [3, 3])
    return pressed(sewn(bar(6, 6), TOP, goose, (points,)), way_pressed)


def test_nothing_of_a_cloth_lies_beyond_a_seam_that_is_pressed_to_it_not_even_ears() -> None:
    for sheet in sheets_of(goose_on_a_square("second")):
        above = min(y for _, y in sheet.owner) > 5.9
        if above:
            assert min(y for _, y in sheet.outline) > 5.99


@pytest.mark.parametrize(
    "cloth",
    [star("first"), star("open"), pinwheel(), pinwheel("first"), set_in(), goose_on_a_square()],
)
def test_all_cloth_of_a_block_is_accounted_for(cloth: Cloth) -> None:
    accounted_for(cloth)


TO_A_SIDE = st.sampled_from(["first", "second", "open"])


@settings(max_examples=40)
@given(st.data(), st.integers(1, 3), st.integers(1, 3))
def test_all_cloth_of_squares_in_rows_is_accounted_for_pressed_any_way(data, across: int, down: int) -> None:
    rows = []
    for number in range(down):
        parts = [Joining(square(f"{number}"), LEFT, RIGHT) for _ in range(across)]
        row = join(parts, "row", SEAM) if across > 1 else square(f"{number}")
        rows.append(pressed(row, *(data.draw(TO_A_SIDE) for _ in row.own_seams)))
    cloth = rows[0]
    if down > 1:
        cloth = join([Joining(row, LOW, TOP) for row in rows], "rows", SEAM)
        cloth = pressed(cloth, *(data.draw(TO_A_SIDE) for _ in cloth.own_seams))
    accounted_for(cloth)


@settings(max_examples=25)
@given(st.floats(-180, 180), TO_A_SIDE, TO_A_SIDE, TO_A_SIDE)
def test_layers_do_not_change_when_the_thing_is_turned(degrees, upper, lower, across) -> None:
    cloth = pressed(four_patch(upper, lower), across)
    turn = turned(degrees, (2.0, 2.0))
    assert layers_of(cloth.placed(turn)).most == layers_of(cloth).most
