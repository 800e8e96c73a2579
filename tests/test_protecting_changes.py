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
from typing import get_args

import msgspec
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from allowance_oracle import without_allowance
from harmless import HARMLESS, Passed, why_harmless
from one_way_quilts import one_way_quilts, quilt_of_two_ways
from piecewright.bench.bench import Bench
from piecewright.bench.plan import Finish, Plan, Supply
from piecewright.bench.replay import carry_on, verdict
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
    SideChange,
    Stack,
    Subcut,
    TrueUp,
)
from piecewright.design.model import Design, fabric_of
from piecewright.design.read import read_design
from piecewright.measure.length import inches, mm
from piecewright.methods import METHODS
from piecewright.planning.job import Job
from piecewright.planning.make_plan import make_plan
from piecewright.planning.things import UnitThing
from piecewright.planning.units import There
from piecewright.problems import Problem
from piecewright.shelf.shelf import Shelf, ShelfCloth
from piecewright.workroom.workroom import INCH_WORKROOM, default_workroom
from plan_changes import Change, changes, names_given, names_in
from promises import label
from random_quilts import Quilt, quilts
from test_protecting import planned

EXAMPLES = Path(__file__).parent.parent / "examples"
MUCH = int(os.environ.get("PIECEWRIGHT_CHANGES", "1"))
CHANGED_QUILTS = 40 * MUCH
CHANGES_EACH = 120

# How many changes of a way that comes from a family are looked at, spread over its plan.
OF_A_FAMILY = 16 * MUCH

BORDER = """
[[borders]]
width = "1"
role = "sail"
"""


