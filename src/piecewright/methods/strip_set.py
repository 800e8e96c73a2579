"""Rails from strip sets: strips across the cloth joined lengthwise, pressed, and cut across.

Terms:
- *strip set*: strips as long as the cloth is wide, sewn side by side;
- *crosscut*: a cut across a set; between two of them lies a *subcut*;
- *squaring up*: the first crosscut, since the strips never end quite even.

A batch is one set. How many subcuts it gives follows from the usable width of the workroom.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from piecewright.bench.cloth import Towards
from piecewright.bench.steps import AnyStep, CutApart, Join, JoinPart, Press, Pressing, Ruled
from piecewright.design.kinds.rail import KIND, widths_of
from piecewright.measure.length import Length, inches, mm
from piecewright.measure.length import Unit as Measure
from piecewright.measure.showing import show, show_float
from piecewright.measure.tolerance import ROUNDING_SLACK, WELD
from piecewright.methods.method import Family, Making, Method, Start, Unit
from piecewright.problems import Problem, Refused
from piecewright.workroom.workroom import Workroom

LEFT, RIGHT = (3,), (1,)

# What the first crosscut takes off the uneven end of a set. Common practice, no source.
SQUARING_UP: dict[Measure, Length] = {"in": inches("1/2"), "cm": mm(15)}

SET, HALF_SET = "strip sets", "strip sets of half strips"


@dataclass(frozen=True)
class Crosscut:
    """How a set is cut across: how long it is, what squaring up takes, the unit that is spoken."""

    length: Length
    squaring_up: Length
    unit: Measure

    def number(self, subcut: float) -> int:
        """How many subcuts of a length (inches) a set gives."""
        return math.floor(float(self.length - self.squaring_up) / subcut + ROUNDING_SLACK)

    def enough(self, subcut: float, needed: int) -> None:
        """Raises Refused where a set gives fewer subcuts than are needed."""
        got = self.number(subcut)
        if got < needed:
            long, off = show(self.length, self.unit), show(self.squaring_up, self.unit)
            each = show_float(subcut, self.unit)
            what = (
                f"{needed} subcuts of {each} are needed, strips of {long} give {got} once {off} is squared up"
            )
            raise Refused(Problem(what, do="Cut single pieces, or strips along the length of the cloth."))

    def steps(
        self, set_name: str, gives: str, subcut: float, number: int, across: float, times: int
    ) -> CutApart:
        """So many subcuts of a set that stands `across` wide; what is beside them is an offcut."""
        start, end = float(self.squaring_up), float(self.length)
        at = [start + subcut * k for k in range(number + 1)]
        if end - at[-1] <= WELD:
            at.pop()
        rest = ("",) if len(at) > number else ()
        lines = tuple(Ruled(0.0, y, across, y) for y in at)
        return CutApart(takes=set_name, cut=lines, gives=("", *(gives,) * number, *rest), times=times)


def crosscuts(workroom: Workroom) -> dict[str, Crosscut]:
    """The sets of whole strips, and those of half strips, by the name of the way."""
    whole, off = workroom.usable_width, SQUARING_UP[workroom.unit]
    return {
        SET: Crosscut(whole, off, workroom.unit),
        HALF_SET: Crosscut(Length(whole.exact / 2), off, workroom.unit),
    }


def sewn_side_by_side(
    piles: Sequence[str], gives: str, towards: Sequence[Towards], times: int
) -> tuple[AnyStep, ...]:
    """Things joined from left to right on their long sides, each seam pressed towards a side."""
    last = len(piles) - 1
    parts = tuple(
        JoinPart(name=pile, entry=LEFT if k else (), exit=RIGHT if k < last else ())
        for k, pile in enumerate(piles)
    )
    seams = tuple(Pressing(f"{gives}.{k}", (side,)) for k, side in enumerate(towards))
    return Join(parts=parts, gives=gives, times=times), Press(pile=gives, seams=seams)


@dataclass(frozen=True)
class _Rail:
    """Strips told by their place among the starts, from left to right, and how many rails a set gives."""

    strips: tuple[int, ...]
    crosscut: Crosscut
    number: int

    def __call__(self, making: Making) -> tuple[AnyStep, ...]:
        _, subcut, *widths = making.sizes
        of_start = {start: widths[start] for start in self.strips}
        across = sum(of_start[k] for k in self.strips) - 2 * making.seam.take_up * (len(self.strips) - 1)
        name = f"{making.gives} strip set"
        piles = [making.pieces[k] for k in self.strips]
        towards: list[Towards] = ["second" for _ in piles[1:]]
        sewn = sewn_side_by_side(piles, name, towards, making.times)
        return (*sewn, self.crosscut.steps(name, making.gives, subcut, self.number, across, making.times))


@dataclass(frozen=True)
class _RailSizes:
    """The sizes of a set: its length, the subcut, then the width of the strips of each start."""

    crosscut: Crosscut
    first: tuple[int, ...]

    def __call__(self, unit: Unit, take_up: float, extra: float) -> tuple[float, ...]:
        subcut = float(unit.height) + 2 * take_up
        self.crosscut.enough(subcut, 1)
        widths = widths_of(unit.form)
        return (float(self.crosscut.length), subcut, *(widths[k] + 2 * take_up for k in self.first))


def starts_of_strips(unit: Unit) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """For each strip of a rail the number of its start, and for each start its first strip.

    Strips of one fabric and width are one start.
    """
    known: dict[tuple[str, float], int] = {}
    strips: list[int] = []
    first: list[int] = []
    for k, (fabric, width) in enumerate(zip(unit.fabrics, widths_of(unit.form), strict=True)):
        if (fabric, width) not in known:
            known[fabric, width] = len(known)
            first.append(k)
        strips.append(known[fabric, width])
    return tuple(strips), tuple(first)


@lru_cache(maxsize=4096)
def members(unit: Unit, workroom: Workroom) -> tuple[Method, ...]:
    """The sets of whole strips and of half strips that make a rail."""
    unit.refuse_nonsense()
    strips, first = starts_of_strips(unit)
    subcut = float(unit.height + workroom.take_up * 2)
    return tuple(
        _rails(name, crosscut, strips, first, crosscut.number(subcut))
        for name, crosscut in crosscuts(workroom).items()
    )


@lru_cache(maxsize=1024)
def _rails(
    name: str, crosscut: Crosscut, strips: tuple[int, ...], first: tuple[int, ...], number: int
) -> Method:
    return Method(
        name=name,
        kind=KIND.key,
        makes=max(number, 1),
        starts=tuple(Start(fabric, strips.count(k), width=2 + k, height=0) for k, fabric in enumerate(first)),
        steps=_Rail(strips, crosscut, number),
        landmark="edges",
        reason=f"long seams and few cuts: one set gives {number}, but all of the same prints",
        says=(
            "Sew the strips side by side, every other seam from the other end, so that nothing bows.",
            "Press all seams to one side: beside a neighbour turned half round they nest.",
            f"Square up one end of the set, and cut {number} subcuts across it, still square at the last.",
        ),
        unknowns=2 + len(first),
        may_round=False,
        derived=_RailSizes(crosscut, first),
    )


FAMILY = Family(SET, (KIND.key,), members)
