"""The bench's steps for shapes, and for the strips and squares of a layout that they are cut from."""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.bench.cloth import SeamSize, piece
from piecewright.bench.stacking import slice_apart
from piecewright.bench.steps import CutApart, Ruled
from piecewright.cutting.shapes.wanted import CutStrip, ShapeCut
from piecewright.geometry.polygon import Polygon, rectangle, same_polygon
from piecewright.measure.tolerance import AS_DRAWN


def shape_steps(cuts: Sequence[ShapeCut], seam: SeamSize) -> list[CutApart]:
    """The steps that cut every strip and square of the shapes apart, into piles of the shapes' names.

    The strips and squares lie on piles of their own names, as a layout's steps leave them. The bench names
    what falls away by its place, so the parts are found here as it finds them.
    """
    return [_cut_apart(strip, cut.demand.name, seam) for cut in cuts for strip in cut.strips]


def _cut_apart(strip: CutStrip, gives: str, seam: SeamSize) -> CutApart:
    cloth = piece("", rectangle(float(strip.width), float(strip.height)), seam)
    parts = slice_apart(cloth, strip.cuts, seam)
    names = tuple(gives if _is_kept(part.raw, strip) else "" for part in parts)
    cut = tuple(Ruled(*a, *b) for a, b in strip.cuts)
    return CutApart(takes=strip.name, cut=cut, gives=names if "" in names else (gives,), times=strip.count)


def _is_kept(part: Polygon, strip: CutStrip) -> bool:
    return any(same_polygon(part, wanted, AS_DRAWN) for wanted in strip.pieces)