# Nine rails, six from a strip set and three from single pieces, where set-up costs nothing.
RAILS = """title = "Rails"
unit = "in"
[fabrics.sail]
colour = "#e6e2d8"
[fabrics.tide]
colour = "#3d5a73"
[blocks.one]
size = "9"
columns = [1, 2]
picture = "sail tide"
[setting]
across = 3
down = 3
arrangement = "one"
[backing]
margin = "4"
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

    def step_of(self, change: Change) -> AnyStep:
        """The step that is changed, as it was."""
        return self.job.plan.steps[change.step]

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
        tops = (self.tables[-1].only(plan.finish.top), bench.cloth(plan.finish.top))
        passed = Passed(change, self.job.plan, self.before(change.step), self.job.replay, after, *tops)
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


MARKED = (Ruled(0.0, 0.0, 2.0, 2.0),)
TWO = inches(2)
FILLED: tuple[AnyStep, ...] = (
    CutStrips(fabric="sail", height=TWO, count=1, gives="strip"),
    Subcut(takes="strip", sections=(Section(gives="a", width=TWO, height=TWO, count=1),), times=1),
    CutApart(takes="a", cut=MARKED, gives=("b",), times=1),
    CutOut(takes="a", outline=((0.0, 0.0), (2.0, 0.0), (0.0, 2.0)), gives="c", times=1),
    Stack(
        base="a",
        tops=(Lay("a", 0.0, 0.0, 2.0),),
        sew=MARKED,
        cut=MARKED,
        gives=("d",),
        times=1,
        expect=(2.0, 2.0),
    ),
    Press(pile="d", seams=(Pressing("d.0", ("first", "second")),), changes=(SideChange("d.0", 1.0),)),
    TrueUp(pile="d", landmark="edges", width=TWO, height=TWO, by="trim"),
    Gather(pile="d", takes=("b", "c")),
    Join(
        parts=(JoinPart(name="d", exit=(1,)), JoinPart(name="d", entry=(3,))),
        gives="e",
        times=1,
        expect=(4.0, 2.0),
        part_sewn=PartSewn(start=0.0, stop=1.0),
    ),
    Close(pile="e", sides=(0, 1)),
    JoinEnds(takes="strip", count=2, gives="long", times=1, expect=(70.0, 2.0)),
)

WAYS = {name: quilt for name, _, quilt in one_way_quilts()}
OWN_WAYS = [f"{label(method)}, in" for method in METHODS]
OTHER_WAYS = sorted(WAYS.keys() - OWN_WAYS)


@pytest.mark.parametrize("name", OWN_WAYS)
def test_no_change_of_a_way_of_making_does_harm_unseen(name: str) -> None:
    changed = Changed(make_plan(WAYS[name].read(), WAYS[name].workroom))
    for change in changed.all():
        changed.look(change)


@pytest.mark.parametrize("start", range(4))
def test_no_change_of_any_other_way_does_harm_unseen(start: int) -> None:
    """Ways that depend on the unit, and all ways in centimetres; each quilt at other places of its plan."""
    for number, name in enumerate(OTHER_WAYS[start::4]):
        changed = Changed(make_plan(WAYS[name].read(), WAYS[name].workroom))
        every = changed.all()
        stride = max(1, len(every) // OF_A_FAMILY)
        for change in islice(every, number % stride, None, stride):
            changed.look(change)


@pytest.mark.parametrize("there", [0, 7])
def test_no_change_of_a_pile_filled_by_two_ways_does_harm_unseen(there: int) -> None:
    quilt = quilt_of_two_ways()
    job = make_plan(quilt.read(), quilt.workroom)
    (unit, *_) = (thing.recipe.unit for thing in job.things.values() if isinstance(thing, UnitThing))
    changed = Changed(make_plan(quilt.read(), quilt.workroom, [There(unit, there)] if there else []))
    looked_at = changed.all()
    assert any("takes" in change.path and "Gather" in repr(changed.step_of(change)) for change in looked_at)
    for change in looked_at:
        changed.look(change)


def test_no_change_of_a_plan_that_cuts_from_the_shelf_does_harm_unseen() -> None:
    """Strips across and along the cloth off the shelf, a length that is cut like a bolt, and cloth bought."""
    cloth = (("fog", 42, 72, 1), ("lantern", 12, 9, 2), ("navy", 9, 17, 9))
    shelf = Shelf("in", tuple(ShelfCloth(key, inches(w), inches(h), count) for key, w, h, count in cloth))
    job = make_plan(example("sawtooth-star"), INCH_WORKROOM, shelf=shelf)
    assert {used.fabric for used in job.shelf.used} == {"fog", "lantern", "navy"}
    assert [layout.key for layout in job.layouts] == ["navy", "backing"]
    changed = Changed(job)
    for change in changed.all():
        changed.look(change)


def test_every_field_of_every_kind_of_step_is_changed() -> None:
    """Of each kind of step, one whose fields are all filled."""
    assert {type(step) for step in FILLED} == set(get_args(AnyStep))
    plan = Plan(
        title="",
        workroom=INCH_WORKROOM,
        cloth=(Supply(fabric="sail", width=inches(40), length=inches(9)),),
        steps=FILLED,
        finish=Finish(top=""),
    )
    fields = {(change.step, change.path[0]) for change in changes(plan, inches("1/8")) if change.path}
    assert fields == {(k, field) for k, step in enumerate(FILLED) for field in step.__struct_fields__}


@settings(suppress_health_check=list(HealthCheck), max_examples=CHANGED_QUILTS)
@given(quilts(most=3), st.integers(0, 10**6))
def test_no_change_of_a_random_quilt_does_harm_unseen(quilt: Quilt, start: int) -> None:
    changed = Changed(planned(quilt))
    every = changed.all()
    stride = max(1, len(every) // CHANGES_EACH)
    for change in islice(every, start % stride, None, stride):
        changed.look(change)


def test_every_entry_of_the_harmless_list_is_needed() -> None:
    bordered = Quilt(WAYS["hourglass two at a time, in"].text + BORDER, INCH_WORKROOM)
    halves, bonus = WAYS["hst two at a time, in"], WAYS["geese stitch and flip, bonus saved, in"]
    seen: Counter[str] = Counter()
    rails = Changed(planned(Quilt(RAILS, quilt_of_two_ways().workroom)))
    seen.update(rails.look(change) for change in rails.all() if "gives" in change.path)
    shelf = Shelf("in", (ShelfCloth("fog", inches(42), inches(72)),))
    off_the_shelf = Changed(make_plan(example("sawtooth-star"), INCH_WORKROOM, shelf=shelf))
    seen.update(off_the_shelf.look(change) for change in off_the_shelf.all() if change.step == 0)
    for design in (example("sawtooth-star"), bordered.read(), halves.read(), bonus.read()):
        changed = Changed(make_plan(design, default_workroom(design.unit)))
        seen.update(changed.look(change) for change in changed.all())
    assert seen.keys() == {"caught", *(entry.what for entry in HARMLESS)}
    assert seen["caught"] > 3 / 4 * seen.total()


def test_the_harmless_list_stands_in_the_documentation() -> None:
    page = (EXAMPLES.parent / "docs" / "protecting-test.md").read_text("utf-8")
    table = page.partition("| what may pass | why it does no harm |\n|---|---|\n")[2].partition("\n\n")[0]
    assert table.splitlines() == [f"| {entry.what} | {entry.reason} |" for entry in HARMLESS]
