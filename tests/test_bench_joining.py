"""Joins: along paths with corners, in part, closed on themselves; what does not come together is refused."""

from math import dist, radians, sin, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from piecewright.bench.as_drawn import compare
from piecewright.bench.bench import Bench, total_area
from piecewright.bench.cloth import Cloth, SeamSize, piece
from piecewright.bench.joining import Joining, Stretch, close, join
from piecewright.bench.plan import Have, Supply
from piecewright.bench.steps import Close, Join, JoinPart, PartSewn, Press, Pressing
from piecewright.design.drawing import Group, Patch, Placed
from piecewright.geometry.isometry import cos_of, moved, sin_of
from piecewright.geometry.polygon import area, bounds, grown, placed, rectangle, same_polygon
from piecewright.measure.length import inches
from piecewright.problems import Refused
from piecewright.workroom.workroom import Workroom

SEAM = SeamSize(0.234375, 0.015625)

Sides = tuple[int, ...]


def patch(net, fabric: str = "sail") -> Cloth:
    """A piece cut so that it finishes as drawn."""
    return piece(fabric, grown(tuple(net), SEAM.take_up), SEAM)


def block(width: float, height: float, fabric: str = "sail") -> Cloth:
    return patch(rectangle(width, height), fabric)


def joined(*parts: tuple[Cloth, Sides, Sides], part_sewn: Stretch | None = None) -> Cloth:
    return join([Joining(*part) for part in parts], "x", SEAM, part_sewn)


def net_size(cloth: Cloth) -> tuple[float, float]:
    x0, y0, x1, y1 = bounds(cloth.net)
    return pytest.approx((x1 - x0, y1 - y0), abs=1e-6)


def corner_at(cloth: Cloth, point: tuple[float, float]) -> int:
    """The number of the side that starts at a point."""
    return next(k for k, (a, _) in enumerate(cloth.sides) if dist(a, point) < 1e-6)


def around_corner(cloth: Cloth, point: tuple[float, float]) -> tuple[int, int]:
    """The two sides that meet in a point, in order."""
    second = corner_at(cloth, point)
    return (second - 1) % len(cloth.net), second


def finished_tile(cloth: Cloth) -> bool:
    """Whether the finished faces cover the net outline, neither more nor less, without lying over it."""
    return sum(area(face.seen) for face in cloth.finished) == pytest.approx(area(cloth.net), abs=1e-6)


def drawn(*patches: tuple[str, tuple], outline) -> Group:
    return Group("block", tuple(Placed(Patch(role, tuple(net))) for role, net in patches), tuple(outline))


def test_a_row_is_as_long_as_its_parts_together_and_a_seam_is_lost_between():
    row = joined((block(3, 3), (), (1,)), (block(2, 3), (3,), (1,)), (block(4, 3), (3,), ()))
    assert row.size == pytest.approx((9.5, 3.5), abs=1e-9)
    assert [seam.name for seam in row.seams] == ["x.0", "x.1"]
    assert finished_tile(row)


def test_edges_that_differ_are_refused_with_both_figures():
    with pytest.raises(Refused) as refused:
        joined((block(3, 3), (), (1,)), (block(3, 3 - 1 / 64), (3,), ()))
    assert str(refused.value) == (
        "the edges differ by 0.0156 in (3.0000 against 2.9844). Check both sizes before they are joined."
    )


def test_a_hair_of_difference_leaves_no_extra_corner():
    row = joined((block(3, 3), (), (1,)), (block(3, 3.0008), (3,), (1,)), (block(3, 3), (3,), ()))
    assert len(row.net) == 4
    assert same_polygon(row.net, rectangle(9, 3), 2e-3)


def test_the_next_part_may_be_joined_to_the_last_one_alone():
    corner = joined((block(3, 3), (), (1,)), (block(3, 3), (3,), (2,)), (block(3, 3), (0,), ()))
    assert same_polygon(corner.net, ((0, 0), (6, 0), (6, 6), (3, 6), (3, 3), (0, 3)), 1e-6)
    assert finished_tile(corner)


def test_a_side_that_is_sewn_already_is_refused():
    with pytest.raises(Refused, match="sewn already"):
        joined((block(3, 3), (), (1,)), (block(3, 3), (3,), (3,)), (block(3, 3), (1,), ()))


