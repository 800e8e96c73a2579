"""A block contracted: its parts are units wherever patches make one up; what is left is put in order.

Terms:
- *loose*: a patch that belongs to no unit;
- *knot*: parts of a block that no full seam takes apart any further;
- *saved*: the joins that units do away with; of units that want the same patches, those come first that save
  most together, all of one kind and size counted, and of equal ones the larger;
- *run*: rectangles side by side, as high as each other: a rail, when the same comes again.

A unit that lies across a full seam that the rest needs is left as patches.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from functools import lru_cache

from piecewright.design.drawing import Group, Patch, Placed
from piecewright.design.kinds.rail import KIND as RAIL
from piecewright.geometry.dividing import dividing_lines, is_single
from piecewright.geometry.isometry import Isometry
from piecewright.geometry.polygon import clean
from piecewright.measure.tolerance import EDGE_MATCH
from piecewright.methods.kinds import recognise
from piecewright.methods.method import Unit
from piecewright.piecing.clusters import Cluster, can_be_made, clusters_of
from piecewright.piecing.looks import Look, look
from piecewright.piecing.patchwork import Patchwork, patchwork

OFTEN = 4
"""A run is worth a strip set when its block is made so many times; else it must come twice in the block."""


def contracted(block: Group, times: int = 1) -> Patchwork:
    """The parts of a block, each a loose patch or a unit; `times`: how many of the block are made.

    A block that is a unit as a whole is one part.
    """
    return _contracted(block, times >= OFTEN)


@lru_cache(maxsize=1024)
def _contracted(block: Group, often: bool) -> Patchwork:
    if recognise(block) is not None:
        return patchwork(block.name, [Placed(block)])
    drawn = list(_drawn(block, Isometry()))
    patches = [part for part in drawn if isinstance(part.drawing, Patch)]
    units = [part for part in drawn if not isinstance(part.drawing, Patch)]
    shown = [patch.placed(part.place) for part in patches for patch in part.drawing.patches]
    chosen = _Choosing(clusters_of(shown), _Knots([*patches, *units]), often).chosen()
    taken = {k for cluster in chosen for k in cluster.numbers}
    loose = [part for k, part in enumerate(patches) if k not in taken]
    return patchwork(block.name, [*units, *(cluster.shown for cluster in chosen), *loose])


def _drawn(group: Group, place: Isometry) -> Iterator[Placed]:
    """The patches and the known units of a block; what is neither is opened."""
    for child in group.children:
        lying = place.after(child.place)
        if isinstance(child.drawing, Patch):
            yield Placed(child.drawing, lying)
        elif lying.mirrored or recognise(child.drawing) is None:
            yield from _drawn(child.drawing, lying)
        else:
            yield Placed(child.drawing, lying)


class _Knots:
    """What of a block full seams do not take apart; patches come first, then the units that are drawn."""

    def __init__(self, parts: Sequence[Placed]) -> None:
        outlines = [clean(part.outline, EDGE_MATCH, straight=EDGE_MATCH) for part in parts]
        self.whole = (1 << len(parts)) - 1
        self._lines = [(line.left, line.right) for line in dividing_lines(outlines)]

    def left(self, units: Sequence[int]) -> int:
        """The patches of all knots when some sets of patches are units."""
        lines = [
            (left, right) for left, right in (_beside(line, units) for line in self._lines) if left and right
        ]
        waiting, knots = [self.whole], 0
        while waiting:
            parts = waiting.pop()
            if is_single(parts) or parts in units:
                continue
            halves = _parted(parts, lines)
            if halves:
                waiting += halves
            else:
                knots |= parts
        return knots


def _beside(line: tuple[int, int], units: Sequence[int]) -> tuple[int, int]:
    """What lies wholly on either side of a line, less the units that it cuts."""
    left, right = line
    for unit in units:
        if unit & left and unit & ~left:
            left &= ~unit
        if unit & right and unit & ~right:
            right &= ~unit
    return left, right


def _parted(parts: int, lines: Sequence[tuple[int, int]]) -> tuple[int, int] | None:
    for left, right in lines:
        one, other = parts & left, parts & right
        if one and other and one | other == parts:
            return one, other
    return None


class _Choosing:
    """Which clusters become units: none that has a patch in common, and none that ties a knot."""

    def __init__(self, clusters: Sequence[Cluster], knots: _Knots, often: bool) -> None:
        self.knots = knots
        self.often = often
        self.kinds: dict[Unit, list[Cluster]] = defaultdict(list)
        for cluster in clusters:
            self.kinds[cluster.unit].append(cluster)
        self.looks: dict[int, Look] = {}

    def chosen(self) -> list[Cluster]:
        """The clusters, in the order in which they were chosen."""
        chosen: list[Cluster] = []
        taken, knots = 0, self.knots.left([])
        packed = {unit: self._packed(clusters, 0) for unit, clusters in self.kinds.items()}
        while packed:
            unit = max(packed, key=lambda unit: _saved(packed[unit]))
            here = packed.pop(unit)
            if not here:
                break
            if not can_be_made(unit):
                continue
            chosen += self._that_tie_none(here, chosen, knots)
            taken = sum(cluster.patches for cluster in chosen)
            packed = {
                unit: own if not _taken(own) & taken else self._packed(self.kinds[unit], taken)
                for unit, own in packed.items()
            }
        return chosen

    def _that_tie_none(self, some: list[Cluster], chosen: list[Cluster], knots: int) -> list[Cluster]:
        """All of some clusters, or those that leave no more knots than there were."""
        so_far = [cluster.patches for cluster in chosen]
        if not self.knots.left([*so_far, *(cluster.patches for cluster in some)]) & ~knots:
            return some
        kept: list[Cluster] = []
        for cluster in some:
            sets = [*so_far, *(one.patches for one in kept), cluster.patches]
            if not self.knots.left(sets) & ~knots:
                kept.append(cluster)
        return kept

    def _packed(self, clusters: Sequence[Cluster], taken: int) -> list[Cluster]:
        """As many clusters of a kind as go together, by rows or by columns; runs only if they come again."""
        left = [cluster for cluster in clusters if not cluster.patches & taken]
        best = max(_together(left), _together(_by_columns(left)), key=len)
        if self.often or not left or left[0].unit.kind != RAIL.key:
            return best
        counts = Counter(map(self._look, best))
        again = [cluster for cluster in left if counts[self._look(cluster)] > 1]
        return best if len(again) == len(left) else self._packed(again, taken)

    def _look(self, cluster: Cluster) -> Look:
        key = id(cluster)
        if key not in self.looks:
            self.looks[key] = look(cluster.shown.drawing.patches)
        return self.looks[key]


def _together(clusters: Sequence[Cluster]) -> list[Cluster]:
    """The first of the clusters, and each further one that has no patch in common with those before."""
    kept, taken = [], 0
    for cluster in clusters:
        if not cluster.patches & taken:
            kept.append(cluster)
            taken |= cluster.patches
    return kept


def _by_columns(clusters: Sequence[Cluster]) -> list[Cluster]:
    return sorted(clusters, key=lambda cluster: (round(cluster.shown.place.x, 3), -cluster.shown.place.y))


def _taken(clusters: Sequence[Cluster]) -> int:
    return sum(cluster.patches for cluster in clusters)


def _saved(clusters: Sequence[Cluster]) -> tuple[int, int, bool]:
    """How many joins clusters of one kind and size save; then the larger ones, and checks before rails."""
    size = len(clusters[0].numbers) if clusters else 1
    is_rail = bool(clusters) and clusters[0].unit.kind == RAIL.key
    return len(clusters) * (size - 1), size, not is_rail
