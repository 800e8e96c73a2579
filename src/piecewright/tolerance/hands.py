"""Hands: how one person really sews and cuts, beside what the plan was made for.

Terms:
- *off*: the same for every seam or cut: it adds up along a line;
- *spread*: how much single seams or cuts differ (standard deviation): it adds up in squares.
"""

from __future__ import annotations

from dataclasses import dataclass

import msgspec

from piecewright.measure.length import ZERO, Length, Unit, inches, mm
from piecewright.measure.reading import in_range
from piecewright.workroom.own_seam import OwnSeam
from piecewright.workroom.settings import SETTINGS, LengthSetting
from piecewright.workroom.workroom import Workroom


@dataclass(frozen=True)
class Hands:
    """One person's seam and cutting: needle, fold, and how they vary.

    `spread` is the standard deviation of the take-up from seam to seam, `cut_spread` that of a cut size from
    piece to piece; `cut_off` is how much larger than meant pieces are cut (below zero: smaller).
    """

    needle: Length
    fold: Length
    spread: Length
    cut_spread: Length
    cut_off: Length = ZERO

    @property
    def take_up(self) -> Length:
        """What a seam really takes from each of the two cloths."""
        return self.needle + self.fold

    def at(self, workroom: Workroom) -> Workroom:
        """The same workroom with these hands at its machine."""
        return msgspec.structs.replace(workroom, needle=self.needle, fold=self.fold)


def usual_spread(unit: Unit) -> Length:
    """A spread where none was measured: 1/128 in or 0.2 mm, so that 95 of 100 lie within twice as much.

    Careful work as one sees it; no source.
    """
    return inches("1/128") if unit == "in" else mm("0.2")


def hands_of(
    workroom: Workroom,
    needle: Length | None = None,
    fold: Length | None = None,
    spread: Length | None = None,
    cut_spread: Length | None = None,
) -> Hands:
    """The hands of a workroom, with whatever was measured put in its place.

    Raises ValueError where a figure is none that hands can have.

    >>> hands_of(Workroom(), needle=inches("1/4")).take_up
    inches('17/64')
    """
    unit = workroom.unit
    usual = usual_spread(unit)
    most = usual * 16
    return Hands(
        needle=_bounded(workroom.needle if needle is None else needle, "needle", unit),
        fold=_bounded(workroom.fold if fold is None else fold, "fold", unit),
        spread=in_range(usual if spread is None else spread, ZERO, most, "spread", unit),
        cut_spread=in_range(usual if cut_spread is None else cut_spread, ZERO, most, "cut spread", unit),
    )


def hands_from(seam: OwnSeam, workroom: Workroom) -> Hands:
    """The hands that strip tests show: needle, fold, spread of single seams, and how wide strips are cut."""
    from_tests = inches(str(round(seam.spread, 6)))
    usual = hands_of(workroom, seam.needle, seam.fold)
    return Hands(usual.needle, usual.fold, from_tests, usual.cut_spread, seam.cut_off)


def _bounded(length: Length, name: str, unit: Unit) -> Length:
    setting = SETTINGS[name]
    assert isinstance(setting, LengthSetting)
    return in_range(length, *setting.bounds(unit), name, unit)
