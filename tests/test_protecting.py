"""The protecting test: random quilts are planned, and their plans run where nothing can plan.

`QUILTS` says how many. For more of them, new ones each time:
`pytest tests/test_protecting.py --hypothesis-profile=roam`, with PIECEWRIGHT_QUILTS=2000, say.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterator
from dataclasses import replace

import msgspec
import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from allowance_oracle import without_allowance
from bare_bench import NOT_HERE, BareBench
from one_way_quilts import one_way_quilt, one_way_quilts, quilt_of_two_ways
from piecewright.bench.plan_file import plan_from_text, plan_text
from piecewright.bench.replay import run
from piecewright.bench.steps import Gather
from piecewright.measure.length import inches, mm
from piecewright.planning.job import Job
from piecewright.planning.make_plan import make_plan
from piecewright.planning.report import report_of
from piecewright.planning.things import UnitThing
from piecewright.planning.units import There
from piecewright.problems import Refused
from piecewright.shelf.shelf import Shelf, take_out
from piecewright.workroom.workroom import INCH_WORKROOM, METRIC_WORKROOM
from promises import SAMPLES
from random_quilts import Quilt, quilts
from random_shelves import shelves

QUILTS = int(os.environ.get("PIECEWRIGHT_QUILTS", "240"))
ORACLE_QUILTS = QUILTS // 6

LANTERN = """
title = "Two lamps"
[fabrics.fog]
colour = "#e6e2d8"
[fabrics.lantern]
colour = "#e0a03c"
[blocks.lamp]
size = "4"
picture = "fog.ns.lantern"
[setting]
across = 2
down = 1
arrangement = "lamp"
"""

# What a quilt may be refused for; every sentence is asserted whole but for its figures and names.
REFUSALS = re.compile(
    "no straight seam goes all the way through the part of "
    "|the workroom refuses every way for the "
    "|for the [a-z -]+ no way that the workroom allows leaves at most "
)
EVERY_WAY = list(one_way_quilts())
slow = settings(suppress_health_check=list(HealthCheck))

FOUR_SAILS = """
title = "Four sails over the water"
unit = "cm"
[fabrics.fog]
colour = "#e6e2d8"
[fabrics.lantern]
colour = "#e0a03c"
[blocks.sails]
size = "14.4 x 7.2"
picture = '''
fog.nw.lantern  fog.nw.lantern  fog.nw.lantern  fog.nw.lantern
fog             -               -               -
'''
[setting]
across = 1
down = 1
arrangement = "sails"
[choices]
hst = "eight at a time"
"""


@pytest.fixture(scope="module")
def bare() -> Iterator[BareBench]:
    with BareBench() as bench:
        yield bench


def planned(quilt: Quilt) -> Job:
    """The job; a quilt that cannot be planned is refused in a sentence, and does not count."""
    try:
        return make_plan(quilt.read(), quilt.workroom)
    except Refused as refused:
        (problem,) = refused.problems
        assert REFUSALS.match(problem.what), str(problem)
        assert problem.do.endswith(".")
        assume(False)
        raise


@settings(slow, max_examples=QUILTS // 2)
@given(quilts())
def test_a_plan_makes_the_quilt_as_drawn_where_nothing_can_plan(bare: BareBench, quilt: Quilt) -> None:
    _makes_it(bare, quilt)


@settings(slow, max_examples=QUILTS - QUILTS // 2)
@given(quilts(most=2))
def test_a_plan_makes_a_small_quilt_as_drawn_where_nothing_can_plan(bare: BareBench, quilt: Quilt) -> None:
    """Small settings, so that more of the examples go into blocks and borders."""
    _makes_it(bare, quilt)


@settings(slow, max_examples=QUILTS // 12)
@given(quilts(most=2), st.integers(0, 10), st.integers(1, 6))
def test_a_plan_goes_on_from_units_that_are_there(
    bare: BareBench, quilt: Quilt, which: int, count: int
) -> None:
    units = [thing.recipe.unit for thing in planned(quilt).things.values() if isinstance(thing, UnitThing)]
    assume(units)
    job = make_plan(quilt.read(), quilt.workroom, [There(units[which % len(units)], count)])
    assert 1 <= sum(have.count for have in job.plan.have) <= count
    _is_made(bare, quilt, job)


@settings(slow, max_examples=QUILTS // 8)
@given(quilts(most=3), shelves())
def test_a_plan_cuts_from_the_shelf_first(bare: BareBench, quilt: Quilt, shelf: Shelf) -> None:
    planned(quilt)
    job = make_plan(quilt.read(), quilt.workroom, shelf=shelf)
    take_out(shelf, job.shelf.used)  # Raises Refused where more is used than there is.
    assert sum(have.count for have in job.plan.have) == sum(used.count for used in job.shelf.used)
    _is_made(bare, quilt, job)


def test_a_pile_may_be_filled_by_two_ways_and_by_what_is_there(bare: BareBench) -> None:
    quilt = quilt_of_two_ways()
    job = planned(quilt)
    (gather,) = (step for step in job.plan.steps if isinstance(step, Gather))
    assert len(gather.takes) == 2
    _is_made(bare, quilt, job)
    # arithmetic: 18 - 7 = 11, one eight and two twos, and the seven
    (unit, *_) = (thing.recipe.unit for thing in job.things.values() if isinstance(thing, UnitThing))
    more = make_plan(quilt.read(), quilt.workroom, [There(unit, 7)])
    (gather,) = (step for step in more.plan.steps if isinstance(step, Gather))
    assert len(gather.takes) >= 2
    assert [have.count for have in more.plan.have] == [7]
    _is_made(bare, quilt, more)


def test_cloth_that_all_went_into_what_is_there_need_not_be_in_the_plan(bare: BareBench) -> None:
    quilt = Quilt(LANTERN, INCH_WORKROOM)
    (unit,) = (t.recipe.unit for t in planned(quilt).things.values() if isinstance(t, UnitThing))
    job = make_plan(quilt.read(), quilt.workroom, [There(unit, 2)])
    assert [supply.fabric for supply in job.plan.cloth] == ["backing"]
    _is_made(bare, quilt, job)


@pytest.mark.parametrize(
    "kind", ["star8", "star8-wedges", "logcabin", "courthouse", "threepatch", "quarters"]
)
def test_a_unit_whose_fabrics_are_one_is_made_as_drawn(bare: BareBench, kind: str) -> None:
    """Its starts lie on one pile where they are of one size."""
    unit = SAMPLES[kind](inches(4))
    for fabrics in (("sail",) * len(unit.fabrics), ("sail", "sail", "tide", "tide")[: len(unit.fabrics)]):
        quilt = one_way_quilt(replace(unit, fabrics=fabrics), None, INCH_WORKROOM)
        _makes_it(bare, quilt)


@pytest.mark.parametrize("start", range(4))
def test_every_way_makes_its_quilt_where_nothing_can_plan(bare: BareBench, start: int) -> None:
    """The pinned way is taken, or another of its family; every second one in centimetres."""
    for number, (name, unit, quilt) in enumerate(EVERY_WAY[start::4]):
        if (number + start // 2) % 2:
            continue
        job = planned(quilt)
        things = [thing for thing in job.things.values() if isinstance(thing, UnitThing)]
        assert {thing.recipe.unit.kind for thing in things} == {unit.kind}, name
        _is_made(bare, quilt, job)


def _makes_it(bare: BareBench, quilt: Quilt) -> None:
    _is_made(bare, quilt, planned(quilt))


def _is_made(bare: BareBench, quilt: Quilt, job: Job) -> None:
    text = plan_text(job.plan, report_of(job))
    answer = bare.replay(quilt.text, text)
    assert answer["problems"] == []
    assert answer["made"] is True
    assert answer["operations"] == len(job.plan.steps)
    assert plan_from_text(text) == job.plan


def test_the_bare_bench_cannot_plan(bare: BareBench) -> None:
    quilt = Quilt(LANTERN, INCH_WORKROOM)
    answer = bare.replay(quilt.text, plan_text(planned(quilt).plan))
    assert answer["made"] is True
    loaded = answer["loaded"]
    assert isinstance(loaded, list)
    assert "piecewright.bench.replay" in loaded
    assert [name for name in loaded if name.split(".")[1] in NOT_HERE] == []
    assert bare.refused("piecewright.bench.joining") is None
    for package in NOT_HERE:
        assert bare.refused(f"piecewright.{package}") == (
            f"piecewright.{package} cannot be imported on a bare bench"
        )


def test_a_plan_of_another_quilt_is_not_made_as_drawn(bare: BareBench) -> None:
    quilt, other = Quilt(LANTERN, INCH_WORKROOM), Quilt(LANTERN.replace("ns", "ew"), INCH_WORKROOM)
    answer = bare.replay(other.text, plan_text(planned(quilt).plan))
    assert answer["made"] is False
    assert "'fog' was drawn, 'lantern' is sewn" in str(answer["problems"])


def test_a_hair_too_much_at_every_unit_does_not_add_up_along_a_row(bare: BareBench) -> None:
    """Eight at a time with seams of 6 mm, these come out 0.015 mm too large, which is eased in."""
    seam_of_6_mm = msgspec.structs.replace(METRIC_WORKROOM, needle=mm("5.5"))
    _makes_it(bare, Quilt(FOUR_SAILS, seam_of_6_mm))


@settings(slow, max_examples=ORACLE_QUILTS)
@given(quilts(most=3))
def test_every_patch_has_its_seam_allowance_all_round(quilt: Quilt) -> None:
    job = planned(quilt)
    bench, problems = run(job.plan)
    assert problems == []
    assert without_allowance(job, bench.cloth(job.plan.finish.top)) == []


def test_the_oracle_sees_a_seam_that_takes_too_much() -> None:
    quilt = Quilt(LANTERN, INCH_WORKROOM)
    job = planned(quilt)
    top = run(job.plan)[0].cloth(job.plan.finish.top)
    generous = msgspec.structs.replace(INCH_WORKROOM, fold=inches("1/32"))
    assert without_allowance(job, top) == []
    assert len(without_allowance(replace(job, workroom=generous), top)) == 8
