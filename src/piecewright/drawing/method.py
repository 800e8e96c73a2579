"""The picture of a way to make a unit: its steps run on the bench, a frame for each thing the hands do."""

from __future__ import annotations

from piecewright.bench.bench import Bench, seam_of
from piecewright.bench.plan import Have, Supply
from piecewright.bench.steps import CutApart, Gather, Join, Press, Stack, TrueUp
from piecewright.drawing.frames import Frame, draw_rows
from piecewright.drawing.look import PAGE_WIDTH
from piecewright.drawing.method_frames import Moment, Telling
from piecewright.drawing.palette import Palette
from piecewright.drawing.pen import Pen
from piecewright.drawing.svg_pen import SvgPen
from piecewright.drawing.truing import upright
from piecewright.drawing.writing import measured_size, size_in_words
from piecewright.geometry.isometry import STILL, Isometry
from piecewright.measure.length import ZERO, Unit, inches
from piecewright.methods.kinds import name_of
from piecewright.methods.recipe import Recipe
from piecewright.workroom.workroom import Workroom

MADE = "unit"
"""The pile in which a recipe's units end."""


def run_through(recipe: Recipe, workroom: Workroom) -> list[Moment]:
    """The recipe's steps done on a bench, each with the table before and after; pressing counts as after."""
    supplies = [Supply(fabric=fabric, width=inches(1), length=ZERO) for fabric in recipe.unit.fabrics]
    have = [
        Have(
            name=f"start {k}",
            count=start.count,
            fabric=recipe.unit.fabrics[start.fabric],
            width=width,
            height=height,
        )
        for k, (start, (width, height)) in enumerate(
            zip(recipe.method.starts, recipe.start_sizes(), strict=True)
        )
    ]
    bench = Bench(workroom, supplies, have)
    moments: list[Moment] = []
    for step in (step for step in recipe.steps if not isinstance(step, Gather)):
        before = bench.table
        bench.do(step)
        if isinstance(step, Press) and moments:
            last = moments[-1]
            moments[-1] = Moment(last.step, last.before, bench.table)
        else:
            moments.append(Moment(step, before, bench.table))
    return moments


def method_rows(recipe: Recipe, workroom: Workroom, palette: Palette, unit: Unit) -> list[tuple[Frame, ...]]:
    """The frames of a recipe, one row for each stack."""
    starts = {f"start {k}": size for k, size in enumerate(recipe.start_sizes())}
    telling = Telling(seam_of(workroom), palette, unit, starts)
    rows: list[tuple[Frame, ...]] = []
    sliced: list[tuple[Moment, CutApart]] = []
    for moment in run_through(recipe, workroom):
        step = moment.step
        if isinstance(step, CutApart):
            sliced.append((moment, step))
        elif isinstance(step, Stack):
            rows.append(
                (*telling.stack(moment, step), _opened(telling, moment, step.gives[0], recipe, workroom))
            )
        elif isinstance(step, Join):
            place = _standing(moment, step.gives, recipe, workroom)
            opened = _opened(telling, moment, step.gives, recipe, workroom)
            rows.append((*telling.cut_apart(sliced), telling.join(moment, step, place), opened))
        elif isinstance(step, TrueUp) and step.by == "trim":
            cloth = moment.before.piles[step.pile].kinds[0][0]
            place = _standing(moment, step.pile, recipe, workroom)
            rows[-1] = (*rows[-1], telling.true_up(cloth, step, place))
    return rows


def _standing(moment: Moment, gives: str, recipe: Recipe, workroom: Workroom) -> Isometry:
    """How what was made is turned for its picture: a unit that is ready stands upright."""
    if gives != MADE:
        return STILL
    width, height = recipe.unit.raw(workroom.take_up)
    table = moment.before if isinstance(moment.step, TrueUp) else moment.after
    cloth = table.piles[gives].kinds[0][0]
    return upright(cloth, recipe.method.landmark, (float(width), float(height)), seam_of(workroom))


def _opened(telling: Telling, moment: Moment, gives: str, recipe: Recipe, workroom: Workroom) -> Frame:
    pile = moment.after.piles[gives]
    labels: tuple[str, ...] = (f"makes {pile.count}",)
    if gives == MADE:
        labels = (*labels, measured_size(recipe.sizing.before, telling.unit))
        if recipe.sizing.truing == "ease":
            labels = (*labels, "leave as it is")
    return telling.opened(pile.kinds[0][0], _standing(moment, gives, recipe, workroom), labels)


def draw_method(
    pen: Pen,
    recipe: Recipe,
    workroom: Workroom,
    palette: Palette,
    unit: Unit = "in",
    width: float = PAGE_WIDTH,
) -> None:
    """The steps of a recipe in rows of frames within so many points; raises Refused as the bench does."""
    draw_rows(pen, method_rows(recipe, workroom, palette, unit), width)


def method_svg(
    recipe: Recipe, workroom: Workroom, palette: Palette, unit: Unit = "in", width: float = PAGE_WIDTH
) -> str:
    """The picture of a recipe as SVG."""
    rows = method_rows(recipe, workroom, palette, unit)
    title = f"{name_of(recipe.unit.kind)}, {recipe.method.name}".capitalize()
    raw = size_in_words(*recipe.unit.raw(workroom.take_up), unit)
    told = " ".join(
        f"{number} {frame.in_words}." for number, frame in enumerate((f for row in rows for f in row), 1)
    )
    pen = SvgPen(title, f"How to make {recipe.method.makes} at a time, {raw} unfinished. {told}")
    draw_rows(pen, rows, width)
    return pen.svg()
