"""Rings: parts sewn on around a centre, each along all that is there before it, the first in part only.

Terms:
- *ring*: straight runs around a centre, each from the outline on past the centre to end inside the next one,
  all turning the same way;
- *log*: what lies between two neighbouring runs, outside the centre; one part or several.

Each log lies along a whole run: the end of the log before it and a side of the centre.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import pi, tau

from piecewright.piecing.region import Path, Region
from piecewright.piecing.seam_net import Way

MOST_LOGS = 12

ALIKE = 1e-3
"""Radians: turns nearer than this are one; drawn corners are no truer."""


@dataclass(frozen=True)
class Ring:
    """The sets of a ring: the centre, and the logs in the order in which they can be sewn."""

    centre: int
    logs: tuple[int, ...]


def rings(region: Region) -> Iterator[Ring]:
    """Every ring in a region, of either hand.

    The first log lies at the longest side of the centre where the seam can be closed later: both logs must
    have a corner where that seam reaches the outline.
    """
    launches = [way for way in sorted(region.inner) if _behind(region, way)]
    for hand in (1, -1):
        for start in launches:
            for sides in _walked(region, start, hand, ((start[0],),), start, 0.0):
                ring = _ring(region, sides, hand)
                if ring:
                    yield ring


def _behind(region: Region, way: Way) -> Path | None:
    """The run behind the start of a way, from an inner point straight back to the outline."""
    point, head = way
    back = region.net.onward.get((head, point))
    if point in region.outline or back is None or (point, back) not in region.inner:
        return None
    return region.run((point, back), curving=False)


def _walked(
    region: Region, start: Way, hand: int, sides: tuple[Path, ...], way: Way, turned: float
) -> Iterator[tuple[Path, ...]]:
    """The sides of every centre whose first ones are known: on along a way, then round a corner or straight.

    A centre is found from the one of its corners that has the lowest number.
    """
    a, b = way
    sides = (*sides[:-1], (*sides[-1], b))
    if b in region.outline:
        return
    for c in region.heads[b]:
        turn = hand * region.net.bend(a, b, c)
        if not ALIKE < turn < pi - ALIKE or turned + turn > tau + ALIKE:
            continue
        if (b, c) == start:
            if abs(turned + turn - tau) <= ALIKE:
                yield sides
        elif b > start[0] and len(sides) < MOST_LOGS and _behind(region, (b, c)):
            yield from _walked(region, start, hand, (*sides, (b,)), (b, c), turned + turn)
    ahead = region.net.onward.get(way)
    if ahead is not None and b != start[0] and (b, ahead) in region.inner:
        yield from _walked(region, start, hand, sides, (b, ahead), turned)


def _ring(region: Region, sides: tuple[Path, ...], hand: int) -> Ring | None:
    """The sets of a ring round a centre with these sides; None where its first seam could not be closed."""
    behind = [_behind(region, (side[0], side[1])) or () for side in sides]
    closed = [way for path in (*sides, *behind) for way in pairwise(path)]
    along = [(side[0], side[1]) if hand > 0 else (side[1], side[0]) for side in sides]
    centre = region.reached(region.inner[along[0]], closed)
    logs = [region.reached(region.inner[b, a], closed) for a, b in along]
    if sum(logs) + centre != region.parts:
        return None
    may_be_first = [k for k in range(len(sides)) if not region.goes_on((behind[k][-2], behind[k][-1]))]
    if not may_be_first:
        return None
    length = [sum(map(region.net.length, pairwise(side))) for side in sides]
    first = max(may_be_first, key=lambda k: (round(length[k], 3), -k))
    return Ring(centre, (*logs[first:], *logs[:first]))
