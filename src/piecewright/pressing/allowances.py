"""How the cloth of a sewn thing lies: every allowance folded back, or left flat, at the seam that holds it.

Terms:
- *sheet*: a stretch of one piece of cloth that lies in one plane; what shows, or an allowance behind it;
- *owner*: what the piece of a sheet shows once all is finished;
- *bundle*: the sheets that have been sewn together so far.

Towards the first cloth both allowances lie under the first: its own is folded back, the other stays flat.
Pressed open each is folded back. What an earlier seam has folded is caught in a later one and folded with it.
Seams are taken in the order of sewing; a seam that is not yet pressed lies open, one pressed either way to
its first cloth. Where a seam changes side the stitches that cross its allowance are picked out, so that there
each piece follows its own side.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import shapely
from shapely import Polygon as ShapelyPolygon

from piecewright.bench.cloth import Cloth, Seam
from piecewright.geometry.isometry import Isometry, folded
from piecewright.geometry.point import Point, side_of
from piecewright.geometry.polygon import Line, Polygon, bounds, centroid, clip_to, edges, placed
from piecewright.pressing.beyond import beyond, is_beside

SMALL = 1e-6
"""Square inches: less than this of a sheet is a slip of arithmetic."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """A stretch of cloth that lies flat; `over` when its right side looks to the back.

    `allowance`: it lies behind a seam, and is not seen from the front.
    """

    fabric: str
    outline: Polygon
    owner: Polygon
    over: bool = False
    allowance: bool = False

    def placed(self, place: Isometry) -> Sheet:
        """The sheet after a turn and a move."""
        outline, owner = placed(self.outline, place), placed(self.owner, place)
        return Sheet(self.fabric, outline, owner, self.over, self.allowance)

    def folded(self, line: Line) -> Sheet:
        """The sheet folded over a line."""
        return Sheet(self.fabric, placed(self.outline, folded(*line)), self.owner, not self.over, True)


Bundle = tuple[Sheet, ...]


@lru_cache(maxsize=512)
def sheets_of(cloth: Cloth) -> Bundle:
    """Every sheet of a sewn thing, those in front first; inches, in the frame of the cloth."""
    bundles = _unsewn(cloth)
    take_up = take_up_of(cloth)
    for seam in cloth.own_seams:
        bundles = _sewn(bundles, seam, take_up)
    return tuple(sheet for bundle in bundles for sheet in bundle)


def take_up_of(cloth: Cloth) -> float:
    """How far the raw edge of a cloth lies outside its net outline; inches."""
    (ax, ay), (bx, by) = max(edges(cloth.net), key=lambda edge: abs(edge[1][0] - edge[0][0]))
    ring = ShapelyPolygon(cloth.raw).exterior
    return float(ring.distance(shapely.Point((ax + bx) / 2, (ay + by) / 2)))


def _unsewn(cloth: Cloth) -> list[Bundle]:
    """The parts, or the faces, before its own seams: each a bundle of its own."""
    found: list[Bundle] = []
    for face in cloth.own_faces:
        owner = cloth.net if face.seen == cloth.raw else clip_to(face.seen, cloth.net)
        found.append((Sheet(face.fabric, face.flat, owner or face.seen),))
    for part in cloth.parts:
        found.append(tuple(sheet.placed(part.place) for sheet in sheets_of(part.cloth)))
    return found


def _sewn(bundles: list[Bundle], seam: Seam, take_up: float) -> list[Bundle]:
    """The bundles after a seam: those with a piece on its left or on its right are one."""
    left, right = seam.path, seam.path[::-1]
    on_left = [k for k, bundle in enumerate(bundles) if any(is_beside(s.owner, left) for s in bundle)]
    on_right = [k for k, bundle in enumerate(bundles) if any(is_beside(s.owner, right) for s in bundle)]
    both = sorted({*on_left, *on_right})
    sheets = [sheet for k in both for sheet in bundles[k]]
    if set(on_left) & set(on_right):
        first = [sheet for sheet in sheets if _is_left(sheet, seam.path)]
        second = [sheet for sheet in sheets if not _is_left(sheet, seam.path)]
    else:
        first = [sheet for k in on_left for sheet in bundles[k]]
        second = [sheet for k in on_right for sheet in bundles[k]]
    ways = seam.pressed or ("open",) * len(seam.segments)
    one = _laid(first, left, [way != "second" for way in ways], take_up)
    other = _laid(second, right, [way in ("second", "open") for way in ways[::-1]], take_up)
    layers = (*one.inside, *other.inside, *one.back[::-1], *other.back[::-1], *one.flat, *other.flat)
    return [layers, *(bundle for k, bundle in enumerate(bundles) if k not in both)]


def _is_left(sheet: Sheet, path: Sequence[Point]) -> bool:
    """Whether a sheet belongs to the cloth on the left of a path, where both cloths are in one bundle."""
    start, end = path[0], path[1]
    return side_of(centroid(sheet.owner), start, end) > 0


@dataclass
class _Laid:
    """The sheets on one side of a seam: inside of it, folded back over it, and flat beyond it."""

    inside: list[Sheet]
    back: list[Sheet]
    flat: list[Sheet]


def _laid(sheets: Sequence[Sheet], path: Sequence[Point], back: Sequence[bool], take_up: float) -> _Laid:
    """The sheets of the cloth on the left of a path; `back` tells of each segment whether all folds back."""
    laid = _Laid([], [], [])
    for sheet in sheets:
        rest = [sheet]
        folds: list[Sheet] = []
        for number, line, zone in beyond(sheet.owner, sheet.outline, path, take_up):
            both = [_parted(part, zone) for part in rest]
            rest = [part for inside, _ in both for part in inside]
            outside = [part for _, parts in both for part in parts]
            if back[number]:
                # A corner that is folded over one seam still lies beyond the next.
                rest_of_folds = [_parted(part, zone) for part in folds]
                folds = [part for inside, _ in rest_of_folds for part in inside]
                folds += [part.folded(line) for _, parts in rest_of_folds for part in parts]
                folds += [part.folded(line) for part in outside]
            else:
                laid.flat += [replace(part, allowance=True) for part in outside]
        laid.inside += rest
        laid.back += folds
    return laid


def _parted(sheet: Sheet, zone: ShapelyPolygon) -> tuple[list[Sheet], list[Sheet]]:
    """A sheet in what lies outside a zone, and what lies in it."""
    left, low, right, high = bounds(sheet.outline)
    zx0, zy0, zx1, zy1 = zone.bounds
    if left >= zx1 or right <= zx0 or low >= zy1 or high <= zy0:
        return [sheet], []
    whole = ShapelyPolygon(sheet.outline)
    caught = _polygons(whole.intersection(zone))
    if not caught:
        return [sheet], []
    rest = _polygons(whole.difference(zone))
    return [replace(sheet, outline=p) for p in rest], [replace(sheet, outline=p) for p in caught]


def _polygons(shape: shapely.Geometry) -> list[Polygon]:
    """The polygons of a shape, each as its outer edge, counter-clockwise."""
    found = [part for part in shapely.get_parts(shape) if part.geom_type == "Polygon" and part.area > SMALL]
    return [tuple(shapely.orient_polygons(part).exterior.coords[:-1]) for part in found]
