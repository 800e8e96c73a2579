"""Layers of a stack: cloths as they lie on the table, face up or face down, and what a cut leaves of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from piecewright.bench.cloth import Cloth, Face, Seam
from piecewright.geometry.isometry import Isometry
from piecewright.geometry.point import Point, add, distance, scale, sub, unit
from piecewright.geometry.polygon import Line, Polygon, area, clip, joined_outline, placed
from piecewright.measure.tolerance import WELD
from piecewright.problems import Problem, Refused

Cut = tuple[Point, Point, int]  # a cut line and the side of it that is kept: 1 left, -1 right
Loose = tuple[tuple[str, float], ...]  # areas of loose cloth with their fabrics


@dataclass(frozen=True)
class Layer:
    """A cloth in the stack: its faces and seams in table coordinates as they lie (tops face down).

    `shreds` is cloth that shows nowhere, since it lies in an allowance.
    """

    faces: tuple[Face, ...]
    seams: tuple[Seam, ...]
    place: Isometry
    shreds: Loose = ()


def layer_of(cloth: Cloth, place: Isometry) -> Layer:
    """The cloth as it lies at a place."""
    faces = tuple(lying(face, place) for face in cloth.faces)
    return Layer(faces, tuple(s.placed(place) for s in cloth.seams), place, cloth.all_caught)


def lying(face: Face, place: Isometry) -> Face:
    """A face turned, moved and perhaps turned over; its grain goes with it."""
    grain = place.degrees + (-face.grain if place.mirrored else face.grain)
    return Face(face.fabric, placed(face.seen, place), placed(face.flat, place), grain % 360)


def cut_layer(layer: Layer, cuts: Sequence[Cut], regions: int = 1) -> Layer:
    """The part of a layer in one region of so many; what was caught before is shared out evenly."""
    faces, shreds = [], [(fabric, more / regions) for fabric, more in layer.shreds]
    for face in layer.faces:
        seen, flat = _cut_polygon(face.seen, cuts), _cut_polygon(face.flat, cuts)
        if seen:
            faces.append(Face(face.fabric, seen, flat or seen, face.grain))
        elif flat:
            shreds.append((face.fabric, area(flat)))
    seams = layer.seams
    for a, b, keep in cuts:
        seams = seams_beside(seams, a, b, keep)
    return Layer(tuple(faces), seams, layer.place, tuple(shreds))


def _cut_polygon(polygon: Polygon, cuts: Sequence[Cut]) -> Polygon:
    for a, b, keep in cuts:
        polygon = clip(polygon, a, b, keep)
        if not polygon:
            break
    return polygon


def seams_beside(seams: tuple[Seam, ...], a: Point, b: Point, keep: int) -> tuple[Seam, ...]:
    """The seams on one side of an endless line."""
    (x, y), (ux, uy) = a, unit(sub(b, a))
    kept = []
    for seam in seams:
        for k, (p, q) in enumerate(seam.segments):
            d = keep * (ux * (p[1] - y) - uy * (p[0] - x))
            e = keep * (ux * (q[1] - y) - uy * (q[0] - x))
            if max(d, e) < -WELD:
                continue
            crossing = add(p, scale(sub(q, p), d / (d - e))) if d * e < 0 and abs(d - e) > WELD else None
            start = crossing if crossing and d < 0 else p
            end = crossing if crossing and e < 0 else q
            if distance(start, end) > WELD:
                kept.append(Seam(seam.name, (start, end), seam.pressed[k : k + 1]))
    return tuple(kept)


def regions_between(layers: Sequence[Layer], cuts: Sequence[Line]) -> list[list[Cut]]:
    """The regions between the cut lines that hold any cloth, as lists of cuts."""
    regions: list[tuple[list[Cut], list[Polygon]]] = [([], [f.flat for layer in layers for f in layer.faces])]
    for a, b in cuts:
        regions = [
            ([*region, (a, b, keep)], inside)
            for region, pieces in regions
            for keep in (1, -1)
            if (inside := [part for piece in pieces if (part := clip(piece, a, b, keep))])
        ]
    return [region for region, _ in regions]


def beside(layer: Layer, fold: Line, keep: int) -> Layer:
    """What shows of a layer beside a fold; a face that lies behind it altogether is caught in the seam."""
    faces, shreds = [], list(layer.shreds)
    for face in layer.faces:
        seen = clip(face.seen, *fold, keep)
        if seen:
            faces.append(Face(face.fabric, seen, face.flat, face.grain))
        else:
            shreds.append((face.fabric, area(face.flat)))
    return Layer(tuple(faces), seams_beside(layer.seams, *fold, keep), layer.place, tuple(shreds))


def outline_of(faces: Sequence[Face]) -> Polygon:
    """The raw outline of faces that lie side by side; raises Refused where they do not."""
    try:
        return joined_outline([face.seen for face in faces])
    except ValueError as apart:
        raise Refused(
            Problem("the cloths would not lie side by side", do="Lay the top, or the cut, elsewhere.")
        ) from apart
