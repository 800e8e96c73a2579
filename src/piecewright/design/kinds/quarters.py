"""The square of quarters: a square of four quarter-square triangles, each of its own fabric.

Its fabrics are told counter-clockwise, the lower side first. Its mirror image is the same four the other
way round, so it needs no hand. Two fabrics opposite each other make an hourglass.
"""

from __future__ import annotations

from piecewright.design.kinds.kind import Form, Kind, Shapes, square_only
from piecewright.design.kinds.sides import AROUND, SIDES, corners_of


def shapes(form: Form) -> Shapes:
    """A triangle on each side, counter-clockwise, the first on the side that it faces."""
    corner, at = corners_of(form), SIDES.index(form.facing)
    middle = (form.width / 2, form.height / 2)
    return tuple(
        (k, (corner[AROUND[(at + k) % 4]], corner[AROUND[(at + k + 1) % 4]], middle)) for k in range(4)
    )


KIND = Kind(
    key="quarters",
    name="square of quarters",
    fabrics=("lower", "right", "upper", "left"),
    shapes=shapes,
    patches=4,
    wanted=square_only,
    facings=("s", "e", "n", "w"),
)
