"""Paths across a region: seams with corners that part it in two, with few corners.

Candidates, in this order:
- straight runs from one point of the outline to another;
- two runs that begin at one inner point: one corner;
- two runs that begin at two inner points with a straight way between them: two corners;
- the inner side of every single part that can be taken off alone: as many corners as it has.

A tiled region always has such a part, so there is always a path. A curve counts as straight.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from piecewright.geometry.dividing import members
from piecewright.piecing.region import Path, Region


def paths_across(region: Region) -> Iterator[Path]:
    """Every candidate; none touches the outline but at its ends, or itself. Some may come more than once."""
    for path in (*_straight(region), *_with_corner(region), *_with_two_corners(region)):
        if len(set(path)) == len(path):
            yield path
    for part in members(region.parts):
        side = _inner_side(region, part)
        if side:
            yield side


def _straight(region: Region) -> Iterator[Path]:
    for point in sorted(region.outline):
        for head in region.heads.get(point, ()):
            run = region.run((point, head))
            if run and run[0] < run[-1]:
                yield run


def _runs_from(region: Region, point: int) -> list[Path]:
    found = (region.run((point, head)) for head in region.heads[point])
    return [run for run in found if run]


def _with_corner(region: Region) -> Iterator[Path]:
    for point in region.inner_points:
        for one, other in combinations(_runs_from(region, point), 2):
            yield (*one[:0:-1], *other)


def _with_two_corners(region: Region) -> Iterator[Path]:
    for point in region.inner_points:
        runs = _runs_from(region, point)
        for head in region.heads[point] if runs else ():
            for between in _ways_on(region, point, head):
                if point > between[-1]:
                    continue
                for last in _runs_from(region, between[-1]):
                    yield from ((*run[:0:-1], *between[:-1], *last) for run in runs)


def _ways_on(region: Region, point: int, head: int) -> Iterator[Path]:
    """From an inner point straight on to every other one."""
    path = [point, head]
    while path[-1] not in region.outline:
        yield tuple(path)
        ahead = region.net.curving.get((path[-2], path[-1]))
        if ahead is None or ahead in path or (path[-1], ahead) not in region.inner:
            return
        path.append(ahead)


def _inner_side(region: Region, part: int) -> Path | None:
    """The inner side of a part, if a region is left when it is taken off."""
    ways = region.net.ways_of[part]
    inner = [way in region.inner for way in ways]
    starts = [k for k in range(len(ways)) if inner[k] and not inner[k - 1]]
    if len(starts) != 1:
        return None
    first = starts[0]
    path = [ways[first][0]]
    path += [ways[(first + k) % len(ways)][1] for k in range(sum(inner))]
    return None if any(point in region.outline for point in path[1:-1]) else tuple(path)


def corners_of(region: Region, path: Path) -> list[float]:
    """The turns of a path at its corners, radians, those to the left above nought; curves have none."""
    return [
        region.net.bend(a, b, c)
        for a, b, c in zip(path, path[1:], path[2:], strict=False)
        if region.net.curving.get((a, b)) != c
    ]


def is_curved(region: Region, path: Path) -> bool:
    """Whether a path runs along a curve somewhere."""
    return any(
        region.net.onward.get((a, b)) != c and region.net.curving.get((a, b)) == c
        for a, b, c in zip(path, path[1:], path[2:], strict=False)
    )
