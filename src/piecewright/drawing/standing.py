"""How a unit stands in its picture: as it is drawn, a diamond on its sharp tip."""

from __future__ import annotations

from math import atan2, degrees

from piecewright.bench.cloth import Cloth, SeamSize
from piecewright.drawing.truing import upright
from piecewright.geometry.isometry import STILL, Isometry, turned
from piecewright.geometry.matching import Marked, Picture, outline_turns, turn_onto
from piecewright.geometry.point import distance, sub
from piecewright.geometry.polygon import Polygon, edges, extent
from piecewright.measure.tolerance import AS_DRAWN
from piecewright.methods.recipe import Recipe
from piecewright.workroom.workroom import Workroom


def standing(cloth: Cloth, recipe: Recipe, workroom: Workroom, seam: SeamSize) -> Isometry:
    """The turn and move that lays a unit as it is drawn; of one that is still too large, as it is trued."""
    drawing = recipe.unit.drawing
    if is_diamond(cloth.raw):
        return on_its_tip(cloth.raw)
    if recipe.sizing.truing == "none":
        made = Picture(cloth.net, tuple(Marked(face.fabric, face.seen) for face in cloth.finished))
        drawn = Picture(drawing.outline, tuple(Marked(p.role, p.outline) for p in drawing.patches))
        as_drawn = turn_onto(made, drawn, AS_DRAWN)
        if as_drawn is not None:
            return as_drawn
        if not recipe.unit.is_rectangle:
            return next(outline_turns(cloth.net, drawing.outline, AS_DRAWN), STILL)
    width, height = recipe.unit.raw(workroom.take_up)
    return upright(cloth, recipe.method.landmark, (float(width), float(height)), seam)


def is_diamond(outline: Polygon) -> bool:
    """Whether all four sides are equal and the corners are not.

    >>> is_diamond(((0, 0), (5, 0), (8, 4), (3, 4))), is_diamond(((0, 0), (5, 0), (5, 5), (0, 5)))
    (True, False)
    """
    sides = [distance(*edge) for edge in edges(outline)]
    if len(sides) != 4 or max(sides) - min(sides) > AS_DRAWN:
        return False
    a, b, c, d = outline
    return abs(distance(a, c) - distance(b, d)) > AS_DRAWN


def on_its_tip(outline: Polygon) -> Isometry:
    """The turn that stands a diamond on one of its sharp tips."""
    a, b, c, d = outline
    x, y = sub(c, a) if distance(a, c) > distance(b, d) else sub(d, b)
    return turned(90.0 - degrees(atan2(y, x)))


def is_level_rectangle(outline: Polygon) -> bool:
    """Whether an outline is a rectangle whose sides lie level and upright."""
    long, across = extent(outline)
    level = all(min(abs(a[0] - b[0]), abs(a[1] - b[1])) <= AS_DRAWN for a, b in edges(outline))
    return level and len(outline) == 4 and min(long, across) > AS_DRAWN
