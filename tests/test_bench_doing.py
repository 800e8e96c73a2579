"""Doing and undoing: every kind of step, what it refuses, its line of text, and starting from any state."""

from fractions import Fraction
from math import sqrt

import msgspec
import pytest

from piecewright.bench.bench import Bench, total_area
from piecewright.bench.plan import Finish, Have, Plan, Supply
from piecewright.bench.replay import run
from piecewright.bench.steps import (
    AnyStep,
    Close,
    CutApart,
    CutOut,
    CutStrips,
    Gather,
    Join,
    JoinEnds,
    JoinPart,
    Lay,
    PartSewn,
    Press,
    Pressing,
    Ruled,
    Section,
    Stack,
    Subcut,
    TrueUp,
)
from piecewright.measure.in_files import length_from_text, length_to_text
from piecewright.measure.length import inches, mm
from piecewright.problems import Refused
from piecewright.workroom.workroom import Workroom

WIDTH = inches(40)
WIDTHS = {"sail": WIDTH, "tide": WIDTH}


def bench_with(length: int = 36, have: tuple[Have, ...] = (), **workroom) -> Bench:
    cloth = [Supply(fabric=fabric, width=WIDTH, length=inches(length)) for fabric in WIDTHS]
    return Bench(Workroom(**workroom), cloth, have)


def strips(fabric: str, height: str, count: int = 1) -> CutStrips:
    return CutStrips(fabric=fabric, height=inches(height), count=count, gives=f"{fabric} strip")


def subcut(fabric: str, size: str, count: int) -> Subcut:
    section = Section(gives=f"{fabric} square", width=inches(size), height=inches(size), count=count)
    return Subcut(takes=f"{fabric} strip", sections=(section,), times=1)


def hst_steps(size: str = "2 7/8", times: int = 1) -> tuple[AnyStep, ...]:
    """Half-square triangles two at a time, from strips to the pressed unit that is trued to 2 1/2 in."""
    edge = float(inches(size))
    diagonal = (0.0, 0.0, edge, edge)
    return (
        strips("sail", size),
        strips("tide", size),
        subcut("sail", size, times),
        subcut("tide", size, times),
        Stack(
            base="sail square",
            tops=(Lay("tide square", 0.0, 0.0, edge),),
            sew=(Ruled(*diagonal, "needle left"), Ruled(*diagonal, "needle right")),
            cut=(Ruled(*diagonal),),
            gives=("hst",),
            times=times,
        ),
        Press(pile="hst", seams=(Pressing("hst.0", ("second",)),)),
    )


def trued(by: str = "ease", size: str = "2 1/2", landmark: str = "diagonal") -> TrueUp:
    return TrueUp(pile="hst", landmark=landmark, width=inches(size), height=inches(size), by=by)


def told(bench: Bench, step: AnyStep) -> str:
    """The one problem of a step, and a table that it leaves as it was."""
    before = bench.table
    (problem,) = bench.problems(step)
    with pytest.raises(Refused):
        bench.do(step)
    assert bench.table is before
    return str(problem)


def test_undo_brings_back_each_table_in_turn():
    bench = bench_with()
    steps = (*hst_steps(times=3), trued())
    tables = []
    for step in steps:
        tables.append(bench.table)
        bench.do(step)
    assert bench.operations == len(steps)
    assert bench.count("hst") == 6
    for table in reversed(tables):
        bench.undo()
        assert bench.table == table
    assert bench.operations == 0
    with pytest.raises(Refused, match="no step has been done yet"):
        bench.undo()


def test_asking_what_would_go_wrong_changes_nothing():
    bench = bench_with()
    for step in hst_steps():
        before = bench.table
        assert bench.problems(step) == []
        assert bench.table is before
        bench.do(step)
    assert bench.problems(trued()) == []
    assert bench.cloth("hst").size == pytest.approx((2.875 - sqrt(2) / 4,) * 2)


