"""Stack, sew, cut, open: the one primitive behind nearly every way of making a unit.

Cloths lie face down on a base. Lines of stitching go through all of them, then lines of cutting. In each
region between the cuts every sewn top opens about its own longest line of stitching, the deeper side of
the base stays, and any other stitching must lie within the allowance (those stitches are picked out).
What is not sewn falls away. Faces are convex, which straight cuts keep so.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

from piecewright.bench.cloth import Cloth, Face, Seam, SeamSize, clipped_seams, shifted
from piecewright.geometry.isometry import Isometry, folded
from piecewright.geometry.point import Point, add, cross, distance, dot, scale, side_of, sub, unit
from piecewright.geometry.polygon import (
    Line,
    Polygon,
    area,
    bounds,
    centroid,
    clip,
    clip_segment,
    grown,
    joined_outline,
    overlap_area,
    placed,
)
from piecewright.measure.tolerance import AS_DRAWN, WELD
from piecewright.problems import Problem, Refused

Cut = tuple[Point, Point, int]  # a cut line and the side of it that is kept: 1 left, -1 right
Loose = tuple[tuple[str, float], ...]  # areas of loose cloth with their fabrics


@dataclass(frozen=True)
class Opened:
    """What a region of the stack became: a sewn cloth, or the area of loose cloth of each fabric."""

    cloth: Cloth | None
    loose: Loose
    centre: Point
    stitched: float = 0.0


@dataclass(frozen=True)
class _Layer:
    """A cloth in the stack: its faces and seams in table coordinates as they lie (tops face down).

    `shreds` is cloth that shows nowhere, since it lies in an allowance.
    """

    faces: tuple[Face, ...]
    seams: tuple[Seam, ...]
    place: Isometry
    shreds: Loose = ()


def _layer(cloth: Cloth, place: Isometry) -> _Layer:
    faces = tuple(_lying(face, place) for face in cloth.faces)
    return _Layer(faces, tuple(s.placed(place) for s in cloth.seams), place, cloth.all_caught)


def _lying(face: Face, place: Isometry) -> Face:
    """A face turned, moved and perhaps turned over; its grain goes with it."""
    grain = place.degrees + (-face.grain if place.mirrored else face.grain)
    return Face(face.fabric, placed(face.seen, place), placed(face.flat, place), grain % 360)


def _cut(layer: _Layer, cuts: Sequence[Cut], regions: int = 1) -> _Layer:
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
        seams = _seams_beside(seams, a, b, keep)
    return _Layer(tuple(faces), seams, layer.place, tuple(shreds))


def _cut_polygon(polygon: Polygon, cuts: Sequence[Cut]) -> Polygon:
    for a, b, keep in cuts:
        polygon = clip(polygon, a, b, keep)
    return polygon


def _seams_beside(seams: tuple[Seam, ...], a: Point, b: Point, keep: int) -> tuple[Seam, ...]:
    """The seams on one side of an endless line."""
    if not seams:
        return ()
    x0, y0, x1, y1 = bounds([p for s in seams for p in s.path])
    reach = 10 * (1 + x1 - x0 + y1 - y0 + distance(a, (x0, y0)))
    along = scale(unit(sub(b, a)), reach)
    across = scale((-along[1], along[0]), keep)
    corners = (sub(a, along), add(a, along), add(add(a, along), across), add(sub(a, along), across))
    return clipped_seams(seams, corners if keep > 0 else corners[::-1])


def _regions(layers: Sequence[_Layer], cuts: Sequence[Line]) -> list[list[Cut]]:
    """The regions between the cut lines that hold any cloth, as lists of cuts."""
    regions: list[list[Cut]] = [[]]
    for a, b in cuts:
        regions = [[*region, (a, b, keep)] for region in regions for keep in (1, -1)]
        regions = [
            r for r in regions if any(_cut_polygon(f.flat, r) for layer in layers for f in layer.faces)
        ]
    return regions


def stack(
    base: Cloth,
    tops: Sequence[tuple[Cloth, Isometry]],
    sew: Sequence[Line],
    cut: Sequence[Line],
    name: str,
    seam: SeamSize,
) -> list[Opened]:
    """Every region of a stack after sewing, cutting and opening, lowest centre first, then left-most.

    `tops` lie by mirroring isometries. Lines of `sew` are where the needle goes; `cut` lines are endless.
    Raises Refused where a part cannot be opened flat.
    """
    whole = [_layer(base, Isometry()), *(_layer(top, place) for top, place in tops)]
    opened = []
    regions = _regions(whole, cut)
    for region in regions:
        layers = [_cut(layer, region, len(regions)) for layer in whole]
        stitches = [s for line in sew if (s := _stitch_in(line, region, layers))]
        opened.append(_open(layers, stitches, name, seam))
    return sorted(opened, key=lambda o: (round(o.centre[1], 4), round(o.centre[0], 4)))


def slice_apart(cloth: Cloth, cut: Sequence[Line], seam: SeamSize) -> list[Cloth]:
    """The parts of a cloth cut along endless lines, lowest centre first, then left-most."""
    layer = _layer(cloth, Isometry())
    cut_layers = [_cut(layer, region) for region in _regions([layer], cut)]
    parts = [_assembled(part, seam) for part in cut_layers if part.faces]
    return sorted(parts, key=lambda c: (round(centroid(c.raw)[1], 4), round(centroid(c.raw)[0], 4)))


def _assembled(layer: _Layer, seam: SeamSize) -> Cloth:
    raw = joined_outline([face.seen for face in layer.faces])
    return Cloth(raw, grown(raw, -seam.take_up), layer.faces, (), layer.seams)


def _stitch_in(line: Line, region: Sequence[Cut], layers: Sequence[_Layer]) -> Line | None:
    """The part of a line of stitching that lies in a region."""
    x0, y0, x1, y1 = bounds([p for layer in layers for f in layer.faces for p in f.flat] or [(0.0, 0.0)])
    window: Polygon = ((x0 - 1, y0 - 1), (x1 + 1, y0 - 1), (x1 + 1, y1 + 1), (x0 - 1, y1 + 1))
    for a, b, keep in region:
        window = clip(window, a, b, keep)
    return clip_segment(line, window) if window else None


def _stretches(line: Line, layer: _Layer) -> list[Line]:
    """The parts of a line of stitching that go through a layer."""
    return [inside for face in layer.faces if (inside := clip_segment(line, face.seen))]


def _through_both(line: Line, base: _Layer, top: _Layer) -> float:
    """How much of a line goes through base and top together."""
    along = unit(sub(line[1], line[0]))
    total = 0.0
    for p in _stretches(line, base):
        for q in _stretches(line, top):
            a, b = sorted(dot(along, point) for point in p)
            c, d = sorted(dot(along, point) for point in q)
            total += max(0.0, min(b, d) - max(a, c))
    return total


def _open(layers: Sequence[_Layer], stitches: Sequence[Line], name: str, seam: SeamSize) -> Opened:
    base, *tops = layers
    sewn_tops, loose = [], []
    for top in tops:
        lines = _by_line([(line, _through_both(line, base, top)) for line in stitches])
        if lines:
            sewn_tops.append((top, lines))
        else:
            loose.append(top)
    middle = _centre([face.flat for face in base.faces or [f for top in tops for f in top.faces]])
    if not sewn_tops:
        return Opened(None, _loose_cloth(layers), middle)
    return _fold_back(base, sewn_tops, loose, middle, name, seam)


def _centre(polygons: Sequence[Polygon]) -> Point:
    if not polygons:
        return (0.0, 0.0)
    weights = [area(p) for p in polygons]
    centres = [centroid(p) for p in polygons]
    whole = sum(weights)
    return (
        sum(c[0] * w for c, w in zip(centres, weights, strict=True)) / whole,
        sum(c[1] * w for c, w in zip(centres, weights, strict=True)) / whole,
    )


def _loose_cloth(layers: Sequence[_Layer]) -> Loose:
    whole = [(face.fabric, area(face.flat)) for layer in layers for face in layer.faces]
    return (*whole, *(shred for layer in layers for shred in layer.shreds))


def _by_line(sewn: list[tuple[Line, float]]) -> list[tuple[Line, float]]:
    """The lines of stitching with their lengths, longest first; stitches on one line count together."""
    lines: list[tuple[Line, float]] = []
    for line, length in sewn:
        if length <= WELD:
            continue
        for k, (other, so_far) in enumerate(lines):
            if all(abs(side_of(p, *other)) <= WELD for p in line):
                lines[k] = (other, so_far + length)
                break
        else:
            lines.append((line, length))
    return sorted(lines, key=lambda pair: -pair[1])


def _fold_back(
    base: _Layer,
    tops: Sequence[tuple[_Layer, list[tuple[Line, float]]]],
    loose: Sequence[_Layer],
    middle: Point,
    name: str,
    seam: SeamSize,
) -> Opened:
    folds = []
    for top, lines in tops:
        line = lines[0][0]
        keep = _deeper_side(base, line)
        if _deeper_side(top, line) != keep:
            raise Refused(Problem("a cloth would open away from its base", do="Turn it before sewing."))
        fold = shifted(line, keep * seam.fold)
        for other, _ in lines[1:]:
            if any(keep * side_of(p, *fold) > WELD for p in other):
                raise Refused(
                    Problem("a second line of stitching holds the cloth shut", do="Sew it after opening.")
                )
        folds.append((top, fold, keep))
    kept = base
    for _, fold, keep in folds:
        kept = _beside(kept, fold, keep)
    opened_seams = list(kept.seams)
    shown = [f.seen for f in kept.faces]
    opened_tops = [_beside(top, fold, keep) for top, fold, keep in folds]
    faces, laid_open = list(kept.faces), []
    fold_lines: list[Line] = []
    for top, (_, fold, keep) in zip(opened_tops, folds, strict=True):
        over = folded(*fold)
        laid_open.append([_lying(face, over) for face in top.faces])
        path = _common_stretch(shown, [f.seen for f in laid_open[-1]], fold, keep)
        opened_seams += [s.placed(over) for s in top.seams]
        opened_seams.append(Seam(f"{name}.{_number(fold, fold_lines)}", path))
        faces += laid_open[-1]
    raw = _outline([f.seen for f in faces])
    net = grown(raw, -seam.take_up)
    _refuse_overlap(laid_open, net)
    caught = tuple(shred for layer in (kept, *opened_tops) for shred in layer.shreds)
    cloth = Cloth(raw, net, tuple(faces), (), tuple(opened_seams), caught)
    stitched = sum(length for _, lines in tops for _, length in lines)
    return Opened(cloth, _loose_cloth(loose), middle, stitched)


def _outline(polygons: Sequence[Polygon]) -> Polygon:
    try:
        return joined_outline(polygons)
    except ValueError as apart:
        raise Refused(
            Problem("the cloths do not lie side by side once opened", do="Lay the top otherwise.")
        ) from apart


def _refuse_overlap(laid_open: Sequence[Sequence[Face]], net: Polygon) -> None:
    """Opened tops may lie over one another within the seam allowance only."""
    for one, other in combinations(laid_open, 2) if net else ():
        if any(overlap_area(p.seen, q.seen, net) > AS_DRAWN for p in one for q in other):
            raise Refused(
                Problem(
                    "two cloths would lie over one another once opened", do="Sew one, open it, then the next."
                )
            )


def _number(fold: Line, so_far: list[Line]) -> int:
    """The number of a fold line; tops that open about one line share it, for it is one seam."""
    for k, line in enumerate(so_far):
        if all(abs(side_of(p, *line)) <= WELD for p in fold):
            return k
    so_far.append(fold)
    return len(so_far) - 1


def _deeper_side(layer: _Layer, line: Line) -> int:
    depths = [side_of(p, *line) for face in layer.faces for p in face.seen]
    return 1 if max(depths) >= -min(depths) else -1


def _beside(layer: _Layer, fold: Line, keep: int) -> _Layer:
    """What shows of a layer beside a fold; a face that lies behind it altogether is caught in the seam."""
    faces, shreds = [], list(layer.shreds)
    for face in layer.faces:
        seen = clip(face.seen, *fold, keep)
        if seen:
            faces.append(Face(face.fabric, seen, face.flat, face.grain))
        else:
            shreds.append((face.fabric, area(face.flat)))
    return _Layer(tuple(faces), _seams_beside(layer.seams, *fold, keep), layer.place, tuple(shreds))


def _common_stretch(
    base: Sequence[Polygon], top: Sequence[Polygon], fold: Line, keep: int
) -> tuple[Point, ...]:
    """The part of the fold where base and opened top lie side by side, base on its left."""
    a, b = fold if keep > 0 else fold[::-1]
    along = unit(sub(b, a))

    def reach(polygons: Sequence[Polygon]) -> tuple[float, float]:
        on = [dot(along, sub(p, a)) for q in polygons for p in q if abs(cross(along, sub(p, a))) <= 10 * WELD]
        return (min(on), max(on)) if on else (0.0, 0.0)

    (c, d), (e, f) = reach(base), reach(top)
    return add(a, scale(along, max(c, e))), add(a, scale(along, min(d, f)))
