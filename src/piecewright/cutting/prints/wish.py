"""What a person wishes of an assortment: how many prints, how many alike, which places to keep apart.

Terms:
- *alike*: pieces or units of one size from one print; a unit made eight at a time is eight alike;
- *set*: so many pieces of a size that must come from one print;
- *place*: where a piece comes to lie in the quilt; two places touch where they share a side.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from piecewright.cutting.wanted import Demand

Sharing = Literal["evenly", "in whole strips"]
SHARINGS: tuple[Sharing, ...] = ("evenly", "in whole strips")


@dataclass(frozen=True, slots=True)
class Batch:
    """What comes of one cut piece: it `gives` so many alike; from one print they are cut `together`.

    A 7 3/4 in square for half-square triangles eight at a time gives 8; four corner squares of one star
    are cut 4 together.
    """

    gives: int = 1
    together: int = 1


@dataclass(frozen=True, slots=True)
class Places:
    """The places of an assortment in the quilt, by number.

    `sizes` names the size that each place is filled from, or is empty for any. No two of a pair in
    `touching` should be alike, and of each of `blocks` no more than `most_in_block`.
    """

    sizes: tuple[str, ...]
    touching: tuple[tuple[int, int], ...] = ()
    blocks: tuple[tuple[int, ...], ...] = ()
    most_in_block: int | None = None


@dataclass(frozen=True, slots=True)
class PrintsWish:
    """The wish for one assortment.

    Without `prints`, as few as keep the rest of the wish. At most `most_alike` of a size come from one
    print; `batches` tells by size how the pieces are used, one by one where it says nothing. Shared
    *evenly*, no print gives more than one set of a size above any other; *in whole strips*, as few strips
    are cut as may be, and of some prints more than of others.
    """

    prints: int | None = None
    most_alike: int | None = None
    batches: Mapping[str, Batch] = field(default_factory=dict)
    places: Places | None = None
    sharing: Sharing = "evenly"

    def batch(self, name: str) -> Batch:
        """How the pieces of a size are used."""
        return self.batches.get(name, Batch())

    def sets(self, demand: Demand) -> int:
        """In how many sets the pieces are shared out; the last may be smaller."""
        return -(-demand.count // self.batch(demand.name).together)

    def alike_in_set(self, demand: Demand) -> int:
        """How many alike come of one set."""
        batch = self.batch(demand.name)
        return batch.gives * min(batch.together, demand.count)

    def most_sets(self, demand: Demand) -> int:
        """How many sets may come from one print."""
        if self.most_alike is None:
            return self.sets(demand)
        return min(self.most_alike // self.alike_in_set(demand), self.sets(demand))
