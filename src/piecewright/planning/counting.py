"""How many of each thing are wanted for one quilt, and how many batches or strips that takes."""

from __future__ import annotations

from collections.abc import Mapping

from piecewright.planning.things import Lengths, Thing, UnitThing


def count_things(things: Mapping[str, Thing], ends: Mapping[str, int]) -> dict[str, int]:
    """The count of each thing, from what the plan ends in (`ends`) back to the pieces.

    Things are on record in the order in which they can be made, so that going backwards every thing is
    counted before what it needs.
    """
    counts = dict.fromkeys(things, 0)
    for name, count in ends.items():
        counts[name] += count
    for name in reversed(list(things)):
        thing = things[name]
        for needed, each in thing.needs:
            if isinstance(things[needed], Lengths):
                counts[needed] = max(counts[needed], counts[name] * each)
            else:
                counts[needed] += makings(thing, counts[name]) * each
    return counts


def makings(thing: Thing, count: int) -> int:
    """How often a thing is made to have so many: batches for a unit."""
    return thing.recipe.batches(count) if isinstance(thing, UnitThing) else count


def left_over(things: Mapping[str, Thing], counts: Mapping[str, int]) -> dict[str, int]:
    """The units that whole batches make beyond what is wanted."""
    over = {
        name: makings(thing, counts[name]) * thing.recipe.method.makes - counts[name]
        for name, thing in things.items()
        if isinstance(thing, UnitThing)
    }
    return {name: count for name, count in over.items() if count}
