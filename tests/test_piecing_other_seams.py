"""Blocks that no full seam takes apart: rings with a partial seam, set-in seams; each is sewn on the bench.

Every order is proven there: plain pieces, each cut with its seam allowance, are joined by their edges alone,
and must come out as they were drawn.
"""

from __future__ import annotations

from collections.abc import Callable
from math import sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.bench.cloth import SeamSize
from piecewright.bench.stretches import Stretch
from piecewright.design.drawing import Placed
from piecewright.geometry.dividing import is_single, members
from piecewright.geometry.isometry import cos_of, sin_of, turned
from piecewright.geometry.matching import Marked, unmatched
from piecewright.geometry.polygon import Polygon, area, clean, joined_outline, placed, same_polygon
from piecewright.measure.tolerance import AS_DRAWN
from piecewright.piecing.costs import CORNER, PARTIAL, SET_IN
from piecewright.piecing.other_seams import CURVE, DOT, MARK, MORE, UNLIKED, other_splits
from piecewright.piecing.patchwork import Patchwork, Split
from piecewright.piecing.region import Region
from piecewright.piecing.seam_net import seam_net
from piecewright.piecing.sides import closing_sides, ring_seam, shared_path
from piecewright.piecing.tree import Piecing, Sewn
from piecewright.problems import Refused
from random_tilings import block_of, cells, merged, rectangles
from sewing_out import Lying, plain_piece, sew

SEAM = SeamSize(0.234375, 0.015625)

Choice = Callable[[list[Split]], Split]


def box(left: float, low: float, right: float, high: float) -> Polygon:
    return ((left, low), (right, low), (right, high), (left, high))


def easiest(splits: list[Split]) -> Split:
    return splits[0]


def an_order(work: Patchwork, parts: int, choose: Choice = easiest) -> Piecing:
    """Full seams where they go, else whatever is chosen among the others."""
    if is_single(parts):
        return work.parts[parts.bit_length() - 1]
    split = full_seam(work, parts) or choose(other_splits(work, parts))
    return Sewn(split.how, "part", tuple(an_order(work, part, choose) for part in split.sets))


def full_seam(work: Patchwork, parts: int) -> Split | None:
    """One straight seam, a whole side of what lies on both sides of it."""
    net = seam_net(work.outlines)
    for line in work.lines:
        both = line.divides(parts)
        if both and all(Region(net, part).is_whole for part in both):
            path = shared_path(*(outline_of(work, part) for part in both))
            if path.stretch is None and len(path.exit) == 1:
                return Split("row", both)
    return None


def outline_of(work: Patchwork, parts: int) -> Polygon:
    return Region(seam_net(work.outlines), parts).polygon


def sewn(work: Patchwork, order: Piecing) -> Lying:
    return sew(order, lambda part: plain_piece(part, SEAM), SEAM)


def is_as_drawn(work: Patchwork, lying: Lying) -> bool:
    """Whether the finished faces are the drawn patches, one to one, and fill the outline."""
    faces = [face.placed(lying.place) for face in lying.cloth.finished]
    shown = tuple(Marked(face.fabric, face.seen) for face in faces)
    wanted = tuple(
        Marked(patch.role, patch.placed(part.place).outline)
        for part in work.parts
        for patch in part.drawing.patches
    )
    filled = abs(sum(area(outline) for outline in work.outlines) - area(lying.cloth.net)) < 1e-3
    return unmatched(wanted, shown, AS_DRAWN) == ([], []) and filled


def hows(order: Piecing) -> list[str]:
    """The kinds of seams of an order, the last one sewn first."""
    if isinstance(order, Placed):
        return []
    return [order.how, *(how for part in order.parts for how in hows(part))]


def no_full_seam(work: Patchwork) -> bool:
    return not any(line.divides(work.whole) for line in work.lines)


PINWHEEL = (box(3, 3, 6, 6), box(0, 0, 6, 3), box(6, 0, 9, 6), box(3, 6, 9, 9), box(0, 3, 3, 9))


def mirrored(tiling: tuple[Polygon, ...], width: float) -> tuple[Polygon, ...]:
    return tuple(tuple((width - x, y) for x, y in outline[::-1]) for outline in tiling)


