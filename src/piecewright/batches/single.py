"""The cheapest mix of ways for so many of one unit."""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.batches.alike import best_alike, single_offer
from piecewright.batches.programme import best_mix
from piecewright.methods.comparing import Way
from piecewright.methods.recipe import Recipe
from piecewright.workroom.workroom import Workroom


def mix_of(ways: Sequence[Way], workroom: Workroom) -> tuple[tuple[Recipe, int], ...]:
    """Recipes and how many batches of each make what the ways were compared for, most units first.

    Where some of the ways are liked, those alone are weighed.
    """
    liked = [way.recipe for way in ways if way.liked] or [way.recipe for way in ways]
    weighed = best_alike(liked, ways[0].count, workroom)
    mix = best_mix([ways[0].count], [single_offer(recipe, workroom) for recipe in weighed])
    taken = [(recipe, times) for recipe, times in zip(weighed, mix.times, strict=True) if times]
    return tuple(sorted(taken, key=lambda pair: -pair[1] * pair[0].method.makes))
