"""Four-patches, nine-patches and sixteen-patches from strip sets: subcuts turned or exchanged, and joined.

All seams nest: the rows of a four-patch and a sixteen-patch come from one set and every other is turned half
round; a nine-patch has rows of two sets, both pressed towards the second fabric. A batch of nine-patches is
two sets with the first fabric outside and one with the second, so that no subcut is over. Where the subcuts
of one set leave some over, as many sets together as leave none are a way of their own.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import gcd

from piecewright.bench.cloth import Towards
from piecewright.bench.steps import AnyStep, Join, JoinPart, Press, Pressing
from piecewright.design.kinds.checks import ACROSS, NINE_PATCH
from piecewright.methods.method import NUMBERS, Family, Making, Method, Start, Unit
from piecewright.methods.strip_set import SET, Crosscut, crosscuts, sewn_side_by_side
from piecewright.workroom.workroom import Workroom

BOTTOM, TOP = (0,), (2,)

Row = tuple[str, bool]
"""The pile of a row, and whether it is turned half round."""


def rows_joined(
    rows: Sequence[Row], gives: str, towards: Sequence[Towards], times: int
) -> tuple[AnyStep, ...]:
    """Rows joined from below; where two meet, every seam of one nests with one of the other."""
    parts = tuple(
        JoinPart(
            name=pile,
            entry=() if not k else TOP if turned else BOTTOM,
            exit=() if k == len(rows) - 1 else BOTTOM if turned else TOP,
        )
        for k, (pile, turned) in enumerate(rows)
    )
    meetings = (len(rows) - 1) ** 2
    seams = tuple(Pressing(f"{gives}.{k}", (side,)) for k, side in enumerate(towards))
    return (
        Join(parts=parts, gives=gives, times=times, nests=meetings),
        Press(pile=gives, seams=seams),
    )


def away_from_the_middle(rows: int) -> tuple[Towards, ...]:
    """How the seams between rows are pressed: outwards, so that a neighbour turned a quarter nests."""
    return tuple("first" if 2 * k < rows - 1 else "second" for k in range(rows - 1))


@dataclass(frozen=True)
class _Turned:
    """Sets of as many strips as there are rows; subcuts joined, every other turned half round."""

    across: int
    crosscut: Crosscut
    sets: int
    subcuts: int

    def __call__(self, making: Making) -> tuple[AnyStep, ...]:
        (_, subcut, strip), across = making.sizes, self.across
        set_name, rows = f"{making.gives} strip set", f"{making.gives} rows"
        wide = strip * across - 2 * making.seam.take_up * (across - 1)
        piles = making.pieces * (across // 2)
        every_row = [(rows, k % 2 == 1) for k in range(across)]
        sets = self.sets * making.times
        towards: list[Towards] = ["second" for _ in piles[1:]]
        units = sets * self.subcuts // across
        return (
            *sewn_side_by_side(piles, set_name, towards, sets),
            self.crosscut.steps(set_name, rows, subcut, self.subcuts, wide, sets),
            *rows_joined(every_row, making.gives, away_from_the_middle(across), units),
        )


@dataclass(frozen=True)
class _Exchanged:
    """Two sets with the first fabric outside and one with the second; three subcuts make a nine-patch."""

    crosscut: Crosscut
    makes: int

    def __call__(self, making: Making) -> tuple[AnyStep, ...]:
        (_, subcut, strip), (first, second) = making.sizes, making.pieces
        outer, inner = f"{making.gives} outer rows", f"{making.gives} middle rows"
        wide = strip * 3 - 4 * making.seam.take_up
        steps: list[AnyStep] = []
        for piles, rows, towards, times in (
            ((first, second, first), outer, INWARDS, 2 * making.times),
            ((second, first, second), inner, INWARDS[::-1], making.times),
        ):
            set_name = f"{rows}, strip set"
            steps += sewn_side_by_side(piles, set_name, towards, times)
            steps.append(self.crosscut.steps(set_name, rows, subcut, self.makes, wide, times))
        every_row = [(outer, False), (inner, False), (outer, False)]
        joined = rows_joined(every_row, making.gives, away_from_the_middle(3), self.makes * making.times)
        return (*steps, *joined)


INWARDS: tuple[Towards, ...] = ("second", "first")


@dataclass(frozen=True)
class _Sizes:
    """The sizes of a set: its length, the subcut, the strip; `needed` subcuts of a set make a unit."""

    across: int
    crosscut: Crosscut
    needed: int

    def __call__(self, unit: Unit, take_up: float, extra: float) -> tuple[float, ...]:
        subcut = float(unit.height) / self.across + 2 * take_up
        self.crosscut.enough(subcut, self.needed)
        return (float(self.crosscut.length), subcut, float(unit.width) / self.across + 2 * take_up)


@lru_cache(maxsize=4096)
def members(unit: Unit, workroom: Workroom) -> tuple[Method, ...]:
    """The sets of whole strips and of half strips that make it, one by one or as many as leave nothing."""
    unit.refuse_nonsense()
    across = ACROSS[unit.kind]
    subcut = float(unit.height) / across + 2 * float(workroom.take_up)
    found: list[Method] = []
    for name, crosscut in crosscuts(workroom).items():
        got = crosscut.number(subcut)
        if unit.kind == NINE_PATCH.key:
            found.append(_exchanged(name, crosscut, max(got, 1)))
            continue
        found.append(_turned(unit.kind, name, crosscut, 1, max(got - got % across, across)))
        if got >= across and got % across:
            found.append(_turned(unit.kind, name, crosscut, across // gcd(got, across), got))
    return tuple(found)


@lru_cache(maxsize=1024)
def _turned(kind: str, name: str, crosscut: Crosscut, sets: int, subcuts: int) -> Method:
    across = ACROSS[kind]
    makes, strips = sets * subcuts // across, sets * across // 2
    together = f" {NUMBERS[sets]} together" if sets > 1 else ""
    one = f"{NUMBERS[sets]} sets give" if sets > 1 else "one set gives"
    over = ", and no subcut is over" if sets > 1 else ""
    return Method(
        name=f"{name}{together}",
        kind=kind,
        makes=makes,
        starts=(Start(0, strips, 2, 0), Start(1, strips, 2, 0)),
        steps=_Turned(across, crosscut, sets, subcuts),
        landmark="edges",
        reason=f"few cuts, long seams, and all of them nest: {one} {makes}{over}, but in two prints only",
        says=_turned_says(across, subcuts),
        unknowns=3,
        may_round=False,
        pressed_as_written=True,
        derived=_Sizes(across, crosscut, across),
    )


@lru_cache(maxsize=1024)
def _exchanged(name: str, crosscut: Crosscut, makes: int) -> Method:
    return Method(
        name=name,
        kind=NINE_PATCH.key,
        makes=makes,
        starts=(Start(0, 5, 2, 0), Start(1, 4, 2, 0)),
        steps=_Exchanged(crosscut, makes),
        landmark="edges",
        reason=f"few cuts, long seams, and all of them nest: three sets give {makes}, but in two prints only",
        says=_nine_says(makes),
        unknowns=3,
        may_round=False,
        pressed_as_written=True,
        derived=_Sizes(3, crosscut, 1),
    )


def _nine_says(makes: int) -> tuple[str, ...]:
    return (
        "Sew two sets with the first fabric on both sides of the second, and one the other way about.",
        "Press every seam towards the second fabric: then all nest.",
        f"Square up one end of each set, and cut {makes} subcuts across it.",
        "Join two subcuts of the first sets and one of the other between them, locking the seams.",
        "Press away from the middle row; beside a neighbour turned by a quarter its seams nest as well.",
    )


def _turned_says(across: int, subcuts: int) -> tuple[str, ...]:
    strips = "a strip of each fabric" if across == 2 else "four strips, the fabrics by turns,"
    return (
        f"Sew {strips} side by side, and press all to one side.",
        f"Square up one end of the set, and cut {subcuts} subcuts across it.",
        f"Turn every other subcut half round, and join {NUMBERS[across]}, locking the seams; press.",
    )


FAMILY = Family(SET, tuple(ACROSS), members)
