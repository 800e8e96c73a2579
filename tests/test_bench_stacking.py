"""Stack, sew, cut, open: what comes off the one primitive behind nearly every way of making a unit."""

from math import atan2, dist, sqrt
from math import degrees as degrees_from_radians

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from piecewright.bench.bench import Bench, total_area
from piecewright.bench.plan import Have, Supply
from piecewright.bench.steps import CutApart, Join, JoinPart, Lay, Press, Pressing, Ruled, Stack
from piecewright.geometry.isometry import folded
from piecewright.geometry.polygon import edges
from piecewright.measure.length import Length, inches, mm
from piecewright.measure.rounding import exactly
from piecewright.problems import Refused
from piecewright.workroom.workroom import Workroom

WIDTHS = {"sail": inches(40), "tide": inches(40)}
TAKE_UP = 0.25
SQUARED = sqrt(2) * TAKE_UP


def bench_with(*have: Have, workroom: Workroom | None = None) -> Bench:
    cloth = [Supply(fabric=fabric, width=width, length=inches(0)) for fabric, width in WIDTHS.items()]
    return Bench(workroom or Workroom(), cloth, have)


def square(name: str, fabric: str, size: float, count: int = 1) -> Have:
    return Have(name=name, count=count, fabric=fabric, width=exactly(size), height=exactly(size))


def face_down(name: str, height: float, x: float = 0.0, y: float = 0.0) -> Lay:
    """A rectangle face down, its lower left corner at (x, y)."""
    return Lay(name, 0.0, x, y + height)


def beside(*points: float) -> tuple[Ruled, Ruled]:
    return Ruled(*points, "needle left"), Ruled(*points, "needle right")


def pressed(name: str, *seams: str) -> Press:
    return Press(pile=name, seams=tuple(Pressing(seam, ("second",)) for seam in seams or (f"{name}.0",)))


def two_at_a_time(size: float) -> Stack:
    diagonal = (0.0, 0.0, size, size)
    return Stack(
        base="sails",
        tops=(face_down("tides", size),),
        sew=beside(*diagonal),
        cut=(Ruled(*diagonal),),
        gives=("hst",),
        times=1,
    )


def squares(size: float, count: int = 1) -> tuple[Have, Have]:
    return square("sails", "sail", size, count), square("tides", "tide", size, count)


def do_all(bench: Bench, *steps) -> Bench:
    """Does the steps; after each, as much of each fabric is there as went in."""
    for step in steps:
        bench.do(step)
        for put_in, there in total_area(bench.table, WIDTHS).values():
            assert there == pytest.approx(put_in, abs=1e-6)
    return bench


def raw_size(bench: Bench, name: str) -> tuple[float, float]:
    return pytest.approx(bench.cloth(name).size, abs=1e-6)


def test_two_at_a_time():
    # hst_two_unit: plane geometry, S - sqrt(2) s for a 5 in square.
    bench = do_all(bench_with(*squares(5)), two_at_a_time(5))
    assert bench.count("hst") == 2
    assert raw_size(bench, "hst") == (4.646447, 4.646447)
    assert bench.count("sails") == bench.count("tides") == 0


@pytest.mark.parametrize(("size", "raw"), [(10, 6.717514), (4, 2.474874)])
def test_four_at_a_time(size, raw):
    # hst_four_unit: plane geometry, (S - 2s) / sqrt 2; the 4 in square comes out short of 2 1/2.
    corners = [(0.0, 0.0), (size, 0.0), (size, size), (0.0, size)]
    step = Stack(
        base="sails",
        tops=(face_down("tides", size),),
        sew=tuple(
            Ruled(*a, *b, "needle left") for a, b in zip(corners, corners[1:] + corners[:1], strict=True)
        ),
        cut=(Ruled(0, 0, size, size), Ruled(0, size, size, 0)),
        gives=("hst",),
        times=1,
    )
    bench = do_all(bench_with(*squares(size)), step)
    assert bench.count("hst") == 4
    assert raw_size(bench, "hst") == (raw, raw)


def test_eight_at_a_time():
    # hst_eight_start: plane geometry, 2 (U + sqrt(2) s); 7.707107 makes finished 3.
    size = 7.707107
    half = size / 2
    step = Stack(
        base="sails",
        tops=(face_down("tides", size),),
        sew=(*beside(0, 0, size, size), *beside(0, size, size, 0)),
        cut=(
            Ruled(half, 0, half, size),
            Ruled(0, half, size, half),
            Ruled(0, 0, size, size),
            Ruled(0, size, size, 0),
        ),
        gives=("hst",),
        times=1,
    )
    bench = do_all(bench_with(*squares(size)), step)
    assert bench.count("hst") == 8
    assert raw_size(bench, "hst") == (3.5, 3.5)


