"""The half-square triangle: a square of two triangles."""

from __future__ import annotations

from piecewright.design.kinds.kind import Form, Kind, Shapes, square_only
from piecewright.design.kinds.sides import AROUND, corners_of


def shapes(form: Form) -> Shapes:
    """The first fabric in the corner that it faces, the second in the rest."""
    corner = corners_of(form)
    at = AROUND.index(form.facing)
    before, after, opposite = (corner[AROUND[(at + k) % 4]] for k in (-1, 1, 2))
    return (0, (before, corner[form.facing], after)), (1, (after, opposite, before))


KIND = Kind(
    key="hst",
    name="half-square triangle",
    fabrics=("first", "second"),
    shapes=shapes,
    patches=2,
    wanted=square_only,
    facings=("se", "ne", "nw", "sw"),
)
