"""What the maker should know about a plan: prints that cannot stand upright, seams that cannot nest."""

from __future__ import annotations

from collections.abc import Mapping

from piecewright.bench.replay import Replay
from piecewright.design.model import Design
from piecewright.geometry.point import distance
from piecewright.measure.length import Unit
from piecewright.measure.showing import show_float
from piecewright.planning.pressing_plan import Pressings
from piecewright.planning.things import Joined, Thing, UnitThing
from piecewright.problems import Problem

MOST_PLACES = 6


def notes_on(
    design: Design,
    things: Mapping[str, Thing],
    counts: Mapping[str, int],
    pressings: Pressings,
    verdict: Replay,
) -> tuple[Problem, ...]:
    """Notes, each in a sentence with its place."""
    return (*_tilted(design, things, counts, verdict), *_clashing(design, things, counts, pressings))


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


def _clashing(
    design: Design, things: Mapping[str, Thing], counts: Mapping[str, int], pressings: Pressings
) -> list[Problem]:
    notes = []
    for thing in things.values():
        if not isinstance(thing, Joined) or not counts[thing.name]:
            continue
        for number, seamed in enumerate(thing.seams):
            places = pressings.clashes(seamed)
            if places:
                one, other = thing.neighbours(number)
                met = f"{one} meets {other}" if one != other else f"two of {one} meet"
                notes.append(
                    Problem(
                        f"where {met}, seams cannot nest {_along(thing, number, places, design.unit)}.",
                        thing.name,
                        "Pin there, and sew slowly.",
                        weight="note",
                    )
                )
    return notes


def _along(thing: Joined, number: int, places: list[float], unit: Unit) -> str:
    """Where on a seam, counted from its left or lower end as the picture shows it."""
    path = thing.cloth.own_seams[number].path
    start, end = thing.lies.at(path[0]), thing.lies.at(path[-1])
    level = abs(end[0] - start[0]) > abs(end[1] - start[1])
    backwards = end[0] < start[0] if level else end[1] < start[1]
    length = distance(start, end)
    found = sorted(length - at if backwards else at for at in places)
    told = [show_float(abs(at), unit) for at in found[:MOST_PLACES]]
    more = " and so on" if len(found) > MOST_PLACES else ""
    return f"{', '.join(dict.fromkeys(told))}{more} from the {'left' if level else 'lower'} end"
