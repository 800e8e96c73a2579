"""The rail: strips side by side, as many as there are fabrics; told standing, from left to right.

Its measures are the widths of the strips; left out, they are equal.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from piecewright.design.kinds.boxes import all_alike, boxes_of, outlined, side_by_side
from piecewright.design.kinds.kind import Form, Kind, Shapes
from piecewright.geometry.polygon import Polygon
from piecewright.measure.tolerance import AS_DRAWN


def widths_of(form: Form) -> tuple[float, ...]:
    """The finished width of each strip."""
    return form.measures or (form.width / form.fabrics,) * form.fabrics


def shapes(form: Form) -> Shapes:
    """A strip of every fabric, from left to right."""
    found, left = [], 0.0
    for number, width in enumerate(widths_of(form)):
        found.append((number, outlined((left, 0.0, left + width, form.height))))
        left += width
    return tuple(found)


def wanted(form: Form) -> str:
    """Strips that fill it, each with a width where widths are given."""
    if not form.measures:
        return ""
    if len(form.measures) != form.fabrics:
        return f"to have a width for each of its {form.fabrics} strips"
    return "" if abs(sum(form.measures) - form.width) < AS_DRAWN else "to be as wide as its strips together"


def fits(patches: Sequence[Polygon], width: float, height: float) -> Iterable[tuple[float, ...]]:
    """Equal strips, or the widths as they are drawn, from either end."""
    for axis, size in enumerate((width, height)):
        widths = side_by_side(boxes_of(patches), axis, size)
        if widths and all_alike(widths):
            yield ()
        elif widths:
            yield from (widths, widths[::-1])


KIND = Kind(
    key="rail",
    name="rail",
    fabrics=("first strip", "next strip"),
    shapes=shapes,
    patches=0,
    wanted=wanted,
    measures=("strip",),
    fits=fits,
    more_fabrics=True,
    more_measures=True,
)
