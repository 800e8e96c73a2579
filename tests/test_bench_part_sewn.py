"""Seams that are not sewn on the whole of both sides: to a dot, round corners, at a mark; what they count."""

from __future__ import annotations

import pytest

from piecewright.bench.bench import Bench
from piecewright.bench.cloth import Cloth, SeamSize, piece
from piecewright.bench.iron import pressed
from piecewright.bench.joining import Joining, close, join, meetings_closed, meetings_of, nests
from piecewright.bench.plan import Have, Supply
from piecewright.bench.steps import Close, Join, JoinPart, PartSewn, Press, Pressing
from piecewright.bench.stretches import Stretch
from piecewright.geometry.polygon import Polygon, area, bounds, grown, rectangle, same_polygon
from piecewright.measure.length import inches
from piecewright.piecing.sides import closing_sides
from piecewright.problems import Refused
from piecewright.workroom.workroom import Workroom

SEAM = SeamSize(0.234375, 0.015625)


def patch(net: Polygon, fabric: str = "sail") -> Cloth:
    return piece(fabric, grown(net, SEAM.take_up), SEAM)


def bar(width: float, height: float, fabric: str = "sail") -> Cloth:
    return patch(rectangle(width, height), fabric)


def sewn_to(one: Cloth, leave: tuple[int, ...], two: Cloth, enter: tuple[int, ...], *, how: Stretch) -> Cloth:
    return join([Joining(one, (), leave), Joining(two, enter, ())], "x", SEAM, how)


ELL: Polygon = ((0, 0), (9, 0), (9, 3), (3, 3), (3, 8), (0, 8))
ROUND_THE_CORNER = Stretch(3, 9, at_corner=True)


def test_a_square_is_set_into_a_corner_whose_sides_go_on():
    whole = sewn_to(patch(ELL), (2, 3), bar(3, 3, "tide"), (3, 0), how=ROUND_THE_CORNER)
    expected = ((0, 0), (9, 0), (9, 3), (6, 3), (6, 6), (3, 6), (3, 8), (0, 8))
    assert same_polygon(whole.net, expected, 1e-6)
    assert whole.own_seams[0].path == ((6, 3), (3, 3), (3, 6))


@pytest.mark.parametrize(
    ("how", "why"),
    [
        (Stretch(3, 9), "have 1 and 1 corners"),
        (Stretch(2, 9, at_corner=True), "lie together from 3 to 9 in"),
        (Stretch(3, 9 + 1 / 64, at_corner=True), "lie together from 3 to 9 in"),
        (Stretch(7, 9, at_corner=True), "must go round all corners"),
    ],
)
def test_a_stretch_round_a_corner_must_say_so_and_lie_on_both(how, why):
    with pytest.raises(Refused, match=why):
        sewn_to(patch(ELL), (2, 3), bar(3, 3), (3, 0), how=how)


def test_a_square_a_hair_too_small_for_its_corner_is_refused():
    with pytest.raises(Refused, match=r"lie together from 3.015.* to 8.984"):
        sewn_to(patch(ELL), (2, 3), bar(3 - 1 / 64, 3 - 1 / 64), (3, 0), how=ROUND_THE_CORNER)


def test_a_slanted_piece_does_not_go_into_a_square_corner():
    slanted = patch(((0, 0), (3, 0), (4, 3), (1, 3)))
    with pytest.raises(Refused, match="corners of the two edges do not come together"):
        sewn_to(patch(ELL), (2, 3), slanted, (3, 0), how=ROUND_THE_CORNER)


def test_a_straight_seam_has_no_corner():
    with pytest.raises(Refused, match="have 0 and 0 corners"):
        sewn_to(bar(6, 3), (2,), bar(3, 3), (0,), how=Stretch(0, 3, at_corner=True))


def test_a_piece_is_laid_at_a_mark_where_no_ends_lie_together():
    tee = sewn_to(bar(6, 3), (2,), bar(3, 4, "tide"), (0,), how=Stretch(1, 4, beyond=-1))
    assert same_polygon(tee.net, ((0, 0), (6, 0), (6, 3), (5, 3), (5, 7), (2, 7), (2, 3), (0, 3)), 1e-6)
    steps = sewn_to(bar(6, 3), (2,), bar(6, 3, "tide"), (0,), how=Stretch(0, 4, beyond=2))
    assert same_polygon(steps.net, ((0, 0), (6, 0), (6, 3), (8, 3), (8, 6), (2, 6), (2, 3), (0, 3)), 1e-6)
    other_end = sewn_to(bar(6, 3), (2,), bar(3, 4), (0,), how=Stretch(1, 4, False, beyond=-2))
    assert same_polygon(other_end.net, tee.net, 1e-6)