@pytest.mark.parametrize("tiling", [PINWHEEL, mirrored(PINWHEEL, 9)], ids=["one hand", "other hand"])
def test_a_pinwheel_is_a_ring_with_one_partial_seam(tiling):
    # partial_seam: piecebynumber.com partial-seam-technique; centre 3, four 3 x 6, finished block 9.
    work = block_of(tiling)
    assert no_full_seam(work)
    best = other_splits(work, work.whole)[0]
    assert (best.how, best.sets[0], best.cost, best.corners) == ("ring", 1, PARTIAL, 0)
    done = sewn(work, an_order(work, work.whole))
    assert is_as_drawn(work, done)
    assert done.cloth.size == pytest.approx((9.5, 9.5), abs=1e-6)
    # Nothing of a margin is left under a neighbour, and none at the outside is lost.
    assert sum(area(face.seen) for face in done.cloth.faces) == pytest.approx(9.5**2)


@pytest.mark.parametrize("tiling", [PINWHEEL, mirrored(PINWHEEL, 9)], ids=["one hand", "other hand"])
def test_every_log_of_a_ring_but_the_first_is_sewn_along_its_whole_side(tiling):
    """So each ends where the centre and the log before it end: at their whole common side."""
    work = block_of(tiling)
    ring = other_splits(work, work.whole)[0]
    so_far = ring.sets[0] | ring.sets[1]
    first = shared_path(outline_of(work, ring.sets[0]), outline_of(work, ring.sets[1]))
    for log in ring.sets[2:]:
        path = shared_path(outline_of(work, so_far), outline_of(work, log), first.line)
        assert (path.stretch, len(path.exit), len(path.entry)) == (None, 1, 1)
        so_far |= log


def test_the_first_seam_of_a_ring_is_sewn_from_where_the_log_ends_to_the_middle_of_the_centre():
    centre, log = PINWHEEL[0], PINWHEEL[2]
    path = ring_seam(centre, log)
    assert (path.exit, path.entry) == ((1,), (3,))
    assert path.stretch == Stretch(1.5, 3.0, flush_at_start=False)
    assert path.part_sewn is not None
    assert (path.part_sewn.start, path.part_sewn.stop, path.part_sewn.flush) == (1.5, 3.0, "end")
    with pytest.raises(Refused, match="first log of a ring must end with its centre at one end"):
        ring_seam(centre, box(6, 3, 9, 6))


def test_a_cloth_without_an_open_seam_has_nothing_to_close():
    with pytest.raises(Refused, match="no seam left open"):
        closing_sides(PINWHEEL[0])


def test_the_seam_that_is_sewn_in_part_lies_at_the_longest_side_of_the_centre():
    wide = (box(3, 3, 9, 5), box(0, 0, 9, 3), box(9, 0, 12, 5), box(3, 5, 12, 8), box(0, 3, 3, 8))
    work = block_of(wide)
    ring = other_splits(work, work.whole)[0]
    path = ring_seam(outline_of(work, ring.sets[0]), outline_of(work, ring.sets[1]))
    assert path.stretch is not None
    assert path.stretch.stop - path.stretch.start == 3.0


def test_centre_and_logs_of_a_ring_may_have_several_parts():
    centre = (box(3, 3, 4, 6), box(4, 3, 6, 6))
    logs = (box(0, 0, 2, 3), box(2, 0, 6, 3), *PINWHEEL[2:4], box(0, 3, 3, 5), box(0, 5, 3, 9))
    work = block_of((*centre, *logs))
    assert no_full_seam(work)
    best = other_splits(work, work.whole)[0]
    assert best == Split("ring", (0b11, 0b1100, 0b10000, 0b100000, 0b11000000), PARTIAL)
    assert is_as_drawn(work, sewn(work, an_order(work, work.whole)))


def test_a_seam_of_a_log_that_runs_on_in_line_with_the_ring_hides_nothing():
    """The seams of a ring end at the next one, even where something goes on straight beyond it."""
    logs = (*PINWHEEL[1:3], box(3, 6, 6, 7), box(6, 6, 9, 7), box(3, 7, 9, 9), box(0, 3, 3, 9))
    work = block_of((PINWHEEL[0], *logs))
    assert no_full_seam(work)
    assert other_splits(work, work.whole)[0].how == "ring"
    assert is_as_drawn(work, sewn(work, an_order(work, work.whole)))


def test_a_ring_inside_a_ring():
    inner = tuple(tuple((x + 3, y + 3) for x, y in outline) for outline in PINWHEEL)
    outer = (box(0, 0, 12, 3), box(12, 0, 15, 12), box(3, 12, 15, 15), box(0, 3, 3, 15))
    work = block_of((*inner, *outer))
    order = an_order(work, work.whole)
    assert hows(order) == ["ring", "ring"]
    assert is_as_drawn(work, sewn(work, order))


