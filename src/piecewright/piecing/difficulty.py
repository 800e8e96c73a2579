"""How hard a block is to sew, and what makes it so.

The rule is ours (common practice, no source). Each of these counts so many points; a block is named after the
first limit that its points do not pass.

| what                                                    | points            |
|---------------------------------------------------------|-------------------|
| a seam that is set in; a corner that is sewn round      | 4; 2              |
| a partial seam                                          | 3                 |
| a point where six, where eight or more corners meet     | 1; 2              |
| bias sides on the way                                   | 1 for every eight |
| patches and units to be joined                          | 1 for every 25    |
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from piecewright.design.drawing import Drawing, Group, Placed
from piecewright.geometry.point import side_of
from piecewright.geometry.polygon import edges
from piecewright.measure.tolerance import AS_DRAWN
from piecewright.piecing.costs import is_slanted, meetings
from piecewright.piecing.laying import outline_of
from piecewright.piecing.order import Order
from piecewright.piecing.tree import Piecing, Sewn, leaves, patches_of

NAMES = ((2.0, "easy"), (7.0, "some care"), (16.0, "patience"))
HARDEST = "a challenge"


@dataclass(frozen=True)
class Difficulty:
    """What makes a block hard to sew.

    `units` are those of its `parts` that are not single patches. `seams` join the parts; of these `set_in`
    have corners, `corners` in all, and `partial` are sewn in part first. `bias_edges`: sides of parts and of
    what is sewn on the way that do not run along the block's sides. `crossings`: how many corners meet in a
    point inside the block, four at least, and at how many points; units count as well. `distinct`: unlike
    things sewn on the way.
    """

    patches: int
    units: int
    parts: int
    seams: int
    set_in: int
    corners: int
    partial: int
    bias_edges: int
    crossings: tuple[tuple[int, int], ...]
    distinct: int

    @property
    def points(self) -> float:
        """The sum of the table."""
        crowded = sum(
            points * (1 if corners < 8 else 2) for corners, points in self.crossings if corners >= 6
        )
        sewn_round = 4 * self.set_in + 2 * self.corners + 3 * self.partial
        return sewn_round + crowded + self.bias_edges / 8 + self.parts / 25

    @property
    def hardness(self) -> str:
        """In plain words: easy, some care, patience, a challenge."""
        return next((name for limit, name in NAMES if self.points <= limit), HARDEST)


def difficulty_of(block: Drawing, order: Order) -> Difficulty:
    """What a block that is sewn in an order demands."""
    parts, nodes = list(leaves(order.tree)), list(_sewn(order.tree))
    on_the_way = [part.outline for part in parts if len(parts) > 1]
    on_the_way += [outline_of(patches_of(node)) for node in nodes[1:]]
    return Difficulty(
        patches=len(block.patches),
        units=sum(isinstance(part.drawing, Group) for part in parts),
        parts=len(parts),
        seams=sum(len(node.parts) - 1 for node in nodes),
        set_in=sum(len(node.parts) - 1 for node in nodes if node.how == "set in"),
        corners=order.corners,
        partial=sum(node.how == "ring" for node in nodes),
        bias_edges=sum(is_slanted(edge) for outline in on_the_way for edge in edges(outline)),
        crossings=_crossings(block),
        distinct=order.distinct,
    )


def _sewn(tree: Piecing) -> Iterator[Sewn]:
    """Everything that is sewn, the block itself first."""
    if not isinstance(tree, Placed):
        yield tree
        for part in tree.parts:
            yield from _sewn(part)


def _crossings(block: Drawing) -> tuple[tuple[int, int], ...]:
    """How many corners meet in a point inside the block, four at least, and at how many points."""
    sides = edges(block.outline)
    inside = Counter(
        meeting.corners
        for meeting in meetings(block.patches)
        if meeting.corners >= 4 and all(abs(side_of(meeting.at, a, b)) > AS_DRAWN for a, b in sides)
    )
    return tuple(sorted(inside.items()))