def test_a_step_costs_as_much_a_hundred_times_over():
    once, often = bench_with(), bench_with()
    for step in hst_steps(times=1):
        once.do(step)
    for step in hst_steps(times=12):
        often.do(step)
    assert (once.count("hst"), often.count("hst")) == (2, 24)
    assert once.operations == often.operations


EVERY_KIND: tuple[AnyStep, ...] = (
    *hst_steps(),
    trued(),
    Subcut(
        takes="sail strip",
        sections=(
            Section(gives="long", width=inches("6 1/2"), height=mm("67.5"), count=2, stack=2, turned=True),
            Section(gives="short", width=mm(65), height=mm(65), count=1),
        ),
        times=3,
    ),
    CutOut(takes="sail square", outline=((0.0, 0.0), (2.5, 0.1), (1 / 3, 2.0)), gives="sail", times=2),
    CutApart(takes="sail square", cut=(Ruled(0.1, 0.2, 3.3, 1 / 3, "seam right"),), gives=("a", ""), times=2),
    Gather(pile="hourglass"),
    Join(
        parts=(JoinPart(name="a", exit=(1,)), JoinPart(name="b", entry=(3, 0), exit=(1,), count=4)),
        gives="row",
        times=2,
        expect=(12.5, 2.5),
        nests=3,
        clashes=1,
    ),
    Join(
        parts=(JoinPart(name="a", exit=(1,)), JoinPart(name="b", entry=(3,))),
        gives="part",
        times=1,
        part_sewn=PartSewn(start=0.0, stop=1.5, flush="end"),
    ),
    Close(pile="ring", sides=(4, 5)),
    JoinEnds(takes="strip", count=8, gives="binding", times=1, expect=(302.5, 2.5)),
)


@pytest.mark.parametrize("step", EVERY_KIND, ids=lambda step: type(step).__name__)
def test_a_step_is_one_line_of_text_and_is_read_back(step):
    text = msgspec.json.encode(step, enc_hook=length_to_text)
    assert b"\n" not in text
    assert msgspec.json.decode(text, type=AnyStep, dec_hook=length_from_text) == step


def test_every_kind_of_step_is_in_that_table():
    assert {type(step) for step in EVERY_KIND} == set(AnyStep.__args__)


def test_a_step_that_nobody_knows_is_not_read():
    with pytest.raises(msgspec.ValidationError):
        msgspec.json.decode(b'{"do":"glue","pile":"hst"}', type=AnyStep, dec_hook=length_from_text)


def test_a_plan_starts_from_units_that_are_sewn_already():
    sewn = Have(name="hst", count=37, made_by=hst_steps())
    bench = bench_with(length=0, have=(sewn,))
    assert bench.count("hst") == 37
    area = bench.cloth("hst").area * 37
    assert sum(there for _, there in total_area(bench.table, WIDTHS).values()) == pytest.approx(area)
    bench.do(trued())
    row = Join(
        parts=(JoinPart(name="hst", entry=(3,), exit=(1,), count=36),),
        gives="row",
        times=1,
        expect=(72.5, 2.5),
        nests=0,
        clashes=0,
    )
    bench.do(row)
    assert bench.count("hst") == 1
    assert told(bench, row) == "36 'hst' are wanted, 1 are there"


def test_a_plan_starts_from_pieces_that_are_cut_already():
    have = (
        Have(name="sail square", count=5, fabric="sail", width=inches("2 7/8"), height=inches("2 7/8")),
        Have(name="tide square", count=5, fabric="tide", width=inches("2 7/8"), height=inches("2 7/8")),
    )
    bench = bench_with(length=0, have=have)
    for step in hst_steps(times=5)[4:]:
        bench.do(step)
    assert bench.count("hst") == 10
    assert total_area(bench.table, WIDTHS)["sail"] == pytest.approx((5 * 2.875**2,) * 2)


