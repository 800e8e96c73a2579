"""The model: how the size of everything in the top follows from its cuts and seams.

Terms:
- *dims*: the raw size of a thing along its sides 0 (and 2) and along its sides 1 (and 3);
- *made*: a unit's size when it is pressed, before truing up;
- *line*: things joined side by side. *Along* it lengths add up, less two take-ups at each seam; *across* it
  the parts are eased to one another, so that it measures their mean;
- *trimmed to fit*: long strips of borders are cut to the measured top, so that they follow it.

Units follow their starts and the take-up evenly: how steeply is found by making them on the bench.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import hypot

import msgspec

from piecewright.bench.cloth import Cloth
from piecewright.geometry.point import cross, distance, dot, sub, unit
from piecewright.measure.length import Length
from piecewright.measure.tolerance import AS_DRAWN, WELD
from piecewright.methods.recipe import Recipe, Truing
from piecewright.methods.trial import try_out
from piecewright.planning.cut_long import CutLong
from piecewright.planning.job import Job
from piecewright.planning.things import Cut, Joined, OfLength, Thing, UnitThing
from piecewright.tolerance.chances import below, both_below
from piecewright.tolerance.hands import Hands
from piecewright.workroom.workroom import Workroom

Pair = tuple[float, float]
Follows = tuple[bool, bool]
STEP = Fraction(1, 16)  # Of a take-up: so far sizes are moved to find how steeply a unit follows them.


@dataclass(frozen=True)
class PieceSize:
    """A piece as it is cut; inches. `follows`: the dims that are trimmed to fit."""

    dims: Pair
    follows: Follows = (False, False)


@dataclass(frozen=True)
class UnitSize:
    """A unit: its exact dims, those that these hands make without spread, and how they follow seam and cuts.

    `by_cut` has an entry for each start size.
    """

    dims: Pair
    made: Pair
    by_seam: Pair
    by_cut: tuple[Pair, ...]
    truing: Truing
    follows: Follows = (False, False)

    @property
    def trued(self) -> bool:
        """Whether what is over is trimmed or worked in."""
        return self.truing != "none"

    def deviation(self, hands: Hands) -> Pair:
        """The standard deviation of what is made; inches. The seams of one unit deviate together."""
        seam, cut = float(hands.spread), float(hands.cut_spread)
        return (
            hypot(seam * self.by_seam[0], *(cut * by[0] for by in self.by_cut)),
            hypot(seam * self.by_seam[1], *(cut * by[1] for by in self.by_cut)),
        )

    def enough(self, made: Pair, hands: Hands) -> float:
        """The share of units, made so on the mean, that come out large enough both ways."""
        spread = self.deviation(hands)
        if min(spread) <= 0.0:
            return min(1 - below(self.dims[k] - WELD, made[k], spread[k]) for k in (0, 1))
        seam, cut = float(hands.spread) ** 2, float(hands.cut_spread) ** 2
        together = seam * self.by_seam[0] * self.by_seam[1] + cut * sum(by[0] * by[1] for by in self.by_cut)
        over = [(made[k] - self.dims[k]) / spread[k] for k in (0, 1)]
        return both_below((over[0], over[1]), together / spread[0] / spread[1])


@dataclass(frozen=True)
class LineSize:
    """Parts in a line, each with the number (0 or 1) of its dim that lies along the seams; and its own."""

    dims: Pair
    parts: tuple[tuple[str, int], ...]
    across: int
    follows: Follows

    @property
    def along(self) -> int:
        """The number of the dim along the line."""
        return 1 - self.across


@dataclass(frozen=True)
class DrawnSize:
    """A thing that the model does not follow, since it or a part of it is no rectangle: taken as drawn."""

    dims: Pair
    rectangle: bool
    follows: Follows = (False, False)


AnySize = PieceSize | UnitSize | LineSize | DrawnSize


@dataclass(frozen=True)
class Model:
    """Every thing in the top, parts before what is joined of them, with how many there are; hands and plan.

    `block` is the longer finished side of a block; inches.
    """

    sizes: Mapping[str, AnySize]
    counts: Mapping[str, int]
    top: str
    hands: Hands
    workroom: Workroom
    block: float

    def order(self, name: str) -> tuple[int, int]:
        """The numbers of a thing's dims, the longer one on the sheet first."""
        dims = self.sizes[name].dims
        return (0, 1) if dims[0] >= dims[1] else (1, 0)

    def ease(self, length: float) -> float:
        """How much can be eased in along an edge of a raw length; inches.

        The ease; on long edges as much in each block's length, since they are pinned at every block (common
        practice, no source).
        """
        return float(self.workroom.ease) * max(1.0, (length - 2 * float(self.workroom.take_up)) / self.block)

    @property
    def not_followed(self) -> tuple[str, ...]:
        """The things taken as drawn."""
        return tuple(name for name, size in self.sizes.items() if isinstance(size, DrawnSize))


