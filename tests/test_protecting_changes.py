"""Each field of each step of a plan is changed in turn: the bench catches it, or it does no harm.

Quilts with every way of making units are changed throughout, random quilts at places spread over the plan.
`CHANGED_QUILTS` and `CHANGES_EACH` say how much; PIECEWRIGHT_CHANGES=20 does twenty times as much.
"""

from __future__ import annotations

import os
import re
from collections import Counter
from itertools import islice
from pathlib import Path

import msgspec
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from allowance_oracle import without_allowance
from harmless import HARMLESS, Passed, why_harmless
from piecewright.bench.bench import Bench
from piecewright.bench.plan import Plan
from piecewright.bench.replay import carry_on, verdict
from piecewright.design.model import Design, fabric_of
from piecewright.design.read import read_design
from piecewright.measure.length import inches, mm
from piecewright.methods import METHODS
from piecewright.planning.job import Job
from piecewright.planning.make_plan import make_plan
from piecewright.problems import Problem
from piecewright.workroom.workroom import INCH_WORKROOM, METRIC_WORKROOM, default_workroom
from plan_changes import Change, changes, names_given, names_in
from random_quilts import Quilt, quilts
from test_protecting import planned

EXAMPLES = Path(__file__).parent.parent / "examples"
MUCH = int(os.environ.get("PIECEWRIGHT_CHANGES", "1"))
CHANGED_QUILTS = 40 * MUCH
CHANGES_EACH = 120

# A block of one unit, made in one pinned way.
TOKENS = {"hst": "night.nw.fog", "hourglass": "night.ns.fog", "geese": "night.n.fog  -\nfog - "}
ONE_WAY_OF_MAKING = """
title = "One way of making"
unit = "{unit}"
[fabrics.night]
colour = "#17263d"
[fabrics.fog]
colour = "#e6e2d8"
one_way = {one_way}
[blocks.thing]
size = "{size}"
picture = \"\"\"
{token}
\"\"\"
[setting]
across = 2
down = 1
arrangement = "thing thing.half"
[choices]
{kind} = "{way}"
"""

BORDER = """
[[borders]]
width = "1"
role = "night"
"""


class Changed:
    """A job whose plan is run again and again from the step that was changed."""

    def __init__(self, job: Job) -> None:
        self.job = job
        self.fabric_of = {role.key: fabric_of(job.design, role.key) for role in job.design.roles}
        self.mark = inches("1/8") if job.design.unit == "in" else mm(1)
        bench = Bench(job.plan.workroom, job.plan.cloth, job.plan.have)
        self.tables = [bench.table]
        for step in job.plan.steps:
            bench.do(step)
            self.tables.append(bench.table)

    def before(self, step: int) -> Bench:
        """A bench on which the steps before this one have been done."""
        plan = self.job.plan
        bench = Bench(plan.workroom, plan.cloth, plan.have)
        bench.table = self.tables[step]
        return bench

    def all(self) -> list[Change]:
        """Every change of the plan."""
        return list(changes(self.job.plan, self.mark))

    def look(self, change: Change) -> str:
        """What came of a change: "caught", or the harmless thing that it is; fails where it is neither."""
        plan = msgspec.structs.replace(self.job.plan, steps=change.steps)
        bench = self.before(change.step)
        problems = carry_on(bench, plan.steps, change.step)
        after = verdict(plan, bench, problems, self.job.drawing.top, self.fabric_of)
        if after.problems:
            assert any(names(problem, change, self.job.plan) for problem in after.problems), (
                f"{change}\nis caught, but not by its name: {[*map(str, after.problems)]}"
            )
            return "caught"
        passed = Passed(change, self.job.plan, self.before(change.step), self.job.replay, after)
        entry = why_harmless(passed)
        assert entry is not None, f"{change}\npasses, and no reason is known why it should be harmless"
        assert after.tilted == self.job.replay.tilted
        assert without_allowance(self.job, bench.cloth(plan.finish.top)) == []
        return entry.what


def names(problem: Problem, change: Change, plan: Plan) -> bool:
    """Whether a problem names the changed step, or a later one together with something made there."""
    text = f"{problem.where}: {problem.what}"
    step = re.match(r"step (\d+)", problem.where)
    number = int(step[1]) - 1 if step else len(plan.steps)
    if number <= change.step:
        return number == change.step or "exchanged" in change.kind
    return any(name in text for name in made_there(change, plan) if name)


def made_there(change: Change, plan: Plan) -> set[str]:
    """What the changed step handles, and everything that is made of it later."""
    touched = names_in(plan.steps[change.step]) | names_in(
        change.steps[min(change.step, len(change.steps) - 1)]
    )
    for steps in (plan.steps, change.steps):
        for step in steps[change.step :]:
            if names_in(step) & touched:
                touched |= set(names_given(step))
    return touched


def example(name: str) -> Design:
    design, _ = read_design(EXAMPLES / f"{name}.toml")
    assert design is not None
    return design


def ways_of_making() -> list[Quilt]:
    """A quilt for each method, in inches with a one-way print and in centimetres without."""
    return [
        Quilt(
            ONE_WAY_OF_MAKING.format(
                unit=unit,
                one_way=str(unit == "in").lower(),
                size=size,
                token=TOKENS[method.kind],
                kind=method.kind,
                way=method.name,
            ),
            INCH_WORKROOM if unit == "in" else METRIC_WORKROOM,
        )
        for method in METHODS
        for unit, size in (("in", "4"), ("cm", "9"))
    ]


def name_of(quilt: Quilt) -> str:
    """The kind, the way and the unit, to tell the cases apart."""
    return f"{quilt.text.splitlines()[-1]}, {quilt.workroom.unit}".replace('"', "")


@pytest.mark.parametrize("quilt", ways_of_making(), ids=name_of)
def test_no_change_of_a_way_of_making_does_harm_unseen(quilt: Quilt) -> None:
    changed = Changed(make_plan(quilt.read(), quilt.workroom))
    for change in changed.all():
        changed.look(change)


@settings(suppress_health_check=list(HealthCheck), max_examples=CHANGED_QUILTS)
@given(quilts(most=3), st.integers(0, 10**6))
def test_no_change_of_a_random_quilt_does_harm_unseen(quilt: Quilt, start: int) -> None:
    changed = Changed(planned(quilt))
    every = changed.all()
    stride = max(1, len(every) // CHANGES_EACH)
    for change in islice(every, start % stride, None, stride):
        changed.look(change)


def test_every_entry_of_the_harmless_list_is_needed() -> None:
    by_name = {name_of(quilt): quilt for quilt in ways_of_making()}
    hourglasses, geese = by_name["hourglass = two at a time, in"], by_name["geese = stitch and flip, in"]
    bordered = Quilt(hourglasses.text + BORDER, INCH_WORKROOM)
    seen: Counter[str] = Counter()
    for design in (example("sawtooth-star"), bordered.read(), geese.read()):
        changed = Changed(make_plan(design, default_workroom(design.unit)))
        seen.update(changed.look(change) for change in changed.all())
    assert seen.keys() == {"caught", *(entry.what for entry in HARMLESS)}
    assert seen["caught"] > 3 / 4 * seen.total()


def test_the_harmless_list_stands_in_the_documentation() -> None:
    page = (EXAMPLES.parent / "docs" / "protecting-test.md").read_text("utf-8")
    table = page.partition("| what may pass | why it does no harm |\n|---|---|\n")[2].partition("\n\n")[0]
    assert table.splitlines() == [f"| {entry.what} | {entry.reason} |" for entry in HARMLESS]
