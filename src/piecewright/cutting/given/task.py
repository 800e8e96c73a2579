"""The task in whole marks: kinds of cloth, the frames in which each may be cut, the ways pieces may lie.

A *frame* is one kind of cloth seen with its strips lying level: strips are as long as the frame, and their
heights share its room. A kind that is cut both ways has two frames. On a frame along the cloth, widths
and heights of pieces change places.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

import numpy as np

from piecewright.cutting.marks import Strip, Way, finest, stack_heights
from piecewright.cutting.pricing import Counts
from piecewright.cutting.wanted import Demand
from piecewright.measure.length import ZERO, Length

MOST_HEIGHTS = 100


class Kind(NamedTuple):
    """One kind of cloth: cut piece by piece (`whole`) or strip by strip, off one long piece or a bolt.

    `limit` counts pieces, or marks of length; None is without end. `cost` is that of a piece, or of a mark
    of length; each strip takes `squaring` besides its height.
    """

    whole: bool
    limit: int | None
    cost: float
    squaring: int = 0


class Frame(NamedTuple):
    """How a kind is cut: strips of `length` marks, stacked up to `room` marks."""

    kind: int
    along: bool
    length: int
    room: int


class Cloth(NamedTuple):
    """A kind of cloth as it is told to the task, in lengths; without a height it is without end."""

    width: Length
    height: Length | None
    runs: tuple[bool, ...]
    kind: Kind
    squaring: Length = ZERO


class Column(NamedTuple):
    """One piece of cloth cut into strips, or one strip of a long cloth."""

    frame: int
    strips: tuple[Strip, ...]


@dataclass(frozen=True, slots=True)
class GivenTask:
    """What is wanted, in whole multiples of `mark`; `ways[along]` are those on frames that run so."""

    mark: Fraction
    counts: Counts
    areas: Counts
    ways: tuple[tuple[Way, ...], tuple[Way, ...]]
    heights: tuple[tuple[int, ...], tuple[int, ...]]
    kinds: tuple[Kind, ...]
    frames: tuple[Frame, ...]

    def pieces(self, column: Column) -> Counts:
        """How many pieces of each size a column gives."""
        found = np.zeros(len(self.counts), dtype=np.int64)
        ways = self.ways[self.frames[column.frame].along]
        for strip in column.strips:
            for cut in strip.cuts:
                found[ways[cut.way].size] += cut.crosscuts * cut.stack * strip.times
        return found

    def amount(self, column: Column) -> int:
        """What a column takes of the limit of its kind: one piece, or so many marks."""
        kind = self.kinds[self.frames[column.frame].kind]
        if kind.whole:
            return 1
        return sum((strip.height + kind.squaring) * strip.times for strip in column.strips)

    def cost(self, column: Column) -> float:
        """What a column costs."""
        return self.kinds[self.frames[column.frame].kind].cost * self.amount(column)


def fits_on(demand: Demand, cloth: Cloth, whole_width: Length | None) -> bool:
    """Whether a piece can be cut from a cloth in any way."""
    width, height = _width(demand, whole_width), demand.height
    lying = [(width, height)] + ([(height, width)] if demand.may_turn and not demand.whole_strip else [])
    return any(
        across <= cloth.width and (cloth.height is None or down <= cloth.height) for across, down in lying
    )


def task_of(
    demands: Sequence[Demand], cloths: Sequence[Cloth], ruler: Length, whole_width: Length | None
) -> GivenTask:
    """The task; a whole strip is `whole_width` wide, and what is left below a mark is dropped."""
    sizes = [(_width(d, whole_width), d.height, d.may_turn and not d.whole_strip) for d in demands]
    sides = [side.exact for width, height, _ in sizes for side in (width, height)]
    mark = finest([*sides, *(cloth.squaring.exact for cloth in cloths)])
    whole = [(int(w.exact / mark), int(h.exact / mark), turns) for w, h, turns in sizes]
    across = [Way(k, w, h, False) for k, (w, h, _) in enumerate(whole)]
    across += [Way(k, h, w, True) for k, (w, h, turns) in enumerate(whole) if turns and w != h]
    frames = _frames(cloths, mark, all(turns or w == h for w, h, turns in whole))
    along = [Way(way.size, way.height, way.width, way.turned) for way in across]
    frames = [frame for frame in frames if _holds_any(frame, along if frame.along else across)]
    ways = tuple(
        tuple(way for way in side if _fits(way, frames, number == 1))
        for number, side in enumerate((across, along))
    )
    counts = [demand.count for demand in demands]
    return GivenTask(
        mark=mark,
        counts=np.array(counts, dtype=np.int64),
        areas=np.array([w * h for w, h, _ in whole], dtype=np.int64),
        ways=(ways[0], ways[1]),
        heights=(
            _heights(ways[0], counts, frames, int(ruler.exact // mark), False),
            _heights(ways[1], counts, frames, int(ruler.exact // mark), True),
        ),
        kinds=tuple(_in_marks(cloth, mark) for cloth in cloths),
        frames=tuple(frames),
    )


def _width(demand: Demand, whole_width: Length | None) -> Length:
    return whole_width if demand.whole_strip and whole_width is not None else demand.width


def _in_marks(cloth: Cloth, mark: Fraction) -> Kind:
    """The cost of a long cloth is told for an inch of its length, and becomes that of a mark."""
    kind = cloth.kind
    if kind.whole:
        return kind
    limit = None if cloth.height is None else int(cloth.height.exact // mark)
    squaring = int(cloth.squaring.exact / mark)
    return kind._replace(limit=limit, cost=kind.cost * float(mark), squaring=squaring)


def _frames(cloths: Sequence[Cloth], mark: Fraction, free: bool) -> list[Frame]:
    """The frames of every kind; where all pieces may turn, a square needs only one."""
    found = []
    for number, cloth in enumerate(cloths):
        width = int(cloth.width.exact // mark)
        height = int(cloth.height.exact // mark) if cloth.height is not None else 10**9
        runs = cloth.runs[:1] if free and width == height else cloth.runs
        found += [
            Frame(number, along, height if along else width, width if along else height) for along in runs
        ]
    return found


def _fits(way: Way, frames: Sequence[Frame], along: bool) -> bool:
    return any(
        way.width <= frame.length and way.height <= frame.room for frame in frames if frame.along == along
    )


def _holds_any(frame: Frame, ways: Sequence[Way]) -> bool:
    return any(way.width <= frame.length and way.height <= frame.room for way in ways)


def _heights(
    ways: Sequence[Way], counts: Sequence[int], frames: Sequence[Frame], ruler: int, along: bool
) -> tuple[int, ...]:
    """As high as one piece, or as stacks of equal pieces up to the ruler, lower stacks first."""
    room = min(ruler, max((frame.room for frame in frames if frame.along == along), default=0))
    return stack_heights(ways, counts, room, MOST_HEIGHTS)