def model_of(job: Job, hands: Hands) -> Model:
    """The model of a planned top in these hands. Raises Refused where they make no unit of some kind."""
    top = job.plan.finish.top
    wanted = _in_top(job.things, top)
    sizes: dict[str, AnySize] = {}
    for name, thing in job.things.items():
        if name in wanted:
            sizes[name] = _size_of(thing, sizes, hands, job.workroom)
    block = float(max(job.design.block_width, job.design.block_height))
    return Model(sizes, wanted, top, hands, job.workroom, block)


def _in_top(things: Mapping[str, Thing], top: str) -> dict[str, int]:
    """How many of each thing lie in one top; what units and long strips are made of is not told apart."""
    counts = {top: 1}
    for name in reversed(list(things)):
        thing = things[name]
        if isinstance(thing, Joined) and name in counts:
            for part in thing.parts:
                counts[part.name] = counts.get(part.name, 0) + part.count * counts[name]
    return {name: counts[name] for name in things if name in counts}


def _size_of(thing: Thing, sizes: Mapping[str, AnySize], hands: Hands, workroom: Workroom) -> AnySize:
    dims = _dims(thing.cloth, workroom.take_up)
    if dims is None:
        x, y = thing.cloth.size
        return DrawnSize((x, y), False)
    if isinstance(thing, Cut) and not isinstance(thing, CutLong):
        return PieceSize(dims)
    if isinstance(thing, OfLength | CutLong):
        lengthwise = 0 if abs(dims[0] - float(thing.piece.exact)) < AS_DRAWN else 1
        return PieceSize(dims, (lengthwise == 0, lengthwise == 1))
    if isinstance(thing, UnitThing):
        return unit_size(thing.recipe, dims, hands, workroom)
    if isinstance(thing, Joined):
        return _line_size(thing, dims, sizes)
    return DrawnSize(dims, True)


def _dims(cloth: Cloth, take_up: Length) -> Pair | None:
    """The raw dims of a rectangle; None for any other shape."""
    sides = [sub(b, a) for a, b in cloth.sides]
    if len(sides) != 4 or any(abs(dot(unit(p), unit(q))) > AS_DRAWN for p, q in pairwise(sides)):
        return None
    margins = 2 * float(take_up)
    return distance(*cloth.sides[0]) + margins, distance(*cloth.sides[1]) + margins


def unit_size(recipe: Recipe, dims: Pair, hands: Hands, workroom: Workroom) -> UnitSize:
    """How a unit comes out in these hands, and how it follows its cuts and its seams, found on the bench."""
    cut = tuple(float(size) + float(hands.cut_off) for size in recipe.sizing.cut)
    room = hands.at(workroom)
    step = workroom.take_up * STEP
    little = float(step)
    made = _tried(recipe, cut, room)
    wider = _tried(recipe, cut, msgspec.structs.replace(room, needle=room.needle + step))
    larger = [
        _tried(recipe, tuple(s + little * (k == j) for j, s in enumerate(cut)), room) for k in range(len(cut))
    ]
    # The bench gives width and height; the cloth may lie on its side.
    width = float(recipe.unit.width)
    raw_width = width + 2 * float(workroom.take_up)
    on_side = abs(dims[0] - raw_width) > abs(dims[1] - raw_width) + AS_DRAWN
    return UnitSize(
        dims,
        _turned(made, on_side),
        _turned(_slope(made, wider, little), on_side),
        tuple(_turned(_slope(made, one, little), on_side) for one in larger),
        recipe.sizing.truing,
    )


def _tried(recipe: Recipe, sizes: tuple[float, ...], workroom: Workroom) -> Pair:
    return try_out(recipe.method, recipe.unit, sizes, workroom).size


def _slope(before: Pair, after: Pair, step: float) -> Pair:
    return (after[0] - before[0]) / step, (after[1] - before[1]) / step


def _turned(pair: Pair, on_side: bool) -> Pair:
    return pair[::-1] if on_side else pair


def _line_size(thing: Joined, dims: Pair, sizes: Mapping[str, AnySize]) -> AnySize:
    parts: list[tuple[str, int]] = []
    for part in thing.parts:
        sides = {side % 2 for side in (*part.entry, *part.exit)}
        size = sizes[part.name]
        if len(sides) != 1 or (isinstance(size, DrawnSize) and not size.rectangle):
            return DrawnSize(dims, True)
        parts += [(part.name, sides.pop())] * part.count
    seam = thing.cloth.own_seams[0].path
    lower = thing.cloth.sides[0]
    level = abs(cross(unit(sub(seam[-1], seam[0])), unit(sub(lower[1], lower[0])))) < 1 / 2
    across = 0 if level else 1
    # What is trimmed to fit makes what it is joined into follow too, unless another part holds it.
    along = any(sizes[name].follows[1 - k] for name, k in parts)
    width = all(sizes[name].follows[k] for name, k in parts)
    return LineSize(dims, tuple(parts), across, (width, along) if across == 0 else (along, width))
