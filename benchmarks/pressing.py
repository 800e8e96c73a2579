"""A quilt of 30 x 30 blocks to press: with every seam for itself, and with like seams shared."""

from __future__ import annotations

import random
from dataclasses import dataclass, replace
from pathlib import Path

from piecewright.design.colour import lightness
from piecewright.design.draw_block import draw_block
from piecewright.design.model import Design, fabric_of
from piecewright.design.read import read_design
from piecewright.planning.make_plan import cloths_of
from piecewright.planning.making import Workshop
from piecewright.planning.pressing_map import block_seams
from piecewright.pressing.joints import LaidBlock, Laying, asked, each_for_itself, laid
from piecewright.pressing.programme import Leaning, Programme
from piecewright.workroom.workroom import INCH_WORKROOM

ACROSS = DOWN = 30


@dataclass(frozen=True)
class Pressed:
    """A programme to be answered, and what it is called in the table."""

    name: str
    programme: Programme


def pressed(design_file: Path) -> tuple[Pressed, ...]:
    """The blocks of a design: like seams shared, which the other is compared with, and each for itself."""
    design, problems = read_design(design_file)
    if design is None:
        raise SystemExit("\n".join(map(str, problems)))
    laying = blocks_of(design)
    return Pressed("like seams shared", shared(laying)), Pressed("every seam for itself", free(laying))


def blocks_of(design: Design) -> Laying:
    """The blocks of a design edge to edge, 30 x 30, every second one turned by a quarter."""
    shop = Workshop(INCH_WORKROOM, cloths_of(design))
    light = {fabric_of(design, role.key): lightness(design, role.key) for role in design.roles}
    keys = [block.key for block in design.blocks]
    names = {key: shop.made(draw_block(design, key), key).thing for key in keys}
    blocks = {key: block_seams(thing, shop.things, light, may_spin=True) for key, thing in names.items()}
    arrangement = tuple(
        tuple(LaidBlock(keys[(row + column) % len(keys)], column % 2) for column in range(ACROSS))
        for row in range(DOWN)
    )
    return laid(arrangement, blocks)


def shared(laying: Laying) -> Programme:
    """Like blocks pressed alike."""
    return asked(laying, ())


def free(laying: Laying) -> Programme:
    """Every seam of every place for itself, each with a wish of its own."""
    programme = each_for_itself(laying)
    chance = random.Random(30)
    wishes = tuple(Leaning(name, chance.random() < 0.5, chance.random()) for name in programme.segments)
    return replace(programme, leanings=(*programme.leanings, *wishes))
