"""The work of the bench does not grow with counts: a step is one operation, however often it is repeated."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from pathlib import Path

import msgspec
import pytest
from hypothesis import HealthCheck, given, settings

from piecewright.bench.piles import made_alike
from piecewright.bench.plan import Plan
from piecewright.bench.replay import run
from piecewright.bench.steps import AnyStep, CutStrips, Subcut
from piecewright.design.read import read_design
from piecewright.planning.job import Job
from piecewright.planning.make_plan import make_plan
from piecewright.workroom.workroom import INCH_WORKROOM
from random_quilts import Quilt, quilts
from test_protecting import planned

HARBOUR_LIGHTS = Path(__file__).parent.parent / "examples" / "harbour-lights.toml"
HUNDRED = 100


def hundredfold(plan: Plan) -> Plan:
    """The plan of a hundred such quilts, made at one go."""
    return msgspec.structs.replace(
        plan,
        cloth=tuple(msgspec.structs.replace(s, length=s.length * HUNDRED) for s in plan.cloth),
        have=tuple(msgspec.structs.replace(there, count=there.count * HUNDRED) for there in plan.have),
        steps=tuple(_hundredfold(step) for step in plan.steps),
    )


def _hundredfold(step: AnyStep) -> AnyStep:
    if isinstance(step, CutStrips):
        return msgspec.structs.replace(step, count=step.count * HUNDRED)
    if "times" in step.__struct_fields__:
        return msgspec.structs.replace(step, times=step.times * HUNDRED)  # type: ignore[union-attr]
    return step


@settings(suppress_health_check=list(HealthCheck), max_examples=24)
@given(quilts(most=3))
def test_a_hundred_quilts_take_as_many_bench_operations_as_one(quilt: Quilt) -> None:
    plan = planned(quilt).plan
    (one, problems), (hundred, more_problems) = run(plan), run(hundredfold(plan))
    assert problems == more_problems == []
    assert hundred.operations == one.operations == len(plan.steps)
    assert hundred.table.piles.keys() == one.table.piles.keys()
    for name, pile in one.table.piles.items():
        assert hundred.count(name) == HUNDRED * pile.count
        if not pile.kinds:  # all of it was gathered elsewhere
            continue
        assert made_alike(hundred.cloth(name), one.cloth(name), one.rules.one_way)
    assert hundred.count(plan.finish.top) >= HUNDRED
    offcuts = {fabric: HUNDRED * area for fabric, area in one.table.offcuts.items()}
    assert hundred.table.offcuts == pytest.approx(offcuts)


def enlarged(times: int) -> Job:
    """The throw, so many times as wide and as long."""
    design, _ = read_design(HARBOUR_LIGHTS)
    assert design is not None
    setting = design.setting
    larger = replace(setting, across=setting.across * times, down=setting.down * times)
    return make_plan(replace(design, setting=larger), INCH_WORKROOM)


def test_a_hundred_times_the_blocks_are_sewn_in_as_many_steps() -> None:
    """Only the cutting may take another step or two: other counts fill the strips in other ways."""
    throw, large = enlarged(1), enlarged(10)
    assert large.drawing.top.patch_count > 90 * throw.drawing.top.patch_count
    assert large.replay.made_as_drawn
    assert sewing_of(large) == sewing_of(throw)
    assert abs(large.replay.operations - throw.replay.operations) <= 3


def sewing_of(job: Job) -> Counter[str]:
    return Counter(type(step).__name__ for step in job.plan.steps if not isinstance(step, CutStrips | Subcut))
