"""Where no full straight seam goes through: seams that are set in, and rings with a partial seam.

Terms:
- *set in*: two cloths joined along one seam with corners, sewn from dot to dot and turned at each;
- *partial seam*: the first seam of a ring, sewn in part, and closed when the last log is on;
- *inset, by template*: joined along a curve; a curve drawn as chords counts as one seam without corners.

What each costs is in the measure of `costs`: `SET_IN` and `CORNER`, `PARTIAL`, and the figures below. All
are ours (common practice, no source): a partial seam is easier than a corner that is set in, every further
corner in one seam is harder than the one before it.

| what                                                                      | costs         |
|---------------------------------------------------------------------------|---------------|
| each corner of a seam after its first, for each corner before it          | `MORE`        |
| a seam along a curve, inset by template                                   | `CURVE`       |
| each end of a seam that stops at a dot, since one side goes on beyond it  | `DOT`         |
| two cloths no ends of which lie together: one is marked where they meet   | `MARK`        |
| a way that the person does not prefer                                     | `UNLIKED` times as much |
"""

from __future__ import annotations

from itertools import pairwise

from piecewright.geometry.dividing import is_single
from piecewright.piecing.across import corners_of, is_curved, paths_across
from piecewright.piecing.costs import CORNER, PARTIAL, SET_IN
from piecewright.piecing.patchwork import Patchwork, Split
from piecewright.piecing.region import Path, Region
from piecewright.piecing.rings import rings
from piecewright.piecing.seam_net import seam_net

MORE = 0.5
CURVE = 3.0
DOT = 1.0
MARK = 6.0
UNLIKED = 4.0

PARTIAL_SEAMS = "partial seams"
SET_IN_SEAMS = "set in"

MOST = 12
"""So many ways to take one set apart are looked at."""


def other_splits(work: Patchwork, parts: int, prefer: str = "") -> list[Split]:
    """Ways in which a set of parts comes of smaller ones, the cheapest first, of these the most balanced.

    Rings (`rings`), and joins of two along one path (`across`): with as few corners as can be, and, in any
    case, with every single part that can be taken off. So there is always one, if the set covers one region
    without holes; if not, there is none. A straight path is a "row". `prefer` "partial seams" or "set in"
    makes the other of the two dearer.
    """
    if is_single(parts):
        return []
    region = Region(seam_net(work.outlines), parts)
    if not region.is_whole:
        return []
    found: dict[frozenset[int], Split] = {}
    for split in (*_in_rings(region, prefer), *(_set_in(region, p, prefer) for p in paths_across(region))):
        known = found.setdefault(frozenset(split.sets), split)
        if split.cost < known.cost:
            found[frozenset(split.sets)] = split
    return sorted(found.values(), key=_easiest)[:MOST]


def _easiest(split: Split) -> tuple[float, int, tuple[int, ...]]:
    return round(split.cost, 6), max(part.bit_count() for part in split.sets), split.sets


def _in_rings(region: Region, prefer: str) -> list[Split]:
    cost = PARTIAL * (UNLIKED if prefer == SET_IN_SEAMS else 1.0)
    return [Split("ring", (ring.centre, *ring.logs), cost) for ring in rings(region)]


def _set_in(region: Region, path: Path, prefer: str) -> Split:
    """The join along a path; what is set into a corner comes second, or what has fewer parts."""
    turns = corners_of(region, path)
    left = region.reached(region.inner[path[0], path[1]], pairwise(path))
    right = region.parts & ~left
    both = sorted((left, right), key=lambda part: (-part.bit_count(), part))
    if turns and abs(sum(turns)) > 1e-3:
        both = [right, left] if sum(turns) > 0 else [left, right]
    dots, curved = (
        sum(map(region.goes_on, ((path[1], path[0]), (path[-2], path[-1])))),
        is_curved(region, path),
    )
    straight = not turns and not curved
    cost = DOT * dots + (0.0 if straight else _cost(len(turns), curved))
    cost += MARK if straight and dots == 2 else 0.0
    if not straight and prefer == PARTIAL_SEAMS:
        cost *= UNLIKED
    return Split("set in" if dots or not straight else "row", (both[0], both[1]), cost, len(turns))


def _cost(corners: int, curved: bool) -> float:
    """What a seam with so many corners costs."""
    corner = CORNER * corners + MORE * corners * (corners - 1) / 2
    return (SET_IN if corners else 0.0) + corner + (CURVE if curved else 0.0)
