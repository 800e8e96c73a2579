"""What the maker should know about a plan: prints that cannot stand upright, seams that cannot nest."""

from __future__ import annotations

from collections.abc import Mapping

from piecewright.bench.replay import Replay
from piecewright.design.model import Design
from piecewright.planning.pressing_map import SecondPressing
from piecewright.planning.pressing_plan import Pressings
from piecewright.planning.things import Thing, UnitThing
from piecewright.planning.where_to_pin import to_pin
from piecewright.problems import Problem


def notes_on(
    design: Design,
    things: Mapping[str, Thing],
    counts: Mapping[str, int],
    pressings: Pressings,
    verdict: Replay,
) -> tuple[Problem, ...]:
    """Notes, each in a sentence with its place."""
    pins = to_pin(things, counts, pressings, design.unit)
    return (*_tilted(design, things, counts, verdict), *pins)


def _tilted(
    design: Design, things: Mapping[str, Thing], counts: Mapping[str, int], verdict: Replay
) -> list[Problem]:
    units = [t for t in things.values() if isinstance(t, UnitThing) and t.tilted and counts[t.name]]
    notes = [
        Problem(
            f"the one-way print cannot stand upright in all of the {counts[unit.name]} units made "
            f"{unit.recipe.method.name}",
            unit.name,
            "Choose a print without a direction there, or enjoy it as it falls.",
            weight="note",
        )
        for unit in units
    ]
    strips = [k for k, border in enumerate(design.borders, 1) if design.is_one_way(border.role)]
    if verdict.tilted and strips:
        named = " and ".join(map(str, strips))
        what = f"cut across the cloth, the one-way print lies on its side in two strips of border {named}"
        do = "Cut those two along the length of the cloth, if it should stand."
        notes.append(Problem(what, "borders", do, weight="note"))
    elif verdict.tilted and not units:
        what = f"the one-way print does not stand upright in {verdict.tilted} patches"
        notes.append(Problem(what, "sashing", "Cut them along the length of the cloth.", weight="note"))
    return notes


def second_note(second: SecondPressing) -> tuple[Problem, ...]:
    """How many blocks get each of two pressings, where each goes, and how to tell them apart."""
    rule = second.answer.rule or "as the map shows"
    saved = second.answer.saves
    return tuple(
        Problem(
            f"press {first} of {name} the first way and {other} the second: then {saved} places more nest. "
            f"The second go to {rule}.",
            name,
            "Put a pin in the same corner of every block of the second pressing, and leave it until the "
            "block is joined.",
            weight="note",
        )
        for name, (first, other) in second.counts.items()
    )