def test_a_fabric_that_is_gone_is_told():
    assert told(bench_with(length=0), strips("sail", "2 1/2")) == (
        "1 strips of 2 1/2 in need 2 1/2 in of 'sail', 0 in are left"
    )
    never = CutStrips(fabric="kelp", height=inches(2), count=1, gives="strip")
    assert told(bench_with(), never) == "there is no cloth 'kelp'. There are sail, tide."


@pytest.mark.parametrize(
    ("have", "message"),
    [
        (Have(name="hst", count=3), "neither a size nor steps"),
        (Have(name="x", count=3, fabric="sail", width=inches(-1), height=inches(3)), "neither a size"),
        (Have(name="x", count=0, fabric="sail", width=inches(3), height=inches(3)), "0 'x' cannot be there"),
        (Have(name="other", count=3, made_by=hst_steps()), "there is no 'other'"),
    ],
)
def test_things_that_cannot_be_there_already_are_refused(have, message):
    with pytest.raises(Refused, match=message):
        bench_with(have=(have,))


@pytest.mark.parametrize(
    ("step", "message"),
    [
        (strips("sail", "2 1/2", 0), "cutting strips is done 0 times"),
        (strips("sail", "-1"), "a strip cannot be -1 in high"),
        (strips("sail", "2 1/2", 15), "15 strips of 2 1/2 in need 37 1/2 in of 'sail', 36 in are left"),
        (subcut("sail", "2 7/8", 1), "there is no 'sail strip'"),
        (trued(), "there is no 'hst' to true up"),
        (Press(pile="hst", seams=()), "there is no 'hst' to press"),
        (Gather(pile="hst"), "holds 0 kinds"),
    ],
)
def test_a_bare_table_refuses(step, message):
    assert message in told(bench_with(), step)


@pytest.mark.parametrize(
    ("size", "count", "message"),
    [("2 7/8", 14, "the sections take 40.25 in"), ("3", 1, "do not fit a strip 2.875 in high")],
)
def test_sections_that_do_not_fit_their_strip_are_refused(size, count, message):
    bench = bench_with()
    bench.do(strips("sail", "2 7/8"))
    assert message in told(bench, subcut("sail", size, count))


@pytest.mark.parametrize(
    ("seams", "message"),
    [
        ((), "has seams that are not pressed: hst.0"),
        ((Pressing("hst.0", ("first", "second")),), "has 1 segments, 2 are pressed"),
        ((Pressing("hst.0", ("open",)), Pressing("hst.9", ("open",))), "has no unpressed seam hst.9"),
    ],
)
def test_every_seam_is_pressed_once_and_no_other(seams, message):
    bench = bench_with()
    for step in hst_steps()[:-1]:
        bench.do(step)
    assert message in told(bench, Press(pile="hst", seams=seams))


@pytest.mark.parametrize(
    ("step", "message"),
    [
        (trued(size="2 5/8"), "2.5214 x 2.5214 in is too small to be trued up to 2.6250 x 2.6250 in"),
        (trued(size="2 1/4"), "0.2714 in is more than can be eased in (0.0625 in)"),
        (trued(by="trim"), "a sliver of 0.0214 in would be trimmed"),
        (trued(landmark="centre"), "there is no centre to measure from"),
        (trued(landmark="point"), "there is no point to measure from"),
    ],
)
def test_truing_up_refuses(step, message):
    bench = bench_with()
    for before in hst_steps():
        bench.do(before)
    assert message in told(bench, step)


def test_what_is_trimmed_off_is_an_offcut():
    bench = bench_with()
    for step in hst_steps("3"):
        bench.do(step)
    before = bench.cloth("hst").area
    offcuts = sum(bench.table.offcuts.values())
    bench.do(trued(by="trim"))
    assert bench.cloth("hst").size == pytest.approx((2.5, 2.5))
    lost = 2 * (before - bench.cloth("hst").area)
    assert sum(bench.table.offcuts.values()) - offcuts == pytest.approx(lost)
    assert lost > 2 * (2.6464**2 - 2.5**2)