@pytest.mark.parametrize("sides", [(), (4,), (-1,), (0, 2)])
def test_sides_that_are_not_there_or_do_not_follow_one_another_are_refused(sides):
    with pytest.raises(Refused, match="sides"):
        joined((block(3, 3), (), sides), (block(3, 3), (3,), ()))


def corner_of_two() -> Cloth:
    """Two rectangles sewn to an L, its inner corner at (3, 3)."""
    return joined(
        (block(6, 3, "tide"), (), (2,)),
        (block(3, 4, "sail"), (0,), ()),
        part_sewn=Stretch(3, 6, flush_at_start=False),
    )


def test_a_shorter_piece_is_sewn_to_the_end_of_a_longer_one():
    ell = corner_of_two()
    assert same_polygon(ell.net, ((0, 0), (6, 0), (6, 3), (3, 3), (3, 7), (0, 7)), 1e-6)
    assert ell.raw == grown(ell.net, SEAM.take_up)
    assert finished_tile(ell)


def test_a_set_in_seam_runs_round_the_inner_corner():
    ell = corner_of_two()
    inner = around_corner(ell, (3, 3))
    square = patch(((0, 0), (3, 0), (3, 4), (0, 4)), "sea")
    whole = joined((ell, (), inner), (square, (3, 0), ()))
    assert same_polygon(whole.net, rectangle(6, 7), 1e-6)
    assert whole.size == pytest.approx((7.5, 6.5), abs=1e-6)
    assert len(whole.own_seams) == 1
    assert len(whole.own_seams[0].segments) == 2
    assert finished_tile(whole)
    drawing = drawn(
        ("tide", rectangle(6, 3)),
        ("sail", placed(rectangle(3, 4), moved(0, 3))),
        ("sea", placed(rectangle(3, 4), moved(3, 3))),
        outline=rectangle(6, 7),
    )
    assert compare(whole, drawing, {}).differences == ()


def test_no_face_loses_cloth_to_the_other_side_of_a_set_in_seam():
    """The two lines of a set-in seam, made endless, would cut through its neighbours."""
    ell = corner_of_two()
    whole = joined((ell, (), around_corner(ell, (3, 3))), (patch(rectangle(3, 4), "sea"), (3, 0), ()))
    shown = {face.fabric: bounds(face.seen) for face in whole.faces}
    assert shown["tide"] == pytest.approx((-0.25, -0.25, 6.25, 3.0), abs=1e-6)
    assert shown["sail"] == pytest.approx((-0.25, 3.0, 3.0, 7.25), abs=1e-6)
    assert shown["sea"] == pytest.approx((3.0, 3.0, 6.25, 7.25), abs=1e-6)


def test_corners_that_do_not_come_together_are_refused():
    ell = corner_of_two()
    slanted = patch(((0, 0), (3, 0), (4, sqrt(15)), (1, sqrt(15))), "sea")
    with pytest.raises(Refused, match="corners of the two edges do not come together"):
        joined((ell, (), around_corner(ell, (3, 3))), (slanted, (3, 0), ()))


def test_cloths_that_would_lie_over_one_another_are_refused():
    ell = corner_of_two()
    leaning = patch(((0, 0), (3, 0), (1, 4), (-2, 4)), "sea")
    upper = corner_at(ell, (6, 3))
    assert ell.sides[upper] == (pytest.approx((6, 3)), pytest.approx((3, 3)))
    with pytest.raises(Refused, match="lie over one another"):
        joined((ell, (), (upper,)), (leaning, (0,), ()))


def test_a_seam_is_not_sewn_beyond_the_shorter_cloth():
    with pytest.raises(Refused, match="from 0 to 3 in"):
        joined((block(6, 3), (), (2,)), (block(3, 3), (0,), ()), part_sewn=Stretch(0, 4, flush_at_start=True))


def logs_around() -> tuple[Have, Have]:
    return (
        Have(name="centre", count=1, fabric="sail", width=inches("3 1/2"), height=inches("3 1/2")),
        Have(name="log", count=4, fabric="tide", width=inches("3 1/2"), height=inches("6 1/2")),
    )


def pressed(pile: str, seam: str) -> Press:
    return Press(pile=pile, seams=(Pressing(seam, ("second",)),))


def with_log(before: str, side: int, log_side: int, gives: str, **more) -> tuple[Join, Press]:
    return (
        Join(
            parts=(JoinPart(name=before, exit=(side,)), JoinPart(name="log", entry=(log_side,))),
            gives=gives,
            times=1,
            **more,
        ),
        pressed(gives, f"{gives}.0"),
    )


