"""The replay: a plan is run from its cloth to its last seam, and the top is held against the drawing."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from shapely.errors import GEOSException

from piecewright.bench.as_drawn import compare
from piecewright.bench.bench import Bench
from piecewright.bench.plan import PLAN_VERSION, Plan
from piecewright.bench.steps import AnyStep, Join
from piecewright.design.drawing import Group
from piecewright.measure.tolerance import AS_DRAWN
from piecewright.problems import Problem, Refused

THE_END = "the end"


# What sizes that no cloth can have end in: nothing divided by, points without end, outlines that cross.
NO_CLOTH = (ArithmeticError, ValueError, GEOSException)


@dataclass(frozen=True)
class Replay:
    """What came of a replay; `operations` are the bench's own, however large the counts."""

    made_as_drawn: bool
    problems: tuple[Problem, ...]
    operations: int
    patches: int
    nests: int = 0
    clashes: int = 0
    tilted: int = 0


def step_label(number: int, step: AnyStep) -> str:
    """How messages name a step: `step 7 (press hst)`; steps are counted from 1."""
    tag = str(step.__struct_config__.tag)
    name = next(
        (
            str(getattr(step, field))
            for field in ("gives", "pile", "takes")
            if isinstance(getattr(step, field, None), str)
        ),
        "",
    )
    if not name and isinstance(getattr(step, "gives", None), tuple):
        name = ", ".join(dict.fromkeys(n for n in step.gives if n))  # type: ignore[union-attr]
    return f"step {number} ({tag} {name})".replace(" )", ")")


def run(plan: Plan) -> tuple[Bench, list[Problem]]:
    """The bench after the plan's steps, stopped at the first that cannot be done, with its problems."""
    if plan.version != PLAN_VERSION:
        problem = Problem(
            f"this plan has version {plan.version}, expected {PLAN_VERSION}", do="Make the plan again."
        )
        return Bench(plan.workroom), [problem]
    try:
        bench = Bench(plan.workroom, plan.cloth, plan.have)
    except Refused as refused:
        return Bench(plan.workroom), [
            Problem(p.what, "what is there already", p.do) for p in refused.problems
        ]
    except NO_CLOTH as error:
        what = f"no cloth has such sizes: {error}"
        return Bench(plan.workroom), [Problem(what, "what is there already", "Check its figures.")]
    return bench, carry_on(bench, plan.steps)


def carry_on(bench: Bench, steps: Sequence[AnyStep], done: int = 0) -> list[Problem]:
    """Does the steps after the first `done` of them; what is wrong with the first that cannot be done."""
    for number, step in enumerate(steps[done:], done + 1):
        try:
            bench.do(step)
        except Refused as refused:
            return [Problem(p.what, step_label(number, step), p.do) for p in refused.problems]
        except NO_CLOTH as error:
            return [
                Problem(f"no cloth has such sizes: {error}", step_label(number, step), "Check its figures.")
            ]
    return []


def replay(plan: Plan, drawing: Group, fabric_of: Mapping[str, str]) -> Replay:
    """Runs the plan and compares the top with the drawing; every stored verdict is ignored."""
    return verdict(plan, *run(plan), drawing, fabric_of)


def verdict(
    plan: Plan, bench: Bench, problems: list[Problem], drawing: Group, fabric_of: Mapping[str, str]
) -> Replay:
    """What a bench that has run a plan came to, held against the drawing."""
    tilted = 0
    if not problems:
        problems = [*_ending(plan, bench), *_left_over(plan, bench)]
        top = bench.pile(plan.finish.top)
        if len(top.kinds) == 1:
            allowance = float(plan.workroom.take_up)
            comparison = compare(top.kinds[0][0], drawing, fabric_of, allowance)
            where = f"the finished top, after {_last_with(plan, plan.finish.top)}"
            problems += [Problem(difference, where) for difference in comparison.differences]
            tilted = comparison.tilted
            if tilted != plan.not_upright:
                said = f"the plan says {plan.not_upright}"
                what = f"one-way prints do not stand upright in {tilted} patches, {said}"
                problems.append(Problem(what, where, "Turn the pieces."))
    joins = [step for step in plan.steps if isinstance(step, Join)]
    return Replay(
        made_as_drawn=not problems,
        problems=tuple(problems),
        operations=bench.operations,
        patches=drawing.patch_count,
        nests=sum(step.nests * step.times for step in joins),
        clashes=sum(step.clashes * step.times for step in joins),
        tilted=tilted,
    )


def _ending(plan: Plan, bench: Bench) -> list[Problem]:
    """A plan ends in one top, backing panels that reach, and one binding strip that is long enough."""
    finish, problems = plan.finish, []
    for name in filter(None, (finish.top, finish.backing, finish.binding)):
        there, over = bench.count(name), plan.left_over.get(name, 0)
        if there != 1 + over:
            what = f"{1 + over} {name!r} expected, {there} are there"
            problems.append(Problem(what, _after_all(plan, name)))
        for cloth, _ in bench.pile(name).kinds:
            if cloth.unpressed:
                problems.append(
                    Problem(f"{name!r} has not been pressed", _after_all(plan, name), "Press it.")
                )
    for name, least in _least_sizes(plan, bench).items():
        for cloth, _ in bench.pile(name).kinds:
            if any(a < b - AS_DRAWN for a, b in zip(sorted(cloth.size), sorted(least), strict=True)):
                wanted = " x ".join(f"{size:.2f}" for size in sorted(least, reverse=True) if size)
                found = f"{cloth.size[0]:.2f} x {cloth.size[1]:.2f} in"
                what = f"{name!r} measures {found}, at least {wanted} in is needed"
                problems.append(Problem(what, _after_all(plan, name)))
    return problems


def _after_all(plan: Plan, name: str) -> str:
    """The end, and the last step that has to do with a pile."""
    last = _last_with(plan, name)
    return last if last == THE_END else f"{THE_END}, after {last}"


def _least_sizes(plan: Plan, bench: Bench) -> dict[str, tuple[float, float]]:
    """What backing and binding must measure: what the plan says, and at least over and round the top."""
    finish, sizes = plan.finish, {}
    for top, _ in bench.pile(finish.top).kinds:
        width, height = (size - 2 * bench.rules.seam.take_up for size in top.size)
        if finish.backing:
            long, short = max(finish.backing_least), min(finish.backing_least)
            sizes[finish.backing] = (max(width, long), max(height, short))
        if finish.binding:
            sizes[finish.binding] = (max(2 * (width + height), finish.binding_least), 0.0)
    return sizes


def _left_over(plan: Plan, bench: Bench) -> list[Problem]:
    """Everything made is used, but for what the plan says is over."""
    ends = {plan.finish.top, plan.finish.backing, plan.finish.binding}
    problems = []
    for name in sorted({*bench.table.piles, *plan.left_over} - ends):
        over, said = bench.count(name), plan.left_over.get(name, 0)
        if over != said:
            problems.append(
                Problem(
                    f"{over} {name!r} are over, the plan says {said}",
                    _last_with(plan, name),
                    "Check the counts.",
                )
            )
    return problems


def _last_with(plan: Plan, name: str) -> str:
    """The last step that has to do with a pile."""
    for number in range(len(plan.steps), 0, -1):
        if repr(name) in repr(plan.steps[number - 1]):
            return step_label(number, plan.steps[number - 1])
    return THE_END