def test_a_sheet_of_three_by_four_squares_makes_twenty_four():
    # hst_grid: plane geometry, 2mn units; each square of the sheet is U + sqrt(2) s wide.
    cell, rows, columns = 2.5 + SQUARED, 3, 4
    width, height = cell * columns, cell * rows
    diagonals = []
    for k in range(1 - columns, rows):
        start = (max(0, -k), max(0, k))
        end = (min(columns, rows - k), min(rows, columns + k))
        diagonals.append((start[0] * cell, start[1] * cell, end[0] * cell, end[1] * cell))
    sheets = [
        Have(name=name, count=1, fabric=fabric, width=exactly(width), height=exactly(height))
        for name, fabric in (("sails", "sail"), ("tides", "tide"))
    ]
    step = Stack(
        base="sails",
        tops=(face_down("tides", height),),
        sew=tuple(line for diagonal in diagonals for line in beside(*diagonal)),
        cut=(
            *(Ruled(*diagonal) for diagonal in diagonals),
            *(Ruled(x * cell, 0, x * cell, height) for x in range(1, columns)),
            *(Ruled(0, y * cell, width, y * cell) for y in range(1, rows)),
        ),
        gives=("hst",),
        times=1,
    )
    bench = do_all(bench_with(*sheets), step)
    assert bench.count("hst") == 24
    assert len(bench.pile("hst").kinds) == 1
    assert raw_size(bench, "hst") == (2.5, 2.5)
    assert not any(square_inches > 1e-6 for square_inches in bench.table.offcuts.values())


def flip(base: str, x: float, line: tuple[float, ...], gives: str) -> Stack:
    """A 2 1/2 in square face down on a rectangle, sewn so that the fold falls on the line, trimmed."""
    return Stack(
        base=base,
        tops=(face_down("skies", 2.5, x),),
        sew=(Ruled(*line, "hair right"),),
        cut=(Ruled(*line, "seam right"),),
        gives=(gives,),
        times=1,
    )


def test_stitch_and_flip_makes_a_goose_of_the_size_of_its_rectangle():
    # geese_flip: patchworktimes.com 2011/11/11; finished 4 x 2 from 2 1/2 x 4 1/2 and 2 1/2 in squares.
    goose = Have(name="geese", count=1, fabric="sail", width=inches("4 1/2"), height=inches("2 1/2"))
    bench = do_all(
        bench_with(goose, square("skies", "tide", 2.5, 2)),
        flip("geese", 2.0, (4.5, 0.0, 2.0, 2.5), "one wing"),
        pressed("one wing"),
        flip("one wing", 0.0, (2.5, 2.5, 0.0, 0.0), "goose"),
        pressed("goose"),
    )
    assert raw_size(bench, "goose") == (4.5, 2.5)
    assert [face.fabric for face in bench.cloth("goose").finished] == ["sail", "tide", "tide"]
    # Two corners of base and of square fall away, each a right triangle with legs of 2 1/2 - sqrt(2) / 4 in,
    # and the tip of the first wing, with legs of 1/2 - sqrt(2) / 4 in.
    tip = (0.5 - SQUARED) ** 2 / 2
    assert bench.table.offcuts["tide"] == pytest.approx((2.5 - SQUARED) ** 2 + tip, abs=1e-6)
    assert bench.table.offcuts["sail"] == pytest.approx((2.5 - SQUARED) ** 2, abs=1e-6)


def test_no_waste_geese_four_at_a_time():
    # geese_table: members.shaw.ca/beverlysquiltingpage/ffg.htm; 5 1/4 and 2 7/8 for finished 4 x 2, rounded
    # up from 2F + 1.2071 and F + 0.8536 (plane geometry), which are taken here.
    large, small = 4 + 1.207107, 2 + 0.853553
    bench = do_all(
        bench_with(square("geese", "sail", large), square("skies", "tide", small, 4)),
        Stack(
            base="geese",
            tops=(face_down("skies", small), face_down("skies", small, large - small, large - small)),
            sew=beside(0, 0, large, large),
            cut=(Ruled(0, 0, large, large),),
            gives=("heart",),
            times=1,
        ),
        pressed("heart"),
        Stack(
            base="heart",
            tops=(face_down("skies", small, large - small, 0.0),),
            sew=beside(large, 0, large - small, small),
            cut=(Ruled(large, 0, large / 2, large / 2),),
            gives=("goose",),
            times=2,
        ),
        pressed("goose"),
    )
    assert bench.count("goose") == 4
    assert raw_size(bench, "goose") == (4.5, 2.5)
    assert sum(bench.table.offcuts.values()) == pytest.approx(0, abs=1e-6)
    # The tip of one wing that reaches into the next goose is caught there: a triangle 1/2 in by 1/4 in.
    assert bench.cloth("goose").caught == (("tide", pytest.approx(0.0625, abs=1e-6)),)


