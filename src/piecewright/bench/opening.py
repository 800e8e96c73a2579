"""Opening a region of a stack: every sewn top folds back about its own longest line of stitching."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from piecewright.bench.allowance import refuse_allowance
from piecewright.bench.cloth import Cloth, Seam, SeamSize, shifted
from piecewright.bench.layers import Layer, Loose, beside, lying, outline_of
from piecewright.geometry.isometry import folded
from piecewright.geometry.point import Point, add, cross, dot, scale, side_of, sub, unit, where_lines_meet
from piecewright.geometry.polygon import Line, Polygon, area, centroid, clip_segment, grown, length_inside
from piecewright.measure.tolerance import EDGE_MATCH, WELD
from piecewright.problems import Problem, Refused


@dataclass(frozen=True)
class Opened:
    """What a region of the stack became: a sewn cloth, or the area of loose cloth of each fabric."""

    cloth: Cloth | None
    loose: Loose
    centre: Point
    stitched: float = 0.0


def _stretches(line: Line, layer: Layer) -> list[Line]:
    """The parts of a line of stitching that go through a layer."""
    return [inside for face in layer.faces if (inside := clip_segment(line, face.seen))]


def _through_both(line: Line, base: Layer, top: Layer) -> float:
    """How much of a line goes through base and top together."""
    along = unit(sub(line[1], line[0]))
    total = 0.0
    for p in _stretches(line, base):
        for q in _stretches(line, top):
            a, b = sorted(dot(along, point) for point in p)
            c, d = sorted(dot(along, point) for point in q)
            total += max(0.0, min(b, d) - max(a, c))
    return total


def open_region(layers: Sequence[Layer], stitches: Sequence[Line], name: str, seam: SeamSize) -> Opened:
    """What a region becomes: the base is its first layer; `stitches` are the lines of stitching in it.

    Raises Refused where it cannot be opened flat.
    """
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


def _loose_cloth(layers: Sequence[Layer]) -> Loose:
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
    base: Layer,
    tops: Sequence[tuple[Layer, list[tuple[Line, float]]]],
    loose: Sequence[Layer],
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
        folds.append((top, shifted(line, keep * seam.fold), keep))
    kept = base
    for _, fold, keep in folds:
        kept = beside(kept, fold, keep)
    opened_seams = list(kept.seams)
    shown = [f.seen for f in kept.faces]
    opened_tops = [beside(top, fold, keep) for top, fold, keep in folds]
    faces = list(kept.faces)
    fold_lines: list[Line] = []
    paths: list[Line] = []
    for top, (_, fold, keep) in zip(opened_tops, folds, strict=True):
        over = folded(*fold)
        laid_open = [lying(face, over) for face in top.faces]
        path = _common_stretch(shown, [f.seen for f in laid_open], fold, keep)
        opened_seams += [s.placed(over) for s in top.seams]
        opened_seams.append(Seam(f"{name}.{_number(fold, fold_lines)}", path))
        paths.append((path[0], path[1]))
        faces += laid_open
    raw = outline_of(faces)
    net = grown(raw, -seam.take_up)
    for (top, lines), (_, fold, keep), path in zip(tops, folds, paths, strict=True):
        _refuse_held_shut([line for line, _ in lines[1:]], fold, keep, net)
        refuse_allowance(path, net, lines[0][0], [_flat(base), _flat(top)], seam)
    caught = tuple(shred for layer in (kept, *opened_tops) for shred in layer.shreds)
    cloth = Cloth(raw, net, tuple(faces), (), tuple(opened_seams), caught)
    stitched = sum(length for _, lines in tops for _, length in lines)
    return Opened(cloth, _loose_cloth(loose), middle, stitched)


def _flat(layer: Layer) -> list[Polygon]:
    return [face.flat for face in layer.faces]


def _refuse_held_shut(others: Sequence[Line], fold: Line, keep: int, net: Polygon) -> None:
    """Other stitching lies behind the fold or within the allowance around the unit: that is picked out."""
    over = folded(*fold)
    for a, b in others:
        if max(keep * side_of(p, *fold) for p in (a, b)) <= WELD:
            continue
        in_sight = _in_sight((a, b), fold, keep)
        ways = (in_sight, (over.at(in_sight[0]), over.at(in_sight[1])))
        if not net or any(length_inside(line, net) > EDGE_MATCH for line in ways):
            raise Refused(
                Problem("a second line of stitching holds the cloth shut", do="Sew it after opening.")
            )


def _in_sight(line: Line, fold: Line, keep: int) -> Line:
    """The part of a line on the kept side of a fold; some of it is there."""
    inside = [keep * side_of(p, *fold) >= 0 for p in line]
    crossing = where_lines_meet(*line, *fold)
    if all(inside) or crossing is None:
        return line
    return (line[0], crossing) if inside[0] else (crossing, line[1])


def _number(fold: Line, so_far: list[Line]) -> int:
    """The number of a fold line; tops that open about one line share it, for it is one seam."""
    for k, line in enumerate(so_far):
        if all(abs(side_of(p, *line)) <= WELD for p in fold):
            return k
    so_far.append(fold)
    return len(so_far) - 1


def _deeper_side(layer: Layer, line: Line) -> int:
    depths = [side_of(p, *line) for face in layer.faces for p in face.seen]
    return 1 if max(depths) >= -min(depths) else -1


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
