"""The least that is proven: buying steps off a bolt, pieces of cloth on hand."""

from __future__ import annotations

import math
from fractions import Fraction

from piecewright.cutting.given.cloth import Offered
from piecewright.cutting.given.layout import FromShelf
from piecewright.cutting.given.offer import bolt_cost
from piecewright.cutting.layout import Layout


def least_steps(layout: Layout) -> int:
    """The fewest buying steps that any layout of this kind could take."""
    bought = layout.purchase
    saved = (layout.length - layout.bound) / _share_left(layout)
    return math.ceil((bought.needed - saved).exact / bought.buying_step.exact)


def least_steps_besides(cut: FromShelf, offered: Offered) -> int:
    """The fewest buying steps, whatever comes from cloth on hand; beside packs only a proven cost tells."""
    if offered.bolt is None:
        return 0
    if offered.packs:
        return cut.bought.purchase.steps if cut.bought and cut.cost == cut.least_cost else 0
    return math.ceil(cut.least_cost / bolt_cost(offered.bolt, 1, offered.priced))


def least_pieces(cut: FromShelf, offered: Offered) -> int | None:
    """The fewest pieces of cloth on hand that can give all; None where something is bought besides."""
    if cut.packs or cut.bought is not None:
        return None
    left, number = cut.least_area, 0
    for given in sorted(offered.shelf, key=lambda given: -given.area):
        taken = min(given.count, math.ceil(left / given.area))
        left, number = left - taken * given.area, number + taken
    return number


def _share_left(layout: Layout) -> Fraction:
    bought = layout.purchase
    spared = bought.spare * bought.spare_strips + bought.straightening + bought.further
    return (layout.length + spared).exact / bought.needed.exact
