"""The sewing order of a block, with a proof of how good it is.

Terms:
- *order*: the tree of what is sewn to what (`tree.Sewn`), with its cost;
- *bound*: no order of this block costs less; an order that costs as much is the best one there is.

Any first full seam leaves the rest of a block as easy to take apart as it was, so that where full seams can
do it at all there is always an order, however few splits are looked at.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from math import inf

from piecewright.design.drawing import Group, Patch
from piecewright.geometry.dividing import is_single, members
from piecewright.geometry.point import add, distance, near, sub, unit
from piecewright.geometry.polygon import bounds, contains, edges, extent
from piecewright.measure.tolerance import AS_DRAWN
from piecewright.piecing.cheapest import EQUAL, Beyond, Cheapest
from piecewright.piecing.costs import Meeting, is_rectangle
from piecewright.piecing.full_seams import Regions, regions_of
from piecewright.piecing.likest import Likest
from piecewright.piecing.patchwork import Patchwork, Split
from piecewright.piecing.rows import cheapest_row, cuts_of
from piecewright.piecing.sets_alike import Alike
from piecewright.piecing.tree import Piecing, Sewn
from piecewright.problems import Problem, Refused

MOST_STATES = 20_000
MOST_FOR_LIKENESS = 2000
WIDTHS = (4, 1)
"""How many splits of each set are kept when there are too many states; with one there never are."""


@dataclass(frozen=True)
class Order:
    """A sewing order; `cost` and `bound` are in the measure of `costs`.

    `exact`: no order is cheaper (never claimed where other than full seams are needed). `distinct` is how
    many unlike sub-assemblies there are on the way, `states` how many sets were looked at; `corners` are
    those that set-in seams are sewn round.
    """

    tree: Piecing
    cost: float
    bound: float
    exact: bool
    distinct: int
    states: int
    corners: int = 0


def best_order(work: Patchwork, beyond: Beyond | None = None, most_states: int = MOST_STATES) -> Order:
    """The cheapest order; of several, one with few unlike sub-assemblies.

    Where no full seam takes a set apart, `beyond` is asked for other ways. Raises Refused where there is
    none either, with the place.
    """
    if is_single(work.whole):
        return Order(work.parts[0], 0.0, 0.0, True, 0, 1)
    cheapest = _searched(work, beyond, most_states)
    cost = cheapest.cost(work.whole)
    if cost == inf:
        raise Refused(_nothing_goes(work, cheapest))
    exact = not cheapest.beyond_states and cheapest.width is None
    bound = cost if exact else _bound(cheapest)
    likest = Likest(cheapest)
    states = len(cheapest.first) + len(likest.first)
    tree, corners = _Tree(work, likest).built(work.whole)
    return Order(
        tree, cost, bound, exact or cost <= bound + EQUAL, likest.distinct(work.whole), states, corners
    )


def _searched(work: Patchwork, beyond: Beyond | None, most: int) -> Cheapest:
    """Every order, or, where that would be too many, only those of the most promising splits."""
    regions, alike = regions_of(work), Alike(work)
    if beyond:
        asked = beyond
        beyond = cache(lambda _, parts: asked(work, parts))
    greedy = Cheapest(regions, alike, beyond, WIDTHS[-1], None)
    if greedy.cost(work.whole) <= _bound(greedy) + EQUAL:
        # There is no better one; others are looked at only since more may be alike in them.
        most = min(most, MOST_FOR_LIKENESS) if len(set(alike.looks)) < len(work.parts) else 0
    for width in (None, *WIDTHS[:-1]):
        wider = Cheapest(regions, alike, beyond, width, most)
        if wider.complete:
            return wider
    return greedy


def _bound(cheapest: Cheapest) -> float:
    """What no order is cheaper than; 0 where other than full seams are needed.

    The crossings that some seam must run through, and the sub-assemblies of the best first split alone.
    """
    if cheapest.beyond_states:
        return 0.0
    regions = cheapest.regions
    splits = regions.splits(regions.work.whole)
    first = [*splits, *(cheapest_row(cuts, cheapest.outside) for cuts in cuts_of(splits))]
    outside = min(map(cheapest.outside_all, first), default=0.0)
    units = [
        outline
        for outline, part in zip(regions.work.outlines, regions.work.parts, strict=True)
        if isinstance(part.drawing, Group)
    ]
    crossed = (m for m in regions.meetings if not any(contains(unit, m.at, -AS_DRAWN) for unit in units))
    return outside + sum(map(_least_crossing, crossed))


def _least_crossing(meeting: Meeting) -> float:
    """What a point costs on the cheapest straight seam through it."""
    through = [
        ray for ray in meeting.rays if any(near(add(ray, other), (0.0, 0.0), 1e-3) for other in meeting.rays)
    ]
    return min(map(meeting.cost_along, through), default=0.0)


def _nothing_goes(work: Patchwork, cheapest: Cheapest) -> Problem:
    parts = min(cheapest.stuck(), key=int.bit_count)
    left, low, right, high = bounds([p for k in members(parts) for p in work.outlines[k]])
    return Problem(
        f"no straight seam goes all the way through the part of {work.name!r} from {left:g}, {low:g} to "
        f"{right:g}, {high:g} (in), and no other way to sew it was found",
        do="Draw the block so that it can be joined in rows.",
    )


class _Tree:
    """The tree of a choice of splits, with names of the trade."""

    def __init__(self, work: Patchwork, likest: Likest) -> None:
        self.work = work
        self.likest = likest
        self.regions: Regions = likest.cheapest.regions
        self.corners = 0

    def built(self, parts: int) -> tuple[Piecing, int]:
        """The tree of a set, and how many corners its seams turn round."""
        return self._built(parts), self.corners

    def _built(self, parts: int) -> Piecing:
        if is_single(parts):
            return self.work.parts[parts.bit_length() - 1]
        split = self._as_one_reads(parts, self.likest.split(parts))
        self.corners += split.corners
        return Sewn(split.how, self._name(parts, split), tuple(map(self._built, split.sets)))

    def _as_one_reads(self, parts: int, split: Split) -> Split:
        """A row that was found for a turned set may come the wrong way round."""
        if split.how != "row":
            return split
        sets = frozenset(split.sets)
        return next((own for own in self.regions.splits(parts) if frozenset(own.sets) == sets), split)

    def _name(self, parts: int, split: Split) -> str:
        if split.how != "row":
            return "part"
        patch = {2: "four-patch", 3: "nine-patch"}.get(len(split.sets))
        if patch and self._is_square_of_squares(parts, split):
            return patch
        side = self.regions.whole_side(split.sets[0], split.sets[1])
        along = unit(sub(side[1], side[0])) if side else (1.0, 1.0)
        return "row" if _is_nought(along[0]) else "column" if _is_nought(along[1]) else "part"

    def _is_square_of_squares(self, parts: int, split: Split) -> bool:
        across = len(split.sets)
        if any(part.bit_count() != across for part in split.sets):
            return False
        work, numbers = self.work, members(parts)
        if not all(isinstance(work.parts[k].drawing, Patch) for k in numbers):
            return False
        sides = [distance(*edge) for k in numbers for edge in edges(work.outlines[k])]
        outline = self.regions.outline(parts)
        plain = all(map(is_rectangle, (outline, *(work.outlines[k] for k in numbers))))
        wanted = [max(sides)] * len(sides) + [across * max(sides)] * 2
        return plain and all(
            abs(a - b) <= AS_DRAWN for a, b in zip([*sides, *extent(outline)], wanted, strict=True)
        )


def _is_nought(share: float) -> bool:
    return abs(share) <= AS_DRAWN
