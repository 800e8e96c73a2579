"""How a block goes together: its parts, and the seams that join them, as a tree.

Terms:
- *part*: a patch, or a unit, where it lies in the block;
- *row*: parts joined one after another, each to the next along one straight seam that goes all the way;
- *set in*: two parts joined along one seam with corners, sewn from dot to dot and turned at each;
- *ring*: parts sewn on around the first one; its first seam is sewn only in part, and closed when the last
  part is on.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from piecewright.design.drawing import Patch, Placed

How = Literal["row", "set in", "ring"]


@dataclass(frozen=True, slots=True)
class Sewn:
    """Parts sewn together in the order given; `name` is what the trade calls the result.

    Of "row" and "set in" each part is joined to the one before it. Of "ring" every part after the first is
    joined to all that is there; the first of these seams is sewn in part.
    """

    how: How
    name: str
    parts: tuple[Piecing, ...]


Piecing = Placed | Sewn


def leaves(piecing: Piecing) -> Iterator[Placed]:
    """The patches and units of a tree, in the order in which they are come to."""
    if isinstance(piecing, Placed):
        yield piecing
        return
    for part in piecing.parts:
        yield from leaves(part)


def patches_of(piecing: Piecing) -> tuple[Patch, ...]:
    """Every patch where it lies in the block."""
    return tuple(patch.placed(part.place) for part in leaves(piecing) for patch in part.drawing.patches)
