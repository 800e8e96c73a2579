"""How many of each thing are wanted for one quilt, and how many batches or strips that takes."""

from __future__ import annotations

from collections.abc import Mapping

from piecewright.planning.things import Gathered, Lengths, OffBatch, Shaped, Thing, ThingThere, UnitThing


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
        if isinstance(thing, Gathered):
            left = counts[name]
            for source, gives in thing.sources:
                taken = min(left, gives)
                counts[source] += taken
                left -= taken
            continue
        if isinstance(thing, OffBatch):
            continue
        for needed, each in thing.needs:
            if isinstance(things[needed], Lengths):
                counts[needed] = max(counts[needed], counts[name] * each)
            else:
                counts[needed] += makings(things, counts, name) * each
    return counts


def makings(things: Mapping[str, Thing], counts: Mapping[str, int], name: str) -> int:
    """How often a thing is made to have as many as are counted: batches, or rectangles cut into shapes."""
    thing = things[name]
    if isinstance(thing, Shaped):
        return thing.cutting.rectangles(counts[name])
    if not isinstance(thing, UnitThing):
        return counts[name]
    besides = (b for b in thing.recipe.method.besides if b.name(name) in things)
    return max(thing.recipe.batches(counts[name]), *(-(-counts[b.name(name)] // b.count) for b in besides), 0)


def left_over(things: Mapping[str, Thing], counts: Mapping[str, int]) -> dict[str, int]:
    """What whole batches make beyond what is wanted, by the pile where it lies in the end."""
    made: dict[str, int] = {}
    for name, thing in things.items():
        if isinstance(thing, UnitThing):
            batches = makings(things, counts, name)
            made[name] = batches * thing.recipe.method.makes
            for besides in thing.recipe.method.besides:
                made[besides.name(name)] = batches * besides.count
        elif isinstance(thing, Shaped):
            made[name] = makings(things, counts, name) * thing.each
        elif isinstance(thing, ThingThere):
            made[name] = thing.there
    over = {name: number - counts.get(name, 0) for name, number in made.items()}
    for name, thing in things.items():
        if isinstance(thing, Gathered):
            gathered = [source for source, _ in thing.sources if counts[source]]
            over[name] = sum(over.pop(source) for source in gathered)
    return {name: count for name, count in over.items() if count}
