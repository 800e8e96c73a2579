"""Layers of cloth in a sewn thing, counted from the real allowances as they lie.

Terms:
- *layers*: how many sheets of cloth lie over one another at a place;
- *bulk*: how many of them there are where a seam is thickest.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
import shapely
from shapely import LineString
from shapely import Polygon as ShapelyPolygon

from piecewright.bench.cloth import Cloth, SeamSize, Towards
from piecewright.bench.joining import Joining, join
from piecewright.bench.stretches import Stretch
from piecewright.geometry.point import Point
from piecewright.geometry.polygon import Polygon
from piecewright.pressing.allowances import sheets_of, take_up_of

GRID = 1e-5
"""Inches: edges nearer than this are one edge of the map."""

SLIVER = 1e-5
"""Square inches: a smaller place between edges is a slip of arithmetic."""


@dataclass(frozen=True)
class Place:
    """A place where so many layers lie: its outer edge, and the holes in it."""

    layers: int
    outline: Polygon
    holes: tuple[Polygon, ...] = ()

    @property
    def shape(self) -> ShapelyPolygon:
        """The place as Shapely has it."""
        return ShapelyPolygon(self.outline, self.holes)


@dataclass(frozen=True)
class Layers:
    """A map of layers: `places` side by side, the thinnest first; `most` lie at the points of `thickest`."""

    places: tuple[Place, ...]
    most: int
    thickest: tuple[Point, ...]

    def at(self, point: Point) -> int:
        """How many layers lie at a point; on the line between two places, those of the thicker one."""
        here = shapely.Point(point)
        found = (place.layers for place in self.places if place.shape.intersects(here))
        return max(found, default=0)


@lru_cache(maxsize=256)
def layers_of(cloth: Cloth) -> Layers:
    """The map of layers of a sewn thing, allowances included; inches, in the frame of the cloth."""
    sheets = sheets_of(cloth)
    cells, counts = _overlay([ShapelyPolygon(sheet.outline) for sheet in sheets])
    most = int(counts.max(initial=0))
    places = tuple(place for count in range(1, most + 1) for place in _places(count, cells[counts == count]))
    thickest = [_middle(place) for place in places if place.layers == most]
    return Layers(places, most, tuple(thickest))


def _overlay(shapes: Sequence[ShapelyPolygon]) -> tuple[np.ndarray, np.ndarray]:
    """The cells between the edges of all shapes, and how many shapes cover each."""
    lines = shapely.unary_union([shape.exterior for shape in shapes], grid_size=GRID)
    cells = np.array(shapely.get_parts(shapely.polygonize([lines])))
    cells = cells[shapely.area(cells) > SLIVER]
    inner = shapely.point_on_surface(cells)
    found, _ = shapely.STRtree(list(shapes)).query(inner, predicate="intersects")
    return cells, np.bincount(found, minlength=len(cells))


def _places(count: int, cells: np.ndarray) -> list[Place]:
    """The cells with so many layers, joined where they touch."""
    parts = shapely.get_parts(shapely.unary_union(cells, grid_size=GRID))
    return [
        Place(count, tuple(part.exterior.coords[:-1]), tuple(tuple(r.coords[:-1]) for r in part.interiors))
        for part in map(shapely.orient_polygons, parts)
        if part.geom_type == "Polygon"
    ]


def _middle(place: Place) -> Point:
    """The centre of a place, or a point of it where that lies outside."""
    shape = place.shape
    inside = shape.centroid if shape.contains(shape.centroid) else shape.point_on_surface()
    x, y = inside.coords[0]
    return x, y


@dataclass(frozen=True, slots=True)
class Bulk:
    """How many layers lie where a seam is thickest, pressed to its first cloth, its second, and open."""

    to_first: int
    to_second: int
    opened: int

    def more(self, towards: Towards) -> int:
        """How many layers one pressing has more than the thinnest of the two sides."""
        layers = {"first": self.to_first, "second": self.to_second, "open": self.opened}
        return max(layers[towards] - min(self.to_first, self.to_second), 0)


@lru_cache(maxsize=1024)
def bulk_of(first: Joining, second: Joining, seam: SeamSize, stretch: Stretch | None = None) -> Bulk:
    """The bulk of the seam that joins two cloths along their sides, for each way it may be pressed.

    Seams of the cloths that are not yet pressed count as lying open. Raises Refused where they do not join.
    """
    joined = join([first, second], "", seam, stretch)
    ways: tuple[Towards, ...] = ("first", "second", "open")
    return Bulk(*(_thickest(joined, way) for way in ways))


def _thickest(joined: Cloth, way: Towards) -> int:
    """How many layers lie at most along the only seam of a cloth, pressed one way."""
    (seam,) = joined.own_seams
    pressed = replace(seam, pressed=(way,) * len(seam.segments))
    sheets = sheets_of(replace(joined, own_seams=(pressed,), _ends={}))
    along = LineString(seam.path).buffer(take_up_of(joined), cap_style="flat")
    shapes = [shape for sheet in sheets if (shape := ShapelyPolygon(sheet.outline)).intersects(along)]
    _, counts = _overlay([part for shape in shapes for part in _inside(shape, along)])
    return int(counts.max(initial=0))


def _inside(shape: ShapelyPolygon, window: ShapelyPolygon) -> list[ShapelyPolygon]:
    parts = shapely.get_parts(shape.intersection(window))
    return [part for part in parts if part.geom_type == "Polygon" and part.area > SLIVER]