def test_a_ring_of_three_and_a_ring_of_six():
    for count in (3, 6):
        work = block_of(twisted(count))
        best = other_splits(work, work.whole)[0]
        assert (best.how, len(best.sets)) == ("ring", count + 1)
        assert is_as_drawn(work, sewn(work, an_order(work, work.whole)))


def twisted(count: int) -> tuple[Polygon, ...]:
    """A regular centre inside a larger one, each side of it drawn on to the outline."""
    step = 360 / count
    inner = [(3 * cos_of(step * k), 3 * sin_of(step * k)) for k in range(count)]
    # Side k, from corner k to the next, runs on behind its first corner as far again.
    tips = [
        (2 * ax - bx, 2 * ay - by) for (ax, ay), (bx, by) in zip(inner, inner[1:] + inner[:1], strict=True)
    ]
    around = zip(tips, tips[1:] + tips[:1], inner[1:] + inner[:1], strict=True)
    return (tuple(inner), *((tip, after, corner) for tip, after, corner in around))


def diamond(turn: float, angle: float = 60, side: float = 4) -> Polygon:
    c, s = side * cos_of(angle), side * sin_of(angle)
    return placed(((0, 0), (side, 0), (side + c, s), (c, s)), turned(turn))


def test_the_third_of_three_diamonds_is_set_in_round_one_corner():
    work = block_of(tuple(diamond(turn, 120) for turn in (0, 120, 240)))
    splits = other_splits(work, work.whole)
    assert {(split.how, split.corners, split.cost) for split in splits} == {("set in", 1, SET_IN + CORNER)}
    assert is_as_drawn(work, sewn(work, an_order(work, work.whole)))


ATTIC_WINDOW = (box(2, 2, 8, 8), ((0, 0), (8, 0), (8, 2), (2, 2)), ((0, 0), (2, 2), (2, 8), (0, 8)))


def test_a_mitred_attic_window_has_one_corner():
    work = block_of(ATTIC_WINDOW)
    assert no_full_seam(work)
    assert [(s.how, s.corners) for s in other_splits(work, work.whole)] == [("set in", 1)] * 3
    assert is_as_drawn(work, sewn(work, an_order(work, work.whole)))


def eight_pointed() -> tuple[Polygon, ...]:
    side = 12 / (2 + sqrt(2))
    tiling = [diamond(45 * k, 45, side) for k in range(8)]
    leg = side * sqrt(2)
    for k in range(4):
        square = ((side * cos_of(45), side * sin_of(45)), (6, side * sin_of(45)), (6, 6), (6 - side, 6))
        tiling.append(placed(square, turned(90 * k)))
        triangle = ((side, 0), (6, -leg / 2), (6, leg / 2))
        tiling.append(placed(triangle, turned(90 * k)))
    return tuple(tiling)


def test_an_eight_pointed_star_comes_out_with_all_its_squares_and_triangles():
    work = block_of(eight_pointed())
    order = an_order(work, work.whole)
    assert is_as_drawn(work, sewn(work, order))


def bow_tie() -> tuple[Polygon, ...]:
    """A square on its point in the middle, four squares around it, each without a corner."""
    knot = ((4.0, 2.5), (5.5, 4.0), (4.0, 5.5), (2.5, 4.0))
    corner = ((0.0, 0.0), (4.0, 0.0), (4.0, 2.5), (2.5, 4.0), (0.0, 4.0))
    return (knot, *(placed(corner, turned(90 * k, (4.0, 4.0))) for k in range(4)))


def test_a_bow_tie_with_its_knot_set_in():
    work = block_of(bow_tie())
    order = an_order(work, work.whole)
    # The first corner and the knot have one straight seam; the other three are set in.
    assert hows(order) == ["set in", "set in", "set in", "row"]
    assert is_as_drawn(work, sewn(work, order))


def flower() -> tuple[Polygon, ...]:
    """Seven hexagons in a rectangle; the background is divided from their outer corners."""
    hexagon = [(2 * cos_of(60 * k), 2 * sin_of(60 * k)) for k in range(6)]
    r = sqrt(3)
    middles = [(0.0, 0.0), *((2 * r * cos_of(60 * k + 30), 2 * r * sin_of(60 * k + 30)) for k in range(6))]
    tiles = [tuple((x + dx, y + dy) for x, y in hexagon) for dx, dy in middles]
    top = 3 * r + 1
    right = ((6, 0), (6, top), (1, top), (1, 3 * r), (2, 2 * r), (4, 2 * r), (5, r), (4, 0))
    left = ((1, top), (-6, top), (-6, 0), (-4, 0), (-5, r), (-4, 2 * r), (-2, 2 * r), (-1, 3 * r), (1, 3 * r))
    return (*tiles, right, left, placed(right, turned(180)), placed(left, turned(180)))


