"""What a recipe asks of one's hands: lines marked, seams, cuts, minutes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from piecewright.bench.steps import AnyStep, CutApart, CutOut, Ruled, Stack, TrueUp
from piecewright.geometry.point import Point, distance, dot, sub, unit
from piecewright.methods.recipe import Recipe
from piecewright.workroom.workroom import Pace, Workroom

SECONDS_PER_MINUTE = 60.0
AROUND_A_CURVE = 0.94
"""The cosine of the turn (20 degrees) up to which a cutter goes on round a corner."""


@dataclass(frozen=True)
class Effort:
    """For so many units: lines marked, seams sewn (and their length in inches), cuts with the ruler, minutes.

    Cuts are those of starts, of cutting apart and of truing up; minutes come from one's own pace.
    """

    marks: int
    seams: int
    sewn: float
    cuts: int
    minutes: float


def effort_of(recipe: Recipe, count: int, workroom: Workroom) -> Effort:
    """What it takes to make so many units by a recipe, in whole batches."""
    batches = recipe.batches(count)
    marks = recipe.method.also_marked
    seams, sewn = recipe.sewn.joins, recipe.sewn.joined
    cuts = sum(start.count for start in recipe.method.starts)
    for step in recipe.steps:
        times = _times(step)
        if isinstance(step, Stack):
            marks += times * len({_marked(line) for line in step.sew if not follows_edge(line)})
            seams += times * len(step.sew)
            sewn += times * sum(distance((s.x, s.y), (s.to_x, s.to_y)) for s in step.sew)
            cuts += times * len(step.cut)
        elif isinstance(step, CutApart):
            cuts += times * len(step.cut)
        elif isinstance(step, CutOut):
            cuts += times * cuts_round(step.outline)
        elif isinstance(step, TrueUp) and step.by == "trim":
            cuts += 4 * recipe.method.makes
    trued = recipe.method.makes if recipe.sizing.truing == "trim" else 0
    minutes = _minutes(workroom.pace, marks, seams, sewn, cuts, recipe.sewn.presses, trued)
    # A printed line is not marked, but the paper is folded back at it, and torn off: that takes as long.
    marks = 0 if recipe.method.printed else marks
    return Effort(marks * batches, seams * batches, sewn * batches, cuts * batches, minutes * batches)


def cost_of(recipe: Recipe, count: int, workroom: Workroom) -> float:
    """The cost of so many units in the workroom's terms, as minutes: time, cloth, and bias edges.

    `cloth_weight` is what a strip an inch high across 40 in of cloth is worth; bias costs for every edge.
    """
    cloth = recipe.cloth_area * recipe.batches(count) / float(workroom.usable_width)
    bias = recipe.bias_edges * count * workroom.bias_minutes
    return effort_of(recipe, count, workroom).minutes + workroom.cloth_weight * cloth + bias


def cuts_round(outline: Sequence[Point]) -> int:
    """How many cuts it takes to go round an outline; a curve is one."""
    before, after = [outline[-1], *outline[:-1]], [*outline[1:], outline[0]]
    ways = [(unit(sub(b, a)), unit(sub(c, b))) for a, b, c in zip(before, outline, after, strict=True)]
    return max(1, sum(dot(into, out) < AROUND_A_CURVE for into, out in ways))


def _times(step: AnyStep) -> int:
    return getattr(step, "times", 1)


def _marked(line: Ruled) -> tuple[float, ...]:
    return (line.x, line.y, line.to_x, line.to_y)


def follows_edge(line: Ruled) -> bool:
    """Whether a line of stitching follows a raw edge, so that the presser foot is guide enough."""
    return line.x == line.to_x or line.y == line.to_y


def _minutes(pace: Pace, marks: int, seams: int, sewn: float, cuts: int, presses: int, trued: int) -> float:
    seconds = (
        marks * pace.mark
        + seams * pace.start_seam
        + cuts * pace.cut
        + presses * pace.press
        + trued * pace.true_up
    )
    return seconds / SECONDS_PER_MINUTE + sewn / pace.sew_inches
