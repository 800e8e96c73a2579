"""The stitching, the work and the minutes of a plan, found step by step on the bench."""

import math
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.bench.plan import Finish, Plan, Supply
from piecewright.bench.steps import (
    AnyStep,
    CutStrips,
    Join,
    JoinEnds,
    JoinPart,
    Lay,
    Press,
    Pressing,
    Ruled,
    Section,
    Stack,
    Subcut,
    TrueUp,
)
from piecewright.finishing.minutes import minutes_of, step_minutes
from piecewright.finishing.step_work import PlanWork, station_of, work_of
from piecewright.measure.length import inches
from piecewright.problems import Refused
from piecewright.sewing.stations import Station
from piecewright.workroom.workroom import Pace, Workroom

ROOM = Workroom(layers=2)
NEEDLE, SEAM = float(ROOM.needle), float(ROOM.take_up)


def squares(count: int, side: str = "3 1/2") -> tuple[AnyStep, ...]:
    """So many squares, cut from strips across 40 in of cloth."""
    fit = int(40 / float(inches(side)))
    strips = -(-count // fit)
    cut = Section(gives="square", width=inches(side), height=inches(side), count=fit)
    last = Section(gives="square", width=inches(side), height=inches(side), count=count - fit * (strips - 1))
    steps: list[AnyStep] = [CutStrips(fabric="sea", height=inches(side), count=strips, gives="strip")]
    if strips > 1:
        steps.append(Subcut(takes="strip", sections=(cut,), times=strips - 1))
    return (*steps, Subcut(takes="strip", sections=(last,), times=1))


def plan(*steps: AnyStep, top: str = "top", binding: str = "") -> Plan:
    return Plan(
        title="Nets",
        workroom=ROOM,
        cloth=(Supply(fabric="sea", width=inches(40), length=inches(400)),),
        steps=steps,
        finish=Finish(top=top, binding=binding),
    )


def pressed(pile: str, seams: int) -> Press:
    return Press(pile=pile, seams=tuple(Pressing(f"{pile}.{k}", ("first",)) for k in range(seams)))


@cache
def field(across: int, down: int) -> PlanWork:
    """A field of plain squares, finished 3 in: rows, pressed, joined, pressed."""
    steps: list[AnyStep] = [*squares(across * down)]
    row, rows = "square", 1
    if across > 1:
        parts = (JoinPart(name="square", exit=(1,), entry=(3,), count=across),)
        steps += [Join(parts=parts, gives="row", times=down), pressed("row", across - 1)]
        row, rows = "row", across
    top = (JoinPart(name=row, exit=(2,), entry=(0,), count=down),)
    steps += [
        Join(parts=top, gives="top", times=1, clashes=(rows - 1) * (down - 1)),
        pressed("top", down - 1),
    ]
    return work_of(plan(*steps))


@settings(max_examples=25, deadline=None)
@given(st.integers(1, 9), st.integers(2, 9))
def test_the_stitching_of_a_field_of_squares(across: int, down: int) -> None:
    # Plane arithmetic: each short seam is 3 1/2 in from edge to edge, each long one 3 in a square and 1/2.
    work = field(across, down)
    short, long = (across - 1) * down, down - 1
    assert work.seams == short + long
    assert work.sewn == pytest.approx(short * 3.5 + long * (across * 3 + 0.5))
    # In the ditch only what shows is followed: from dot to dot.
    assert work.in_ditch == pytest.approx(short * 3 + long * across * 3)


def test_twice_as_fine_a_field_of_the_same_area_takes_more_thread() -> None:
    # Area knows nothing of seams: 6 x 6 in of four squares, and one of nine of the same size each, differ.
    assert field(2, 2).sewn / (6 * 6) < field(3, 3).sewn / (9 * 9) < field(8, 8).sewn / (24 * 24)


def two_at_a_time(times: int) -> tuple[AnyStep, ...]:
    side = 3.5
    lines = tuple(Ruled(0.0, 0.0, side, side, beside) for beside in ("needle left", "needle right"))
    stack = Stack(
        base="square",
        # Face down, mirrored, and moved back onto its fellow.
        tops=(Lay("square", 180.0, side, 0.0),),
        sew=lines,
        cut=(Ruled(0.0, 0.0, side, side),),
        gives=("hst",),
        times=times,
    )
    return (*squares(2 * times), stack)


def test_two_lines_beside_a_diagonal_are_sewn_as_far_as_the_cloth_reaches() -> None:
    work = work_of(plan(*two_at_a_time(5), top="hst"))
    stack = work.steps[-1]
    # Plane geometry: a line a needle's distance beside the diagonal is two such distances shorter.
    assert stack.sewn == pytest.approx(5 * 2 * (3.5 * math.sqrt(2) - 2 * NEEDLE))
    assert (stack.seams, stack.marks, stack.cuts) == (10, 5, 5)


def test_strips_joined_on_the_slant_are_sewn_over_their_whole_slant() -> None:
    steps = (
        CutStrips(fabric="sea", height=inches("2 1/2"), count=4, gives="strip"),
        JoinEnds(takes="strip", count=4, gives="binding", times=1, expect=(152.5, 2.5)),
    )
    work = work_of(plan(*steps, top="binding", binding="binding"))
    assert work.sewn == pytest.approx(3 * 2.5 * math.sqrt(2))
    assert work.binding_joins == 3


def test_strips_are_cut_one_by_one_and_crosscut_in_layers() -> None:
    # 25 squares: three strips of 11; two of them crosscut together (11 cuts), the last alone (3).
    assert [step.cuts for step in work_of(plan(*squares(25), top="square")).steps] == [3, 11, 3]


def test_each_side_of_the_iron_and_each_trim_is_counted() -> None:
    # A unit's seam is one press; a seam of 27 1/2 in takes three of a foot each.
    trued = TrueUp(pile="hst", landmark="diagonal", width=inches("2 3/4"), height=inches("2 3/4"), by="trim")
    work = work_of(plan(*two_at_a_time(5), pressed("hst", 1), trued, top="hst"))
    assert [step.presses for step in work.steps[-2:]] == [10, 0]
    assert work.steps[-1].trued == 10
    assert field(9, 2).steps[-1].presses == 3


def test_minutes_follow_ones_own_pace() -> None:
    pace = Pace(mark=1, cut=2, sew_inches=10, start_seam=3, press=4, true_up=5)
    stack = work_of(plan(*two_at_a_time(6), top="hst")).steps[-1]
    minutes = step_minutes(stack, pace)
    # 6 lines x 1 s, 6 cuts x 2 s, 12 seams x 3 s, and the inches at 10 in a minute.
    assert (minutes.marking, minutes.cutting) == (pytest.approx(0.1), pytest.approx(0.2))
    assert minutes.sewing == pytest.approx(0.6 + stack.sewn / 10)
    assert minutes.all == pytest.approx(minutes.marking + minutes.cutting + minutes.sewing)


def test_trimming_takes_its_own_minutes_and_easing_none() -> None:
    pace = Pace(cut=2, true_up=5)
    trued = TrueUp(pile="hst", landmark="diagonal", width=inches("2 3/4"), height=inches("2 3/4"), by="trim")
    work = work_of(plan(*two_at_a_time(6), pressed("hst", 1), trued, top="hst")).steps[-1]
    assert step_minutes(work, pace).all == pytest.approx(12 * 5 / 60)


def test_minutes_add_up_by_station() -> None:
    work = field(3, 4)
    stations = {"row": Station.ROW, "top": Station.TOP}
    minutes = minutes_of(work.steps, Pace(), stations, ways=2)
    assert [station.name for station in minutes.stations] == ["getting ready", "cutting", "rows", "top"]
    assert minutes.all == pytest.approx(8 + sum(step.all for step in minutes.steps))
    assert minutes.stations[0].sums == ("getting ready for 2 ways of making units: 2 x 240 s = 8.0 min",)


def test_what_is_cut_from_cloth_is_done_at_the_table_whatever_it_becomes() -> None:
    steps = field(3, 4).steps
    at = [station_of(step, {"strip": Station.BINDING, "row": Station.ROW}) for step in steps[:4]]
    assert at == [Station.PIECE, Station.PIECE, Station.PIECE, Station.ROW]


def test_a_plan_that_cannot_be_done_is_refused_at_its_step() -> None:
    with pytest.raises(Refused, match=r"step 3 \(press row\)"):
        work_of(plan(*squares(4), pressed("row", 1)))