def test_a_hexagon_flower_in_a_rectangle_is_set_in_hexagon_by_hexagon():
    work = block_of(flower())
    order = an_order(work, work.whole)
    assert hows(order).count("set in") == 10
    assert is_as_drawn(work, sewn(work, order))


def test_two_l_shaped_patches_that_hold_each_other():
    """The inner corner of each is where the other one's outer corner is: two corners in one seam."""
    lower = ((0, 0), (9, 0), (9, 3), (3, 3), (3, 6), (0, 6))
    upper = ((9, 3), (9, 9), (0, 9), (0, 6), (3, 6), (3, 3))
    work = block_of((lower, upper))
    cost = SET_IN + 2 * CORNER + MORE
    assert other_splits(work, work.whole) == [Split("set in", (0b01, 0b10), cost, 2)]
    assert is_as_drawn(work, sewn(work, an_order(work, work.whole)))


def test_a_seam_stops_at_a_dot_where_one_side_goes_on():
    """A bar with a shorter piece at its end: an L, whose inner corner is left for what is set in there."""
    work = block_of((box(0, 0, 6, 3), box(3, 3, 6, 7)))
    assert other_splits(work, work.whole) == [Split("set in", (0b01, 0b10), DOT, 0)]
    path = shared_path(work.outlines[0], work.outlines[1])
    assert path.stretch == Stretch(0.0, 3.0, flush_at_start=True)
    assert is_as_drawn(work, sewn(work, an_order(work, work.whole)))
    back = shared_path(work.outlines[1], work.outlines[0])
    assert back.stretch == Stretch(0.0, 3.0, flush_at_start=False)


def test_where_no_ends_lie_together_one_is_marked():
    work = block_of((box(0, 0, 6, 3), box(2, 3, 5, 7)))
    assert other_splits(work, work.whole)[0].cost == 2 * DOT + MARK
    assert shared_path(*work.outlines).stretch == Stretch(1.0, 4.0, beyond=-1.0)
    assert is_as_drawn(work, sewn(work, an_order(work, work.whole)))


def test_a_corner_whose_sides_go_on_beyond_what_is_set_in():
    """Square in the corner of an L with longer arms: both its seams stop at a dot."""
    ell = ((0, 0), (9, 0), (9, 3), (3, 3), (3, 8), (0, 8))
    work = block_of((ell, box(3, 3, 6, 6)))
    split = other_splits(work, work.whole)[0]
    assert split == Split("set in", (0b01, 0b10), SET_IN + CORNER + 2 * DOT, 1)
    path = shared_path(*work.outlines)
    assert (path.exit, path.entry) == ((2, 3), (3, 0))
    assert path.stretch == Stretch(3.0, 9.0, at_corner=True)
    assert is_as_drawn(work, sewn(work, an_order(work, work.whole)))


