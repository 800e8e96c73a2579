"""Which way to make a unit: least cost in the workroom's terms, unless the maker has pinned one."""

from __future__ import annotations

from dataclasses import dataclass

from piecewright.design.drawing import Drawing
from piecewright.methods import ways_for
from piecewright.methods.effort import cost_of
from piecewright.methods.kinds import name_of
from piecewright.methods.laying import every_laying
from piecewright.methods.method import Method, Unit
from piecewright.methods.recipe import Recipe, make_recipe
from piecewright.piecing.laying import lay_on
from piecewright.problems import Problem, Refused
from piecewright.workroom.workroom import Workroom


@dataclass(frozen=True)
class Chosen:
    """The recipe taken, the others (best first), whether it was pinned, whether a one-way print is tilted."""

    recipe: Recipe
    others: tuple[Recipe, ...]
    pinned: bool
    tilted: bool


def choose(
    unit: Unit,
    drawing: Drawing,
    count: int,
    workroom: Workroom,
    one_way: frozenset[str] = frozenset(),
    alike: int | None = None,
    pinned: str | None = None,
) -> Chosen:
    """The way to make `count` units; raises Refused when none is left or the pinned one cannot make it.

    Refused and liked ways of the workroom, and how many alike an assortment allows, are kept to. A way
    in which a one-way print stands upright goes before one in which it does not.
    """
    allowed = [m for m in ways_for(unit, workroom) if _allowed(m, workroom, alike, pinned)]
    if not allowed:
        raise Refused(_none_allowed(unit, workroom, pinned, alike))
    own_one_way = one_way & set(unit.fabrics)
    recipes, reasons = _ready(allowed, unit, workroom, own_one_way)
    upright = [u for r in recipes if (u := _upright(r, drawing, workroom, own_one_way))]
    tilted = not upright
    if tilted:
        recipes, reasons = _ready(allowed, unit, workroom, frozenset())
        upright = recipes
    if not upright:
        raise Refused(*reasons)
    ranked = sorted(upright, key=lambda r: (r.method.name not in workroom.liked, cost_of(r, count, workroom)))
    return Chosen(ranked[0], tuple(ranked[1:]), pinned is not None, tilted)


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


def _ready(
    methods: list[Method], unit: Unit, workroom: Workroom, one_way: frozenset[str]
) -> tuple[list[Recipe], list[Problem]]:
    recipes: list[Recipe] = []
    reasons: list[Problem] = []
    for method in methods:
        try:
            recipes.append(make_recipe(method, unit, workroom, one_way))
        except Refused as refused:
            reasons += refused.problems
    return recipes, reasons


def _allowed(method: Method, workroom: Workroom, alike: int | None, pinned: str | None) -> bool:
    if pinned is not None:
        return method.name == pinned
    if alike is not None and method.makes > max(alike, 1):
        return False
    return method.name not in workroom.refused


def _none_allowed(unit: Unit, workroom: Workroom, pinned: str | None, alike: int | None) -> Problem:
    known = ", ".join(method.name for method in ways_for(unit, workroom))
    if pinned is not None:
        return Problem(
            f"there is no way {pinned!r} for the {name_of(unit.kind)}", do=f"The ways are: {known}."
        )
    kind = name_of(unit.kind)
    if alike is not None:
        return Problem(
            f"for the {kind} no way that the workroom allows leaves at most {alike} alike",
            do=f"Allow more alike in the assortment, or allow more of: {known}.",
        )
    return Problem(f"the workroom refuses every way for the {kind}", do=f"Allow one of: {known}.")
