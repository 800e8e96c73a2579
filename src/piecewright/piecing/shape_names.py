"""What the trade calls a shape, and the figures by which it is told apart from others of its kind."""

from __future__ import annotations

from piecewright.bench.grain import OFF_GRAIN
from piecewright.geometry.offset import angles_of
from piecewright.geometry.point import cross, distance, sub, unit
from piecewright.geometry.polygon import Polygon, bounds, edges, is_convex, same_polygon
from piecewright.measure.length import Unit
from piecewright.measure.showing import figure_float
from piecewright.measure.tolerance import AS_DRAWN

PIECE = "piece"
BY_CORNERS = {3: "triangle", 5: "pentagon", 6: "hexagon", 8: "octagon"}
LEAN = 0.01  # Two directions (unit vectors) nearer than this are drawn parallel.


def shape_name(outline: Polygon) -> str:
    """What a straight-sided shape is called: `triangle`, `diamond`, `L-shape`, or a `piece` of none's name.

    >>> shape_name(((0, 0), (3, 0), (2, 1), (1, 1))), shape_name(((0, 0), (2, 0), (3, 1), (1, 1)))
    ('trapezoid', 'parallelogram')
    """
    right = [abs(abs(angle - 180) - 90) < OFF_GRAIN for angle in angles_of(outline)]
    if not is_convex(outline):
        return "L-shape" if len(outline) == 6 and all(right) else PIECE
    if len(outline) == 4:
        return _four_sided(outline, all(right))
    return BY_CORNERS.get(len(outline), PIECE)


def _four_sided(outline: Polygon, right: bool) -> str:
    sides = edges(outline)
    lengths = [distance(*side) for side in sides]
    even = max(lengths) - min(lengths) <= AS_DRAWN
    ways = [unit(sub(b, a)) for a, b in sides]
    parallel = [abs(cross(ways[k], ways[k + 2])) < LEAN for k in (0, 1)]
    if right:
        return "square" if even else "rectangle"
    if all(parallel):
        return "diamond" if even else "parallelogram"
    if any(parallel):
        return "trapezoid"
    is_kite = any(
        abs(lengths[k] - lengths[k - 1]) <= AS_DRAWN and abs(lengths[k - 2] - lengths[k - 3]) <= AS_DRAWN
        for k in (0, 1)
    )
    return "kite" if is_kite else PIECE


def shape_figures(lying: Polygon, unit: Unit) -> str:
    """The size of a shape as it is cut: `3 7/8` where one figure tells it, or `3 x 6`; the nearest marks.

    >>> shape_figures(((0, 0), (3.8536, 0), (0, 3.8536)), "in"), shape_figures(((0, 0), (6, 0), (5, 3)), "in")
    ('3 7/8', '3 x 6')
    """
    _, _, width, height = bounds(lying)
    lengths = [distance(*side) for side in edges(lying)]
    if max(lengths) - min(lengths) <= AS_DRAWN:
        return _mark(min(width, height), unit)  # So high is the strip that it is cut from.
    quarter = ((0.0, 0.0), (width, 0.0), (width / 2, width / 2))
    if same_polygon(lying, quarter, AS_DRAWN):
        return _mark(width, unit)  # The square that is cut in four.
    return " x ".join(dict.fromkeys(_mark(side, unit) for side in sorted((width, height))))


def _mark(size: float, unit: Unit) -> str:
    return figure_float(size, unit).removeprefix("about ")
