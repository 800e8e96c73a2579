"""The square-in-a-square: a square on point, its points in the middles of the sides, and four corners."""

from __future__ import annotations

from piecewright.design.kinds.kind import Form, Kind, Shapes, square_only
from piecewright.design.kinds.sides import AROUND, SIDES, corners_of, middles_of


def shapes(form: Form) -> Shapes:
    """The square first, then the corners, counter-clockwise from the lower left."""
    corner, middle = corners_of(form), middles_of(form)
    around = tuple(
        (1, (middle[SIDES[k - 1]], corner[AROUND[k]], middle[SIDES[k]])) for k in range(len(AROUND))
    )
    return (0, tuple(middle[side] for side in SIDES)), *around


KIND = Kind(
    key="insquare",
    name="square-in-a-square unit",
    fabrics=("square", "corners"),
    shapes=shapes,
    patches=5,
    wanted=square_only,
    outwards=True,
)
