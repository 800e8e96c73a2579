"""What the layers at the seams inside blocks cost, for the pressing programme."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise

from piecewright.bench.cloth import SeamSize, Towards
from piecewright.bench.doing import stretch_of
from piecewright.bench.joining import Joining
from piecewright.planning.crossings import Divided
from piecewright.planning.things import Joined, Thing
from piecewright.pressing.bulk import bulk_of
from piecewright.pressing.programme import Segment
from piecewright.pressing.weights import BULK
from piecewright.sewing.stations import Station

WAYS: tuple[Towards, ...] = ("first", "second", "open")


def bulk_weights(
    things: Mapping[str, Thing], of_seam: Mapping[str, Divided], seam: SeamSize
) -> dict[tuple[Segment, Towards], float]:
    """For every stretch of a seam inside a block, and every side: what its thickest place costs."""
    found: dict[tuple[Segment, Towards], float] = {}
    for thing in things.values():
        if not isinstance(thing, Joined) or thing.station > Station.BLOCK:
            continue
        parts = [part for part in thing.parts for _ in range(part.count)]
        # A closing seam has no pair of parts: it lies as the seam that it goes on with.
        for seamed, (one, two) in zip(thing.seams, pairwise(parts), strict=False):
            first, second = Joining(seamed.first, (), one.exit), Joining(seamed.second, two.entry, ())
            bulk = bulk_of(first, second, seam, stretch_of(thing.part_sewn))
            segments = of_seam[seamed.seam].segments
            found |= {(name, way): BULK * bulk.more(way) / len(segments) for name in segments for way in WAYS}
    return found
