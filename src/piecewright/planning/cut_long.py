"""A strip cut along the selvedge in one piece, as a thing of the plan, and the step that trims it."""

from __future__ import annotations

from dataclasses import dataclass, field

from piecewright.bench.steps import TrueUp
from piecewright.planning.things import Cut, LongPiece


@dataclass(frozen=True, eq=False)
class CutLong(Cut):
    """A strip cut along the selvedge in one piece, `width` x `height`, trimmed to its `piece` later.

    It lies in the cloth as it is cut: upright, its long side the height. `cloth` is what it is once trimmed.
    """

    piece: LongPiece = field(kw_only=True)


def lengthwise_step(thing: CutLong) -> TrueUp:
    """Trims every strip of the pile to the top as it was measured."""
    exact, height = thing.piece.exact, thing.piece.height
    return TrueUp(pile=thing.name, landmark="edges", width=height, height=exact, by="trim")
