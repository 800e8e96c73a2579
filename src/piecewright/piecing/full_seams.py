"""Full seams: every straight line that parts a set of a block's parts from side to side, at any angle.

Terms:
- *cut*: a line read as the seam that joins what lies on both its sides;
- *stretch*: the part of a cut that lies in the set: one whole side of both results;
- *region*: what a set of parts covers, as one outline.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import pairwise

from piecewright.geometry.dividing import DividingLine
from piecewright.geometry.point import Point, add, cross, distance, dot, near, scale, side_of, sub, unit
from piecewright.geometry.polygon import Line, Polygon, clean, clip, edges, is_convex
from piecewright.measure.tolerance import AS_DRAWN, EDGE_MATCH
from piecewright.piecing.costs import meetings
from piecewright.piecing.patchwork import Patchwork, Split
from piecewright.piecing.region import Region
from piecewright.piecing.seam_net import seam_net

SAME_WAY = 1e-3
"""Directions (unit vectors) as near as this run the same way; drawn corners are not truer."""

Cut = tuple[DividingLine, int, int]
"""A line, and the sets on its left and on its right."""


def full_splits(work: Patchwork, parts: int) -> list[Split]:
    """Every full seam of a set as a split in two, and all that run the same way at once as a row.

    Rows come first; the parts of a row follow each other as one reads: from the top, or from the left. The
    cost of a split is that of the crossings on its seams (`costs`).
    """
    return regions_of(work).splits(parts)


@lru_cache(maxsize=64)
def regions_of(work: Patchwork) -> Regions:
    """What is known of a block's sets, kept for as long as the block is worked on."""
    return Regions(work)


class Regions:
    """The outlines of a block's sets, and the cuts through them; each is found once."""

    def __init__(self, work: Patchwork) -> None:
        self.work = work
        self.meetings = meetings(
            patch.placed(part.place) for part in work.parts for patch in part.drawing.patches
        )
        self._outlines: dict[int, Polygon] = {}
        self._convex: dict[int, bool] = {}
        self._came_of: dict[int, tuple[int, Line, int]] = {}
        self._crossings: dict[DividingLine, list[tuple[float, float]]] = {}
        self._splits: dict[int, list[Split]] = {}

    def outline(self, parts: int) -> Polygon:
        """The outline of a set, no corner on a straight side; () where its parts do not lie together."""
        if parts not in self._outlines:
            self._outlines[parts] = self._found(parts)
        return self._outlines[parts]

    def splits(self, parts: int) -> list[Split]:
        """See `full_splits`."""
        if parts not in self._splits:
            cuts = self.cuts(parts)
            rows = [row for same_way in _same_ways(cuts) if (row := self._row(parts, same_way))]
            pairs = [Split("row", cut[1:], self._crossed(parts, cut)) for cut in cuts]
            self._splits[parts] = rows + pairs
        return self._splits[parts]

    def cuts(self, parts: int) -> list[Cut]:
        """Every line that is a full seam of the set, in reading order."""
        found: dict[int, Cut] = {}
        for line in self.work.lines:
            sides = line.divides(parts)
            if sides:
                found.setdefault(sides[0], (line, *sides))
        if not found:
            return []
        if self._is_convex(parts):
            for line, left, right in found.values():
                self._came_of.setdefault(left, (parts, line.line, 1))
                self._came_of.setdefault(right, (parts, line.line, -1))
            return list(found.values())
        return [cut for cut in found.values() if self._is_whole_side(cut)]

    def _is_whole_side(self, cut: Cut) -> bool:
        """Whether each side of a cut is one region with one side on the line, and these two are the same."""
        line, left, right = cut
        one, other = self._side_on(line.line, left), self._side_on(line.line, right)
        if one is None or other is None:
            return False
        return near(one[0], other[1], EDGE_MATCH) and near(one[1], other[0], EDGE_MATCH)

    def _side_on(self, line: Line, parts: int) -> Line | None:
        """The side of a set that lies on a line; None if there is none, or more than one."""
        found = [
            edge for edge in edges(self.outline(parts)) if _is_on(edge[0], line) and _is_on(edge[1], line)
        ]
        return found[0] if len(found) == 1 else None

    def whole_side(self, one: int, other: int) -> Line | None:
        """The side of both sets along which they lie together, if it is one whole side of both, and all.

        In the direction of the first set's outline.
        """
        outlines = self.outline(one), self.outline(other)
        touching = [
            (a, b, near(a, d, EDGE_MATCH) and near(b, c, EDGE_MATCH))
            for a, b in edges(outlines[0])
            for c, d in edges(outlines[1])
            if _overlap((a, b), (c, d))
        ]
        return touching[0][:2] if len(touching) == 1 and touching[0][2] else None

    def _found(self, parts: int) -> Polygon:
        if parts & (parts - 1) == 0:
            return self.work.outlines[parts.bit_length() - 1]
        whole, line, keep = self._came_of.get(parts, (0, ((0.0, 0.0), (0.0, 0.0)), 0))
        if keep:
            half = clean(clip(self.outline(whole), *line, keep), EDGE_MATCH, straight=EDGE_MATCH)
        else:
            half = self._joined(parts)
        return half

    def _joined(self, parts: int) -> Polygon:
        outline = Region(seam_net(self.work.outlines), parts).polygon
        return clean(outline, EDGE_MATCH, straight=EDGE_MATCH) if outline else ()

    def _row(self, parts: int, cuts: Sequence[Cut]) -> Split | None:
        """All cuts of one direction at once, where each part of the row lies on whole sides of the next."""
        if len(cuts) < 2:
            return None
        in_order = sorted(cuts, key=lambda cut: cut[1].bit_count())
        if any(one[1] & ~two[1] for one, two in pairwise(in_order)):
            return None
        lefts = [0, *(left for _, left, _ in in_order), parts]
        row = tuple(two & ~one for one, two in pairwise(lefts))
        if not self._is_convex(parts) and not all(self.whole_side(one, two) for one, two in pairwise(row)):
            return None
        if self._is_convex(parts):
            self._learn_slabs(in_order)
        return Split("row", row, sum(self._crossed(parts, cut) for cut in cuts))

    def _learn_slabs(self, cuts: Sequence[Cut]) -> None:
        """What lies between two cuts, in order, is what lies on the left of the later, cut by the earlier."""
        for k, (line, left, _) in enumerate(cuts):
            for _, further, _ in cuts[k + 1 :]:
                self._came_of.setdefault(further & ~left, (further, line.line, -1))

    def _is_convex(self, parts: int) -> bool:
        if parts not in self._convex:
            outline = self.outline(parts)
            self._convex[parts] = bool(outline) and is_convex(outline)
        return self._convex[parts]

    def _crossed(self, parts: int, cut: Cut) -> float:
        """What the crossings on a cut of the set cost."""
        crossings = self._on_line(cut[0])
        if not crossings:
            return 0.0
        line = cut[0].line
        side = self.outline(parts) if self._is_convex(parts) else self._side_on(line, cut[1]) or ()
        start, end = _stretch(side, line)
        return sum(cost for at, cost in crossings if start + AS_DRAWN < at < end - AS_DRAWN)

    def _on_line(self, line: DividingLine) -> list[tuple[float, float]]:
        """How far along a line each crossing lies that costs anything, and what it costs."""
        if line not in self._crossings:
            a, b = line.line
            along = unit(sub(b, a))
            self._crossings[line] = [
                (dot(along, sub(meeting.at, a)), cost)
                for meeting in self.meetings
                if abs(side_of(meeting.at, a, b)) <= AS_DRAWN and (cost := meeting.cost_along(along))
            ]
        return self._crossings[line]


