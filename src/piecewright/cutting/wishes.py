"""What a person wishes of a layout: how cloth and cutting are weighed, the way of cutting, the layers."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from piecewright.cutting.cuts import STACKS, TALL_STRIPS, Cuts

Aim = Literal["least cloth", "fewest settings", "least cutting"]
AIMS: tuple[Aim, ...] = ("least cloth", "fewest settings", "least cutting")

# Effort is counted in thousand entries of the knapsack's tables: 300,000 are about a second.
LITTLE_EFFORT = 20_000
FULL_EFFORT = 300_000


@dataclass(frozen=True, slots=True)
class CuttingWish:
    """The wish for one layout.

    *Least cloth* is the shortest layout. *Fewest settings* buys no more than that needs, as a rule, and sets
    the ruler as seldom as it can within what is bought. *Least cutting* takes up to as much cloth as each
    size in its own strips, for the fewest ruler settings and cuts. So many `layers` are cut together: folded
    cloth gives two. Without `cuts`, the least cloth comes from tall strips and all else from stacks.
    """

    aim: Aim = "fewest settings"
    cuts: Cuts | None = None
    layers: int = 2
    effort: int = LITTLE_EFFORT

    @property
    def way_of_cutting(self) -> Cuts:
        """The way of cutting that is wished for, or the usual one for the aim."""
        if self.cuts is not None:
            return self.cuts
        return TALL_STRIPS if self.aim == "least cloth" else STACKS


USUAL = CuttingWish()
