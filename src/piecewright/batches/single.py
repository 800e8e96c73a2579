"""The cheapest mix of ways for so many of one unit."""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.batches.programme import Offer, best_mix
from piecewright.methods.comparing import Way
from piecewright.methods.effort import SECONDS_PER_MINUTE, cost_of
from piecewright.methods.recipe import Recipe
from piecewright.workroom.workroom import Workroom


def mix_of(ways: Sequence[Way], workroom: Workroom) -> tuple[tuple[Recipe, int], ...]:
    """Recipes and how many batches of each make what the ways were compared for, most units first.

    Where some of the ways are liked, those alone are weighed.
    """
    weighed = [way for way in ways if way.liked] or list(ways)
    set_up = workroom.pace.set_up / SECONDS_PER_MINUTE
    offers = [
        Offer(way.name, {0: way.recipe.method.makes}, _batch_cost(way.recipe, workroom), set_up)
        for way in weighed
    ]
    mix = best_mix([ways[0].count], offers)
    taken = [(way.recipe, times) for way, times in zip(weighed, mix.times, strict=True) if times]
    return tuple(sorted(taken, key=lambda pair: -pair[1] * pair[0].method.makes))


def _batch_cost(recipe: Recipe, workroom: Workroom) -> float:
    return cost_of(recipe, recipe.method.makes, workroom)
