"""Cutting an outline out of a cloth: round a template, or along the edge of a printed foundation."""

from __future__ import annotations

from collections.abc import Sequence

from shapely import Polygon as ShapelyPolygon

from piecewright.bench.cloth import Cloth, Face, SeamSize, clipped_seams, piece
from piecewright.geometry.point import Point
from piecewright.geometry.polygon import Polygon, area, bounds, clip_to, grown, is_convex
from piecewright.measure.tolerance import EDGE_MATCH, WELD
from piecewright.problems import Problem, Refused

MOST_CORNERS = 2000


def cut_out(cloth: Cloth, outline: Sequence[Point], seam: SeamSize) -> Cloth:
    """What lies inside an outline (inches, the cloth's own frame, counter-clockwise).

    Out of a flat piece any simple outline can be cut, out of a sewn cloth only a convex one. Raises Refused
    where the cloth does not cover it.
    """
    corners: Polygon = tuple((float(x), float(y)) for x, y in outline)
    if (
        not 3 <= len(corners) <= MOST_CORNERS
        or area(corners) <= EDGE_MATCH
        or not ShapelyPolygon(corners).is_valid
    ):
        raise Refused(
            Problem(f"a plain outline of 3 to {MOST_CORNERS} corners, counter-clockwise, was expected")
        )
    if not ShapelyPolygon(cloth.raw).buffer(10 * WELD).covers(ShapelyPolygon(corners)):
        width, height = cloth.size
        x0, y0, x1, y1 = bounds(corners)
        raise Refused(
            Problem(
                f"the cloth ({width:.4f} x {height:.4f} in) does not reach as far as what is cut out of it "
                f"({x1 - x0:.4f} x {y1 - y0:.4f} in)",
                do="Take a larger piece.",
            )
        )
    if len(cloth.faces) == 1 and not cloth.seams:
        face = cloth.faces[0]
        return piece(face.fabric, corners, seam, face.grain)
    if not is_convex(corners):
        raise Refused(
            Problem("only a convex outline can be cut out of a sewn cloth", do="Use straight cuts.")
        )
    faces = tuple(
        Face(face.fabric, seen, clip_to(face.flat, corners), face.grain)
        for face in cloth.faces
        if (seen := clip_to(face.seen, corners))
    )
    net = grown(corners, -seam.take_up)
    return Cloth(corners, net, faces, (), clipped_seams(cloth.seams, corners), cloth.all_caught)