def test_a_partial_seam_is_closed_when_the_last_piece_is_on():
    # partial_seam: piecebynumber.com partial-seam-technique; centre 3, four 3 x 6, finished block 9.
    cloth = [Supply(fabric=fabric, width=inches(40), length=inches(0)) for fabric in ("sail", "tide")]
    bench = Bench(Workroom(), cloth, logs_around())
    half_way = PartSewn(start=0, stop=1.5, flush="start")
    for step in (
        *with_log("centre", 2, 3, "one log", part_sewn=half_way),
        *with_log("one log", 1, 3, "two logs"),
        *with_log("two logs", 0, 1, "three logs"),
        *with_log("three logs", 6, 1, "block"),
        Close(pile="block", sides=(4, 5)),
        pressed("block", "block.close1"),
    ):
        bench.do(step)
    done = bench.cloth("block")
    assert net_size(done) == (9.0, 9.0)
    assert done.size == pytest.approx((9.5, 9.5), abs=1e-6)
    assert finished_tile(done)
    outline = placed(rectangle(9, 9), moved(0, 0))
    drawing = drawn(
        ("sail", placed(rectangle(3, 3), moved(3, 3))),
        ("tide", placed(rectangle(6, 3), moved(0, 6))),
        ("tide", placed(rectangle(3, 6), moved(6, 3))),
        ("tide", placed(rectangle(6, 3), moved(3, 0))),
        ("tide", placed(rectangle(3, 6), moved(0, 0))),
        outline=outline,
    )
    assert compare(done, drawing, {}).differences == ()
    areas = total_area(bench.table, {"sail": inches(40), "tide": inches(40)})
    assert areas == {"sail": pytest.approx((12.25, 12.25)), "tide": pytest.approx((91, 91))}


def test_until_it_is_closed_a_partial_seam_leaves_a_slit_and_the_raw_outline_is_known():
    first = joined(
        (block(3, 3), (), (2,)),
        (block(3, 6, "tide"), (3,), ()),
        part_sewn=Stretch(0, 1.5, flush_at_start=True),
    )
    assert first.size == pytest.approx((6.5, 6.5), abs=1e-6)
    assert area(first.net) == pytest.approx(27, abs=1e-6)


def test_nothing_is_joined_to_one_lip_of_a_slit_that_the_other_lip_covers():
    first = joined(
        (block(3, 3), (), (2,)),
        (block(3, 6, "tide"), (3,), ()),
        part_sewn=Stretch(0, 1.5, flush_at_start=True),
    )
    free = corner_at(first, (1.5, 3))
    with pytest.raises(Refused):
        joined((first, (), (free,)), (block(1.5, 1.5), (0,), ()))


STAR_SIDE = 12 / (2 + sqrt(2))
TIP = ((0.0, 0.0), (STAR_SIDE, 0.0))


def diamond(fabric: str = "sail") -> Cloth:
    c, s = STAR_SIDE * cos_of(45), STAR_SIDE * sin_of(45)
    return patch((*TIP, (STAR_SIDE + c, s), (c, s)), fabric)


def ring(count: int) -> Cloth:
    """Diamonds of two fabrics in turn, joined tip to tip."""
    cloths = [diamond("sail" if k % 2 else "tide") for k in range(count)]
    ends = [((0,), (3,)) for _ in cloths]
    ends[0], ends[-1] = ((), (3,)), ((0,), ())
    return joined(*((cloth, *sides) for cloth, sides in zip(cloths, ends, strict=True)))


def star() -> Cloth:
    open_star = ring(8)
    return close(open_star, around_corner(open_star, (0.0, 0.0)), "x.close", SEAM)


def test_eight_diamonds_close_to_a_star():
    # star_side and star_strip: plane geometry, B / (2 + sqrt 2) for a 12 in block, from strips cut 2.985281.
    assert dist(*TIP) == pytest.approx(3.514719, abs=1e-6)
    strip = max(y for _, y in diamond().raw) - min(y for _, y in diamond().raw)
    assert strip == pytest.approx(2.985281, abs=1e-6)
    done = star()
    assert net_size(done) == (12.0, 12.0)
    assert len(done.net) == 16
    assert area(done.net) == pytest.approx(8 * STAR_SIDE**2 * sin_of(45), abs=1e-6)
    assert finished_tile(done)
    assert len(done.faces) == 8


