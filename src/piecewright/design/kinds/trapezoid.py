"""Trapezoids: a long side below and a shorter one, the *top*, above it; with equal legs, or one upright.

The one with an upright leg has a hand: the side on which that leg stands when the long side lies below.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from piecewright.design.kinds.kind import Form
from piecewright.design.kinds.single import single
from piecewright.geometry.polygon import Polygon
from piecewright.measure.tolerance import AS_DRAWN


def equal_legs(form: Form) -> Polygon:
    """The top lies over the middle of the long side."""
    (top,) = form.measures
    over = (form.width - top) / 2
    return ((0.0, 0.0), (form.width, 0.0), (over + top, form.height), (over, form.height))


def upright_leg(form: Form) -> Polygon:
    """The top lies over the left or the right end of the long side."""
    (top,) = form.measures
    over = form.width - top if form.hand == "right" else 0.0
    return ((0.0, 0.0), (form.width, 0.0), (over + top, form.height), (over, form.height))


def wanted(form: Form) -> str:
    """The top is the shorter of the two."""
    return "" if form.measures[0] < form.width else "to have a top shorter than its long side"


def fits(patches: Sequence[Polygon], width: float, height: float) -> Iterable[tuple[float, ...]]:
    """The length of the upper side of a drawn patch."""
    above = [x for x, y in patches[0] if abs(y - height) <= AS_DRAWN]
    return ((max(above) - min(above),),)


EQUAL_LEGS = single("trapezoid", "trapezoid", equal_legs, wanted=wanted, measures=("top",), fits=fits)
UPRIGHT_LEG = single(
    "trapezoid-upright",
    "trapezoid with an upright leg",
    upright_leg,
    wanted=wanted,
    measures=("top",),
    fits=fits,
    hands=("left", "right"),
)
