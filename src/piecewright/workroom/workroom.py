"""The workroom: what one person's machine, ruler, cloth and hands are like."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

import msgspec

from piecewright.measure.in_files import usually
from piecewright.measure.length import ZERO, Length, Unit, inches, mm
from piecewright.measure.rounding import Ruler

PressOpen = Literal["never", "where it helps", "always"]
Cloth = Literal["least", "usual", "least-cutting"]

NONE_SPARE = "none"
"""What the setting `spare` says where nothing is to be spared."""


class Pace(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """How fast one works: seconds for one of each, and inches sewn in a minute."""

    mark: float = 12.0
    cut: float = 15.0
    sew_inches: float = 40.0
    start_seam: float = 6.0
    press: float = 10.0
    true_up: float = 30.0
    set_up: float = 240.0


class Workroom(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """One person's settings.

    `needle` is the distance from the raw edge to the needle, `fold` what the fold of the pressed seam
    takes besides; together they are the take-up of a seam on each side. `rounding` is the step to which
    cut sizes are rounded up. Excess up to `ease` is left as it is; what is trued up is cut so that at
    least `trim` comes off. `shrinkage` is a share of the length (0.03 is 3 per cent), `squaring` is lost
    with each strip. So many `layers` of cloth are cut together; `cloth` tells how cloth and cutting are
    weighed, and `spare` what is cut or bought besides for mistakes, as it was typed. `press_open` tells when
    the seams of blocks and rows are pressed open.
    """

    unit: Unit = "in"
    needle: Length = usually(inches("15/64"))
    fold: Length = usually(inches("1/64"))
    rounding: Length = usually(inches("1/8"))
    usable_width: Length = usually(inches(40))
    ruler_length: Length = usually(inches(24))
    ease: Length = usually(inches("1/16"))
    trim: Length = usually(inches("1/8"))
    spare_strips: int = 1
    spare: str = NONE_SPARE
    straightening: Length = usually(inches(2))
    squaring: Length = usually(ZERO)
    shrinkage: float = 0.0
    buying_step: Length = usually(inches("4 1/2"))
    layers: int = 2
    cloth: Cloth = "usual"
    liked: tuple[str, ...] = ()
    refused: tuple[str, ...] = ()
    wishes: tuple[str, ...] = ()
    press_open: PressOpen = "never"
    cloth_weight: float = 1.0
    bias_minutes: float = 0.5
    pace: Pace = Pace()

    @property
    def take_up(self) -> Length:
        """What a seam takes from each of the two cloths: the needle distance and the loss in the fold."""
        return self.needle + self.fold

    @property
    def ruler(self) -> Ruler:
        """The ruler to whose marks cut sizes are rounded."""
        step = self.rounding.exact if self.unit == "in" else self.rounding.in_mm
        return Ruler(self.unit, step)


INCH_WORKROOM = Workroom()

METRIC_WORKROOM = Workroom(
    unit="cm",
    needle=mm(7),
    fold=mm(Fraction(1, 2)),
    rounding=mm(1),
    usable_width=mm(1070),
    ruler_length=mm(600),
    ease=mm(Fraction(3, 2)),
    trim=mm(3),
    straightening=mm(50),
    buying_step=mm(100),
)


def default_workroom(unit: Unit) -> Workroom:
    """The workroom of someone who has said nothing yet, for inches or centimetres."""
    return INCH_WORKROOM if unit == "in" else METRIC_WORKROOM
