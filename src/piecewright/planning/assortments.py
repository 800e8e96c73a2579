"""The assortments of a quilt: how the pieces of each are shared out over its prints."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from piecewright.cutting.given.cloth import Bolt
from piecewright.cutting.prints.shared import SharedOut
from piecewright.cutting.prints.sharing import share_out
from piecewright.cutting.prints.touching import touching
from piecewright.cutting.prints.wish import Batch, Places, PrintsWish
from piecewright.cutting.wanted import Demand
from piecewright.design.drawing import QuiltDrawing
from piecewright.design.model import Design
from piecewright.planning.things import Cut, Shaped, Thing, UnitThing
from piecewright.problems import Problem, Refused


def share_assortments(
    design: Design,
    drawing: QuiltDrawing,
    demands: Mapping[str, Sequence[Demand]],
    bolts: Sequence[Bolt],
    things: Mapping[str, Thing],
) -> tuple[dict[str, SharedOut], tuple[Problem, ...]]:
    """The prints of every assortment by its key; notes say why where a wish cannot be kept."""
    shared: dict[str, SharedOut] = {}
    notes: list[Problem] = []
    for bolt in bolts:
        role = design.role.get(bolt.supply.key)
        if role is None or not role.is_assortment or role.key not in demands:
            continue
        batches = {demand.name: Batch(alike_from(things, demand.name)) for demand in demands[role.key]}
        wish = PrintsWish(role.prints, role.alike, batches, _places(drawing, role.key))
        for wished in (wish, replace(wish, places=None)):
            try:
                shared[role.key] = share_out(demands[role.key], bolt.supply, wished)
                break
            except Refused as refused:
                notes += [replace(problem, weight="note") for problem in refused.problems]
                if wished.places is None or any("touch" not in p.what for p in refused.problems):
                    break
    return shared, tuple(notes)


def alike_from(things: Mapping[str, Thing], name: str) -> int:
    """How many alike come of one cut piece: of a square for triangles eight at a time, eight."""
    gives = [1]
    for thing in things.values():
        if name not in dict(thing.needs):
            continue
        if isinstance(thing, Shaped):
            gives.append(thing.each)
        elif isinstance(thing, UnitThing):
            fabric = _fabric(things[name])
            patches = sum(patch.role == fabric for patch in thing.drawing.patches)
            starts = sum(count for start, count in thing.needs if _fabric(things[start]) == fabric)
            gives.append(-(-patches * thing.recipe.method.makes // starts))
    return max(gives)


def _fabric(thing: Thing) -> str:
    return thing.fabric if isinstance(thing, Cut) else ""


def _places(drawing: QuiltDrawing, role: str) -> Places | None:
    """The patches of a role, and which of them touch; None where none do."""
    patches = [patch.outline for patch in drawing.top.patches if patch.role == role and not patch.may_piece]
    pairs = touching(patches)
    return Places(("",) * len(patches), pairs) if pairs else None
