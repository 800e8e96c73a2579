"""The eight-pointed star: eight 45 degree diamonds round the middle of a square block.

In a block of side B the diamonds have the side B / (2 + sqrt 2) (plane geometry), and so have the squares in
the corners of the block; triangles fill its sides. The *wedge* star shows the same, but squares and triangles
are divided by the seams that run from the middle to the corners and sides, so that no seam is set in.
"""

from __future__ import annotations

from math import sqrt

from piecewright.design.kinds.diamonds import diamond
from piecewright.design.kinds.kind import Form, Kind, Shapes, square_only
from piecewright.geometry.isometry import moved, turned
from piecewright.geometry.polygon import Polygon, placed

FIRST, SECOND, BACKGROUND = 0, 1, 2
POINTS = 8


def side_of_diamond(block: float) -> float:
    """The finished side of the diamonds in a block of this finished size; inches.

    >>> round(side_of_diamond(12), 6), round(side_of_diamond(18), 4)
    (3.514719, 5.2721)
    """
    return block / (2 + sqrt(2))


def shapes(form: Form) -> Shapes:
    """Diamonds in turn, counter-clockwise from the right; then triangles and squares, likewise."""
    side = side_of_diamond(form.width)
    square = ((side / sqrt(2), side / sqrt(2)), *_corner(form, side))
    across = side / sqrt(2)
    triangle = ((side, 0.0), (side + across, -across), (side + across, across))
    return (*_points(form, side), *_around(form, triangle), *_around(form, square))


def wedges(form: Form) -> Shapes:
    """Diamonds in turn; then the halves of triangles and squares on both sides of each seam."""
    side = side_of_diamond(form.width)
    across = side / sqrt(2)
    tip, inner, corner = (side + across, across), (across, across), (side + across, side + across)
    low = ((side, 0.0), (side + across, 0.0), tip)
    high = (inner, tip, corner)
    halves = (low, _over_diagonal(low), high, _over_diagonal(high))
    return (*_points(form, side), *(shape for half in halves for shape in _around(form, half)))


def _corner(form: Form, side: float) -> Polygon:
    """The three corners of the upper right square that lie on the block's edge."""
    half = form.width / 2
    return ((half, half - side), (half, half), (half - side, half))


def _over_diagonal(polygon: Polygon) -> Polygon:
    """Mirrored in the rising diagonal, still counter-clockwise."""
    return tuple((y, x) for x, y in polygon[::-1])


def _points(form: Form, side: float) -> Shapes:
    one = diamond(side, 45)
    return tuple((k % 2, _home(form, placed(one, turned(45.0 * k)))) for k in range(POINTS))


def _around(form: Form, polygon: Polygon) -> Shapes:
    return tuple((BACKGROUND, _home(form, placed(polygon, turned(90.0 * k)))) for k in range(4))


def _home(form: Form, polygon: Polygon) -> Polygon:
    """From a frame about the middle of the block to its lower left corner."""
    return placed(polygon, moved(form.width / 2, form.width / 2))


USES = ("first points", "second points", "background")

STAR = Kind(
    key="star8",
    name="eight-pointed star",
    fabrics=USES,
    shapes=shapes,
    patches=16,
    wanted=square_only,
)

WEDGE_STAR = Kind(
    key="star8-wedges",
    name="eight-pointed star of wedges",
    fabrics=USES,
    shapes=wedges,
    patches=24,
    wanted=square_only,
)