def test_hourglasses_two_at_a_time():
    # hourglass_unit: plane geometry, S - 2 sqrt(2) s for 5 1/4 in squares.
    size = 5.25
    over = folded((SQUARED, 0.0), (size, size - SQUARED))
    other = (SQUARED, size - SQUARED, size, 0.0)
    bench = do_all(
        bench_with(*squares(size)),
        two_at_a_time(size),
        pressed("hst"),
        Stack(
            base="hst",
            tops=(Lay("hst", over.degrees, over.x, over.y),),
            sew=beside(*other),
            cut=(Ruled(*other),),
            gives=("hourglass",),
            times=1,
        ),
        pressed("hourglass"),
    )
    assert bench.count("hourglass") == 2
    for cloth, _ in bench.pile("hourglass").kinds:
        assert cloth.size == pytest.approx((4.542893, 4.542893), abs=1e-6)
        assert len(cloth.finished) == 4


def test_a_strip_sewn_along_an_edge_is_the_same_primitive():
    # strip_test: quiltcentric.com 2012/09/16; three 1 1/2 in strips make 3 1/2 across, 1 in the middle.
    strips = [
        Have(name=name, count=count, fabric=fabric, width=inches(20), height=inches("1 1/2"))
        for name, fabric, count in (("sails", "sail", 2), ("tides", "tide", 1))
    ]

    def along_the_top(base: str, top: str, height: float, gives: str) -> Stack:
        return Stack(
            base=base,
            tops=(face_down(top, 1.5, 0.0, height - 1.5),),
            sew=(Ruled(20, height, 0, height, "needle left"),),
            cut=(),
            gives=(gives,),
            times=1,
        )

    bench = do_all(
        bench_with(*strips),
        along_the_top("sails", "tides", 1.5, "pair"),
        pressed("pair"),
        along_the_top("pair", "sails", 2.5, "three"),
        pressed("three"),
        CutApart(
            takes="three",
            cut=(Ruled(5, 0, 5, 3.5), Ruled(10, 0, 10, 3.5), Ruled(15, 0, 15, 3.5)),
            gives=("cut", "", "cut", "cut"),
            times=1,
        ),
    )
    assert bench.count("cut") == 3
    assert raw_size(bench, "cut") == (5.0, 3.5)
    middle = next(face for face in bench.cloth("cut").finished if face.fabric == "tide")
    across = [y for _, y in middle.seen]
    assert max(across) - min(across) == pytest.approx(1.0, abs=1e-6)


def told(bench: Bench, step) -> str:
    (problem,) = bench.problems(step)
    with pytest.raises(Refused) as refused:
        bench.do(step)
    assert refused.value.problems == (problem,)
    return str(problem)


def test_a_second_line_of_stitching_that_holds_the_cloth_shut_is_a_problem():
    step = two_at_a_time(5)
    crossing = Stack(
        base=step.base,
        tops=step.tops,
        sew=(*step.sew, Ruled(0, 4, 5, 4)),
        cut=step.cut,
        gives=step.gives,
        times=1,
    )
    assert "second line of stitching holds the cloth shut" in told(bench_with(*squares(5)), crossing)


def test_stitches_within_the_allowance_are_picked_out():
    step = two_at_a_time(5)
    beyond = Stack(
        base=step.base,
        tops=step.tops,
        sew=(*step.sew, Ruled(1, 1.1, 4, 4.1)),
        cut=step.cut,
        gives=step.gives,
        times=1,
    )
    assert raw_size(do_all(bench_with(*squares(5)), beyond), "hst") == (4.646447, 4.646447)


def test_stitches_that_run_on_behind_the_fold_are_picked_out():
    """The line starts within the allowance at the end of the seam and runs on behind it."""
    corner, half = SQUARED, sqrt(0.5)

    def point(along: float, ahead: float) -> tuple[float, float]:
        return ((along - ahead) * half, corner + (along + ahead) * half)

    step = two_at_a_time(5)
    behind = Stack(
        base=step.base,
        tops=step.tops,
        sew=(*step.sew, Ruled(*point(0.1, 0.01), *point(3.0, -0.12))),
        cut=step.cut,
        gives=step.gives,
        times=1,
    )
    assert raw_size(do_all(bench_with(*squares(5)), behind), "hst") == (4.646447, 4.646447)


