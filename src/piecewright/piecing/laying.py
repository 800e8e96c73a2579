"""How a sewn thing lies in the drawing it was made for."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from piecewright.bench.cloth import Cloth
from piecewright.design.drawing import Drawing, Patch
from piecewright.geometry.isometry import Isometry
from piecewright.geometry.matching import Marked, Picture, turn_onto
from piecewright.geometry.polygon import Polygon, area, bounds, clean, joined_outline
from piecewright.measure.tolerance import AS_DRAWN, EDGE_MATCH
from piecewright.problems import Problem, Refused


def in_fabrics(patches: Iterable[Patch], fabric_of: Mapping[str, str]) -> tuple[Patch, ...]:
    """The patches with the cloth they are cut from in place of their role."""
    return tuple(Patch(fabric_of[p.role], p.outline, p.way, p.may_piece) for p in patches)


def outline_of(patches: Iterable[Patch]) -> Polygon:
    """The outline of what the patches fill together; raises Refused where they do not lie together."""
    outlines = [patch.outline for patch in patches]
    if len(outlines) == 1:
        return outlines[0]
    left, low, right, high = bounds([p for outline in outlines for p in outline])
    if abs((right - left) * (high - low) - sum(map(area, outlines))) < AS_DRAWN:
        return ((left, low), (right, low), (right, high), (left, high))
    try:
        return clean(joined_outline(outlines), EDGE_MATCH, straight=EDGE_MATCH)
    except ValueError as apart:
        raise Refused(Problem("the patches of one part do not lie together")) from apart


def lay_on_patches(
    cloth: Cloth, patches: tuple[Patch, ...], one_way: frozenset[str] = frozenset()
) -> Isometry | None:
    """The turn and move that lays a cloth on patches (named by fabric) that lie together, or None.

    One-way prints count when named in `one_way`.
    """
    marked = tuple(Marked(p.role, p.outline, p.way if p.role in one_way else None) for p in patches)
    return turn_onto(cloth.picture(one_way), Picture(outline_of(patches), marked), AS_DRAWN)


def lay_on(cloth: Cloth, drawing: Drawing, one_way: frozenset[str] = frozenset()) -> Isometry | None:
    """The same for a drawing whose roles are fabrics."""
    return lay_on_patches(cloth, drawing.patches, one_way)