def test_a_margin_is_kept_until_all_of_its_side_is_sewn():
    """A bar with a shorter piece on half of it keeps its margin; what is set in beside that folds it."""
    ell = sewn_to(bar(6, 3, "tide"), (2,), bar(3, 4), (0,), how=Stretch(3, 6, flush_at_start=False))
    shown = {face.fabric: bounds(face.seen) for face in ell.faces}
    assert shown["tide"] == pytest.approx((-0.25, -0.25, 6.25, 3.25))
    assert shown["sail"] == pytest.approx((-0.25, 3.0, 3.25, 7.25))
    inner = next(k for k, (a, _) in enumerate(ell.sides) if a == pytest.approx((3, 3)))
    whole = join([Joining(ell, (), (inner - 1, inner)), Joining(bar(3, 4, "sea"), (3, 0), ())], "y", SEAM)
    assert {face.fabric: bounds(face.seen)[3] for face in whole.faces}["tide"] == pytest.approx(3.0)
    assert sum(area(face.seen) for face in whole.faces) == pytest.approx(area(whole.raw))


def crossed_centre(towards: str) -> Cloth:
    """A square of 3 with a level seam through its middle, pressed."""
    both = join([Joining(bar(3, 1.5, "a"), (), (2,)), Joining(bar(3, 1.5, "b"), (0,), ())], "ab", SEAM)
    return pressed(both, {"ab.0": (towards,)}, {})  # type: ignore[dict-item]


@pytest.mark.parametrize(
    ("towards", "stop", "found"),
    [("first", 2, [True]), ("second", 2, [False]), ("first", 1, [])],
    ids=["nests", "clashes", "not sewn so far"],
)
def test_only_seams_that_meet_where_a_part_is_sewn_are_counted(towards, stop, found):
    parts = (Joining(crossed_centre("first"), (), (1,)), Joining(turned_log(towards), (3,), ()))
    assert [nests(pair) for pair in meetings_of(parts, Stretch(0, stop))[0]] == found


def turned_log(towards: str) -> Cloth:
    """A log whose left side is 6 high, with a level seam 1 1/2 in above its lower end."""
    both = join([Joining(bar(3, 1.5, "c"), (), (2,)), Joining(bar(3, 4.5, "d"), (0,), ())], "cd", SEAM)
    return pressed(both, {"cd.0": ("second" if towards == "first" else "first",)}, {})


def test_seams_meet_where_a_stretch_lays_them_not_where_the_sides_begin():
    """The log goes on beyond the centre at the start of its side: its seam lies 4 1/2 in from that."""
    both = join([Joining(bar(3, 4.5, "c"), (), (2,)), Joining(bar(3, 1.5, "d"), (0,), ())], "cd", SEAM)
    hanging = pressed(both, {"cd.0": ("second",)}, {})
    parts = (Joining(crossed_centre("first"), (), (1,)), Joining(hanging, (3,), ()))
    assert len(meetings_of(parts, Stretch(1, 3, flush_at_start=False))[0]) == 1
    assert len(meetings_of(parts, Stretch(0, 3))[0]) == 0
    assert len(meetings_of(parts, Stretch(0, 3, beyond=3))[0]) == 1


def test_a_seam_is_no_crossing_on_the_rest_of_its_own_side():
    ell = sewn_to(bar(6, 3, "tide"), (2,), bar(3, 4), (0,), how=Stretch(3, 6, flush_at_start=False))
    inner = next(k for k, (a, _) in enumerate(ell.sides) if a == pytest.approx((3, 3)))
    assert [len(ell.ends_on(side)) for side in (inner - 1, inner)] == [0, 1]


CLOTH = [Supply(fabric=fabric, width=inches(40), length=inches(0)) for fabric in ("sail", "tide")]


def a_bench(*haves: tuple[str, int, str, str]) -> Bench:
    things = tuple(
        Have(name=name, count=count, fabric="sail", width=inches(width), height=inches(height))
        for name, count, width, height in haves
    )
    return Bench(Workroom(), CLOTH, things)


def joined(one: str, leave: int, two: str, enter: int, gives: str, **more) -> Join:
    parts = (JoinPart(name=one, exit=(leave,)), JoinPart(name=two, entry=(enter,)))
    return Join(parts=parts, gives=gives, times=1, **more)


def ironed(pile: str, seam: str, towards: str = "second") -> Press:
    return Press(pile=pile, seams=(Pressing(seam, (towards,)),))  # type: ignore[arg-type]