def test_a_top_that_would_open_away_from_its_base_is_a_problem():
    step = Stack(
        base="sails",
        tops=(face_down("tides", 5, 3.0),),
        sew=(Ruled(3.5, 0, 3.5, 5),),
        cut=(),
        gives=("pair",),
        times=1,
    )
    assert "open away from its base" in told(bench_with(*squares(5)), step)


def test_tops_that_open_over_one_another_are_a_problem_once_they_are_sewn_to_others():
    """Until then it may be mended: no-waste geese overlap where the next seam runs."""
    step = Stack(
        base="sails",
        tops=(face_down("tides", 3, 0.0, 2.0), face_down("tides", 3, 2.0, 2.0)),
        sew=(Ruled(5, 5, 0, 5, "needle left"),),
        cut=(),
        gives=("row",),
        times=2,
    )
    bench = bench_with(square("sails", "sail", 5, 2), square("tides", "tide", 3, 4))
    do_all(bench, step, pressed("row"))
    together = Join(parts=(JoinPart(name="row", entry=(0,), exit=(0,), count=2),), gives="x", times=1)
    assert "lie over one another" in told(bench, together)


def test_unpressed_cloth_is_not_sewn_again():
    bench = bench_with(*squares(5))
    bench.do(two_at_a_time(5))
    again = Stack(
        base="hst", tops=(face_down("hst", 5),), sew=beside(0, 5, 5, 0), cut=(), gives=("x",), times=1
    )
    assert told(bench, again) == "'hst' has not been pressed (hst.0). Press it first."
    apart = CutApart(takes="hst", cut=(Ruled(0, 2, 5, 2),), gives=("part",), times=1)
    assert "has not been pressed" in told(bench, apart)


def test_too_few_cloths_are_told_by_number():
    step = two_at_a_time(5)
    thrice = Stack(base=step.base, tops=step.tops, sew=step.sew, cut=step.cut, gives=step.gives, times=3)
    assert told(bench_with(*squares(5, 2)), thrice) == "3 'sails' are wanted, 2 are there"


def test_a_size_that_was_not_expected_is_told_with_both_figures():
    step = two_at_a_time(5)
    wrong = Stack(
        base=step.base,
        tops=step.tops,
        sew=step.sew,
        cut=step.cut,
        gives=step.gives,
        times=1,
        expect=(4.5, 4.5),
    )
    assert told(bench_with(*squares(5)), wrong) == (
        "'hst' measures 4.6464 x 4.6464 in, 4.5000 x 4.5000 in was expected"
    )


@pytest.mark.parametrize("times", [0, -1])
def test_a_step_that_is_done_no_time_is_a_problem(times):
    step = two_at_a_time(5)
    never = Stack(base=step.base, tops=step.tops, sew=step.sew, cut=step.cut, gives=step.gives, times=times)
    assert f"stacking is done {times} times" in told(bench_with(*squares(5)), never)


def test_names_that_do_not_fit_the_parts_are_a_problem():
    step = two_at_a_time(5)
    named = Stack(base=step.base, tops=step.tops, sew=step.sew, cut=step.cut, gives=("a", "b", "c"), times=1)
    assert told(bench_with(*squares(5)), named) == "2 parts come off, 3 are named: a, b, c"


def test_an_opened_part_without_a_name_is_an_offcut():
    step = two_at_a_time(5)
    half = Stack(base=step.base, tops=step.tops, sew=step.sew, cut=step.cut, gives=("hst", ""), times=1)
    bench = do_all(bench_with(*squares(5)), half)
    assert bench.count("hst") == 1
    assert bench.table.offcuts == pytest.approx({"sail": 12.5, "tide": 12.5}, abs=1e-6)


def test_cutting_within_an_allowance_loses_no_cloth_from_the_account():
    bench = do_all(bench_with(*squares(5)), two_at_a_time(5), pressed("hst"))
    diagonal = bench.cloth("hst").seams[0].path
    (ax, ay), (bx, by) = diagonal
    do_all(
        bench,
        CutApart(takes="hst", cut=(Ruled(ax, ay, bx, by, "needle left"),), gives=("more", "less"), times=2),
    )
    # The strip of one fabric that was hidden in the allowance falls off the part that shows the other only.
    assert sorted(len(bench.cloth(name).faces) for name in ("more", "less")) == [1, 2]
    assert sorted(bench.table.offcuts.values())[-1] > 0.2


