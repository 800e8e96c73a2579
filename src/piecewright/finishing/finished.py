"""The finishing of a quilt, worked out: what it is made of, what it takes, what it comes to.

Terms:
- *parts* of the finishing: back, batting, edge, sleeve, label.
"""

from __future__ import annotations

from dataclasses import dataclass

from piecewright.finishing.backing import Backing
from piecewright.finishing.backing_leftovers import LeftoverBack
from piecewright.finishing.batting import Batting
from piecewright.finishing.cost import Cost
from piecewright.finishing.edges import Edge
from piecewright.finishing.finish_wishes import FinishWishes
from piecewright.finishing.hanging import Label, Sleeve
from piecewright.finishing.how_quilted import QuiltingRun
from piecewright.finishing.minutes import Minutes
from piecewright.finishing.shrinking import ThreeSizes
from piecewright.finishing.step_work import PlanWork
from piecewright.finishing.thread import ThreadNeed
from piecewright.finishing.weight import Weight
from piecewright.measure.length import Unit
from piecewright.problems import Problem


@dataclass(frozen=True)
class FinishingParts:
    """What is sewn to a top: `backs` and `battings` are all ways, the best first.

    `from_leftovers` is the back that leftovers would make, where it is asked for.
    """

    backs: tuple[Backing, ...]
    from_leftovers: LeftoverBack | None
    battings: tuple[Batting, ...]
    edge: Edge
    sleeve: Sleeve | None
    label: Label | None

    @property
    def back(self) -> Backing:
        """The best way to make the back."""
        return self.backs[0]

    @property
    def batting(self) -> Batting:
        """The best way to cut the batting."""
        return self.battings[0]


@dataclass(frozen=True)
class Finished:
    """The finishing of a quilt, whole; every part of it tells its sums in `unit` by `sum_lines`."""

    unit: Unit
    wishes: FinishWishes
    sizes: ThreeSizes
    parts: FinishingParts
    work: PlanWork
    quilting: QuiltingRun
    thread: ThreadNeed
    minutes: Minutes
    cost: Cost
    weight: Weight
    notes: tuple[Problem, ...]
