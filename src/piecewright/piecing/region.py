"""A set of a block's parts as a region in one piece: its outline, its inner ways, straight runs through it.

Terms:
- *region*: what a set of parts covers, without holes, its outline never touching itself;
- *inner way*: a way with parts of the region on both its sides;
- *run*: inner ways one after another, straight on (or along a curve), until the outline is reached.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property

from piecewright.geometry.dividing import members
from piecewright.geometry.polygon import Polygon, from_lowest
from piecewright.piecing.seam_net import SeamNet, Way

Path = tuple[int, ...]


class Region:
    """A set of parts in a net; `parts` as bits."""

    def __init__(self, net: SeamNet, parts: int) -> None:
        self.net = net
        self.parts = parts
        self.inner: dict[Way, int] = {}
        self.outline: dict[int, int] = {}
        self._outline_ways = 0
        for part in members(parts):
            for way in net.ways_of[part]:
                other = net.owner.get((way[1], way[0]))
                if other is not None and parts >> other & 1:
                    self.inner[way] = part
                else:
                    self.outline[way[0]] = way[1]
                    self._outline_ways += 1
        self._runs: dict[tuple[Way, bool], Path | None] = {}

    @cached_property
    def is_whole(self) -> bool:
        """Whether it is a region: in one piece, no hole, the outline never touching itself."""
        if not self.outline or len(self.outline) != self._outline_ways:
            return False
        first = next(iter(self.outline))
        at, seen = self.outline[first], 1
        while at != first:
            at, seen = self.outline[at], seen + 1
        return seen == len(self.outline)

    @cached_property
    def polygon(self) -> Polygon:
        """The outline, counter-clockwise, no corner on a straight side; () where it is no region."""
        if not self.is_whole:
            return ()
        around = [min(self.outline)]
        while (after := self.outline[around[-1]]) != around[0]:
            around.append(after)
        ahead = around[1:] + around[:1]
        corners = [
            self.net.points[at]
            for before, at, after in zip(around[-1:] + around[:-1], around, ahead, strict=True)
            if self.net.onward.get((before, at)) != after
        ]
        return from_lowest(corners)

    @cached_property
    def before(self) -> dict[int, int]:
        """The point of the outline before each of its points, counter-clockwise."""
        return {b: a for a, b in self.outline.items()}

    @cached_property
    def heads(self) -> dict[int, list[int]]:
        """Where inner ways lead from a point."""
        found: dict[int, list[int]] = {}
        for a, b in sorted(self.inner):
            found.setdefault(a, []).append(b)
        return found

    @cached_property
    def inner_points(self) -> list[int]:
        """The points of inner ways that are not on the outline."""
        return [point for point in self.heads if point not in self.outline]

    def run(self, way: Way, curving: bool = True) -> Path | None:
        """The points of the run that begins with a way, to the outline; None where it ends before that."""
        key = (way, curving)
        if key not in self._runs:
            self._runs[key] = self._run(way, self.net.curving if curving else self.net.onward)
        return self._runs[key]

    def _run(self, way: Way, onward: dict[Way, int]) -> Path | None:
        path = [*way]
        while path[-1] not in self.outline:
            ahead = onward.get((path[-2], path[-1]))
            if ahead is None or ahead in path or (path[-1], ahead) not in self.inner:
                return None
            path.append(ahead)
        return tuple(path)

    def goes_on(self, way: Way) -> bool:
        """Whether a side of the outline goes on straight where an inner way reaches it.

        There one of two cloths joined along that way has a longer side, and the seam stops at a dot in it.
        """
        end = way[1]
        return self.net.onward.get(way) in (self.outline[end], self.before[end])

    def reached(self, part: int, closed: Iterable[Way]) -> int:
        """The parts that are reached from one without crossing any of the ways that are closed."""
        barred = set(closed)
        barred |= {(b, a) for a, b in barred}
        found, waiting = 1 << part, [part]
        while waiting:
            for way in self.net.ways_of[waiting.pop()]:
                other = self.inner.get((way[1], way[0]))
                if other is not None and not found >> other & 1 and way not in barred:
                    found |= 1 << other
                    waiting.append(other)
        return found
