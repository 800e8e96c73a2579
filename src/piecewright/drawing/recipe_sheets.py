"""The true-scale sheets of a way to make a unit: its stacks, its foundation, or else its templates.

Templates are those of what the way cuts out, or else of the unit's own patches; see `unit_sheets`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from piecewright.bench.bench import seam_of
from piecewright.bench.steps import CutOut, Stack
from piecewright.design.kinds import kind_of
from piecewright.drawing.foundations import USE as FOUNDATION_USE
from piecewright.drawing.method import run_through
from piecewright.drawing.method_frames import Moment
from piecewright.drawing.paging import copies_on_a_page
from piecewright.drawing.sheet_page import SheetPaper
from piecewright.drawing.stack_sheets import USE as STACK_USE
from piecewright.drawing.stack_sheets import Lines, is_marked, stack_sheet
from piecewright.drawing.templates import raw_template, template_sheet
from piecewright.drawing.true_scale import TrueSheet
from piecewright.drawing.unit_sheets import piece_name, unit_foundation, unit_templates
from piecewright.drawing.writing import size_of
from piecewright.geometry.polygon import Polygon
from piecewright.measure.length import Unit as LengthUnit
from piecewright.methods.foundation.way import NAME as ON_A_FOUNDATION
from piecewright.methods.method import Unit
from piecewright.methods.recipe import Recipe
from piecewright.workroom.workroom import Workroom


def recipe_sheets(
    recipe: Recipe,
    workroom: Workroom,
    count: int | None = None,
    lines: Lines = "both",
    shown: LengthUnit = "in",
) -> tuple[TrueSheet, ...]:
    """The sheets for `count` units made by a recipe, or for one batch; sizes are told in `shown`.

    `lines` chooses among sewing and cutting lines of stacks. Raises Refused where a stack has none of them.
    """
    title = title_of(recipe.unit, recipe.method.name, shown)
    if recipe.method.name == ON_A_FOUNDATION:
        return (unit_foundation(recipe.unit, workroom, count or 1, title, shown),)
    moments = run_through(recipe, workroom)
    stacks = [(m, step) for m in moments if isinstance(step := m.step, Stack) and _needs_a_sheet(m, step)]
    batches = recipe.batches(count) if count else 1
    if not stacks:
        return (_templates(recipe, moments, workroom, count, title, shown),)
    seam = seam_of(workroom)
    sheets: list[TrueSheet] = []
    for number, (moment, step) in enumerate(stacks, 1):
        outlines = _outlines(moment, step)
        needed = step.times * batches
        sheet = stack_sheet(step, outlines, seam, lines, title=title, count=needed, unit=shown)
        which = f"Stack {number} of {len(stacks)}: " if len(stacks) > 1 else ""
        (shape,) = sheet.shapes
        drawn = replace(shape, caption=f"{which}{shape.caption}; makes {_made(moment, step) // step.times}")
        # Stacks that are sewn equally often share a sheet.
        if sheets and sheets[-1].shapes[0].count == needed:
            sheets[-1] = replace(sheets[-1], shapes=(*sheets[-1].shapes, drawn))
        else:
            sheets.append(replace(sheet, shapes=(drawn,)))
    return tuple(sheets)


def _outlines(moment: Moment, step: Stack) -> dict[str, Polygon]:
    """The raw outline of each cloth in a stack, by its pile."""
    names = dict.fromkeys((step.base, *(lay.name for lay in step.tops)))
    return {name: moment.before.only(name).raw for name in names}


def _needs_a_sheet(moment: Moment, step: Stack) -> bool:
    """Where a seam only follows raw edges, and nothing is cut apart behind it, there is nothing to mark."""
    return is_marked(step, _outlines(moment, step)) or _made(moment, step) > step.times


def _made(moment: Moment, step: Stack) -> int:
    """How many things come off all the stacks of a step."""
    before, after = moment.before.piles, moment.after.piles
    given = {name for name in step.gives if name}
    return sum(after[name].count - (before[name].count if name in before else 0) for name in given)


def title_of(unit: Unit, way: str, shown: LengthUnit) -> str:
    """What is made, how, and how large: `Flying goose, four at a time, 4 x 2 in finished`."""
    name = kind_of(unit.kind).name
    size = size_of(unit.width, unit.height, shown).replace(" × ", " x ")
    return f"{name[0].upper()}{name[1:]}, {way}, {size} {shown} finished"


def filled(sheet: TrueSheet, paper: SheetPaper) -> TrueSheet:
    """Stacks or foundations as often as needed and as fits on one page; a note says how many to print."""
    needed = sheet.shapes[0].count
    if needed < 2 or sheet.use not in (STACK_USE, FOUNDATION_USE):
        return sheet
    fits = copies_on_a_page(sheet.shapes, paper, needed)
    each = max(1, fits)
    prints = -(-needed // each)
    note = f"{needed} are needed" if each == 1 else f"{needed} are needed, {each} are on a page"
    times = f": print {'this page' if fits else 'these pages'} {prints} times." if prints > 1 else "."
    return replace(sheet, notes=(*sheet.notes, note + times), shapes=sheet.shapes * each)


def _templates(
    recipe: Recipe,
    moments: Sequence[Moment],
    workroom: Workroom,
    count: int | None,
    title: str,
    shown: LengthUnit,
) -> TrueSheet:
    unit, batches = recipe.unit, recipe.batches(count) if count else 1
    cut_out = [(moment.before.only(m.takes), m) for moment in moments if isinstance(m := moment.step, CutOut)]
    flat = [(cloth.faces[0].fabric, step) for cloth, step in cut_out if len(cloth.faces) == 1]
    if not flat:
        return unit_templates(unit, workroom, count or 1, title, shown)
    shapes = [
        raw_template(
            step.outline,
            float(workroom.take_up),
            piece_name(number, fabric, unit),
            count=step.times * batches,
            unit=shown,
        )
        for number, (fabric, step) in enumerate(flat)
    ]
    return template_sheet(title, tuple(shapes))
