"""Clusters: patches of a block, drawn one by one, that show a unit together, at any angle.

Terms:
- *cluster*: patches that fill a rectangle and show a unit (whether some way makes it is asked later);
- *plain*: of a rectangle made up of rectangles only: a rail, checks, logs;
- *run*: rectangles side by side, as high as each other; it ends where the next one is of another size.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from piecewright.design.drawing import Group, Patch, Placed
from piecewright.design.kinds import KINDS
from piecewright.design.kinds.checks import ACROSS
from piecewright.geometry.isometry import moved
from piecewright.geometry.polygon import Polygon, placed, rectangle
from piecewright.measure.tolerance import AS_DRAWN
from piecewright.methods import FAMILIES, methods_for
from piecewright.methods.kinds import MOST_FABRICS, name_of, recognise
from piecewright.methods.method import Method, Unit
from piecewright.methods.recipe import make_recipe
from piecewright.piecing.filled import Filled, filled_rectangles
from piecewright.piecing.looks import OFF_STEP, STEP
from piecewright.problems import Refused
from piecewright.workroom.workroom import INCH_WORKROOM

CHECKS = frozenset(across * across for across in ACROSS.values())
PIECED = frozenset(kind.patches for kind in KINDS.values() if kind.patches > 1) - {9}
"""How many patches a unit may have that is not plain."""

MOST_PATCHES = 41
"""Ten rounds of logs about a centre; no other unit has as many patches."""


@dataclass(frozen=True)
class Cluster:
    """Patches, by their numbers, that show a unit; `shown` is the unit where it lies in the block.

    Fabrics of `unit` are numbers: it is equal for clusters that differ in their fabrics or turns alone.
    """

    numbers: tuple[int, ...]
    unit: Unit
    shown: Placed

    @property
    def patches(self) -> int:
        """The patches as a set (see `geometry.dividing`)."""
        return sum(1 << k for k in self.numbers)


def clusters_of(patches: Sequence[Patch]) -> list[Cluster]:
    """Every cluster of a block's patches; the level ones first, as one reads."""
    seeing = _Seeing(patches)
    outlines = [patch.outline for patch in patches]
    found = map(seeing.cluster, filled_rectangles(outlines, MOST_PATCHES))
    return [cluster for cluster in found if cluster]


@lru_cache(maxsize=4096)
def can_be_made(unit: Unit) -> bool:
    """Whether some way makes a unit of this kind and size on the bench."""
    return any(_makes(way, unit) for way in _ways(unit))


def _ways(unit: Unit) -> Iterator[Method]:
    """As `methods.ways_for`, but a family is asked only when no way before it will do."""
    yield from methods_for(unit.kind)
    for family in FAMILIES:
        if unit.kind in family.kinds:
            yield from family.members(unit, INCH_WORKROOM)


def _makes(way: Method, unit: Unit) -> bool:
    try:
        make_recipe(way, unit, INCH_WORKROOM)
    except Refused:
        return False
    return True


class _Seeing:
    """Rectangles looked at once for all that show the same but for their fabrics."""

    def __init__(self, patches: Sequence[Patch]) -> None:
        self.patches = patches
        self._units: dict[Hashable, Unit | None] = {}
        self._drawn: dict[Hashable, Group] = {}

    def cluster(self, filled: Filled) -> Cluster | None:
        """The cluster of a filled rectangle, or None where it shows no unit."""
        patches = [self.patches[k] for k in filled.numbers]
        if not _may_be_unit(filled, patches):
            return None
        home = moved(-filled.corner[0], -filled.corner[1]).after(filled.turn)
        outlines = [placed(patch.outline, home) for patch in patches]
        key, roles = _shows(patches, outlines, home.degrees)
        if key not in self._units:
            self._units[key] = _unit_of(filled, outlines, patches)
        unit = self._units[key]
        if unit is None:
            return None
        if (key, roles) not in self._drawn:
            lying = tuple(Placed(patch.placed(home)) for patch in patches)
            outline = rectangle(filled.width, filled.height)
            self._drawn[key, roles] = Group(name_of(unit.kind), lying, outline)
        return Cluster(filled.numbers, unit, Placed(self._drawn[key, roles], home.back()))


def _shows(
    patches: Sequence[Patch], outlines: Sequence[Polygon], turn: float
) -> tuple[Hashable, tuple[str, ...]]:
    """What patches show at home but for their fabrics, and the fabrics in order."""
    lying = sorted(
        (tuple(sorted((_step(x), _step(y)) for x, y in outline)), patch.way, patch.role)
        for patch, outline in zip(patches, outlines, strict=True)
    )
    roles = list(dict.fromkeys(role for _, _, role in lying))
    ways = (None if way is None else round(way + turn + 0.137) % 360 for _, way, _ in lying)
    return tuple(
        zip((c for c, _, _ in lying), ways, (roles.index(r) for _, _, r in lying), strict=True)
    ), tuple(roles)


def _step(size: float) -> int:
    return int((size / STEP + OFF_STEP) // 1)


def _may_be_unit(filled: Filled, patches: Sequence[Patch]) -> bool:
    """A quick look before patches are held against every kind."""
    count = len(patches)
    if not filled.is_plain:
        return count in PIECED
    # Nothing is saved by sewing rectangles of one fabric into a unit.
    if len({patch.role for patch in patches}) == 1:
        return False
    if filled.is_run:
        return count <= MOST_FABRICS and not filled.goes_on
    is_square = abs(filled.width - filled.height) <= AS_DRAWN
    return (count in CHECKS and _take_turns(patches)) or (is_square and count % 4 == 1)


def _take_turns(patches: Sequence[Patch]) -> bool:
    """Whether two fabrics come as often as each other, or the one once more."""
    counts = Counter(patch.role for patch in patches)
    return len(counts) == 2 and max(counts.values()) - min(counts.values()) <= 1


def _unit_of(filled: Filled, outlines: Sequence[Polygon], patches: Sequence[Patch]) -> Unit | None:
    """The unit that a rectangle shows, with numbers for fabrics."""
    shown = tuple(Placed(Patch(p.role, outline)) for p, outline in zip(patches, outlines, strict=True))
    unit = recognise(Group("unit", shown, rectangle(filled.width, filled.height)))
    return unit and replace(unit, fabrics=tuple(map(str, range(len(unit.fabrics)))))
