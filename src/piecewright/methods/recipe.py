"""A recipe: a method made ready for one unit in one workroom: sizes solved, rounded, truing decided.

Rules of the craft kept here: excess up to the ease is left as it is; otherwise the start is cut so much
larger that at least the trim allowance comes off. Nothing is rounded that is not trued up later.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Literal

import msgspec

from piecewright.bench.as_drawn import compare
from piecewright.bench.bench import Bench, seam_of
from piecewright.bench.cloth import Cloth
from piecewright.bench.grain import bias_edges
from piecewright.bench.steps import AnyStep, CutStrips, Gather, Join, Section, Stack, Subcut, TrueUp
from piecewright.measure.length import Length
from piecewright.measure.rounding import exactly, round_up
from piecewright.measure.tolerance import EDGE_MATCH, WELD
from piecewright.methods.laying import AS_IT_COMES, Laying
from piecewright.methods.method import Besides, Making, Method, Unit
from piecewright.methods.sewn import NOTHING_SEWN, Sewn
from piecewright.methods.trial import Trial, solve, try_out
from piecewright.problems import Problem, Refused
from piecewright.workroom.workroom import Workroom

Truing = Literal["none", "ease", "trim"]

MADE = "unit"
"""The pile on which a recipe's units end."""


@dataclass(frozen=True)
class Sizing:
    """Start sizes: `exact` (inches) as solved, `cut` as cut; raw size `before` truing; how it is trued."""

    exact: tuple[float, ...]
    cut: tuple[Length, ...]
    before: tuple[float, float]
    truing: Truing


