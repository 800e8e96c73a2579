"""The ways that may make a unit, ready to be weighed: within likes, refusals, wishes and pins.

Terms:
- *want*: a unit as it is drawn, how many, and what its fabrics allow;
- *ready*: a recipe that keeps to everything, with whether a one-way print is tilted in it.
"""

from __future__ import annotations

from dataclasses import dataclass

from piecewright.design.drawing import Drawing
from piecewright.methods import is_named, ways_for
from piecewright.methods.kinds import name_of
from piecewright.methods.laying import every_laying
from piecewright.methods.method import Method, Unit
from piecewright.methods.recipe import Recipe, make_recipe
from piecewright.methods.wished import against, on_marks, with_larger_marks
from piecewright.piecing.laying import lay_on
from piecewright.problems import Problem, Refused
from piecewright.workroom.wishes import Wishes, wishes_from
from piecewright.workroom.workroom import Workroom


@dataclass(frozen=True)
class Want:
    """A unit in cloth, its drawing (roles are fabrics), how many are wanted, and what is asked of its way.

    `alike`: at most so many may be alike (an assortment); `pinned`: the way that its maker chose.
    """

    unit: Unit
    drawing: Drawing
    count: int
    alike: int | None = None
    pinned: str | None = None


@dataclass(frozen=True)
class Ready:
    """The recipes for a want that keep to everything, in the order of METHODS."""

    recipes: tuple[Recipe, ...]
    tilted: bool


def ready(want: Want, workroom: Workroom, one_way: frozenset[str] = frozenset()) -> Ready:
    """Every recipe that may be taken; raises Refused when none is left or the pinned one cannot make it.

    Where some way leaves one-way prints upright, only such ways are ready. Wishes of the workroom hold for
    all but a pinned way.
    """
    wishes = wishes_from(workroom.wishes).and_also(Wishes(alike=want.alike))
    allowed = [m for m in ways_for(want.unit, workroom) if _allowed(m, workroom, wishes, want.pinned)]
    if not allowed:
        raise Refused(_none_allowed(want, workroom, wishes))
    room = workroom if want.pinned or not wishes.whole_marks else with_larger_marks(workroom)
    own = one_way & set(want.unit.fabrics)
    recipes, reasons = _made_ready(allowed, want, room, own)
    upright = [u for r in recipes if (u := _upright(r, want.drawing, room, own))]
    tilted = not upright
    if tilted:
        upright, reasons = _made_ready(allowed, want, room, frozenset())
    if not want.pinned:
        kept = [r for r in upright if not against(r, room, wishes, tilted and bool(own))]
        if upright and not kept:
            raise Refused(_nothing_kept(want, workroom))
        upright = _shown_by_ruler(kept, room) or kept
    if not upright:
        raise Refused(*reasons)
    return Ready(tuple(upright), tilted)


def _shown_by_ruler(recipes: list[Recipe], workroom: Workroom) -> list[Recipe]:
    """Those whose sizes the ruler shows, before others that have to be measured out, and those liked.

    None where only scraps for printed lines are so; scraps are cut to any size.
    """
    shown = [recipe for recipe in recipes if on_marks(recipe, workroom)]
    if all(recipe.method.printed for recipe in shown):
        return []
    return [r for r in recipes if r in shown or is_liked(r, workroom)]


def is_liked(recipe: Recipe, workroom: Workroom) -> bool:
    """Whether the workroom likes the way."""
    return any(is_named(recipe.method, word) for word in workroom.liked)


def _upright(recipe: Recipe, drawing: Drawing, workroom: Workroom, one_way: frozenset[str]) -> Recipe | None:
    """The recipe as it comes, or with its cloths laid another way, so that every print stands upright."""
    if lay_on(recipe.cloth, drawing, one_way):
        return recipe
    if not (one_way and recipe.method.upright):
        return None
    for laying in every_laying(recipe.steps):
        turned = make_recipe(recipe.method, recipe.unit, workroom, one_way, laying)
        if lay_on(turned.cloth, drawing, one_way):
            return turned
    return None


def _made_ready(
    methods: list[Method], want: Want, workroom: Workroom, one_way: frozenset[str]
) -> tuple[list[Recipe], list[Problem]]:
    recipes: list[Recipe] = []
    reasons: list[Problem] = []
    for method in methods:
        try:
            recipes.append(make_recipe(method, want.unit, workroom, one_way))
        except Refused as refused:
            reasons += refused.problems
    return recipes, reasons


def _allowed(method: Method, workroom: Workroom, wishes: Wishes, pinned: str | None) -> bool:
    if pinned is not None:
        return is_named(method, pinned)
    if wishes.alike is not None and method.makes > max(wishes.alike, 1):
        return False
    return not any(is_named(method, word) for word in workroom.refused)


def _none_allowed(want: Want, workroom: Workroom, wishes: Wishes) -> Problem:
    kind = name_of(want.unit.kind)
    known = ", ".join(method.name for method in ways_for(want.unit, workroom))
    if want.pinned is not None:
        return Problem(f"there is no way {want.pinned!r} for the {kind}", do=f"The ways are: {known}.")
    if wishes.alike is not None:
        return Problem(
            f"for the {kind} no way that the workroom allows leaves at most {wishes.alike} alike",
            do=f"Allow more alike in the assortment, or allow more of: {known}.",
        )
    return Problem(f"the workroom refuses every way for the {kind}", do=f"Allow one of: {known}.")


def _nothing_kept(want: Want, workroom: Workroom) -> Problem:
    wishes = ", ".join(workroom.wishes)
    return Problem(
        f"no way for the {name_of(want.unit.kind)} keeps to what is wished ({wishes})",
        do="Wish less, or pin a way.",
    )
