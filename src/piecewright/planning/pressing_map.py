"""A second pressing of blocks: whether it saves clashes, where it goes, and which things it makes anew.

Only blocks that are sewn to one another are asked about: between sashes one pressing will do. Units and
sub-assemblies are made a second time only where they are pressed otherwise.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, replace

from piecewright.bench.cloth import Cloth
from piecewright.design.model import Design
from piecewright.design.settings.kinds import Laid, Setting
from piecewright.geometry.point import distance, sub, unit
from piecewright.planning.crossings import Divided, as_written, crossings_of, stretch_at
from piecewright.planning.pressing_asked import Asked, Crossings, programme_of, seams_of
from piecewright.planning.things import Gathered, Joined, Made, OffBatch, Thing, ThingThere, UnitThing
from piecewright.planning.uses import one_block
from piecewright.pressing.joints import BlockSeams, LaidBlock, Place, SideEnd
from piecewright.pressing.programme import Programme
from piecewright.pressing.two_ways import TwoPressings, two_pressings

# The directions of the four sides of a block, counter-clockwise from the lower one.
AHEAD = ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))


@dataclass(frozen=True)
class SecondPressing:
    """Two pressings: `answer` tells where each goes; `apart` are the things that are made a second time.

    `counts` has for the name of every block thing how many are pressed the first way, and the second.
    """

    answer: TwoPressings
    apart: frozenset[str]
    counts: Mapping[str, tuple[int, int]]

    def is_second(self, place: Place) -> bool:
        """Whether the block in a row (from the top) and a column gets the second pressing."""
        return place in self.answer.second


def second_pressing(
    design: Design,
    lying: Mapping[Laid, Made],
    things: Mapping[str, Thing],
    lightness: Mapping[str, float],
    may_spin: bool = False,
) -> SecondPressing | None:
    """Two pressings of the blocks of a straight set, or None where one will do.

    `lying` are the things for the blocks of the arrangement, as they lie once turned.
    """
    if design.sashing is not None or type(design.setting) is not Setting:
        return None
    rows, columns = range(design.setting.down), range(design.setting.across)
    blocks = {
        made.thing.name: block_seams(made.thing, things, lightness, may_spin) for made in lying.values()
    }
    blocks[""] = BlockSeams(((),) * 4, (0.0,) * 4, Programme(()))
    arrangement = tuple(tuple(_laid(lying, design.setting.at(row, c)) for c in columns) for row in rows)
    answer = two_pressings(arrangement, blocks)
    if not answer.second:
        return None
    laid = {(r, c): block.block for r, row in enumerate(arrangement) for c, block in enumerate(row)}
    every, second = Counter(laid.values()), Counter(laid[place] for place in answer.second)
    counts = {name: (every[name] - number, number) for name, number in second.items()}
    every_seam = seams_of(Asked(things, {}, lightness, _crossings(things), may_spin))
    return SecondPressing(answer, _apart(answer, things, every_seam, counts), counts)


def _crossings(things: Mapping[str, Thing]) -> Crossings:
    return {t.name: crossings_of(t) for t in things.values() if isinstance(t, Joined)}


def _laid(lying: Mapping[Laid, Made], laid: Laid) -> LaidBlock:
    if laid not in lying:
        return LaidBlock("")
    made = lying[laid]
    return LaidBlock(made.thing.name, round(made.place.degrees / 90) % 4)


def block_seams(
    block: Thing, things: Mapping[str, Thing], lightness: Mapping[str, float], may_spin: bool
) -> BlockSeams:
    """What one block is asked, and what runs out on its sides."""
    counts = one_block(things, block.name)
    inside = {name: things[name] for name in things if name in counts}
    asked = Asked(inside, counts, lightness, _crossings(inside), may_spin)
    of_seam = seams_of(asked)
    programme = replace(programme_of(asked, of_seam), openings=())
    sides = [_side(block.cloth, ahead) for ahead in AHEAD]
    ends = [block.cloth.ends_on(side) if side is not None else [] for side in sides]
    written = as_written(of_seam, (end for side in ends for end in side))
    programme = replace(
        programme,
        segments=tuple(dict.fromkeys((*programme.segments, *written))),
        fixed={**programme.fixed, **written},
    )
    own = {
        name for seam, stretches in of_seam.items() if seam in _free(things) for name in stretches.segments
    }
    return BlockSeams(
        tuple(
            tuple(
                SideEnd(end.at, end.slant, name, end.first_is_ahead)
                for end in side
                if (name := stretch_at(of_seam, end)) is not None
            )
            for side in ends
        ),
        tuple(distance(*block.cloth.sides[side]) if side is not None else 0.0 for side in sides),
        programme,
        frozenset(programme.segments) - own,
    )


def _side(cloth: Cloth, ahead: tuple[float, float]) -> int | None:
    """The side of a block that runs in a direction; None where it has no such side, or several."""
    found = [k for k, (a, b) in enumerate(cloth.sides) if distance(unit(sub(b, a)), ahead) < 1e-6]
    return found[0] if len(found) == 1 else None


def _free(things: Mapping[str, Thing]) -> set[str]:
    """The seams that a second pressing may change: of what is joined, and of units that have no others beside
    them and of which all ways leave the pressing open.
    """
    bound = {needed for thing in things.values() if isinstance(thing, OffBatch) for needed, _ in thing.needs}
    bound |= {thing.name for thing in things.values() if not _is_chosen(thing)}
    for thing in things.values():
        if isinstance(thing, Gathered) and bound & {name for name, _ in thing.sources}:
            bound |= {name for name, _ in thing.sources}
    return {
        seam.name
        for thing in things.values()
        if isinstance(thing, Joined | UnitThing) and thing.name not in bound
        for seam in thing.cloth.own_seams
    }


def _is_chosen(thing: Thing) -> bool:
    """Whether the plan chooses how a thing is pressed, apart from all others."""
    if isinstance(thing, UnitThing):
        return not thing.recipe.method.pressed_as_written
    return not isinstance(thing, ThingThere | OffBatch)


def _apart(
    answer: TwoPressings,
    things: Mapping[str, Thing],
    of_seam: Mapping[str, Divided],
    counts: Mapping[str, tuple[int, int]],
) -> frozenset[str]:
    """What is inside these blocks of which a seam is pressed otherwise, and all that it is in."""
    differing = answer.differing()
    inside = {name for block in counts for name in one_block(things, block)}
    seams = {seam for seam, stretches in of_seam.items() if differing & {*stretches.segments}}
    apart = {name for name in inside if any(seam.name in seams for seam in things[name].cloth.own_seams)}
    for name, thing in things.items():
        if name in inside and any(needed in apart for needed, _ in thing.needs):
            apart.add(name)
        if name in apart and isinstance(thing, Gathered):
            apart |= {source for source, _ in thing.sources}
    return frozenset(apart)
