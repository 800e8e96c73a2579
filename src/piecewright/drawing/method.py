"""The picture of a way to make a unit: its steps run on the bench, a frame for each thing the hands do."""

from __future__ import annotations

from piecewright.bench.bench import Bench, seam_of
from piecewright.bench.plan import Have, Supply
from piecewright.bench.steps import Gather, Press
from piecewright.drawing.foundation_frames import foundation_frames
from piecewright.drawing.frames import Frame, draw_rows, filled_rows
from piecewright.drawing.look import PAGE_WIDTH
from piecewright.drawing.method_chapters import chapters
from piecewright.drawing.method_frames import Moment, Telling, exact_size
from piecewright.drawing.method_story import Story
from piecewright.drawing.palette import Palette
from piecewright.drawing.pen import Pen
from piecewright.drawing.svg_pen import SvgPen
from piecewright.measure.length import ZERO, Unit, inches
from piecewright.methods.foundation.way import NAME as ON_A_FOUNDATION
from piecewright.methods.kinds import name_of
from piecewright.methods.recipe import Recipe
from piecewright.workroom.workroom import Workroom


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


def method_rows(
    recipe: Recipe, workroom: Workroom, palette: Palette, unit: Unit, width: float = PAGE_WIDTH
) -> list[tuple[Frame, ...]]:
    """The frames of a recipe in rows; what belongs together stands in one row where there is room."""
    starts = {f"start {k}": size for k, size in enumerate(recipe.start_sizes())}
    telling = Telling(seam_of(workroom), palette, unit, starts)
    story = Story(recipe, workroom, telling)
    moments = run_through(recipe, workroom)
    if recipe.method.name == ON_A_FOUNDATION:
        return filled_rows(foundation_frames(story, moments), width)
    return filled_rows([frames for chapter in chapters(moments) for frames in story.told(chapter)], width)


def draw_method(
    pen: Pen,
    recipe: Recipe,
    workroom: Workroom,
    palette: Palette,
    unit: Unit = "in",
    width: float = PAGE_WIDTH,
) -> None:
    """The steps of a recipe in rows of frames within so many points; raises Refused as the bench does."""
    draw_rows(pen, method_rows(recipe, workroom, palette, unit, width), width)


def method_svg(
    recipe: Recipe, workroom: Workroom, palette: Palette, unit: Unit = "in", width: float = PAGE_WIDTH
) -> str:
    """The picture of a recipe as SVG."""
    rows = method_rows(recipe, workroom, palette, unit, width)
    title = f"{name_of(recipe.unit.kind)}, {recipe.method.name}".capitalize()
    width_raw, height_raw = recipe.unit.raw(workroom.take_up)
    square = " square" if width_raw == height_raw else ""
    raw = f"{exact_size(width_raw, height_raw, unit).replace(' × ', ' x ')}{square}"
    told = " ".join(
        f"{number} {frame.in_words}." for number, frame in enumerate((f for row in rows for f in row), 1)
    )
    pen = SvgPen(title, f"How to make {recipe.method.makes} at a time, {raw} unfinished. {told}")
    draw_rows(pen, rows, width)
    return pen.svg()
