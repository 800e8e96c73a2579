"""Which starts should be cut larger, so that 95 of 100 units come out large enough to be trued up.

The craft's rule on slivers holds: what is over is either little enough for ease, or enough to be trimmed.
"""

from __future__ import annotations

from piecewright.measure.length import Length
from piecewright.measure.tolerance import EDGE_MATCH
from piecewright.methods.recipe import Recipe
from piecewright.tolerance.model import Model, Pair, UnitSize
from piecewright.tolerance.outlook import CutLarger

ENOUGH = 0.95
MOST_MARKS = 64


def cut_larger(name: str, size: UnitSize, recipe: Recipe, model: Model) -> CutLarger | None:
    """Larger starts for a unit that needs them; None where 95 of 100 can be trued up anyway.

    All starts grow by the same number of the ruler's marks, as few as will do. Units whose starts may not be
    larger, since nothing is trued up later, are none of these.
    """
    enough = size.enough(size.made, model.hands)
    if enough >= ENOUGH or not recipe.method.may_round:
        return None
    planned = recipe.sizing.cut
    mark = model.workroom.ruler.mark
    for marks in range(1, MOST_MARKS + 1):
        made = _grown(size, float(mark) * marks)
        over = max(m - d for m, d in zip(made, size.dims, strict=True))
        then = size.enough(made, model.hands)
        if then >= ENOUGH and not _sliver(over, model):
            larger = tuple(length + mark * marks for length in planned)
            return CutLarger(name, model.counts[name], planned, larger, enough, then, over)
    nothing: tuple[Length, ...] = ()
    return CutLarger(name, model.counts[name], planned, nothing, enough, enough, 0.0)


def _grown(size: UnitSize, by: float) -> Pair:
    return (
        size.made[0] + by * sum(one[0] for one in size.by_cut),
        size.made[1] + by * sum(one[1] for one in size.by_cut),
    )


def _sliver(over: float, model: Model) -> bool:
    ease, trim = float(model.workroom.ease), float(model.workroom.trim)
    return ease + EDGE_MATCH < over < trim - EDGE_MATCH
