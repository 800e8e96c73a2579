"""The settings of a workroom: what each one means, and from what to what it can sensibly be.

One row for each line of the workroom file; the reader, the JSON Schema and the new file all come from here.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import get_args

from piecewright.measure.length import Length, Unit, inches, mm
from piecewright.workroom.workroom import Cloth, PressOpen

PRESS_OPEN: tuple[str, ...] = get_args(PressOpen)
CLOTH: tuple[str, ...] = get_args(Cloth)


@dataclass(frozen=True)
class LengthSetting:
    """A setting that is a length, with its bounds: in inches, and as millimetres where one works metric."""

    says: str
    inches: tuple[str, str]
    millimetres: tuple[str, str]

    def bounds(self, unit: Unit) -> tuple[Length, Length]:
        """The least and the most that is sensible."""
        (least, most), read = (self.inches, inches) if unit == "in" else (self.millimetres, mm)
        return read(least), read(most)


@dataclass(frozen=True)
class NumberSetting:
    """A setting that is a number; `whole` when it counts things."""

    says: str
    least: float
    most: float
    whole: bool = False


@dataclass(frozen=True)
class WordsSetting:
    """A setting that is a list of words: names of ways of making units, or wishes."""

    says: str


@dataclass(frozen=True)
class ChoiceSetting:
    """A setting that is one of a few words."""

    says: str
    words: tuple[str, ...]


@dataclass(frozen=True)
class SpareSetting:
    """A setting that says what to spare: pieces of each size, a share of them, or a length of cloth."""

    says: str


Setting = LengthSetting | NumberSetting | WordsSetting | ChoiceSetting | SpareSetting

SETTINGS: dict[str, Setting] = {
    "needle": LengthSetting("from the raw edge to the needle", ("1/16", "1"), ("2", "25")),
    "fold": LengthSetting("what the fold of a pressed seam takes besides", ("0", "1/8"), ("0", "3")),
    "rounding": LengthSetting("cut sizes are rounded up to steps of this", ("1/16", "1"), ("1", "10")),
    "usable_width": LengthSetting("cloth between the selvedges", ("4", "130"), ("100", "3300")),
    "ruler_length": LengthSetting("the longest cut along the ruler", ("4", "130"), ("100", "3300")),
    "ease": LengthSetting("up to so much over is left as it is", ("0", "1/2"), ("0", "12")),
    "trim": LengthSetting("at least so much comes off in truing up", ("1/64", "1"), ("0.5", "25")),
    "spare_strips": NumberSetting("strips bought besides, for a cutting mistake", 0, 20, whole=True),
    "spare": SpareSetting("cut or bought besides, for mistakes: one extra of each, 5 %, 1/4 yd"),
    "straightening": LengthSetting("bought besides, to straighten the ends", ("0", "36"), ("0", "1000")),
    "squaring": LengthSetting("lost with each strip, to square up the cloth", ("0", "4"), ("0", "100")),
    "shrinkage": NumberSetting("share of the length lost in the wash: 0.03 is 3 per cent", 0, 0.25),
    "buying_step": LengthSetting("shops cut cloth in steps of this", ("1/4", "40"), ("5", "1000")),
    "layers": NumberSetting("layers of cloth cut together: folded cloth is 2", 1, 12, whole=True),
    "cloth": ChoiceSetting("how cloth and cutting are weighed: least, usual, least-cutting", CLOTH),
    "liked": WordsSetting("ways of making units that are taken where they serve"),
    "refused": WordsSetting("ways of making units that are never taken"),
    "wishes": WordsSetting("what ways of making units should keep to: no bias edges, no marking and so on"),
    "press_open": ChoiceSetting("when seams are pressed open: never, where it helps, always", PRESS_OPEN),
    "cloth_weight": NumberSetting("how much cloth counts against time: 2 is twice as much as usual", 0, 100),
    "bias_minutes": NumberSetting("minutes that one bias edge on the outside of a unit counts for", 0, 60),
}

PACE: dict[str, NumberSetting] = {
    "mark": NumberSetting("seconds to mark one line", 0, 3600),
    "cut": NumberSetting("seconds for one cut", 0, 3600),
    "sew_inches": NumberSetting("inches sewn in a minute", 1, 1000),
    "start_seam": NumberSetting("seconds to take up one pair and start its seam", 0, 3600),
    "press": NumberSetting("seconds to press one seam", 0, 3600),
    "true_up": NumberSetting("seconds to true up one unit", 0, 3600),
    "set_up": NumberSetting("seconds to get ready for one more way of making a unit", 0, 36000),
}

# The marks people cut on; other steps would give sizes that no ruler shows well.
ROUNDINGS = {
    "in": tuple(map(inches, ("1/16", "1/8", "1/4", "1/2", "1"))),
    "cm": tuple(map(mm, (1, 2, 5, 10))),
}
