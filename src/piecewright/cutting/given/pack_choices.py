"""How many packs to try: numbers near those that would be taken, were packs sold by the piece."""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction
from itertools import product

from piecewright.cutting.given.cloth import Offered
from piecewright.cutting.given.offer import pack_costs, sources
from piecewright.cutting.pricing import Prices

MOST_CHOICES = 12
SLIGHT = 1e-6


def packs_taken(share: Prices, offered: Offered) -> list[float]:
    """How many of each pack a fractional layout takes, of which `share` tells each kind of cloth."""
    kinds = sources(offered, None)
    first = sum(source.given is not None and not source.bought for source in kinds)
    return [float(share[first + number]) / pack.piece.count for number, pack in enumerate(offered.packs)]


def pack_choices(
    offered: Offered, beside_bolt: Sequence[float], alone: Sequence[float], area: Fraction
) -> list[tuple[int, ...]]:
    """Numbers of each pack to try, the cheapest first: none, and about as many as a fractional layout takes.

    Of those that are taken `alone`, without a bolt, one more and two more as well. The pieces fill `area`;
    where there is too little cloth for them, the most packs are tried, to tell what is lacking.
    """
    tries = []
    for pack, some, most in zip(offered.packs, beside_bolt, alone, strict=True):
        counts = {0, math.floor(some + SLIGHT), math.ceil(some - SLIGHT)}
        counts |= {math.ceil(most - SLIGHT) + more for more in (0, 1, 2)}
        tries.append(sorted(count for count in counts if count <= pack.most))
    choices = sorted(product(*tries), key=lambda packs: pack_costs(offered, packs))
    enough = [packs for packs in choices if _area(offered, packs) >= area or offered.bolt is not None]
    return enough[:MOST_CHOICES] or choices[-1:]


def _area(offered: Offered, packs: Sequence[int]) -> Fraction:
    there = sum((given.area * given.count for given in offered.shelf), Fraction(0))
    pieces = [(pack.piece, number) for pack, number in zip(offered.packs, packs, strict=True)]
    return there + sum((piece.area * piece.count * number for piece, number in pieces), Fraction(0))