@dataclass(frozen=True)
class Recipe:
    """A method for one unit, run through on the bench; figures are for one batch.

    `cloth` is the trued unit; `steps` make a batch from piles "start 0", "start 1" to the pile "unit".
    `offcuts` in square inches; `sewn` is what needle and iron do, but for stitching through stacks.
    """

    method: Method
    unit: Unit
    sizing: Sizing
    cloth: Cloth
    steps: tuple[AnyStep, ...]
    bias_edges: int
    cloth_area: float
    offcuts: float
    laying: Laying = AS_IT_COMES
    sewn: Sewn = NOTHING_SEWN

    def batches(self, count: int) -> int:
        """How many batches make so many units."""
        return -(-count // self.method.makes)

    def start_sizes(self) -> list[tuple[Length, Length]]:
        """The width and height to which each start is cut."""
        sizes = [(self.sizing.cut[s.width], self.sizing.cut[s.height]) for s in self.method.starts]
        if self.laying.base % 2 == 0:
            return sizes
        turned = len(sizes) if self.method.every_start_turns else 1
        return [*(size[::-1] for size in sizes[:turned]), *sizes[turned:]]


def size_starts(method: Method, unit: Unit, workroom: Workroom) -> Sizing:
    """The start sizes for a unit; raises Refused when the method cannot make it."""
    plain = replace(unit, fabrics=tuple(f"fabric {k}" for k in range(len(unit.fabrics))))
    return _sized(method, plain, workroom)


@lru_cache(maxsize=4096)
def _sized(method: Method, unit: Unit, workroom: Workroom) -> Sizing:
    """The same, whatever the fabrics: asked often for the same unit."""
    exact = solve(method, unit, workroom, float(workroom.trim) if method.oversize else 0.0)
    width, height = unit.raw(workroom.take_up)
    wanted = (float(width), float(height))
    if not method.may_round:
        cut = tuple(map(exactly, exact))
        return Sizing(exact, cut, wanted, "none")
    cut = tuple(round_up(size, workroom.ruler) for size in exact)
    before = try_out(method, unit, tuple(map(float, cut)), workroom).size
    over = max(made - size for made, size in zip(before, wanted, strict=True))
    if method.oversize:
        return Sizing(exact, cut, before, "trim")
    # What is a hair too large must be eased in: a hair at every unit adds up along a row.
    if over <= 10 * WELD:
        return Sizing(exact, cut, before, "none")
    if over <= float(workroom.ease) + EDGE_MATCH:
        return Sizing(exact, cut, before, "ease")
    larger = solve(method, unit, workroom, extra=float(workroom.trim))
    cut = tuple(round_up(size, workroom.ruler) for size in larger)
    before = try_out(method, unit, tuple(map(float, cut)), workroom).size
    return Sizing(exact, cut, before, "trim")


@lru_cache(maxsize=2048)
def make_recipe(
    method: Method,
    unit: Unit,
    workroom: Workroom,
    one_way: frozenset[str] = frozenset(),
    laying: Laying = AS_IT_COMES,
) -> Recipe:
    """The recipe for a unit by a method; raises Refused when the units would not all come out alike."""
    sizing = size_starts(method, unit, workroom)
    trial = try_out(method, unit, tuple(map(float, sizing.cut)), workroom, one_way, laying)
    steps = tuple(_expecting(step, trial.bench) for step in trial.steps)
    if sizing.truing != "none":
        for truing in _truings(method, unit, trial.gives, sizing.truing, workroom):
            trial.bench.do(truing)
            steps = (*steps, truing)
    if len(trial.kinds) > 1:
        trial, steps = _gathered(trial, steps)
    if len(trial.kinds) != 1:
        why = "since the print runs one way" if one_way else "since a corner of some piece shows on some"
        raise Refused(Problem(f"{method.name} makes {len(trial.kinds)} kinds here, {why}"))
    cloth = trial.kinds[0]
    if method.derived:
        _refuse_unlike(method, unit, cloth)
    area = sum(float(sizing.cut[s.width]) * float(sizing.cut[s.height]) * s.count for s in method.starts)
    offcuts = sum(trial.bench.table.offcuts.values())
    return Recipe(method, unit, sizing, cloth, steps, bias_edges(cloth), area, offcuts, laying, trial.sewn)


def _truings(
    method: Method, unit: Unit, gives: str, by: Literal["ease", "trim"], workroom: Workroom
) -> list[TrueUp]:
    """Truing up the units, and what else comes off that is a unit."""
    piles = [(gives, unit)]
    piles += [(other.name(gives), other.unit(unit)) for other in method.besides if other.unit]
    sized = [(pile, trued.raw(workroom.take_up)) for pile, trued in piles]
    return [
        TrueUp(pile=pile, landmark=method.landmark, width=width, height=height, by=by)
        for pile, (width, height) in sized
    ]


def from_cloth(recipe: Recipe, gives: str, workroom: Workroom) -> tuple[AnyStep, ...]:
    """The steps of one batch from uncut cloth: a strip for each start, then the recipe's own."""
    pieces = tuple(f"{gives} start {k}" for k in range(len(recipe.method.starts)))
    cutting: list[AnyStep] = []
    for name, start, (width, height) in zip(pieces, recipe.method.starts, recipe.start_sizes(), strict=True):
        strip, fabric = f"{name} strip", recipe.unit.fabrics[start.fabric]
        cutting += [
            CutStrips(fabric=fabric, height=height, count=start.count, gives=strip),
            Subcut(
                takes=strip,
                sections=(Section(gives=name, width=width, height=height, count=1),),
                times=start.count,
            ),
        ]
    return (*cutting, *written_for(recipe, pieces, gives, 1, workroom))


def cloth_besides(recipe: Recipe, besides: Besides, workroom: Workroom) -> Cloth:
    """What comes besides off a batch of the recipe, on the bench; of several kinds the first."""
    sizes = tuple(map(float, recipe.sizing.cut))
    trial = try_out(recipe.method, recipe.unit, sizes, workroom, laying=recipe.laying)
    pile = besides.name(trial.gives)
    for step in recipe.steps[len(trial.steps) :]:
        if isinstance(step, TrueUp) and step.pile == pile:
            trial.bench.do(step)
    return trial.bench.pile(pile).kinds[0][0]


def _refuse_unlike(method: Method, unit: Unit, cloth: Cloth) -> None:
    """Sizes that were not found on the bench are confirmed there."""
    shown = compare(cloth, unit.drawing, dict(zip(unit.fabrics, unit.fabrics, strict=True)))
    if shown.differences:
        raise Refused(Problem(f"{method.name} does not make this unit: {shown.differences[0]}"))


def _gathered(trial: Trial, steps: tuple[AnyStep, ...]) -> tuple[Trial, tuple[AnyStep, ...]]:
    """Units that look alike but are pressed the other way round go on one pile; others stay apart."""
    gather = Gather(pile=trial.gives)
    if trial.bench.problems(gather):
        return trial, steps
    trial.bench.do(gather)
    return trial, (*steps, gather)


def _expecting(step: AnyStep, bench: Bench) -> AnyStep:
    """The step with the size that came out in the trial, so that a replay can hold it to that."""
    if isinstance(step, Stack):
        return msgspec.structs.replace(step, expect=bench.pile(step.gives[0]).kinds[0][0].size)
    if isinstance(step, Join):
        return msgspec.structs.replace(step, expect=bench.pile(step.gives).kinds[0][0].size)
    return step


def written_for(
    recipe: Recipe, pieces: tuple[str, ...], gives: str, times: int, workroom: Workroom
) -> tuple[AnyStep, ...]:
    """The recipe's steps with the plan's own pile names, for so many batches."""
    sizes = tuple(map(float, recipe.sizing.cut))
    making = Making(sizes, pieces, gives, seam_of(workroom), times, recipe.laying)
    plain = recipe.method.written(making)
    steps = tuple(
        msgspec.structs.replace(step, expect=tried.expect) if isinstance(tried, Stack | Join) else step
        for step, tried in zip(plain, recipe.steps, strict=False)
    )
    after = [
        msgspec.structs.replace(step, pile=gives + step.pile.removeprefix(MADE))
        for step in recipe.steps[len(plain) :]
        if isinstance(step, TrueUp | Gather)
    ]
    return (*steps, *after)
