"""What to buy: the bare minimum, what is lost or spared, and the steps in which a shop cuts."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from piecewright.cutting.patterns import Pattern
from piecewright.cutting.wanted import Supply
from piecewright.measure.length import ZERO, Length


@dataclass(frozen=True, slots=True)
class Purchase:
    """`length` is the bare minimum, `needed` what it takes before rounding, `buy` what the shop cuts.

    `further` is a length to spare besides `spare_strips` of `spare`.
    """

    length: Length
    straightening: Length
    spare: Length
    spare_strips: int
    shrinkage: float
    needed: Length
    steps: int
    buying_step: Length
    further: Length = ZERO

    @property
    def buy(self) -> Length:
        """The length to buy."""
        return self.buying_step * self.steps


def purchase(patterns: Sequence[Pattern], supply: Supply) -> Purchase:
    """What to buy for the patterns; nothing where nothing is cut.

    Shrinkage is taken from what is bought, so the length is divided by what is left: L / (1 - p).
    """
    strips = sum(pattern.times for pattern in patterns)
    length = sum((pattern.length for pattern in patterns), ZERO) + supply.squaring * strips
    further = supply.spare_length if patterns else ZERO
    straightening = supply.straightening if patterns else ZERO
    one_spare = spare_height(patterns, supply)
    spare_strips = supply.spare_strips if one_spare else 0
    needed = (length + straightening + further + one_spare * spare_strips) / supply.share_left
    return Purchase(
        length=length,
        straightening=straightening,
        spare=one_spare,
        spare_strips=spare_strips,
        shrinkage=supply.shrinkage,
        needed=needed,
        steps=math.ceil(needed.exact / supply.buying_step.exact),
        buying_step=supply.buying_step,
        further=further,
    )


def spare_height(patterns: Sequence[Pattern], supply: Supply) -> Length:
    """The height of a spare strip: the widest that is cut more than once, or the widest if there is none.

    Reserved borders and panels taller than the ruler are cut one by one, with care: no strip is spared
    for them.
    """
    return spare_of([(pattern.strip_height, pattern.times, pattern.reserve) for pattern in patterns], supply)


def spare_of(strips: Iterable[tuple[Length, int, bool]], supply: Supply) -> Length:
    """The same for heights of strips, with how often they are cut and whether they are reserved."""
    common: dict[Length, int] = {}
    for height, times, reserve in strips:
        tall = supply.ruler_length is not None and height > supply.ruler_length
        if not (reserve or tall):
            common[height] = common.get(height, 0) + times
    repeated = [height for height, times in common.items() if times > 1]
    return max(repeated or common, default=ZERO)
