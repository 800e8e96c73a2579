"""Rails, four-patches, nine-patches and sixteen-patches from single pieces: any prints may meet.

Every piece lies as it will in the unit, so that a one-way print stands up. With a `laying` all are turned by
quarters, pieces and sides alike, and what is made lies turned by as much.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from piecewright.bench.cloth import Towards
from piecewright.bench.steps import AnyStep, Join, JoinPart, Press, Pressing
from piecewright.design.kinds.checks import ACROSS
from piecewright.design.kinds.rail import KIND as RAIL
from piecewright.design.kinds.rail import widths_of
from piecewright.methods.method import Family, Making, Method, Start, Unit
from piecewright.methods.strip_set import starts_of_strips
from piecewright.methods.strip_set_checks import away_from_the_middle
from piecewright.workroom.workroom import Workroom

NAME = "from single pieces"
SOUTH, EAST, NORTH, WEST = range(4)


def side(of_unit: int, turns: int) -> tuple[int]:
    """The side of a piece that was turned by so many quarters, by where it lies in the unit."""
    return ((of_unit - turns) % 4,)


def in_line(
    piles: Sequence[str],
    gives: str,
    leaving: int,
    towards: Sequence[Towards],
    times: int,
    turns: int,
    nests: int = 0,
) -> tuple[AnyStep, ...]:
    """Things joined one after another, each on the `leaving` side of the one before, and pressed."""
    last = len(piles) - 1
    parts = tuple(
        JoinPart(
            name=pile,
            entry=side(leaving + 2, turns) if k else (),
            exit=side(leaving, turns) if k < last else (),
        )
        for k, pile in enumerate(piles)
    )
    seams = tuple(Pressing(f"{gives}.{k}", (way,)) for k, way in enumerate(towards))
    return Join(parts=parts, gives=gives, times=times, nests=nests), Press(pile=gives, seams=seams)


@dataclass(frozen=True)
class _Rail:
    """Strips told by their place among the starts, from left to right."""

    strips: tuple[int, ...]

    def __call__(self, making: Making) -> tuple[AnyStep, ...]:
        piles = [making.pieces[k] for k in self.strips]
        towards: list[Towards] = ["second" for _ in piles[1:]]
        return in_line(piles, making.gives, EAST, towards, making.times, making.laying.base)


@dataclass(frozen=True)
class _RailSizes:
    """The length, then the width of the strips of each start."""

    first: tuple[int, ...]

    def __call__(self, unit: Unit, take_up: float, extra: float) -> tuple[float, ...]:
        widths = widths_of(unit.form)
        return (float(unit.height) + 2 * take_up, *(widths[k] + 2 * take_up for k in self.first))


@lru_cache(maxsize=4096)
def members(unit: Unit, workroom: Workroom) -> tuple[Method, ...]:
    """The way for a rail of so many strips, or for checks."""
    unit.refuse_nonsense()
    return (_rails(*starts_of_strips(unit)) if unit.kind == RAIL.key else _checks(unit.kind),)


@lru_cache(maxsize=1024)
def _rails(strips: tuple[int, ...], first: tuple[int, ...]) -> Method:
    return Method(
        name=NAME,
        kind=RAIL.key,
        makes=1,
        starts=tuple(Start(fabric, strips.count(k), 1 + k, 0) for k, fabric in enumerate(first)),
        steps=_Rail(strips),
        landmark="edges",
        reason="any prints may meet, for scraps and for a few, but every strip is handled for itself",
        says=(
            "Lay the strips out in order.",
            "Sew them side by side in pairs, pair to pair, and press all to one side.",
        ),
        unknowns=1 + len(first),
        may_round=False,
        upright=True,
        every_start_turns=True,
        derived=_RailSizes(first),
    )


@dataclass(frozen=True)
class _Checks:
    """Rows of patches by turns, each pressed towards the second fabric so that they nest; then the rows."""

    across: int

    def __call__(self, making: Making) -> tuple[AnyStep, ...]:
        across, turns = self.across, making.laying.base
        steps: list[AnyStep] = []
        rows = [f"{making.gives} {word} rows" for word in ("odd", "even")]
        for begins, row in enumerate(rows):
            fabrics = [(begins + k) % 2 for k in range(across)]
            towards: list[Towards] = ["second" if after else "first" for after in fabrics[1:]]
            times = making.times * ((across + 1 - begins) // 2)
            steps += in_line([making.pieces[k] for k in fabrics], row, EAST, towards, times, turns)
        every_row = [rows[k % 2] for k in range(across)]
        nests = (across - 1) ** 2
        outwards = away_from_the_middle(across)
        steps += in_line(every_row, making.gives, NORTH, outwards, making.times, turns, nests)
        return tuple(steps)


@dataclass(frozen=True)
class _CheckSizes:
    """The width and the height of a patch as it is cut."""

    across: int

    def __call__(self, unit: Unit, take_up: float, extra: float) -> tuple[float, ...]:
        width, height = float(unit.width), float(unit.height)
        return (width / self.across + 2 * take_up, height / self.across + 2 * take_up)


@lru_cache(maxsize=8)
def _checks(kind: str) -> Method:
    across = ACROSS[kind]
    second = across * across // 2
    return Method(
        name=NAME,
        kind=kind,
        makes=1,
        starts=(Start(0, across * across - second, 0, 1), Start(1, second, 0, 1)),
        steps=_Checks(across),
        landmark="edges",
        reason="any prints may meet, for scraps and for a few, but every patch is handled for itself",
        says=(
            "Lay the patches out in rows, the fabrics by turns.",
            "Join each row, and press every seam towards the second fabric: then all nest.",
            "Join the rows, locking the seams, and press away from the middle.",
        ),
        unknowns=2,
        may_round=False,
        upright=True,
        every_start_turns=True,
        pressed_as_written=True,
        derived=_CheckSizes(across),
    )


FAMILY = Family(NAME, (RAIL.key, *ACROSS), members)
