"""The allowance beside a seam that was sewn in a stack: whether the cut left it as wide as it must be.

Behind every stitch that will show lies cloth of both layers, as far as the needle's distance; what lies
farther behind is trimmed away, so that it is not felt through the quilt.
"""

from __future__ import annotations

from collections.abc import Sequence

import shapely
from shapely import LineString, Point, unary_union
from shapely import Polygon as ShapelyPolygon

from piecewright.bench.cloth import SeamSize, shifted
from piecewright.geometry.polygon import Line, Polygon
from piecewright.measure.tolerance import EDGE_MATCH
from piecewright.problems import Problem, Refused

FAR = 1000.0


def refuse_allowance(
    fold: Line, net: Polygon, stitch: Line, layers: Sequence[Sequence[Polygon]], seam: SeamSize
) -> None:
    """Raises Refused where a seam is not sewn to its end, or its allowance is too narrow or too wide.

    `fold` has what stays of the base on its left; `net` is the outline of the opened cloth; `stitch` where
    the needle went; `layers` are the flat pieces of the base and of the top as they lay while being sewn.
    """
    shown = _inside(fold, net)
    if shown is None:
        return
    sewn = shifted(shown, -seam.fold)
    unsewn = LineString(sewn).difference(LineString(stitch).buffer(EDGE_MATCH)).length
    if unsewn > EDGE_MATCH:
        raise Refused(
            Problem(f"{unsewn:.4f} in of the seam that will show are not sewn", do="Sew to the end.")
        )
    beside = ShapelyPolygon([*sewn, *shifted(sewn, -seam.needle)[::-1]])
    for pieces in layers:
        cloth = unary_union([ShapelyPolygon(piece) for piece in pieces])
        if not cloth.buffer(EDGE_MATCH).covers(beside):
            found = LineString(sewn).distance(cloth.boundary)
            raise Refused(_wrong(found, seam, "Cut farther from the seam."))
        behind = shifted(sewn, -seam.needle - 2 * EDGE_MATCH)
        beyond = cloth.intersection(ShapelyPolygon([*behind, *shifted(behind, -FAR)[::-1]]))
        if beyond.area > EDGE_MATCH * LineString(sewn).length:
            found = seam.needle + beyond.hausdorff_distance(LineString(behind))
            raise Refused(_wrong(found, seam, "Trim what lies behind the seam."))


def _inside(fold: Line, net: Polygon) -> Line | None:
    """The part of a seam inside an outline, which need not be convex, or None."""
    if not net:
        return None
    inside = LineString(fold).intersection(shapely.make_valid(ShapelyPolygon(net)))
    if inside.length <= EDGE_MATCH:
        return None
    ends = sorted((LineString(fold).project(Point(p)), p) for p in shapely.get_coordinates(inside).tolist())
    (_, (ax, ay)), (_, (bx, by)) = ends[0], ends[-1]
    return (ax, ay), (bx, by)


def _wrong(found: float, seam: SeamSize, remedy: str) -> Problem:
    return Problem(
        f"the allowance beside the seam would be {found:.4f} in, {seam.needle:.4f} in was expected", do=remedy
    )
