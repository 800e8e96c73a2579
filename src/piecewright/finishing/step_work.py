"""The work of a plan, step by step: what is marked, cut, sewn, pressed and trued up.

Terms:
- *work* of a step: how many times each of these is done, as it is done once on the bench;
- *press*: one setting-down of the iron; a long seam takes several.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import singledispatch

from piecewright.bench.bench import Bench
from piecewright.bench.cloth import Cloth
from piecewright.bench.doing import Rules, Table
from piecewright.bench.plan import Plan
from piecewright.bench.replay import step_label
from piecewright.bench.steps import (
    AnyStep,
    CutApart,
    CutOut,
    CutStrips,
    JoinEnds,
    Press,
    Section,
    Stack,
    Subcut,
    TrueUp,
)
from piecewright.finishing.seam_length import Stitching, seams_shown, stitching
from piecewright.geometry.point import distance
from piecewright.measure.tolerance import AS_DRAWN
from piecewright.methods.effort import cuts_round, follows_edge
from piecewright.problems import Problem, Refused
from piecewright.sewing.stations import Station

AN_IRON = 12.0  # An iron presses about so many inches of a seam at once: common practice, no source.

CUTTING = (CutStrips, Subcut, CutOut)
"""The kinds of steps that are done at the cutting table, whatever they cut."""


@dataclass(frozen=True)
class StepWork:
    """The work of one step: its number (from 1), the pile it is about, and how often each thing is done.

    `cuts` are those through all layers that are cut together; `sewn` is inches of stitching.
    """

    number: int
    step: AnyStep
    pile: str
    marks: int = 0
    cuts: int = 0
    seams: int = 0
    sewn: float = 0.0
    presses: int = 0
    trued: int = 0

    @property
    def told(self) -> str:
        """How the step is named: `step 7 (press hst)`."""
        return step_label(self.number, self.step)


@dataclass(frozen=True)
class PlanWork:
    """The work of all steps, and of the finished top: its cloth by area, and how long its seams are.

    `top_cloth` is square inches of each fabric, allowances included; `in_ditch` inches of seam that show.
    `back_seams` and `binding_joins` are those the plan itself makes, None where it makes no such thing.
    """

    steps: tuple[StepWork, ...]
    top_cloth: Mapping[str, float]
    in_ditch: float
    back_seams: int | None
    binding_joins: int | None

    @property
    def seams(self) -> int:
        """How many seams are sewn."""
        return sum(step.seams for step in self.steps)

    @property
    def sewn(self) -> float:
        """How long all stitching is; inches."""
        return sum(step.sewn for step in self.steps)

    def sewn_at(self, stations: Mapping[str, Station], at: Sequence[Station]) -> float:
        """How long the stitching is of what is made at some stations; inches."""
        return sum(step.sewn for step in self.steps if station_of(step, stations) in at)


def work_of(plan: Plan) -> PlanWork:
    """The work of a plan, found by doing it on the bench; raises Refused at a step that cannot be done."""
    bench = Bench(plan.workroom, plan.cloth, plan.have)
    steps = []
    for number, step in enumerate(plan.steps, 1):
        before = bench.table
        try:
            bench.do(step)
        except Refused as refused:
            raise Refused(
                *(Problem(p.what, step_label(number, step), p.do) for p in refused.problems)
            ) from None
        steps.append(_with_sewing(_work(step, before, bench, number), stitching(step, before, bench.rules)))
    top = _only(bench, plan.finish.top)
    back, binding = _only(bench, plan.finish.backing), _only(bench, plan.finish.binding)
    return PlanWork(
        tuple(steps),
        dict(top.cloth_of) if top else {},
        seams_shown(top) if top else 0.0,
        len(back.seams) if back else None,
        len(binding.seams) if binding else None,
    )


def station_of(work: StepWork, stations: Mapping[str, Station]) -> Station:
    """Where a step is done: what is cut from whole cloth at the table, all else where its pile is made."""
    if isinstance(work.step, CUTTING):
        return Station.PIECE
    return stations.get(work.pile, Station.UNIT)


def _only(bench: Bench, name: str) -> Cloth | None:
    kinds = bench.pile(name).kinds if name else ()
    return kinds[0][0] if len(kinds) == 1 else None


def _with_sewing(work: StepWork, sewn: Stitching) -> StepWork:
    return replace(work, seams=sewn.seams, sewn=sewn.length)


def _work(step: AnyStep, before: Table, bench: Bench, number: int) -> StepWork:
    counted = _counted(step, before, bench.rules, bench.workroom.layers)
    return replace(counted, number=number, pile=_pile_of(step))


def _pile_of(step: AnyStep) -> str:
    """The pile that a step is about: what it gives, or what lies there."""
    gives = getattr(step, "gives", None)
    if isinstance(gives, str):
        return gives
    if isinstance(gives, tuple):
        return next((name for name in gives if name), "")
    return str(getattr(step, "pile", getattr(step, "takes", "")))


@singledispatch
def _counted(step: AnyStep, before: Table, rules: Rules, layers: int) -> StepWork:
    """What is done besides sewing; nothing for steps that only sew, or put piles together."""
    return StepWork(0, step, "")


@_counted.register
def _cut_strips(step: CutStrips, before: Table, rules: Rules, layers: int) -> StepWork:
    # Strips come off the folded cloth one after another: a cut for each.
    return StepWork(0, step, "", cuts=step.count)


@_counted.register
def _subcut(step: Subcut, before: Table, rules: Rules, layers: int) -> StepWork:
    height = min(before.only(step.takes).raw[2])
    in_a_strip = sum(section.count * (1 + _subcuts(section, height)) for section in step.sections)
    return StepWork(0, step, "", cuts=-(-step.times // layers) * in_a_strip)


def _subcuts(section: Section, height: float) -> int:
    trim = float(section.height) * section.stack < height - AS_DRAWN
    return section.stack - 1 + trim


@_counted.register
def _cut_apart(step: CutApart, before: Table, rules: Rules, layers: int) -> StepWork:
    return StepWork(0, step, "", cuts=len(step.cut) * step.times)


@_counted.register
def _cut_out(step: CutOut, before: Table, rules: Rules, layers: int) -> StepWork:
    return StepWork(0, step, "", cuts=cuts_round(step.outline) * -(-step.times // layers))


@_counted.register
def _stack(step: Stack, before: Table, rules: Rules, layers: int) -> StepWork:
    marked = {(line.x, line.y, line.to_x, line.to_y) for line in step.sew if not follows_edge(line)}
    return StepWork(0, step, "", marks=len(marked) * step.times, cuts=len(step.cut) * step.times)


@_counted.register
def _join_ends(step: JoinEnds, before: Table, rules: Rules, layers: int) -> StepWork:
    # Each slanted join is marked from corner to corner, and trimmed beside the stitches.
    joins = (step.count - 1) * step.times
    return StepWork(0, step, "", marks=joins, cuts=joins)


@_counted.register
def _press(step: Press, before: Table, rules: Rules, layers: int) -> StepWork:
    kinds = before.piles[step.pile].kinds
    return StepWork(0, step, "", presses=sum(_presses(cloth) * count for cloth, count in kinds))


@_counted.register
def _true_up(step: TrueUp, before: Table, rules: Rules, layers: int) -> StepWork:
    trimmed = before.piles[step.pile].count if step.by == "trim" else 0
    return StepWork(0, step, "", trued=trimmed)


def _presses(cloth: Cloth) -> int:
    """How often the iron is set down for the seams that are not pressed yet."""
    lengths = [sum(distance(*part) for part in seam.segments) for seam in cloth.own_seams if not seam.pressed]
    return sum(max(1, math.ceil(length / AN_IRON)) for length in lengths)
