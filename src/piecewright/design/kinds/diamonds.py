"""Diamonds of four equal sides, told by their finished side: at 45 degrees and at 60."""

from __future__ import annotations

from piecewright.design.kinds.kind import Form
from piecewright.design.kinds.single import Outline, one_size, single
from piecewright.geometry.isometry import cos_of, sin_of
from piecewright.geometry.polygon import Polygon


def diamond(side: float, angle: float) -> Polygon:
    """A diamond on one of its sides, its sharp angle (degrees) at the lower left; inches."""
    over, up = side * cos_of(angle), side * sin_of(angle)
    return ((0.0, 0.0), (side, 0.0), (side + over, up), (over, up))


def _outline(angle: float) -> Outline:
    def outline(form: Form) -> Polygon:
        return diamond(form.width, angle)

    return outline


DIAMOND_45 = single("diamond45", "45 degree diamond", _outline(45), wanted=one_size("finished side"))
DIAMOND_60 = single("diamond60", "60 degree diamond", _outline(60), wanted=one_size("finished side"))
