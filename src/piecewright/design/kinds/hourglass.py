"""The hourglass: a square of four triangles, two of a fabric opposite each other."""

from __future__ import annotations

from piecewright.design.kinds.kind import Form, Kind, Shapes, square_only
from piecewright.design.kinds.sides import AROUND, SIDES, corners_of


def shapes(form: Form) -> Shapes:
    """The first fabric on the two sides that it faces."""
    corner = corners_of(form)
    middle = (form.width / 2, form.height / 2)
    return tuple(
        (
            0 if side in form.facing else 1,
            (corner[AROUND[k]], corner[AROUND[(k + 1) % 4]], middle),
        )
        for k, side in enumerate(SIDES)
    )


KIND = Kind(
    key="hourglass",
    name="hourglass",
    fabrics=("first", "second"),
    shapes=shapes,
    patches=4,
    wanted=square_only,
    facings=("ns", "ew"),
)
