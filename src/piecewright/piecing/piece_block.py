"""From a drawn block to how it goes together: its parts, the order in which they are sewn, how hard it is."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache, partial

from piecewright.design.drawing import Drawing, Group, Placed
from piecewright.geometry.polygon import bounds
from piecewright.piecing.contraction import OFTEN, contracted
from piecewright.piecing.difficulty import Difficulty, difficulty_of
from piecewright.piecing.order import Order, best_order
from piecewright.piecing.other_seams import other_splits
from piecewright.piecing.tree import Piecing, leaves, patches_of
from piecewright.problems import Problem, Refused

SEWN_AS = {
    "set in": "{} is set in, sewn from dot to dot",
    "ring": "{} is sewn round its middle: the first seam in part, and closed at the end",
}


@dataclass(frozen=True, eq=False)
class Pieced:
    """How a block goes together; `notes` tell what is sewn otherwise than by full seams, and where."""

    name: str
    tree: Piecing
    order: Order
    difficulty: Difficulty
    notes: tuple[Problem, ...]


def piece_block(block: Group, prefer: str = "", times: int = 1) -> Pieced:
    """How a block goes together; `times` is how many of it are made.

    Where no full seam goes through, `prefer` names what is liked better (see `other_seams`). Raises Refused
    with the place where no way is found.
    """
    return _pieced(block, prefer, times >= OFTEN)


def units_in(block: Drawing, prefer: str = "", times: int = 1) -> list[Group]:
    """The units of a block, each as often as it comes; none where the block cannot be sewn."""
    if not isinstance(block, Group):
        return []
    try:
        tree = piece_block(block, prefer, times).tree
    except Refused:
        return []
    return [leaf.drawing for leaf in leaves(tree) if isinstance(leaf.drawing, Group)]


@lru_cache(maxsize=1024)
def _pieced(block: Group, prefer: str, often: bool) -> Pieced:
    work = contracted(block, OFTEN if often else 1)
    order = best_order(work, partial(other_splits, prefer=prefer))
    notes = tuple(_notes(order.tree))
    return Pieced(block.name, order.tree, order, difficulty_of(block, order), notes)


def _notes(tree: Piecing) -> Iterator[Problem]:
    if isinstance(tree, Placed):
        return
    if tree.how != "row":
        left, low, right, high = bounds([p for patch in patches_of(tree) for p in patch.outline])
        part = f"the part from {left:g}, {low:g} to {right:g}, {high:g} (in)"
        yield Problem(
            f"no straight seam goes all the way through: {SEWN_AS[tree.how].format(part)}", weight="note"
        )
    for inner in tree.parts:
        yield from _notes(inner)
