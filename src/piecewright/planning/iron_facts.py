"""What of a plan matters at the iron, found on its things: long seams, bias outside and along seams."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from itertools import pairwise

from piecewright.bench.cloth import Cloth, Face
from piecewright.bench.grain import OFF_GRAIN
from piecewright.bench.steps import AnyStep, CutApart, CutOut
from piecewright.geometry.point import distance, side_of, sub
from piecewright.geometry.polygon import Line, edges
from piecewright.measure.length import Unit
from piecewright.measure.tolerance import AS_DRAWN
from piecewright.planning.pressing_plan import Pressings
from piecewright.planning.things import Joined, Thing, UnitThing
from piecewright.pressing.at_the_iron import IronFacts, advice


def iron_advice(
    things: Mapping[str, Thing], counts: Mapping[str, int], pressings: Pressings, unit: Unit
) -> tuple[str, ...]:
    """Sentences for the person at the iron, chosen by what is in the plan."""
    return advice(iron_facts(things, counts, pressings), unit)


def iron_facts(things: Mapping[str, Thing], counts: Mapping[str, int], pressings: Pressings) -> IronFacts:
    """The facts of a plan; lengths in inches."""
    made = [thing for thing in things.values() if counts[thing.name]]
    units = [thing for thing in made if isinstance(thing, UnitThing)]
    joined = [thing for thing in made if isinstance(thing, Joined)]
    return IronFacts(
        longest_seam=max((_longest(thing.cloth) for thing in joined), default=0.0),
        bias_edge=max((_bias_edge(thing.cloth) for thing in (*units, *joined)), default=0.0),
        bias_seam=max((_bias_seam(thing.cloth) for thing in units), default=0.0),
        cut_on_bias=any(_cuts_bias(step) for thing in units for step in thing.recipe.steps),
        opened=bool(pressings.directions.opened),
        spun=any(pressings.spun(thing, k) for thing in joined for k in range(len(thing.seams))),
    )


def _longest(cloth: Cloth) -> float:
    """The longest of its own seams."""
    paths = (seam.path for seam in cloth.own_seams)
    return max((sum(distance(p, q) for p, q in pairwise(path)) for path in paths), default=0.0)


def _bias_edge(cloth: Cloth) -> float:
    """The longest raw outer edge off the straight grain, along any part of it."""
    found = (
        distance(*edge) for edge in edges(cloth.raw) if any(_off_grain(edge, f) for f in _along(cloth, edge))
    )
    return max(found, default=0.0)


def _bias_seam(cloth: Cloth) -> float:
    """The longest of its own seams along which a face is off the straight grain."""
    segments = [segment for seam in cloth.own_seams for segment in seam.segments]
    found = (distance(*s) for s in segments if any(_off_grain(s, face) for face in _along(cloth, s)))
    return max(found, default=0.0)


def _along(cloth: Cloth, line: Line) -> Iterator[Face]:
    """The faces with an edge on a line."""
    for face in cloth.faces:
        if any(
            distance(*own) > 10 * AS_DRAWN and all(abs(side_of(p, *line)) <= AS_DRAWN for p in own)
            for own in edges(face.seen)
        ):
            yield face


def _off_grain(line: Line, face: Face) -> bool:
    off = (math.degrees(math.atan2(*reversed(sub(line[1], line[0])))) - face.grain) % 90
    return min(off, 90 - off) > OFF_GRAIN


def _cuts_bias(step: AnyStep) -> bool:
    """Whether a step cuts flat pieces or units along a slant."""
    if isinstance(step, CutApart):
        lines = [((ruled.x, ruled.y), (ruled.to_x, ruled.to_y)) for ruled in step.cut]
    elif isinstance(step, CutOut):
        lines = edges(step.outline)
    else:
        return False
    return any(min(abs(a - c), abs(b - d)) > AS_DRAWN for (a, b), (c, d) in lines)
