"""The step that cuts shaped pieces out of their rectangles."""

from __future__ import annotations

from piecewright.bench.bench import seam_of
from piecewright.bench.cloth import piece
from piecewright.bench.stacking import slice_apart
from piecewright.bench.steps import CutApart, CutOut, Ruled
from piecewright.geometry.polygon import Polygon, rectangle, same_polygon
from piecewright.measure.tolerance import AS_DRAWN
from piecewright.piecing.cut_shapes import Cutting
from piecewright.planning.things import Shaped
from piecewright.workroom.workroom import Workroom


def shape_step(thing: Shaped, count: int, workroom: Workroom) -> CutApart | CutOut:
    """Cuts so many pieces, in whole rectangles; what no piece is left of is an offcut."""
    ((takes, _),) = thing.needs
    cutting, times = thing.cutting, thing.cutting.rectangles(count)
    if not cutting.cuts:
        return CutOut(takes=takes, outline=cutting.pieces[0], gives=thing.name, times=times)
    cloth = piece(thing.fabric, _whole(cutting), seam_of(workroom))
    parts = slice_apart(cloth, cutting.cuts, seam_of(workroom))
    names = tuple(thing.name if _is_wanted(part.raw, cutting) else "" for part in parts)
    gives = names if "" in names else (thing.name,)
    return CutApart(takes=takes, cut=tuple(Ruled(*a, *b) for a, b in cutting.cuts), gives=gives, times=times)


def _whole(cutting: Cutting) -> Polygon:
    return rectangle(float(cutting.width), float(cutting.height))


def _is_wanted(part: Polygon, cutting: Cutting) -> bool:
    return any(same_polygon(part, wanted, AS_DRAWN) for wanted in cutting.pieces)
