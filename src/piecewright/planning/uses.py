"""What pieces and things are for, and what one block takes."""

from __future__ import annotations

from collections.abc import Mapping

from piecewright.methods.kinds import name_of
from piecewright.planning.counting import count_things
from piecewright.planning.cut_long import CutLong
from piecewright.planning.things import (
    Backed,
    Bound,
    Cut,
    Gathered,
    Joined,
    Lengths,
    OffBatch,
    Shaped,
    Thing,
    ThingThere,
    UnitThing,
)
from piecewright.sewing.stations import Station


def uses_of(things: Mapping[str, Thing], name: str) -> tuple[str, ...]:
    """What a pile goes into, in words: `hourglasses`, `Wake`, `border strips`."""
    if isinstance(things[name], CutLong):
        users = (t for t in things.values() if any(needed == name for needed, _ in t.needs))
        return ("borders" if all(isinstance(t, Joined) and is_border(t) for t in users) else "sashing",)
    found: dict[str, None] = {}
    for thing in things.values():
        if any(needed == name for needed, _ in thing.needs):
            for use in _words(things, thing):
                found[use] = None
    return tuple(found)


def _words(things: Mapping[str, Thing], thing: Thing) -> tuple[str, ...]:
    if isinstance(thing, UnitThing):
        return (plural(name_of(thing.recipe.unit.kind)),)
    if isinstance(thing, Gathered | OffBatch | ThingThere):
        return uses_of(things, thing.name)
    if isinstance(thing, Shaped):
        return (plural(thing.what),)
    if isinstance(thing, Lengths):
        return (_long_strip_use(things, thing),)
    if isinstance(thing, Bound):
        return ("binding",)
    if isinstance(thing, Backed):
        return ("backing",)
    if isinstance(thing, Joined) and thing.station is Station.ASSEMBLY:
        return uses_of(things, thing.name) or (thing.name,)
    if isinstance(thing, Joined) and thing.station is Station.BLOCK:
        return (thing.name,)
    return (plural(thing.what),) if isinstance(thing, Joined) else (thing.name,)


def _long_strip_use(things: Mapping[str, Thing], lengths: Lengths) -> str:
    """Long strips are borders, or sashing that runs the whole way."""
    names = {piece.name for piece in lengths.gives}
    users = (t for t in things.values() if isinstance(t, Joined) and names & {n for n, _ in t.needs})
    return "borders" if all(is_border(t) for t in users) else "sashing"


def is_border(thing: Joined) -> bool:
    """Whether a join sews border strips on."""
    return thing.what.startswith("with ")


def plural(words: str) -> str:
    """More than one of them: `hourglasses`, `flying geese`."""
    if words.endswith("goose"):
        return words.removesuffix("goose") + "geese"
    if words.endswith("patch"):
        return f"{words}es"
    return f"{words}es" if words.endswith(("s", "sh", "ch")) else f"{words}s"


def one_block(things: Mapping[str, Thing], block: str) -> dict[str, int]:
    """What one test block takes: for every thing that goes into it, how many."""
    counts = count_things(things, {block: 1})
    return {name: count for name, count in counts.items() if count}


def cuts_among(things: Mapping[str, Thing], counts: Mapping[str, int]) -> dict[str, list[tuple[Cut, int]]]:
    """The pieces among counted things, cloth by cloth."""
    found: dict[str, list[tuple[Cut, int]]] = {}
    for name, count in counts.items():
        thing = things[name]
        if isinstance(thing, Cut) and count:
            found.setdefault(thing.fabric, []).append((thing, count))
    return found
