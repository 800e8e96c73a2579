"""`piecewright replay`: a plan is run again, and the top is held against the drawing of the quilt."""

from __future__ import annotations

from pathlib import Path

from piecewright.bench.plan import PLAN_VERSION
from piecewright.bench.plan_file import read_plan
from piecewright.bench.replay import replay
from piecewright.cli.endings import FINE, NOT_REPLAYED
from piecewright.cli.reading import quilt_and_workroom
from piecewright.cli.telling import show, tell, tell_problems, working
from piecewright.design.draw_quilt import draw_quilt
from piecewright.design.model import fabric_of
from piecewright.problems import Problem, Refused


def replay_plan(plan_file: Path, quilt: Path) -> int:
    """Runs the steps, whatever verdict the file holds, and says whether they make the quilt."""
    plan = read_plan(plan_file)
    if plan.version != PLAN_VERSION:
        what = f"expected a plan of version {PLAN_VERSION}, got version {plan.version}."
        raise Refused(Problem(what, str(plan_file), "Make the plan again with `piecewright plan`."))
    design, _, _ = quilt_and_workroom(quilt, None)
    with working("Replaying"):
        cloth_of = {role.key: fabric_of(design, role.key) for role in design.roles}
        verdict = replay(plan, draw_quilt(design).top, cloth_of)
    if not verdict.made_as_drawn:
        tell_problems(verdict.problems)
        tell(f"{plan_file} does not make {design.title} as drawn.")
        return NOT_REPLAYED
    steps = f"{len(plan.steps):,} steps, {verdict.patches:,} patches"
    show(f"{plan.title}: replayed: made as drawn ({steps})")
    return FINE
