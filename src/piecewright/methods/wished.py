"""What is wished of a way, held against its recipe."""

from __future__ import annotations

from msgspec.structs import replace

from piecewright.measure.length import inches, mm
from piecewright.methods.effort import effort_of
from piecewright.methods.recipe import Recipe
from piecewright.workroom.wishes import Wishes
from piecewright.workroom.workroom import Workroom

LARGER_MARKS = {"in": inches("1/4"), "cm": mm(5)}
"""The steps of whole-mark sizes: quarter inches, half centimetres."""


def with_larger_marks(workroom: Workroom) -> Workroom:
    """The workroom with cut sizes on the larger marks of its ruler."""
    return replace(workroom, rounding=max(workroom.rounding, LARGER_MARKS[workroom.unit]))


def against(recipe: Recipe, workroom: Workroom, wishes: Wishes, tilted: bool = False) -> str:
    """Which wish a recipe goes against, in words; an empty text where it keeps to all.

    Under `whole_marks` the recipe is one for a workroom `with_larger_marks`.
    """
    if wishes.no_bias and recipe.bias_edges:
        return f"{recipe.bias_edges} of its outer edges are bias"
    if wishes.no_marking and effort_of(recipe, 1, workroom).marks:
        return "its lines must be marked"
    if wishes.whole_marks and any(cut % LARGER_MARKS[workroom.unit] for cut in recipe.sizing.cut):
        return "its starts are not on the larger marks of the ruler"
    if wishes.alike is not None and recipe.method.makes > wishes.alike:
        return f"it makes {recipe.method.makes} alike"
    if wishes.upright and tilted:
        return "one-way prints would not stand upright"
    return ""


def on_marks(recipe: Recipe, workroom: Workroom) -> bool:
    """Whether the ruler shows every size that is cut for it."""
    return all(workroom.ruler.shows(cut) for cut in recipe.sizing.cut)
