"""One place where shapes do not tile a block: a *misfit*.

That is a hole, an overlap, a corner that misses the edge it was meant to lie on, a sliver, something outside
the block, an outline that crosses itself. Sizes are finished inches.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import shapely
from shapely.geometry import Polygon as ShapelyPolygon

from piecewright.geometry.point import Point
from piecewright.geometry.polygon import Polygon
from piecewright.measure.length import inches
from piecewright.measure.tolerance import AS_DRAWN

# A finished patch narrower than this disappears between its two seams.
NARROWEST = float(inches("1/8"))

# A gap or an overlap narrower than this is a corner that misses an edge rather than a patch left out.
THIN = float(inches("1/4"))

Kind = Literal[
    "hole", "overlap", "corner gap", "corner overlap", "near miss", "sliver", "outside", "crossing"
]


@dataclass(frozen=True)
class Misfit:
    """One place where shapes do not tile a block.

    `patches` are the numbers of the shapes concerned (from 0); of a corner that misses an edge first the one
    with the corner, and none for an edge of the block. `size` is how wide it is, or how far something is off.
    `region` is the outline of a hole or an overlap.
    """

    kind: Kind
    place: Point
    patches: tuple[int, ...] = ()
    size: float = 0.0
    region: Polygon = ()


def region_misfit(region: ShapelyPolygon, kind: Kind, patches: tuple[int, ...]) -> Misfit:
    """The misfit that a region of holes or overlaps is, placed in its midst."""
    place = region.buffer(-AS_DRAWN / 2).representative_point()
    return Misfit(kind, (float(place.x), float(place.y)), patches, width_of(region), outline_of(region))


def width_of(region: ShapelyPolygon) -> float:
    """How wide a region is at its widest: the circle that fits into it."""
    return 2 * float(shapely.maximum_inscribed_circle(region).length)


def outline_of(region: ShapelyPolygon) -> Polygon:
    """The outer corners of a region."""
    return tuple((float(x), float(y)) for x, y in region.exterior.coords[:-1])
