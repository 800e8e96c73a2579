"""A block as the search for its sewing order sees it: numbered parts, sets of them, lines that part them.

Terms:
- *set*: parts written as the bits of one number, part k as bit k (see `geometry.dividing`);
- *split*: one way in which a set comes of two or more smaller ones by sewing.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from piecewright.design.drawing import Placed
from piecewright.geometry.dividing import DividingLine, dividing_lines
from piecewright.geometry.polygon import Polygon, clean
from piecewright.measure.tolerance import EDGE_MATCH
from piecewright.piecing.tree import How


@dataclass(frozen=True, slots=True)
class Split:
    """A set taken apart: how its `sets` are sewn together, in that order (see `tree.Sewn`).

    `corners` is how many corners the seams turn round (set in), `cost` what this sewing costs by itself, in
    the measure of `piecing.costs`.
    """

    how: How
    sets: tuple[int, ...]
    cost: float = 0.0
    corners: int = 0


@dataclass(frozen=True)
class Patchwork:
    """The parts of a block. Every part is a patch or a unit that is known already."""

    name: str
    parts: tuple[Placed, ...]

    @property
    def whole(self) -> int:
        """The set of all parts."""
        return (1 << len(self.parts)) - 1

    @cached_property
    def outlines(self) -> tuple[Polygon, ...]:
        """The finished outline of each part, counter-clockwise, no corner on a straight side; inches."""
        return tuple(clean(part.outline, EDGE_MATCH, straight=EDGE_MATCH) for part in self.parts)

    @cached_property
    def lines(self) -> tuple[DividingLine, ...]:
        """Every line along an edge that has parts wholly on both its sides."""
        return dividing_lines(self.outlines)


def patchwork(name: str, parts: Sequence[Placed]) -> Patchwork:
    """The parts of a block, numbered as they come."""
    return Patchwork(name, tuple(parts))