def _same_ways(cuts: Sequence[Cut]) -> Iterator[list[Cut]]:
    """Cuts that run the same way, together; they come in reading order, so that such ones are neighbours."""
    together: list[Cut] = []
    for cut in cuts:
        if together and abs(cross(_along(cut), _along(together[-1]))) > SAME_WAY:
            yield together
            together = []
        together.append(cut)
    if together:
        yield together


def _is_on(p: Point, line: Line) -> bool:
    return abs(side_of(p, *line)) <= AS_DRAWN


def _along(cut: Cut) -> Point:
    a, b = cut[0].line
    return unit(sub(b, a))


def _stretch(outline: Polygon | Line, line: Line) -> tuple[float, float]:
    """From where to where a line runs through a convex outline, or along an edge, as distances along it."""
    a, b = line
    along = unit(sub(b, a))
    depths = [side_of(p, a, b) for p in outline]
    at: list[float] = []
    for k, p in enumerate(outline):
        q, before, after = outline[k - 1], depths[k - 1], depths[k]
        if abs(after) <= AS_DRAWN:
            at.append(dot(along, sub(p, a)))
        elif before * after < 0 and abs(before) > AS_DRAWN:
            share = before / (before - after)
            at.append(dot(along, sub(add(q, scale(sub(p, q), share)), a)))
    return (min(at), max(at)) if at else (0.0, 0.0)


def _overlap(edge: Line, other: Line) -> bool:
    """Whether two edges lie along each other for some way."""
    (a, b), (c, d) = edge, other
    if abs(side_of(c, a, b)) > AS_DRAWN or abs(side_of(d, a, b)) > AS_DRAWN:
        return False
    along = unit(sub(b, a))
    start, end = sorted((dot(along, sub(c, a)), dot(along, sub(d, a))))
    return min(end, distance(a, b)) - max(start, 0.0) > AS_DRAWN
