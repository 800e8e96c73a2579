"""What is wrong with shapes that are wanted of one cloth, each in one sentence."""

from __future__ import annotations

from collections.abc import Sequence

from shapely import Polygon as ShapelyPolygon

from piecewright.cutting.shapes.splitting import cut_from
from piecewright.cutting.shapes.wanted import TURNINGS, ShapeDemand
from piecewright.cutting.wanted import MOST_PIECES, Demand, Supply, check_wanted, lies
from piecewright.geometry.polygon import area, bounds, is_convex
from piecewright.measure.length import ZERO
from piecewright.measure.showing import figure_float, show, show_float
from piecewright.measure.tolerance import WELD
from piecewright.problems import Problem

MOST_CORNERS = 6


def check_shapes(shapes: Sequence[ShapeDemand], demands: Sequence[Demand], supply: Supply) -> list[Problem]:
    """Everything that makes it impossible to cut the shapes from the cloth beside what else is wanted."""
    problems = check_wanted(demands, supply)
    sound = supply.usable_width > ZERO and not any(p.where == f"cloth {supply.key!r}" for p in problems)
    seen = {demand.name for demand in demands}
    for shape in shapes:
        found = _check_shape(shape, supply)
        if shape.name in seen:
            what = f"expected every shape to have its own name, got {shape.name!r} twice."
            found.append(_problem(supply, what, "Add up the counts, or name them apart."))
        seen.add(shape.name)
        problems += found
        if sound and not found and not _fits(shape, supply):
            problems.append(_too_long(shape, supply))
    return problems


def _check_shape(shape: ShapeDemand, supply: Supply) -> list[Problem]:
    found = []
    if not 1 <= shape.count <= MOST_PIECES:
        what = f"expected from 1 to {MOST_PIECES:,} pieces of {shape.name!r}, got {shape.count:,}."
        found.append(_problem(supply, what, "Write how many pieces are wanted."))
    if shape.turning not in TURNINGS:
        what = f"expected {shape.name!r} to turn in one of these ways: {', '.join(TURNINGS)}; got "
        found.append(_problem(supply, f"{what}{shape.turning!r}.", "Say how the print may lie."))
    if not _lies_in_strip(shape):
        what = f"expected {shape.name!r} as a shape with its sides straight from edge to edge of a strip."
        found.append(_problem(supply, what, "Cut it round a template, or divide it."))
    return found


def _lies_in_strip(shape: ShapeDemand) -> bool:
    outline = shape.outline
    if not 3 <= len(outline) <= MOST_CORNERS or not ShapelyPolygon(outline).is_valid or area(outline) <= WELD:
        return False
    x0, y0, _, high = bounds(outline)
    on_edges = sum(abs(y) <= WELD or abs(y - high) <= WELD for _, y in outline)
    flat = len(outline) == on_edges or (len(outline) == MOST_CORNERS and on_edges == MOST_CORNERS - 2)
    return is_convex(outline) and flat and abs(x0) <= WELD and abs(y0) <= WELD


def _fits(shape: ShapeDemand, supply: Supply) -> bool:
    return all(lies(demand, supply) for demand in cut_from(shape, supply).demands)


def _too_long(shape: ShapeDemand, supply: Supply) -> Problem:
    width, high = bounds(shape.outline)[2:]
    size = f"{figure_float(width, supply.unit)} x {show_float(high, supply.unit)}"
    across = show(supply.usable_width, supply.unit)
    what = f"expected one piece of {shape.name!r} to fit across the cloth, {across}, got {size}."
    return _problem(supply, what, "Join it from smaller pieces, or take wider cloth.")


def _problem(supply: Supply, what: str, do: str) -> Problem:
    return Problem(what, where=f"cloth {supply.key!r}", do=do)
