"""The protecting test: random quilts are planned, and their plans run where nothing can plan.

`QUILTS` says how many. For more of them, new ones each time:
`pytest tests/test_protecting.py --hypothesis-profile=roam`, with PIECEWRIGHT_QUILTS=2000, say.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from dataclasses import replace

import msgspec
import pytest
from hypothesis import HealthCheck, assume, given, settings

from allowance_oracle import without_allowance
from bare_bench import NOT_HERE, BareBench
from piecewright.bench.plan_file import plan_from_text, plan_text
from piecewright.bench.replay import run
from piecewright.measure.length import inches, mm
from piecewright.planning.job import Job
from piecewright.planning.make_plan import make_plan
from piecewright.planning.report import report_of
from piecewright.problems import Refused
from piecewright.workroom.workroom import INCH_WORKROOM, METRIC_WORKROOM
from random_quilts import Quilt, quilts

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
REFUSALS = (
    "no straight seam goes all the way through the part of ",
    "the workroom refuses every way for the ",
    "for the hourglass no way that the workroom allows leaves at most ",
    "for the flying goose no way that the workroom allows leaves at most ",
)
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
        assert problem.what.startswith(REFUSALS), str(problem)
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


def _makes_it(bare: BareBench, quilt: Quilt) -> None:
    job = planned(quilt)
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