def test_what_lies_hidden_in_an_allowance_is_caught_when_the_cloth_is_sewn_again():
    bench = do_all(bench_with(*squares(5), square("seas", "tide", 5, 2)), two_at_a_time(5), pressed("hst"))
    (ax, ay), (bx, by) = bench.cloth("hst").seams[0].path
    towards = -0.1 * sqrt(0.5)
    line = (ax - towards, ay + towards, bx - towards, by + towards)
    step = Stack(
        base="hst",
        tops=(face_down("seas", 5, ax - 0.5, ay - 0.5),),
        sew=beside(*line),
        cut=(Ruled(*line),),
        gives=("one", "other"),
        times=1,
    )
    do_all(bench, step)
    assert {fabric for name in ("one", "other") for fabric, _ in bench.cloth(name).caught} <= {"sail", "tide"}
    assert any(bench.cloth(name).caught for name in ("one", "other"))


@pytest.mark.parametrize("degrees", [0, 20, 45, 70, 90, 200])
def test_the_grain_goes_with_the_cloth_however_it_was_laid(degrees):
    """A top 2 in across and 6 in along its grain: opened, its long side still shows where the grain runs."""
    top = Have(name="ribbon", count=1, fabric="tide", width=inches(2), height=inches(6))
    lay = Lay("ribbon", degrees, 6.0, 6.0)
    corners = [lay.place.at(p) for p in ((0, 0), (2, 0), (2, 6), (0, 6))]
    (ax, ay), (bx, by) = corners[0], corners[1]
    step = Stack(
        base="sails",
        tops=(lay,),
        sew=(Ruled(ax, ay, bx, by, "needle right"),),
        cut=(Ruled(ax, ay, bx, by),),
        gives=("thing",),
        times=1,
    )
    bench = do_all(bench_with(square("sails", "sail", 12), top), step)
    ribbon = next(face for face in bench.cloth("thing").faces if face.fabric == "tide")
    (x0, y0), (x1, y1) = max(edges(ribbon.flat), key=lambda edge: dist(*edge))
    assert degrees_apart(degrees_of(x1 - x0, y1 - y0), ribbon.grain, 180) < 1e-6


def degrees_of(x: float, y: float) -> float:
    return degrees_from_radians(atan2(y, x))


def degrees_apart(one: float, other: float, period: float) -> float:
    off = (one - other) % period
    return min(off, period - off)


def test_a_worn_out_pile_takes_another_kind_of_cloth():
    bench = do_all(bench_with(*squares(5), square("more sails", "sail", 4), square("more tides", "tide", 4)))
    do_all(bench, two_at_a_time(5), pressed("hst"))
    do_all(bench, CutApart(takes="hst", cut=(Ruled(0, 2, 5, 2),), gives=("",), times=2))
    assert bench.count("hst") == 0
    smaller = two_at_a_time(4)
    do_all(
        bench,
        Stack(
            base="more sails",
            tops=(face_down("more tides", 4),),
            sew=smaller.sew,
            cut=smaller.cut,
            gives=("hst",),
            times=1,
        ),
    )
    assert raw_size(bench, "hst") == (4 - SQUARED, 4 - SQUARED)


sizes = st.integers(16, 64).map(lambda eighths: eighths / 8)
offsets = st.floats(-2, 2)


@settings(max_examples=60)
@given(sizes, sizes, offsets, offsets, st.floats(0, 1), st.floats(0, 180), st.sampled_from(["left", "right"]))
def test_whatever_is_stacked_no_cloth_appears_or_vanishes(base, top, x, y, share, degrees, side):
    """A top anywhere on a base, one seam at any angle, trimmed on one side of it: what opens adds up."""
    lay = Lay("tides", degrees, x, y + top)
    seam = (base * share, 0.0, base * (1 - share), base)
    step = Stack(
        base="sails",
        tops=(lay,),
        sew=(Ruled(*seam),),
        cut=(Ruled(*seam, f"needle {side}"),),
        gives=("thing",),
        times=1,
    )
    bench = bench_with(square("sails", "sail", base), square("tides", "tide", top))
    problems = bench.problems(step)
    assume(not problems)
    do_all(bench, step)
    assert bench.count("thing") > 0


@given(st.floats(1, 4), st.sampled_from([mm(5), mm(6), mm("7.5"), inches("1/4"), inches("3/8")]))
def test_the_rules_for_two_hold_at_any_seam(unfinished, take_up):
    workroom = Workroom(needle=take_up, fold=Length(take_up.exact * 0))
    size = unfinished + sqrt(2) * float(take_up)
    bench = do_all(bench_with(*squares(size), workroom=workroom), two_at_a_time(size))
    assert bench.cloth("hst").size == pytest.approx((unfinished, unfinished), abs=1e-5)
