"""Corners and sides of a rectangle by the points of the compass, counter-clockwise from the lower left."""

from __future__ import annotations

from piecewright.design.kinds.kind import Form
from piecewright.geometry.point import Point

AROUND = ("sw", "se", "ne", "nw")
SIDES = ("s", "e", "n", "w")
"""The side that starts at each corner."""


def corners_of(form: Form) -> dict[str, Point]:
    """The corners of a form's rectangle."""
    width, height = form.width, form.height
    return {"sw": (0.0, 0.0), "se": (width, 0.0), "ne": (width, height), "nw": (0.0, height)}


def middles_of(form: Form) -> dict[str, Point]:
    """The middles of its sides."""
    width, height = form.width, form.height
    return {
        "s": (width / 2, 0.0),
        "e": (width, height / 2),
        "n": (width / 2, height),
        "w": (0.0, height / 2),
    }
