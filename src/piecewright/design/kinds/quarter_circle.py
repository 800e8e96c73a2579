"""The quarter circle: a square with a quarter of a circle in the corner that it faces.

Curves are drawn as short straight edges that touch the circle, the first and the last of them square to the
sides of the block. There are so many that no corner between them is farther from the circle than a patch may
be from where it was drawn (`AS_DRAWN`): 32 for a radius of 3 in.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import acos, ceil, pi

from piecewright.design.kinds.kind import Form, Kind, Shapes
from piecewright.design.kinds.sides import AROUND
from piecewright.geometry.isometry import Isometry, cos_of, moved, sin_of, turned
from piecewright.geometry.polygon import Polygon, bounds, placed
from piecewright.measure.tolerance import AS_DRAWN

LEAST_STEPS = 8


def steps_round(radius: float) -> int:
    """In how many equal turns the touching edges go round a quarter of a circle (inches); one more are drawn.

    >>> steps_round(3), steps_round(12)
    (31, 61)
    """
    return max(LEAST_STEPS, ceil(pi / 4 / acos(radius / (radius + AS_DRAWN))))


def curve(radius: float) -> Polygon:
    """A quarter circle about the origin, counter-clockwise from the right, as touching edges; inches."""
    count = steps_round(radius)
    turn = 90.0 / count
    out = radius / cos_of(turn / 2)
    between = [(out * cos_of((k + 0.5) * turn), out * sin_of((k + 0.5) * turn)) for k in range(count)]
    return ((radius, 0.0), *between, (0.0, radius))


def shapes(form: Form) -> Shapes:
    """The quarter of the circle, its middle in the corner that it faces, and the rest of the square."""
    (radius,), side = form.measures, form.width
    round_it, home = curve(radius), _home(form)
    quarter = ((0.0, 0.0), *round_it)
    rest = ((side, 0.0), (side, side), (0.0, side), *round_it[::-1])
    return (0, placed(quarter, home)), (1, placed(rest, home))


def _home(form: Form) -> Isometry:
    """The quarter turns that bring the middle of the circle into its corner."""
    quarters, side = AROUND.index(form.facing), form.width
    return moved(side / 2, side / 2).after(turned(90.0 * quarters)).after(moved(-side / 2, -side / 2))


def wanted(form: Form) -> str:
    """A square with some of its sides left beside the circle."""
    if form.width != form.height:
        return "to be square"
    return "" if form.measures[0] < form.width else "to have a radius below its side"


def fits(patches: Sequence[Polygon], width: float, height: float) -> Iterable[tuple[float, ...]]:
    """The width of either of two drawn patches."""
    return tuple((right - left,) for left, _, right, _ in map(bounds, patches))


KIND = Kind(
    key="quarter-circle",
    name="quarter circle",
    fabrics=("quarter", "background"),
    shapes=shapes,
    patches=2,
    wanted=wanted,
    facings=AROUND,
    measures=("radius",),
    fits=fits,
)