def test_a_star_is_set_in_with_squares_and_triangles_to_a_block():
    whole = star()
    corner = patch(rectangle(STAR_SIDE, STAR_SIDE), "sea")
    leg = STAR_SIDE * sqrt(2)
    side = patch(((0, 0), (leg, 0), (leg / 2, leg / 2)), "sea")
    inner = [(STAR_SIDE * cos_of(45 * k), STAR_SIDE * sin_of(45 * k)) for k in range(8)]
    for k, point in enumerate(inner):
        # Squares fill the corners of the block, triangles its sides; the star's inner corners lie between.
        cloth, at_corner = (side, (1, 2)) if k % 2 == 0 else (corner, (3, 0))
        whole = joined((whole, (), around_corner(whole, point)), (cloth, at_corner, ()))
    assert len(whole.net) == 4
    assert net_size(whole) == (12.0, 12.0)
    assert whole.size == pytest.approx((12.5, 12.5), abs=1e-6)
    assert finished_tile(whole)
    assert len(whole.faces) == 16


def test_a_ring_with_a_gap_does_not_close():
    seven, gap = ring(7), 2 * STAR_SIDE * sin(radians(22.5))
    with pytest.raises(Refused, match=rf"end {gap:.4f} in apart"):
        close(seven, around_corner(seven, (0.0, 0.0)), "x.close", SEAM)


def test_sides_that_are_not_neighbours_do_not_close():
    with pytest.raises(Refused, match="sides 0 and 2 are not neighbours"):
        close(block(3, 3), (0, 2), "x.close", SEAM)


def test_a_corner_of_a_square_does_not_close():
    with pytest.raises(Refused, match="in apart"):
        close(block(3, 3), (0, 1), "x.close", SEAM)


def test_closing_what_is_not_there_is_a_problem():
    bench = Bench(Workroom(), [Supply(fabric="sail", width=inches(40), length=inches(0))])
    assert "there is no 'block'" in str(bench.problems(Close(pile="block", sides=(0, 1)))[0])
    used_up = Bench(Workroom(), [Supply(fabric="sail", width=inches(40), length=inches(0))], logs_around())
    used_up.do(with_log("centre", 2, 0, "pair")[0])
    assert "there is no 'centre' to close" in str(used_up.problems(Close(pile="centre", sides=(0, 1)))[0])


def test_a_mitred_corner_is_closed_from_the_inside_out():
    right = patch(((0, 0), (2, 0), (2, 5), (0, 3)), "tide")
    above = patch(((0, 0), (3, 0), (5, 2), (0, 2)), "sea")
    sides = joined((block(3, 3), (), (1,)), (right, (3,), ()))
    both = joined((sides, (), (corner_at(sides, (3, 3)),)), (above, (0,), ()))
    assert len(both.net) == 6
    done = close(both, around_corner(both, (3, 3)), "x.close", SEAM)
    assert same_polygon(done.net, rectangle(5, 5), 1e-6)
    assert done.size == pytest.approx((5.5, 5.5), abs=1e-6)
    assert finished_tile(done)
    mitre = done.own_seams[-1]
    assert {tuple(round(v, 6) for v in p) for p in mitre.path} == {(3.0, 3.0), (5.0, 5.0)}


@given(st.lists(st.lists(st.floats(0.5, 6), min_size=1, max_size=4), min_size=1, max_size=3), st.floats(1, 4))
def test_rows_of_anything_joined_one_on_another_cover_what_they_should(rows, height):
    """Rows are stretched to one width, joined, and the tower of rows has the size of the sum."""
    width = 12.0
    towers = []
    for row in rows:
        scale = width / sum(row)
        cloths = [block(w * scale, height) for w in row]
        ends = [((3,), (1,)) for _ in cloths]
        ends[0] = ((), ends[0][1])
        ends[-1] = (ends[-1][0], ())
        towers.append(
            joined(*((c, *e) for c, e in zip(cloths, ends, strict=True))) if len(row) > 1 else cloths[0]
        )
    ends = [((0,), (2,)) for _ in towers]
    whole = joined(*((c, *e) for c, e in zip(towers, ends, strict=True))) if len(towers) > 1 else towers[0]
    assert same_polygon(
        tuple((x - whole.net[0][0], y - whole.net[0][1]) for x, y in whole.net),
        rectangle(width, height * len(rows)),
        1e-5,
    )
    assert finished_tile(whole)
    assert sum(area(face.seen) for face in whole.faces) == pytest.approx(area(whole.raw), abs=1e-4)