def round_window(chords: int) -> tuple[Polygon, ...]:
    """A circle of chords in a square that is divided in four."""
    circle = [(3 * cos_of(360 / chords * k), 3 * sin_of(360 / chords * k)) for k in range(chords)]
    corner = ((4, 0), (4, 4), (0, 4), *circle[chords // 4 :: -1])
    return (tuple(circle), *(placed(corner, turned(90 * k)) for k in range(4)))


def test_a_circle_of_chords_is_one_curve_and_has_no_corners():
    work = block_of(round_window(24))
    splits = other_splits(work, work.whole)
    assert {(split.how, split.corners) for split in splits} == {("set in", 2)}
    with_one_corner = [Split("set in", (0b00001, 0b00010), CURVE, 0)]
    assert other_splits(work, 0b00011) == with_one_corner
    assert is_as_drawn(work, sewn(work, an_order(work, work.whole)))


def test_an_octagon_is_no_curve():
    work = block_of(round_window(8))
    assert [split.corners for split in other_splits(work, 0b00011)] == [1]


@pytest.mark.parametrize(("prefer", "how"), [("", "ring"), ("partial seams", "ring"), ("set in", "set in")])
def test_a_person_may_prefer_partial_seams_or_set_in_ones(prefer, how):
    work = block_of(PINWHEEL)
    assert other_splits(work, work.whole, prefer)[0].how == how


def test_what_is_not_preferred_costs_several_times_as_much():
    work = block_of(PINWHEEL)
    costs = {prefer: {s.sets: s.cost for s in other_splits(work, work.whole, prefer)} for prefer in WISHES}
    for split in other_splits(work, work.whole):
        dearer = "set in" if split.how == "ring" else "partial seams"
        assert costs[dearer][split.sets] == UNLIKED * split.cost
        assert costs["set in" if dearer == "partial seams" else "partial seams"][split.sets] == split.cost


WISHES = ("partial seams", "set in")


def test_parts_that_do_not_cover_one_region_have_no_split():
    work = block_of(PINWHEEL)
    around, apart, alone = 0b11110, 0b01010, 0b00001
    assert [other_splits(work, parts) for parts in (around, apart, alone)] == [[], [], []]


def test_parts_that_touch_in_one_point_are_no_region():
    work = block_of((box(0, 0, 2, 2), box(2, 0, 4, 2), box(2, 2, 4, 4), box(0, 2, 2, 4)))
    assert other_splits(work, 0b0101) == []


def test_a_part_that_touches_the_outline_with_its_tip_is_not_taken_off():
    """Of a goose the wings are; without the goose they would hang together by a point."""
    work = block_of((((0, 0), (8, 0), (4, 8)), ((0, 0), (4, 8), (0, 8)), ((8, 0), (8, 8), (4, 8))))
    assert {split.sets for split in other_splits(work, work.whole)} == {(0b011, 0b100), (0b101, 0b010)}


def test_a_straight_seam_whose_line_would_cut_something_beyond_it_is_a_row():
    """A U: the left arm is sewn on with a straight seam, though its line goes through the right arm."""
    arm = (box(0, 4, 2, 6), box(0, 6, 2, 8))
    work = block_of((*arm, box(0, 0, 2, 4), box(2, 0, 4, 2), box(4, 0, 6, 8)))
    splits = other_splits(work, work.whole)
    assert Split("row", (0b11100, 0b00011), 0.0, 0) in splits
    assert splits[0].how == "row"


def test_cloths_that_lie_together_in_two_places_share_no_path():
    hook = ((0, 0), (9, 0), (9, 9), (6, 9), (6, 3), (3, 3), (3, 9), (0, 9))
    with pytest.raises(Refused, match="do not lie together along one seam"):
        shared_path(hook, ((3, 5), (6, 5), (6, 9), (3, 9)))
    with pytest.raises(Refused, match="do not lie together along one seam"):
        shared_path(box(0, 0, 1, 1), box(2, 0, 3, 1))


picks = st.lists(st.integers(0, 11), min_size=1, max_size=12)


def choosing(numbers: list[int]) -> Choice:
    """Any of the splits offered, not the easiest alone."""
    rest = list(numbers)

    def choose(splits: list[Split]) -> Split:
        number = rest.pop(0) if rest else 0
        return splits[number % len(splits)]

    return choose


@settings(max_examples=40, deadline=None)
@given(rectangles(), picks)
def test_pinwheels_within_splits_within_pinwheels_are_sewn_as_drawn(tiling, numbers):
    work = block_of(tiling)
    assert is_as_drawn(work, sewn(work, an_order(work, work.whole)))
    assert is_as_drawn(work, sewn(work, an_order(work, work.whole, choosing(numbers))))


@settings(max_examples=40, deadline=None)
@given(cells(), picks)
def test_cells_that_meet_in_ys_are_sewn_as_drawn(tiling, numbers):
    work = block_of(tiling)
    assert is_as_drawn(work, sewn(work, an_order(work, work.whole)))
    assert is_as_drawn(work, sewn(work, an_order(work, work.whole, choosing(numbers))))


@settings(max_examples=40, deadline=None)
@given(merged(st.one_of(rectangles(), cells())), picks)
def test_patches_with_inner_corners_are_sewn_as_drawn(tiling, numbers):
    work = block_of(tiling)
    assert is_as_drawn(work, sewn(work, an_order(work, work.whole)))
    assert is_as_drawn(work, sewn(work, an_order(work, work.whole, choosing(numbers))))


@settings(max_examples=40, deadline=None)
@given(st.one_of(rectangles(), cells(), merged(cells())))
def test_every_split_is_a_region_parted_into_regions(tiling):
    work = block_of(tiling)
    net = seam_net(work.outlines)
    splits = other_splits(work, work.whole)
    assert splits
    assert [split.cost for split in splits] == sorted(split.cost for split in splits)
    for split in splits:
        assert sum(split.sets) == work.whole
        for part in split.sets:
            drawn = joined_outline([work.outlines[k] for k in members(part)])
            assert same_polygon(Region(net, part).polygon, clean(drawn, 1e-4, straight=1e-4), 1e-4)