def binding(count: int, expect: tuple[float, float]) -> tuple[AnyStep, ...]:
    return (
        CutStrips(fabric="sail", height=inches("2 1/2"), count=count, gives="strip"),
        JoinEnds(takes="strip", count=count, gives="binding", times=1, expect=expect),
    )


@pytest.mark.parametrize(("count", "length", "enough"), [(7, 265.0, False), (8, 302.5, True)])
def test_eight_strips_bind_a_throw(count, length, enough):
    # binding_a: plane geometry, each 45 degree join costs one strip width; a 60 x 72 top, 2 1/2 in strips
    # of 40 in cloth, 10 in spare.
    bench = bench_with()
    for step in binding(count, (length, 2.5)):
        bench.do(step)
    done = bench.cloth("binding")
    assert done.size == pytest.approx((length, 2.5))
    assert (done.size[0] >= 2 * (60 + 72) + 10) == enough
    assert [seam.name for seam in done.seams] == ["binding.0"] * (count - 1)


def test_a_slanted_join_trims_two_triangles_and_shows_cloth_all_along():
    bench = bench_with()
    for step in binding(3, (115.0, 2.5)):
        bench.do(step)
    leg = 2.5 - sqrt(2) / 4
    assert bench.table.offcuts["sail"] == pytest.approx(2 * 2 * leg**2 / 2)
    for put_in, there in total_area(bench.table, WIDTHS).values():
        assert there == pytest.approx(put_in)
    finished = sum(_area(face.seen) for face in bench.cloth("binding").finished)
    assert finished == pytest.approx(114.5 * 2.0)


def _area(polygon) -> float:
    """The shoelace formula, from memory."""
    pairs = zip(polygon, polygon[1:] + polygon[:1], strict=True)
    return abs(sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs)) / 2


def test_a_binding_shorter_than_expected_is_told():
    first, join = binding(7, (302.5, 2.5))
    bench = bench_with()
    bench.do(first)
    assert "measures 265.0000 x 2.5000 in, 302.5000 x 2.5000" in told(bench, join)


def rows(n: int) -> Bench:
    """Two kinds of row of n squares, pressed to the right and to the left."""
    squares = Have(name="square", count=100, fabric="sail", width=inches("2 1/2"), height=inches("2 1/2"))
    bench = bench_with(length=0, have=(squares,))
    for name, towards in (("right", "second"), ("left", "first")):
        part = JoinPart(name="square", entry=(3,), exit=(1,), count=n)
        bench.do(Join(parts=(part,), gives=name, times=4))
        bench.do(Press(pile=name, seams=tuple(Pressing(f"{name}.{k}", (towards,)) for k in range(n - 1))))
    return bench


def on_top(names: list[str], gives: str, times: int = 1, nests: int = 0, clashes: int = 0) -> Join:
    parts = tuple(JoinPart(name=name, entry=(0,), exit=(2,)) for name in names)
    return Join(parts=parts, gives=gives, times=times, nests=nests, clashes=clashes)


def beside(name: str, gives: str, nests: int = 0, clashes: int = 0) -> Join:
    part = JoinPart(name=name, entry=(3,), exit=(1,), count=2)
    return Join(parts=(part,), gives=gives, times=1, nests=nests, clashes=clashes)


def test_rows_pressed_opposite_ways_nest_and_rows_pressed_alike_clash():
    # Common practice, no source: alternate rows are pressed to opposite sides, so that seams lock.
    bench = rows(4)
    assert bench.problems(on_top(["right", "left"], "pair", nests=3)) == []
    assert bench.problems(on_top(["right", "right"], "pair", clashes=3)) == []
    assert told(bench, on_top(["right", "right"], "pair", nests=3)) == (
        "seams nest at 0 places and clash at 3; the plan says 3 and 0. Check which way they were pressed."
    )


