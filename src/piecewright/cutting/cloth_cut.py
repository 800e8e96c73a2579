"""One cloth as it is cut in the end: from the shelf and packs, from the bolt, and what else was weighed."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from piecewright.cutting.given.layout import FromShelf
from piecewright.cutting.given.leftovers import leftovers
from piecewright.cutting.layout import Layout
from piecewright.cutting.wanted import Supply


@dataclass(frozen=True, slots=True)
class ClothCut:
    """How the pieces of one fabric are cut; `choices` run from the least cloth to the least cutting."""

    name: str
    cut: FromShelf
    choices: tuple[Layout, ...] = ()


def from_bolt_alone(layout: Layout, supply: Supply | None = None) -> FromShelf:
    """A layout on the bolt, told as what is cut where nothing is on hand; with its leftovers for a supply."""
    area = layout.area_bound.exact * layout.usable_width.exact
    nothing, bought = Fraction(0), layout if layout.patterns else None
    return FromShelf((), (), bought, leftovers((), bought, supply), nothing, nothing, area, area)
