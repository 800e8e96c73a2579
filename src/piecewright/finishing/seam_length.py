"""How long the stitching of a plan really is: step by step, as the bench does it, never by area.

Terms:
- *edge to edge*: a seam that runs through the allowances at both its ends, as in chain piecing;
- *dot to dot*: one that begins and ends at the dots: set in, round a corner, or sewn in part.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import singledispatch
from itertools import pairwise

from piecewright.bench.cloth import Cloth, clipped_seams
from piecewright.bench.doing import Rules, Table, where
from piecewright.bench.steps import AnyStep, Close, Join, JoinEnds, JoinPart, Stack
from piecewright.geometry.point import distance
from piecewright.geometry.polygon import Line, clip_segment, is_convex


@dataclass(frozen=True)
class Stitching:
    """What a step sews: so many seams, `length` inches together."""

    seams: int = 0
    length: float = 0.0


NOTHING_SEWN = Stitching()


@singledispatch
def stitching(step: AnyStep, before: Table, rules: Rules) -> Stitching:
    """The stitching of a step on the table as it is before it; none for what is cut, pressed or trued up."""
    return NOTHING_SEWN


@stitching.register
def _stack(step: Stack, before: Table, rules: Rules) -> Stitching:
    base = before.only(step.base)
    length = sum(_on_cloth(where(line, rules.seam), base) for line in step.sew)
    return Stitching(len(step.sew) * step.times, length * step.times)


@stitching.register
def _join(step: Join, before: Table, rules: Rules) -> Stitching:
    each = [before.only(part.name) for part in step.parts]
    seams, length = 0, 0.0
    for part, cloth in zip(step.parts, each, strict=True):
        seams += part.count - 1
        length += (part.count - 1) * _side(part, cloth, step, rules)
    for (part, cloth), _ in pairwise(zip(step.parts, each, strict=True)):
        seams += 1
        length += _side(part, cloth, step, rules)
    return Stitching(seams * step.times, length * step.times)


@stitching.register
def _close(step: Close, before: Table, rules: Rules) -> Stitching:
    pile = before.piles[step.pile]
    side = pile.only(step.pile).sides[step.sides[0]]
    return Stitching(pile.count, distance(*side) * pile.count)


@stitching.register
def _join_ends(step: JoinEnds, before: Table, rules: Rules) -> Stitching:
    joins = (step.count - 1) * step.times
    return Stitching(joins, joins * min(before.only(step.takes).size) * math.sqrt(2))


def _on_cloth(line: Line, base: Cloth) -> float:
    """How much of a line of stitching goes through the cloth."""
    inside = clip_segment(line, base.raw) if is_convex(base.raw) else line
    return distance(*inside) if inside else 0.0


def _side(part: JoinPart, cloth: Cloth, step: Join, rules: Rules) -> float:
    """How long the seam is with which a part is sewn to the next."""
    if step.part_sewn is not None:
        return step.part_sewn.stop - step.part_sewn.start
    length = sum(distance(*cloth.sides[side]) for side in part.exit)
    # A seam on one whole side is sewn from raw edge to raw edge; one with corners from dot to dot.
    return length + 2 * rules.seam.take_up if len(part.exit) == 1 else length


def seams_shown(cloth: Cloth) -> float:
    """How long all seams of a cloth are that show on its face: what quilting in the ditch follows; inches."""
    return _shown(cloth, {})


def _shown(cloth: Cloth, known: dict[int, float]) -> float:
    """The same, each distinct cloth measured once."""
    if id(cloth) not in known:
        whole = cloth.parts or not is_convex(cloth.net)
        seams = cloth.own_seams if whole else clipped_seams(cloth.own_seams, cloth.net)
        own = sum(distance(*segment) for seam in seams for segment in seam.segments)
        known[id(cloth)] = own + sum(_shown(part.cloth, known) for part in cloth.parts)
    return known[id(cloth)]