@pytest.mark.parametrize("n", [2, 3, 4])
def test_alike_blocks_of_alternate_rows_nest_above_and_below_when_even_and_never_beside(n):
    """Derived: the top row of one meets the bottom row of the next; the seams between rows all lean up."""
    bench = rows(n)
    alternate = [("right", "left")[k % 2] for k in range(n)]
    bench.do(on_top(alternate, "block", times=2, nests=(n - 1) ** 2))
    bench.do(Press(pile="block", seams=tuple(Pressing(f"block.{k}", ("second",)) for k in range(n - 1))))
    meeting = n - 1
    above = {"nests": meeting} if n % 2 == 0 else {"clashes": meeting}
    assert bench.problems(on_top(["block", "block"], "tower", **above)) == []
    assert bench.problems(beside("block", "pair", clashes=meeting)) == []


@pytest.mark.parametrize("other", ["open", "right", "left"])
def test_seams_pressed_open_never_nest(other):
    bench = rows(2)
    bench.do(Join(parts=(JoinPart(name="square", entry=(3,), exit=(1,), count=2),), gives="open", times=2))
    bench.do(Press(pile="open", seams=(Pressing("open.0", ("open",)),)))
    assert bench.problems(on_top(["open", other], "block", clashes=1)) == []


def test_one_cloth_is_not_joined_to_nothing():
    bench = rows(2)
    alone = Join(parts=(JoinPart(name="square", exit=(1,)),), gives="x", times=1)
    assert "one cloth cannot be joined to nothing" in told(bench, alone)


def test_a_length_in_a_step_stands_as_its_own_unit():
    step = CutStrips(fabric="sail", height=mm(Fraction(135, 2)), count=1, gives="strip")
    assert b'"height":"67.5 mm"' in msgspec.json.encode(step, enc_hook=length_to_text)


def test_figures_that_no_cloth_can_have_are_told_with_their_step() -> None:
    plan = Plan(
        title="nonsense",
        workroom=Workroom(),
        cloth=(Supply(fabric="sea", width=inches(0), length=inches(9)),),
        steps=(CutStrips(fabric="sea", height=inches(3), count=1, gives="strip"),),
        finish=Finish(top="strip"),
    )
    _, problems = run(plan)
    assert [problem.where for problem in problems] == ["step 1 (cut strips strip)"]
    assert problems[0].what.startswith("no cloth has such sizes")


FLAT = Have(name="sea square", count=1, fabric="sea", width=inches(4), height=inches(4))
TRIANGLE = ((0.5, 0.5), (3.0, 0.5), (0.5, 2.5))


def test_a_template_is_cut_out_of_a_piece_and_the_rest_is_offcut():
    bench = bench_with(length=0, have=(FLAT,))
    bench.do(CutOut(takes="sea square", outline=TRIANGLE, gives="kite", times=1))
    # plane geometry: half of 2 1/2 x 2
    assert bench.cloth("kite").area == pytest.approx(2.5)
    assert bench.table.offcuts["sea"] == pytest.approx(16 - 2.5)


def test_a_sewn_unit_is_cut_along_a_printed_edge():
    sewn = Have(name="hst", count=1, made_by=hst_steps())
    bench = bench_with(length=0, have=(sewn,))
    size = min(bench.cloth("hst").size)
    low = bench.cloth("hst").raw
    x0, y0 = min(x for x, _ in low), min(y for _, y in low)
    window = tuple(
        (x0 + x, y0 + y) for x, y in ((0.1, 0.1), (size - 0.2, 0.1), (size - 0.2, 1.5), (0.1, 1.5))
    )
    put_in = total_area(bench.table, WIDTHS)
    bench.do(CutOut(takes="hst", outline=window, gives="part", times=1))
    assert sorted(bench.cloth("part").size) == pytest.approx([1.4, size - 0.3])
    assert len(bench.cloth("part").faces) == 2
    for fabric, (_, there) in total_area(bench.table, WIDTHS).items():
        assert there == pytest.approx(put_in[fabric][1])


