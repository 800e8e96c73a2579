"""The flying goose: a large triangle between two small ones, twice as long as it is high."""

from __future__ import annotations

from piecewright.design.kinds.kind import Form, Kind, Shapes
from piecewright.design.kinds.sides import AROUND, SIDES, corners_of, middles_of


def shapes(form: Form) -> Shapes:
    """The goose, its point in the middle of the side that it faces, and the corners beside it."""
    corner, point = corners_of(form), middles_of(form)[form.facing]
    base = (SIDES.index(form.facing) + 2) % 4
    a, b, c, d = (corner[AROUND[(base + k) % 4]] for k in range(4))
    return (0, (a, b, point)), (1, (b, c, point)), (1, (d, a, point))


def wanted(form: Form) -> str:
    """Twice as long along the base as it is high."""
    if form.facing in "ns":
        return "" if form.width == 2 * form.height else "to be twice as wide as high"
    return "" if form.height == 2 * form.width else "to be twice as high as wide"


KIND = Kind(
    key="geese",
    name="flying goose",
    fabrics=("goose", "corners"),
    shapes=shapes,
    patches=3,
    wanted=wanted,
    facings=("n", "e", "s", "w"),
    outwards=True,
)
