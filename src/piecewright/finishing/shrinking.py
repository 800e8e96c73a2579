"""Three sizes of a quilt, pieced, quilted and washed; and what to buy of cloth that shrinks.

Terms:
- *drawn in*: the share of its size that a top loses to the quilting: 1 to 5 per cent, the more the denser
  it is quilted (common practice, no source);
- *shrinkage*: the share that is lost in the wash, across and along, as in ISO 5077 and AATCC TM135.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from piecewright.cutting.buying import Purchase, purchase
from piecewright.cutting.patterns import Pattern
from piecewright.cutting.wanted import Supply
from piecewright.finishing.figures import (
    about_size,
    refuse_none,
    refuse_share,
    share_of,
    share_words,
    size_words,
)
from piecewright.measure.length import Length, Unit

DRAWN_IN = 0.03
LEAST_DRAWN_IN, MOST_DRAWN_IN = 0.01, 0.05
WASHED = 0.03  # Unwashed cloth and cotton batting together, each way: common practice, no source.


@dataclass(frozen=True)
class ThreeSizes:
    """Width and height of the quilt when it is pieced, quilted, and washed.

    `drawn_in` is the share that the quilting takes; `washing` the shrinkage across and along.
    """

    pieced: tuple[Length, Length]
    quilted: tuple[Length, Length]
    washed: tuple[Length, Length]
    drawn_in: float
    washing: tuple[float, float]

    def sum_lines(self, unit: Unit) -> tuple[str, ...]:
        """The arithmetic of the sizes, a line each."""
        across, along = (share_words(share) for share in self.washing)
        return (
            f"quilted: {size_words(self.pieced, unit)}, less {share_words(self.drawn_in)} each way = "
            f"{about_size(self.quilted, unit)}",
            f"washed: {about_size(self.quilted, unit)}, less {across} across and {along} along = "
            f"{about_size(self.washed, unit)}",
        )


def three_sizes(
    pieced: tuple[Length, Length], drawn_in: float = DRAWN_IN, washing: tuple[float, float] = (WASHED, WASHED)
) -> ThreeSizes:
    """The sizes of a quilt from its pieced one; raises Refused for shares that are none.

    >>> from piecewright.measure.length import inches
    >>> three_sizes((inches(60), inches(80)), 0.05, (0.0, 0.05)).washed
    (inches('57'), inches('72 1/5'))
    """
    for share in (drawn_in, *washing):
        refuse_share(share, "what is drawn in or shrinks")
    width, height = (length * (1 - share_of(drawn_in)) for length in pieced)
    across, along = (1 - share_of(share) for share in washing)
    return ThreeSizes(pieced, (width, height), (width * across, height * along), drawn_in, washing)


def drawn_in_between(pieced: tuple[Length, Length]) -> tuple[ThreeSizes, ThreeSizes]:
    """The sizes where the quilting takes little, and where it takes much, before any wash."""
    return (
        three_sizes(pieced, LEAST_DRAWN_IN, (0.0, 0.0)),
        three_sizes(pieced, MOST_DRAWN_IN, (0.0, 0.0)),
    )


def share_lost(before: Length, after: Length) -> Fraction:
    """The share of a length that the wash has taken: (before - after) / before."""
    return (before.exact - after.exact) / before.exact


def before_washing(length: Length, shrinkage: float) -> Length:
    """What to begin with so that a length is left after the wash: L / (1 - p), never L (1 + p).

    >>> from piecewright.measure.length import inches
    >>> before_washing(inches(95), 0.05)
    inches('100')
    """
    refuse_share(shrinkage, "shrinkage")
    return length / (1 - share_of(shrinkage))


def to_buy(length: Length, supply: Supply) -> Purchase:
    """What the shop cuts so that a length is there after straightening and the wash.

    Nothing is spared: a length of this kind is cut once, with care.
    """
    refuse_none(length, "a length to buy", supply.unit)
    bare = Supply(
        supply.key,
        supply.usable_width,
        supply.buying_step,
        supply.straightening,
        supply.shrinkage,
        unit=supply.unit,
    )
    return purchase([Pattern(length, (), 1, True)], bare)