PIECES = (
    ("half", 2, "2", "3 1/2"),
    ("short", 1, "3 1/2", "2"),
    ("long", 1, "3 1/2", "5"),
    ("log", 3, "3 1/2", "6 1/2"),
)


def closing(log_to: str, nested: int, clashing: int, stop: float = 1, before: int = 0) -> None:
    """A pinwheel whose centre and first log have a seam each, which meet 1 1/2 in along the first seam.

    That is sewn as far as `stop`; `before` seams are to nest there, the others where the ring is closed.
    """
    bench = a_bench(*PIECES)
    for step in (
        joined("half", 1, "half", 3, "centre"),
        ironed("centre", "centre.0", "first"),
        joined("short", 2, "long", 0, "first log"),
        ironed("first log", "first log.0", log_to),
        joined("centre", 2, "first log", 3, "one", part_sewn=PartSewn(start=0, stop=stop), nests=before),
        ironed("one", "one.0"),
        joined("one", 1, "log", 3, "two"),
        ironed("two", "two.0"),
        joined("two", 0, "log", 1, "three"),
        ironed("three", "three.0"),
        joined("three", 6, "log", 1, "block"),
        Close(pile="block", sides=(4, 5), nests=nested, clashes=clashing),
    ):
        bench.do(step)
    assert same_polygon(centred(bench.cloth("block").net), rectangle(9, 9), 1e-6)


def centred(net: Polygon) -> Polygon:
    left, low, *_ = bounds(net)
    return tuple((x - left, y - low) for x, y in net)


def test_seams_that_meet_where_a_ring_is_closed_are_counted_there():
    closing("first", 1, 0)
    closing("second", 0, 1)
    with pytest.raises(Refused, match="seams nest at 1 places and clash at 0; the plan says 0 and 0"):
        closing("first", 0, 0)


def test_seams_that_meet_where_a_ring_is_sewn_in_part_are_counted_there():
    closing("first", 0, 0, stop=2, before=1)
    with pytest.raises(Refused, match="seams nest at 1 places and clash at 0; the plan says 0 and 0"):
        closing("first", 0, 0, stop=2)


def test_what_lies_beyond_a_slit_does_not_run_out_on_its_near_side():
    halves = join([Joining(bar(1.5, 3), (), (1,)), Joining(bar(1.5, 3), (3,), ())], "centre", SEAM)
    half_way = Stretch(2, 3, flush_at_start=False)
    first = sewn_to(halves, (2,), bar(6, 3), (0,), how=half_way)
    of_centre, of_log = closing_sides(first.net)
    assert first.sides[of_centre] == ((3, 3), (1, 3))
    assert [len(first.ends_on(side)) for side in (of_centre, of_log)] == [1, 0]


def test_a_ring_with_a_hair_of_difference_has_no_extra_corner():
    log = bar(3, 6)
    ring = sewn_to(bar(3, 3), (2,), log, (3,), how=Stretch(0, 1.5))
    for side, more, of_log in ((1, log, 3), (0, log, 1), (6, bar(3.0008, 6), 1)):
        ring = join([Joining(ring, (), (side,)), Joining(more, (of_log,), ())], "x", SEAM)
    assert len(close(ring, closing_sides(ring.net), "x.close", SEAM).net) == 4


def test_the_seam_that_was_sewn_in_part_does_not_meet_itself():
    first = sewn_to(bar(3, 3), (2,), bar(3, 6), (3,), how=Stretch(0, 1.5))
    assert meetings_closed(first, closing_sides(first.net)) == ()


def test_a_step_says_of_a_corner_that_it_is_one():
    bench = a_bench(
        ("low", 1, "6 1/2", "3 1/2"), ("up", 1, "3 1/2", "5 1/2"), ("square", 1, "2 1/2", "2 1/2")
    )
    bench.do(joined("low", 2, "up", 0, "ell", part_sewn=PartSewn(start=3, stop=6, flush="end")))
    bench.do(ironed("ell", "ell.0"))
    sides = {tuple(round(c) for c in a): k for k, (a, _) in enumerate(bench.cloth("ell").sides)}
    inner = sides[3, 3]
    parts = (JoinPart(name="ell", exit=(inner - 1, inner)), JoinPart(name="square", entry=(3, 0)))
    how = PartSewn(start=1, stop=5, flush="corner")
    set_in = Join(parts=parts, gives="whole", times=1, part_sewn=how)
    straight = Join(parts=parts, gives="whole", times=1, part_sewn=PartSewn(start=1, stop=5))
    assert "corners" in str(bench.problems(straight)[0])
    bench.do(set_in)
    assert area(bench.cloth("whole").net) == pytest.approx(18 + 15 + 4)
