"""Which ways make all the units of a quilt, and how many batches of each: the cheapest mix, proven.

Cost is counted in minutes of the workroom: time, cloth, bias edges, and the set-up of every further way.
A batch that gives units of both hands serves both.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from piecewright.batches.alike import best_alike
from piecewright.batches.offers import Ready, Want, is_liked, ready
from piecewright.batches.programme import Mix, Offer, best_mix
from piecewright.methods.effort import SECONDS_PER_MINUTE, cost_of
from piecewright.methods.method import Besides, Unit
from piecewright.methods.recipe import Recipe
from piecewright.piecing.looks import look
from piecewright.workroom.workroom import Workroom


@dataclass(frozen=True)
class Source:
    """Batches of a recipe for a want; `besides` names what of the batch it is, where not the unit itself.

    `want` is the number of the want that the recipe was made for.
    """

    recipe: Recipe
    batches: int
    want: int
    besides: Besides | None = None

    @property
    def gives(self) -> int:
        """How many come of it."""
        return self.batches * (self.besides.count if self.besides else self.recipe.method.makes)


@dataclass(frozen=True)
class Chosen:
    """Where the units of one want come from; the recipes not taken, cheapest first.

    `pinned`: its maker chose the way; `tilted`: a one-way print does not stand upright.
    """

    sources: tuple[Source, ...]
    others: tuple[Recipe, ...]
    pinned: bool
    tilted: bool

    @property
    def recipe(self) -> Recipe:
        """The recipe that gives most of them."""
        return max(self.sources, key=lambda source: source.gives).recipe


@dataclass(frozen=True)
class Choice:
    """The answer for all wants, with the programme's own value and bound."""

    chosen: tuple[Chosen, ...]
    mix: Mix


def choose_all(wants: Sequence[Want], workroom: Workroom, one_way: frozenset[str] = frozenset()) -> Choice:
    """The cheapest way to make everything that is wanted; raises Refused when a want cannot be made.

    Where a way that the workroom likes may make a unit, only such ways are weighed for it; and only ways
    whose units look alike, for they lie on one pile.
    """
    found = [ready(want, workroom, one_way) for want in wants]
    offered = [
        (k, recipe)
        for k, (one, want) in enumerate(zip(found, wants, strict=True))
        for recipe in best_alike(_liked_first(one, workroom), want.count, workroom)
    ]
    offers = [_offer(k, recipe, wants, workroom) for k, recipe in offered]
    mix = best_mix([want.count for want in wants], offers)
    chosen = []
    for k, want in enumerate(wants):
        sources = [
            Source(recipe, times, of, besides)
            for (of, recipe), times in zip(offered, mix.times, strict=True)
            if times
            for besides in _as_what(recipe, of, k, want.unit)
        ]
        taken = [source.recipe for source in sources]
        others = [recipe for recipe in found[k].recipes if not any(recipe is other for other in taken)]
        chosen.append(
            Chosen(
                tuple(sorted(sources, key=lambda source: (source.besides is None, -source.gives))),
                tuple(sorted(others, key=lambda r: _rank(r, want.count, workroom))),
                want.pinned is not None,
                found[k].tilted,
            )
        )
    return Choice(tuple(chosen), mix)


def choose(want: Want, workroom: Workroom, one_way: frozenset[str] = frozenset()) -> Chosen:
    """The same for one unit alone."""
    return choose_all([replace(want, count=max(want.count, 1))], workroom, one_way).chosen[0]


def _liked_first(found: Ready, workroom: Workroom) -> tuple[Recipe, ...]:
    """Where some are liked, those alone."""
    return tuple(r for r in found.recipes if is_liked(r, workroom)) or found.recipes


def _offer(number: int, recipe: Recipe, wants: Sequence[Want], workroom: Workroom) -> Offer:
    gives = {number: recipe.method.makes}
    for besides in recipe.method.besides:
        for k, want in enumerate(wants):
            if k != number and want.pinned is None and _is_same(besides, recipe.unit, want.unit):
                gives[k] = gives.get(k, 0) + besides.count
    cost = cost_of(recipe, recipe.method.makes, workroom)
    return Offer(recipe.method.name, gives, cost, workroom.pace.set_up / SECONDS_PER_MINUTE)


def _as_what(recipe: Recipe, of: int, want: int, unit: Unit) -> list[Besides | None]:
    """As what a recipe's batch serves a want: as the unit itself, as what comes besides, or not at all."""
    if of == want:
        return [None]
    return [besides for besides in recipe.method.besides if _is_same(besides, recipe.unit, unit)]


def _is_same(besides: Besides, made: Unit, wanted: Unit) -> bool:
    """Whether what comes besides looks as a unit that is wanted, whichever way its kind tells it."""
    other = besides.unit(made) if besides.unit else None
    return other is not None and look(other.drawing.patches) == look(wanted.drawing.patches)


def _rank(recipe: Recipe, count: int, workroom: Workroom) -> tuple[bool, float]:
    return (not is_liked(recipe, workroom), cost_of(recipe, count, workroom))
