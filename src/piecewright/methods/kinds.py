"""The kinds of unit, and which of them a drawing shows."""

from __future__ import annotations

from itertools import permutations

from piecewright.design.drawing import Group, Patch, picture
from piecewright.design.model import UnitKind
from piecewright.design.units import NAME_OF, draw_unit
from piecewright.geometry.matching import Marked, Picture, turn_onto
from piecewright.geometry.polygon import bounds
from piecewright.measure.rounding import exactly
from piecewright.measure.tolerance import AS_DRAWN
from piecewright.methods.method import Unit

# How many patches each kind has, and which way it faces when it lies on its long side.
KINDS: dict[UnitKind, tuple[int, str]] = {"hst": (2, "se"), "hourglass": (4, "ns"), "geese": (3, "n")}


def name_of(kind: str) -> str:
    """What people call a kind of unit."""
    return next(name for key, name in NAME_OF.items() if key == kind)


def recognise(drawing: Group | Patch) -> Unit | None:
    """The unit that a drawing shows, whichever way it is turned (fabrics are its roles), or None."""
    roles = tuple(dict.fromkeys(patch.role for patch in drawing.patches))
    left, low, right, high = bounds(drawing.outline)
    width, height = max(right - left, high - low), min(right - left, high - low)
    shown = picture(drawing)
    plain = Picture(shown.outline, tuple(Marked(p.label, p.polygon) for p in shown.patches))
    for kind, (patches, facing) in KINDS.items():
        if len(drawing.patches) != patches or not 1 <= len(roles) <= 2:
            continue
        for order in permutations(roles) if len(roles) == 2 else [roles * 2]:
            template = draw_unit(kind, order, facing, width, height, (None, None))
            if turn_onto(picture(template), plain, AS_DRAWN):
                return Unit(kind, order, exactly(width), exactly(height))
    return None
