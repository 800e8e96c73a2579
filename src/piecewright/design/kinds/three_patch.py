"""The three-patch: a square of one half-square triangle and two quarter-square triangles.

Terms:
- *large*: the half-square triangle; *small*: the two quarter-square triangles that make the other half;
- *hand*: where the first small one lies when the square stands on its corner, the large one below.
"""

from __future__ import annotations

from piecewright.design.kinds.kind import Form, Kind, Shapes, square_only
from piecewright.design.kinds.sides import AROUND, corners_of


def shapes(form: Form) -> Shapes:
    """The large triangle in the corner that it faces; the small ones meet it and each other in the middle."""
    corner, at = corners_of(form), AROUND.index(form.facing)
    before, after, opposite = (corner[AROUND[(at + k) % 4]] for k in (-1, 1, 2))
    middle = (form.width / 2, form.height / 2)
    right, left = (after, opposite, middle), (opposite, before, middle)
    first, other = (left, right) if form.hand == "left" else (right, left)
    return (0, (before, corner[form.facing], after)), (1, first), (2, other)


KIND = Kind(
    key="threepatch",
    name="three-patch",
    fabrics=("large", "first small", "other small"),
    shapes=shapes,
    patches=3,
    wanted=square_only,
    facings=("se", "ne", "nw", "sw"),
    hands=("left", "right"),
)
