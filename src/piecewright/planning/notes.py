"""What the maker should know about a plan: prints that cannot stand upright, seams that cannot nest."""

from __future__ import annotations

from collections.abc import Mapping

from piecewright.bench.replay import Replay
from piecewright.design.model import Design
from piecewright.measure.showing import show_float
from piecewright.planning.pressing_plan import Pressings
from piecewright.planning.things import Joined, Thing, UnitThing
from piecewright.problems import Problem


def notes_on(
    design: Design,
    things: Mapping[str, Thing],
    counts: Mapping[str, int],
    pressings: Pressings,
    verdict: Replay,
) -> tuple[Problem, ...]:
    """Notes, each in a sentence with its place."""
    return (*_tilted(things, counts, verdict), *_clashing(design, things, counts, pressings))


def _tilted(things: Mapping[str, Thing], counts: Mapping[str, int], verdict: Replay) -> list[Problem]:
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
    if verdict.tilted and not units:
        what = f"the one-way print does not stand upright in {verdict.tilted} patches"
        notes.append(Problem(what, "borders and sashes", "Cut them along the length by hand.", weight="note"))
    return notes


def _clashing(
    design: Design, things: Mapping[str, Thing], counts: Mapping[str, int], pressings: Pressings
) -> list[Problem]:
    notes = []
    for thing in things.values():
        if not isinstance(thing, Joined) or not counts[thing.name]:
            continue
        for seamed in thing.seams:
            places = pressings.clashes(seamed)
            if places:
                where = ", ".join(dict.fromkeys(show_float(at, design.unit) for at in places[:6]))
                more = " and so on" if len(places) > 6 else ""
                notes.append(
                    Problem(
                        f"seams cannot nest at {len(places)} places of this seam ({where}{more} along it)",
                        seamed.seam,
                        "Pin there, and sew slowly.",
                        weight="note",
                    )
                )
    return notes
