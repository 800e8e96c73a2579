"""Shapes of 60 degrees: the triangle, told by its finished height, and the hexagon, told by its side."""

from __future__ import annotations

from piecewright.design.kinds.kind import Form
from piecewright.design.kinds.single import one_size, single
from piecewright.geometry.isometry import sin_of
from piecewright.geometry.polygon import Polygon


def triangle(form: Form) -> Polygon:
    """The triangle on one of its sides."""
    side = form.height / sin_of(60)
    return ((0.0, 0.0), (side, 0.0), (side / 2, form.height))


def hexagon(form: Form) -> Polygon:
    """The hexagon on one of its sides."""
    side = form.width
    up, over = side * sin_of(60), side / 2
    return (
        (over, 0.0),
        (over + side, 0.0),
        (2 * side, up),
        (over + side, 2 * up),
        (over, 2 * up),
        (0.0, up),
    )


TRIANGLE = single("triangle60", "60 degree triangle", triangle, wanted=one_size("finished height"))
HEXAGON = single("hexagon", "hexagon", hexagon, wanted=one_size("finished side"))
