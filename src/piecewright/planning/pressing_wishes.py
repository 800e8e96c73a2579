"""What one wishes for the seams of a thing: bulk, points and the dark side, rows in one go, spun centres.

Weights are those of one table (`pressing/weights.py`), for all of a thing that the quilt needs.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import pairwise

from piecewright.bench.cloth import Cloth, SeamEnd
from piecewright.design.kinds import kind_of
from piecewright.planning.crossings import Divided
from piecewright.planning.things import Joined, Seamed, UnitThing
from piecewright.pressing.programme import Leaning, Likeness, Segment, Spin
from piecewright.pressing.weights import BULK, BY_TURNS, DARK, PICKED_OUT, POINT, SPUN, WHOLE_ROW

Lightness = Mapping[str, float]
SegmentOf = Callable[[SeamEnd], Segment | None]


def unit_leaning(thing: UnitThing, name: Segment, count: int, lightness: Lightness) -> Leaning:
    """Away from a point, corners outwards; else to the darker of two fabrics."""
    unit = thing.recipe.unit
    if kind_of(unit.kind).outwards:
        return Leaning(name, False, POINT * count)
    light = [lightness.get(fabric, 0.5) for fabric in unit.fabrics[:2]]
    darker = len(light) == 2 and light[0] < light[1]
    return Leaning(name, darker, DARK * count)


def seam_leanings(
    seamed: Seamed, divided: Divided, count: int, lightness: Lightness, layers_counted: bool
) -> list[Leaning]:
    """To the darker side, and away from the side with more seams, unless the layers are counted instead."""
    first, second = seamed.ends
    wish = 0.0 if layers_counted else BULK * (second - first) / max(first + second, 1)
    wish += DARK * (_lightness(seamed.second, lightness) - _lightness(seamed.first, lightness))
    each = abs(wish) * count / len(divided.segments)
    return [Leaning(name, wish > 0, each) for name in divided.segments]


def _lightness(cloth: Cloth, lightness: Lightness) -> float:
    areas = cloth.cloth_of
    return sum(lightness.get(fabric, 0.5) * a for fabric, a in areas.items()) / sum(areas.values())


def in_one_go(seams: Sequence[Divided], count: int) -> Iterator[Likeness]:
    """The seams between the parts of a row lie one way."""
    for one, two in pairwise(seams):
        pairs = list(zip(one.segments, two.segments, strict=False))
        for name, other in pairs:
            yield Likeness(name, other, True, WHOLE_ROW * count / len(pairs))


def by_turns(thing: Joined, segment_of: SegmentOf, count: int) -> Iterator[Likeness]:
    """Rows beside one another lie opposite ways, also where none of their seams meet."""
    parts = [part for part in thing.parts for _ in range(part.count)]
    for seamed, one, two in zip(thing.seams, parts, parts[1:], strict=False):
        if seamed.pairs or not one.exit or not two.entry:
            continue
        below, above = seamed.first.ends_on(one.exit[0]), seamed.second.ends_on(two.entry[-1])
        if below and above:
            end, other = below[0], above[-1]
            names = segment_of(end), segment_of(other)
            if names[0] is not None and names[1] is not None:
                alike = end.first_is_ahead == other.first_is_ahead
                yield Likeness(names[0], names[1], alike, BY_TURNS * count)


def spins(divided: Divided, segment_of: SegmentOf, count: int) -> Iterator[Spin]:
    """The places where a seam may change side; the more seams meet there, the flatter a spun centre lies."""
    for k, place in enumerate(divided.places):
        ends = [(name, end.first_is_ahead) for end in place.ends if (name := segment_of(end)) is not None]
        weight = PICKED_OUT * len(divided.places) - SPUN * len(place.pairs)
        yield Spin(divided.segments[k], divided.segments[k + 1], tuple(ends), weight * count)
