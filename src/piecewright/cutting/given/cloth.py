"""Cloth that is there already, or comes cut: given pieces, packs, and the bolt that one may buy from.

A *given* piece is a rectangle at its usable size: a fat quarter, a square, a strip, a length on the shelf.
A *pack* is so many equal given pieces bought together. Lengths of 3/4 yd and more are cut as a bolt is:
strips across, one after the other.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from types import MappingProxyType
from typing import Literal

from piecewright.cutting.wanted import Supply
from piecewright.measure.length import Length, Unit, inches

Run = Literal["across", "along", "either"]

LIKE_A_BOLT = inches(27)


@dataclass(frozen=True, slots=True)
class Given:
    """`count` equal rectangles of cloth: `width` across (crosswise grain), `height` along the length.

    Sizes are what can be used: measured inside selvedges and pinked edges. Names are unlike. `strips` says
    which way strips run on it: across the cloth, along its length, or as it comes out better.
    """

    name: str
    width: Length
    height: Length
    count: int
    fabric: str = ""
    strips: Run = "either"

    @property
    def area(self) -> Fraction:
        """The area of one piece in square inches."""
        return self.width.exact * self.height.exact

    @property
    def like_a_bolt(self) -> bool:
        """Whether it is long enough to be cut as a bolt is."""
        return self.height >= LIKE_A_BOLT and self.strips != "along"


@dataclass(frozen=True, slots=True)
class Pack:
    """Equal pieces that are bought together: `piece.count` of them in each pack; at most `most` packs.

    The `price` of a pack is in the same coin as that of a bolt, where it is known.
    """

    piece: Given
    price: Fraction | None = None
    most: int = 1000


@dataclass(frozen=True, slots=True)
class Bolt:
    """A bolt that may be bought from, with the `price` of one buying step where it is known."""

    supply: Supply
    price: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Precut:
    """A size in which cloth is sold: as it is named and what can usually be used of it."""

    told: str
    width: Length
    height: Length


# Usable sizes after straightening and selvedge; common practice, no source. Pinked edges differ by up to
# a quarter of an inch, so a person's own measure goes before these.
PRECUTS: Mapping[str, Precut] = MappingProxyType(
    {
        "fat quarter": Precut("fat quarter, 18 x 22 in", inches("20 1/2"), inches("17 1/2")),
        "fat eighth": Precut("fat eighth, 9 x 22 in", inches("20 1/2"), inches("8 1/2")),
        "10 in square": Precut("10 in square", inches(10), inches(10)),
        "5 in square": Precut("5 in square", inches(5), inches(5)),
        "2 1/2 in strip": Precut("2 1/2 in strip from selvedge to selvedge", inches(40), inches("2 1/2")),
    }
)


def precut(kind: str, count: int, fabric: str = "", measured: tuple[Length, Length] | None = None) -> Given:
    """So many precut pieces of a kind; `measured` is the person's own usable width and height.

    Raises KeyError for a kind that is none.

    >>> precut("fat quarter", 6).height
    inches('17 1/2')
    """
    width, height = measured or (PRECUTS[kind].width, PRECUTS[kind].height)
    return Given(f"{kind} {fabric}".strip(), width, height, count, fabric)


@dataclass(frozen=True, slots=True)
class Offered:
    """All cloth that may stand in for one another: on the shelf, in packs, and on a bolt.

    Strips are not cut higher than `ruler_length`, but for pieces that are. Messages are written in `unit`.
    """

    shelf: tuple[Given, ...] = ()
    packs: tuple[Pack, ...] = ()
    bolt: Bolt | None = None
    ruler_length: Length = field(default_factory=lambda: inches(24))
    unit: Unit = "in"

    @property
    def may_buy(self) -> bool:
        """Whether anything may be bought."""
        return bool(self.packs) or self.bolt is not None

    @property
    def priced(self) -> bool:
        """Whether all that may be bought has a price, so that the least money is looked for."""
        prices = [pack.price for pack in self.packs] + ([self.bolt.price] if self.bolt else [])
        return bool(prices) and None not in prices
