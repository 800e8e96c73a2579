"""An independent checker of shapes: reads what they are cut from and says what is wrong with it.

It shares nothing with the placing but the types, and measures polygons with Shapely.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from itertools import pairwise
from math import atan2, degrees, hypot, isclose

from shapely import LineString, STRtree, box
from shapely import Polygon as ShapelyPolygon

from piecewright.cutting.patterns import Pattern
from piecewright.cutting.shapes.wanted import CutStrip, ShapeCut, Turning
from piecewright.geometry.polygon import Line, Polygon
from piecewright.problems import Problem

CLOSE = 1e-5
TURNED_BY: dict[Turning, tuple[int, ...]] = {"any": (0, 90, 180, 270), "end for end": (0, 180), "none": (0,)}


def check_shape_cuts(cuts: Sequence[ShapeCut], patterns: Sequence[Pattern] | None = None) -> list[Problem]:
    """Everything wrong with the shapes; with the patterns of their layout, its strips are counted as well."""
    problems = [problem for cut in cuts for problem in _check_cut(cut)]
    if patterns is not None:
        got: Counter[str] = Counter()
        for pattern in patterns:
            for section in pattern.sections:
                got[section.name] += section.count * section.stack * pattern.times
        for strip in (strip for cut in cuts for strip in cut.strips):
            if got[strip.name] != strip.count:
                what = f"expected {strip.count} of {strip.name!r} in the layout, got {got[strip.name]}."
                problems.append(Problem(what, strip.name))
    return problems


def _check_cut(cut: ShapeCut) -> list[Problem]:
    demand, found = cut.demand, []
    given = sum(len(strip.pieces) * strip.count for strip in cut.strips)
    spare = 0 if demand.cut_as == "in strips" else 3
    if not demand.count <= given <= demand.count + spare:
        found.append(Problem(f"expected {demand.count} pieces of {demand.name!r}, got {given}.", demand.name))
    for strip in cut.strips:
        found += _check_inside(strip)
        found += _check_lines(strip)
        for number, piece in enumerate(strip.pieces, 1):
            if not _is_turned(demand.outline, piece, TURNED_BY[demand.turning]):
                what = f"expected piece {number} as {demand.name!r} is, turned as it may be: it is not."
                found.append(Problem(what, strip.name))
    return found


def _check_inside(strip: CutStrip) -> list[Problem]:
    found = []
    cloth = box(0.0, 0.0, float(strip.width), float(strip.height)).buffer(CLOSE)
    pieces = [ShapelyPolygon(piece) for piece in strip.pieces]
    if not all(map(cloth.covers, pieces)):
        found.append(Problem("expected every piece inside its strip.", strip.name))
    firsts, seconds = STRtree(pieces).query(pieces, predicate="intersects")
    for one, other in zip(firsts, seconds, strict=True):
        if one < other and pieces[one].intersection(pieces[other]).area > CLOSE:
            found.append(Problem(f"pieces {one + 1} and {other + 1} overlap.", strip.name))
    return found


def _check_lines(strip: CutStrip) -> list[Problem]:
    """Cuts go across the whole strip: each side of a piece lies on one, or on an edge; none goes through."""
    found = []
    cuts = [_endless(line) for line in strip.cuts]
    cloth = box(0.0, 0.0, float(strip.width), float(strip.height)).exterior
    lines = [*cuts, cloth]
    for number, piece in enumerate(strip.pieces, 1):
        inside = ShapelyPolygon(piece).buffer(-CLOSE)
        if any(line.intersects(inside) for line in cuts):
            found.append(Problem(f"a cut goes through piece {number}.", strip.name))
        for a, b in pairwise((*piece, piece[0])):
            side = LineString((a, b))
            if not any(line.buffer(CLOSE).covers(side) for line in lines):
                found.append(Problem(f"expected a cut along each side of piece {number}.", strip.name))
    return found


def _endless(line: Line) -> LineString:
    (x0, y0), (x1, y1) = line
    far = 1000 / hypot(x1 - x0, y1 - y0)
    dx, dy = (x1 - x0) * far, (y1 - y0) * far
    return LineString([(x0 - dx, y0 - dy), (x1 + dx, y1 + dy)])


def _is_turned(outline: Polygon, piece: Polygon, ways: tuple[int, ...]) -> bool:
    """Whether a piece is the outline, moved and turned by one of these angles, and never mirrored."""
    sides, others = _walk(outline), _walk(piece)
    return len(sides) == len(others) and any(
        all(
            isclose(one, other, abs_tol=CLOSE) and abs((way - wanted - turn + 180) % 360 - 180) < 1e-3
            for (one, wanted), (other, way) in zip(sides, others[k:] + others[:k], strict=True)
        )
        for k in range(len(sides))
        for turn in ways
    )


def _walk(polygon: Polygon) -> list[tuple[float, float]]:
    """The length and the direction, in degrees, of each side in turn."""
    ways = [(b[0] - a[0], b[1] - a[1]) for a, b in pairwise((*polygon, polygon[0]))]
    return [(hypot(x, y), degrees(atan2(y, x))) for x, y in ways]
