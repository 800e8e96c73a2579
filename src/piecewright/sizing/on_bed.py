"""How a quilt hangs on a bed: from the mattress to the size that is wanted.

Terms:
- *drop*: how far it hangs down on each side, from the top edge of the mattress;
- *foot*: the same at the foot of the bed;
- *pillow tuck*: what lies under and over the pillows, at the head;
- *depth*: how high the mattress is.
"""

from __future__ import annotations

from dataclasses import dataclass

from piecewright.measure.length import ZERO, Length, Unit, inches, mm
from piecewright.measure.reading import in_range
from piecewright.measure.showing import show
from piecewright.problems import Problem
from piecewright.sizing.beds import Bed

# Most mattresses are 25 to 36 cm high: rowes.com.au, mattress-size-guide-for-homes-in-the-darling-downs.
USUAL_DEPTH: dict[Unit, Length] = {"in": inches(12), "cm": mm(300)}
# A quilt hangs a little below the mattress: common practice, no source.
BELOW_MATTRESS: dict[Unit, Length] = {"in": inches(2), "cm": mm(50)}
_MOST: dict[Unit, Length] = {"in": inches(60), "cm": mm(1500)}


@dataclass(frozen=True)
class Hang:
    """The drop on each side, the drop at the foot, and the pillow tuck."""

    drop: Length
    foot: Length
    tuck: Length

    def words(self, unit: Unit) -> str:
        """`drop 13 in on each side, 13 in at the foot, no pillow tuck`."""
        if not self.drop and not self.foot and not self.tuck:
            return "nothing hangs down, no pillow tuck"
        tuck = f"{show(self.tuck, unit)} pillow tuck" if self.tuck else "no pillow tuck"
        return f"drop {show(self.drop, unit)} on each side, {show(self.foot, unit)} at the foot, {tuck}"


def hang_of(
    unit: Unit,
    depth: Length | None = None,
    drop: Length | None = None,
    foot: Length | None = None,
    tuck: Length | None = None,
) -> Hang:
    """How the quilt is to hang; what is not said is usual.

    The drop is the depth of the mattress and a little more, the foot hangs like the sides, and nothing is
    tucked. Raises ValueError for a length below 0 or beyond all beds.
    """
    for name, length in (("depth", depth), ("drop", drop), ("foot", foot), ("tuck", tuck)):
        if length is not None:
            in_range(length, ZERO, _MOST[unit], f"a {name}", unit)
    sides = drop if drop is not None else (depth or USUAL_DEPTH[unit]) + BELOW_MATTRESS[unit]
    return Hang(sides, sides if foot is None else foot, tuck or ZERO)


def quilt_for_bed(bed: Bed, hang: Hang) -> tuple[Length, Length]:
    """The width and height of the quilt: the mattress, two drops across; the foot and the tuck along it.

    >>> from piecewright.sizing.beds import bed_named
    >>> quilt_for_bed(bed_named("us queen"), Hang(inches(13), inches(13), ZERO))
    (inches('86'), inches('93'))
    """
    return bed.width + hang.drop * 2, bed.length + hang.foot + hang.tuck


def check_hang(hang: Hang, depth: Length | None, unit: Unit) -> list[Problem]:
    """Notes: a mattress that shows below the quilt."""
    if depth is None:
        return []
    places = [("on the sides", hang.drop), ("at the foot", hang.foot)]
    return [
        Problem(
            f"{where} the quilt hangs {show(drop, unit)} down a mattress {show(depth, unit)} deep: "
            f"{show(depth - drop, unit)} of it shows.",
            do=f"A drop of {show(depth + BELOW_MATTRESS[unit], unit)} covers it." if drop else "",
            weight="note",
        )
        for where, drop in places
        if ZERO < drop < depth
    ]
