"""The half-rectangle triangle: a rectangle of two triangles.

Its *hand* does not change when it is turned: stood on a short side, the seam of a right-handed one rises to
the right, that of a left-handed one to the left.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from piecewright.design.kinds.kind import Form, Kind, Shapes
from piecewright.design.kinds.sides import corners_of
from piecewright.geometry.polygon import Polygon


def rises(form: Form) -> bool:
    """Whether the seam runs from the lower left to the upper right corner as the form lies."""
    return (form.hand == "right") == (form.height > form.width)


def shapes(form: Form) -> Shapes:
    """The first fabric below the seam, the second above it."""
    at = corners_of(form)
    if rises(form):
        return (0, (at["sw"], at["se"], at["ne"])), (1, (at["sw"], at["ne"], at["nw"]))
    return (0, (at["sw"], at["se"], at["nw"])), (1, (at["se"], at["ne"], at["nw"]))


def wanted(form: Form) -> str:
    """A square one is a half-square triangle, which has no hand."""
    return "" if form.width != form.height else "to be longer than wide (a square one is of the kind hst)"


def fits(patches: Sequence[Polygon], width: float, height: float) -> Iterable[tuple[float, ...]]:
    """A drawn one is told as it stands upright."""
    return ((),) if height > width else ()


KIND = Kind(
    key="hrt",
    name="half-rectangle triangle",
    fabrics=("first", "second"),
    shapes=shapes,
    patches=2,
    wanted=wanted,
    hands=("left", "right"),
    fits=fits,
)
