"""The drawing of one block, shared by all the places where it lies with its prints the same way."""

from __future__ import annotations

from functools import lru_cache

from piecewright.design.drawing import Group, Patch, Placed
from piecewright.design.model import Block, Design
from piecewright.design.units import draw_unit
from piecewright.geometry.isometry import moved
from piecewright.geometry.polygon import rectangle

UPRIGHT = 90.0


def draw_block(design: Design, block_key: str, turn: int = 0) -> Group:
    """The block in its own frame (lower left corner at the origin, finished inches).

    `turn` is the turn in degrees to the left that the setting gives it: the ways of one-way prints are
    turned back by as much, so that they stand upright in the quilt. Equal drawings are one object.
    Raises KeyError for a key that the design does not have.
    """
    block = design.block[block_key]
    one_way = frozenset(role for role in block.roles if design.is_one_way(role))
    return _drawn(block, one_way, (UPRIGHT - turn) % 360 if one_way else None)


@lru_cache(maxsize=1024)
def _drawn(block: Block, one_way: frozenset[str], way: float | None) -> Group:
    children = [
        Placed(
            draw_unit(
                unit.kind,
                unit.roles,
                unit.facing,
                float(unit.width),
                float(unit.height),
                tuple(way if role in one_way else None for role in unit.roles),
            ),
            moved(float(unit.x), float(unit.y)),
        )
        for unit in block.units
    ]
    for shape in block.shapes:
        children.append(Placed(Patch(shape.role, shape.corners, way if shape.role in one_way else None)))
    return Group(block.name, tuple(children), rectangle(float(block.width), float(block.height)))
