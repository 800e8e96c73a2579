"""Kinds of one patch: a shape cut from one fabric, to be joined as it is.

A shape of fixed proportions is told by *one size*, which width and height of its form both carry; how wide
and high it comes out then follows.
"""

from __future__ import annotations

from collections.abc import Callable

from piecewright.design.kinds.kind import Fitting, Form, Kind, no_measures, nothing_wrong
from piecewright.geometry.polygon import Polygon

Outline = Callable[[Form], Polygon]
Wanted = Callable[[Form], str]


def one_size(size: str) -> Wanted:
    """What is said of a form with two sizes whose kind has one: "to be told by one size, its side"."""

    def wanted(form: Form) -> str:
        return "" if form.width == form.height else f"to be told by one size, its {size}"

    return wanted


def single(
    key: str,
    name: str,
    outline: Outline,
    *,
    wanted: Wanted = nothing_wrong,
    measures: tuple[str, ...] = (),
    fits: Fitting = no_measures,
    hands: tuple[str, ...] = ("",),
) -> Kind:
    """The kind of one patch with an outline."""
    return Kind(
        key=key,
        name=name,
        fabrics=("patch",),
        shapes=lambda form: ((0, outline(form)),),
        patches=1,
        wanted=wanted,
        hands=hands,
        measures=measures,
        fits=fits,
        outline=outline,
    )
