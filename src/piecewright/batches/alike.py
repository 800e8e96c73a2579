"""Ways whose units lie on one pile: they must look alike, grain and all, or a pile would hold two kinds."""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.batches.programme import Offer, best_mix
from piecewright.bench.piles import look_turn
from piecewright.methods.effort import SECONDS_PER_MINUTE, cost_of
from piecewright.methods.recipe import Recipe
from piecewright.workroom.workroom import Workroom


def kinds_alike(recipes: Sequence[Recipe]) -> list[tuple[Recipe, ...]]:
    """The recipes for one unit, sorted into those whose units look alike; in their order."""
    kinds: list[list[Recipe]] = []
    for recipe in recipes:
        like = (kind for kind in kinds if look_turn(recipe.cloth, kind[0].cloth) is not None)
        own = next(like, None)
        if own is None:
            kinds.append([recipe])
        else:
            own.append(recipe)
    return [tuple(kind) for kind in kinds]


def best_alike(recipes: Sequence[Recipe], count: int, workroom: Workroom) -> tuple[Recipe, ...]:
    """Of recipes for one unit those that look alike and make so many at the least cost."""
    kinds = kinds_alike(recipes)
    if len(kinds) < 2 or not count:
        return kinds[0] if kinds else ()
    costs = [best_mix([count], [single_offer(r, workroom) for r in kind]).cost for kind in kinds]
    return kinds[costs.index(min(costs))]


def single_offer(recipe: Recipe, workroom: Workroom) -> Offer:
    """One batch of a recipe where nothing else is wanted."""
    set_up = workroom.pace.set_up / SECONDS_PER_MINUTE
    cost = cost_of(recipe, recipe.method.makes, workroom)
    return Offer(recipe.method.name, {0: recipe.method.makes}, cost, set_up)