@pytest.mark.parametrize(
    ("outline", "message"),
    [
        (((0, 0), (5, 0), (0, 5)), "does not reach as far"),
        (((0, 0), (1, 0)), "3 to 2000 corners"),
        (((0, 0), (0, 2), (2, 0)), "counter-clockwise"),
        (((0, 0), (2, 2), (2, 0), (0, 2)), "counter-clockwise"),
    ],
)
def test_an_outline_that_cannot_be_cut_out_is_refused(outline, message):
    bench = bench_with(length=0, have=(FLAT,))
    with pytest.raises(Refused, match=message):
        bench.do(CutOut(takes="sea square", outline=outline, gives="kite", times=1))


def test_only_a_convex_outline_is_cut_out_of_a_sewn_cloth():
    bench = bench_with(length=0, have=(Have(name="hst", count=1, made_by=hst_steps()),))
    x, y = bench.cloth("hst").raw[0]
    arrow = tuple((x + a, y + b) for a, b in ((0.5, 0.2), (0.6, 0.6), (1.0, 0.7), (0.1, 1.2)))
    with pytest.raises(Refused, match="convex"):
        bench.do(CutOut(takes="hst", outline=arrow, gives="kite", times=1))


def test_a_strip_cut_apart_beside_the_first_gives_no_more_than_lies_in_it() -> None:
    # exact: 40 in cut at 30 leave 10 in on the right: two of 5 in, and no third.
    there = bench_with()
    there.do(strips("sail", "5"))
    there.do(CutApart(takes="sail strip", cut=(Ruled(30.0, 0.0, 30.0, 5.0),), gives=("", "rest"), times=1))
    five = Section(gives="sail square", width=inches(5), height=inches(5), count=2)
    three = msgspec.structs.replace(five, count=3)
    assert "the strip is 10 in long" in told(there, Subcut(takes="rest", sections=(three,), times=1))
    there.do(Subcut(takes="rest", sections=(five,), times=1))
    assert there.table.piles["sail square"].count == 2


def test_a_strip_cut_apart_above_the_first_is_no_higher_than_it_is() -> None:
    # exact: 5 in cut at 3 leave 2 in above.
    there = bench_with()
    there.do(strips("sail", "5"))
    there.do(CutApart(takes="sail strip", cut=(Ruled(0.0, 3.0, 40.0, 3.0),), gives=("", "rest"), times=1))
    high = Section(gives="sail square", width=inches("2 1/2"), height=inches("2 1/2"), count=1)
    assert "do not fit a strip 2 in high" in told(there, Subcut(takes="rest", sections=(high,), times=1))


def test_what_is_no_rectangle_is_not_subcut() -> None:
    there = bench_with()
    there.do(strips("sail", "5"))
    slanted = (Ruled(10.0, 0.0, 15.0, 5.0), Ruled(20.0, 0.0, 25.0, 5.0))
    there.do(CutApart(takes="sail strip", cut=slanted, gives=("", "diamond", ""), times=1))
    square = Section(gives="sail square", width=inches(5), height=inches(5), count=1)
    refused = told(there, Subcut(takes="diamond", sections=(square,), times=1))
    assert "is not a strip with square corners" in refused


def test_pieces_cut_from_a_strip_that_lay_on_its_side_keep_its_grain() -> None:
    there = bench_with()
    there.do(strips("sail", "5"))
    lying = Section(gives="short strip", width=inches(10), height=inches(5), count=2, turned=True)
    there.do(Subcut(takes="sail strip", sections=(lying,), times=1))
    upright = Section(gives="upright", width=inches(2), height=inches(4), count=1)
    turned = Section(gives="turned", width=inches(3), height=inches(2), count=1, turned=True)
    there.do(Subcut(takes="short strip", sections=(upright, turned), times=1))
    # The short strip's grain lies across it; what is turned once more has it upright again.
    grain = [there.table.only(name).faces[0].grain % 180 for name in ("short strip", "upright", "turned")]
    assert grain == [0, 0, 90]
