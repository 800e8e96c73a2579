"""From the filled shapes of a drawing to the patches of a block: sized, snapped, and only what is seen.

In SVG y points down; the block has its origin at the lower left corner.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import chain

import shapely
from fontTools.misc.transform import Identity, Transform

from piecewright.design.covering import Seen, covered_strips, painted_area, seen_pieces
from piecewright.design.misfit import THIN, Misfit
from piecewright.design.snapping import Snapped, misfit_limit, snap
from piecewright.design.svg_elements import FilledShape
from piecewright.design.svg_file import Unreadable
from piecewright.design.svg_outlines import MOST_CORNERS, chords, extent
from piecewright.design.tiling import welded
from piecewright.geometry.point import Point
from piecewright.geometry.polygon import Polygon, bounds
from piecewright.measure.length import inches

# No chord of a flattened curve lies farther off than this at the block's size; a little less, for rounding.
CHORD = 0.98 * float(inches("1/64"))


MOST_PATCHES = 2_000


@dataclass(frozen=True)
class DrawnPatch:
    """A patch as the drawing has it: the fill, the outline in finished inches, the line of its shape."""

    fill: str
    outline: Polygon
    line: int
    hole: Point | None = None


@dataclass(frozen=True)
class DrawnBlock:
    """The patches of a drawing, and what was done to find them.

    `corners` are those of the drawing that can be seen, `in_curves` those where curves are bent. `moved`
    corners were snapped, `farthest` inches at most; `curves` and `opened` outlines had curves or open ends;
    `covered` shapes are hidden by later ones; `slivers` were given to their neighbours; `strips` are places
    where a shape covers a narrow strip of another.
    """

    patches: tuple[DrawnPatch, ...]
    corners: frozenset[Point]
    in_curves: frozenset[Point]
    moved: int
    farthest: float
    curves: int
    opened: int
    covered: int
    slivers: int
    strips: tuple[Misfit, ...]


def extent_of(shapes: Sequence[FilledShape]) -> tuple[float, float, float, float]:
    """The box around all shapes in the drawing's own units; raises Unreadable where it is empty."""
    points = [point for shape in shapes for loop in shape.loops for point in extent(loop)]
    if not points:
        what = "expected a drawing with filled shapes, got none."
        raise Unreadable(what, "Give each patch a fill; lines alone are no patches.")
    left, low, right, high = bounds(points)
    if not (right - left > 0 and high - low > 0):
        what = "expected shapes with an area, got a drawing that is all on one line."
        raise Unreadable(what, "Draw each patch as a closed shape with a fill.")
    return left, low, right, high


def drawn_block(shapes: Sequence[FilledShape], width: float, height: float) -> DrawnBlock:
    """The patches of the shapes, brought to a block of a finished size; raises Unreadable."""
    left, low, right, high = extent_of(shapes)
    across, up = width / (right - left), height / (high - low)
    sizing = Identity.translate(0, height).scale(across, -up).translate(-left, -low)
    rings, in_curves = _rings(shapes, sizing)
    snapped = snap(list(chain.from_iterable(rings)), width, height, in_curves)
    moved = [[[snapped.places.get(p, p) for p in ring] for ring in own] for own in rings]
    seen, slivers, strips = _laid_over(shapes, moved, misfit_limit(width, height))
    loops = [loop for shape in shapes for loop in shape.loops]
    patches = _patches(shapes, seen, snapped, in_curves)
    seen_corners = {corner for patch in patches for corner in patch.outline}
    return DrawnBlock(
        patches,
        frozenset(snapped.places.values()) & seen_corners,
        frozenset(in_curves) & seen_corners,
        snapped.moved,
        snapped.farthest,
        sum(loop.is_curved for loop in loops),
        sum(loop.is_open for loop in loops if len(loop.pieces) > 2),
        len(shapes) - len({piece.shape for piece in seen}),
        slivers,
        tuple(strips),
    )


def _laid_over(
    shapes: Sequence[FilledShape], rings: Sequence[list[list[Point]]], limit: float
) -> tuple[list[Seen], int, list[Misfit]]:
    """What is seen of each shape, how many slivers were given away, and where only a strip is covered."""
    try:
        areas = [painted_area(own, shape.even_odd) for own, shape in zip(rings, shapes, strict=True)]
        return *seen_pieces(areas, limit, MOST_PATCHES), covered_strips(areas, limit, THIN)
    except shapely.errors.GEOSException as error:
        what = "expected shapes that can be laid one over the other, got ones that cannot."
        raise Unreadable(what, "Redraw what is crossed or very small.") from error


def _rings(shapes: Sequence[FilledShape], sizing: Transform) -> tuple[list[list[list[Point]]], list[Point]]:
    """The rings of each shape in finished inches, and all corners that lie in curves."""
    rings: list[list[list[Point]]] = []
    soft: list[Point] = []
    count = 0
    for shape in shapes:
        own = []
        for loop in shape.loops:
            corners, in_curves = chords(loop.placed(sizing), CHORD)
            if len(corners) > 1 and corners[0] == corners[-1]:
                corners.pop()
            own.append(corners)
            soft += in_curves
            count += len(corners)
        if count > MOST_CORNERS:
            what = f"expected at most {MOST_CORNERS:,} corners in a drawing, got more."
            raise Unreadable(what, "Simplify its outlines.", shape.line)
        rings.append(own)
    return rings, soft


def _patches(
    shapes: Sequence[FilledShape], seen: Sequence[Seen], snapped: Snapped, in_curves: Sequence[Point]
) -> tuple[DrawnPatch, ...]:
    """The pieces with their corners exactly where snapping has put them."""
    # Corners are welded to those that come first: the places.
    places = list(dict.fromkeys([*snapped.places.values(), *in_curves]))
    outlines = welded([places, *(piece.outline for piece in seen)])[1:]
    return tuple(
        DrawnPatch(shapes[piece.shape].fill, outline, shapes[piece.shape].line, piece.hole)
        for piece, outline in zip(seen, outlines, strict=True)
        if outline
    )
