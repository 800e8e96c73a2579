"""What a block is made of on the way, in the order of sewing, and the letters for it.

Terms:
- *stage*: a thing that is sewn on the way, or the block itself; of a ring all the joins it grows by, told by
  the things that they give;
- *letter*: what a piece, unit or stage is called on the pictures of its block.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from piecewright.drawing.layout_key import letter_of
from piecewright.planning.things import Joined, Thing
from piecewright.planning.uses import one_block

Letters = Mapping[str, str]
Joins = Sequence[Joined]


def stages_of(things: Mapping[str, Thing], block: Joined) -> list[Joins]:
    """All that is sewn for a block, itself last; each stage as its joins, named by the last."""
    each = one_block(things, block.name)
    joined = [thing for name in each if isinstance(thing := things[name], Joined) and thing is not block]
    grown = [_ring(things, thing) for thing in (*joined, block)]
    begun = {thing.name for ring in grown for thing in ring[:-1]}
    return [ring for ring in grown if ring[-1].name not in begun]


def _ring(things: Mapping[str, Thing], thing: Joined) -> list[Joined]:
    """The things that a ring grows through, itself last; anything else alone."""
    begun = things[thing.parts[0].name]
    if thing.how == "ring" and isinstance(begun, Joined) and begun.how == "ring" and not begun.closes:
        return [*_ring(things, begun), thing]
    return [thing]


def parts_of(stage: Joins) -> list[str]:
    """The piles that a stage is sewn from, in the order of sewing."""
    names = [[part.name for part in thing.parts for _ in range(part.count)] for thing in stage]
    return [*names[0], *(name for more in names[1:] for name in more[1:])]


def letters_of(stages: Sequence[Joins]) -> Letters:
    """A letter for every pile, in the order in which they are come to; the block itself has none."""
    names: dict[str, None] = {}
    for stage in stages:
        names |= dict.fromkeys(parts_of(stage))
        names[stage[-1].name] = None
    names.pop(stages[-1][-1].name)
    return {name: letter_of(k) for k, name in enumerate(names)}
