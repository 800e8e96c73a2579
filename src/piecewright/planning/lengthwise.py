"""Borders and long sashes in one piece along the selvedge: cut long, trimmed to the measured top later.

Words: *lengthwise* strips run along the selvedge, *crosswise* ones from selvedge to selvedge and are joined.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from piecewright.bench.cloth import LENGTHWISE, Cloth, piece
from piecewright.bench.truing import Allowed, true_up
from piecewright.cutting.given.cloth import Bolt
from piecewright.cutting.wanted import Demand, Supply
from piecewright.cutting.wishes import CuttingWish
from piecewright.design.drawing import Patch, Placed
from piecewright.finishing.finishing import long_strips
from piecewright.geometry.isometry import Isometry
from piecewright.geometry.matching import outline_turns
from piecewright.geometry.polygon import rectangle
from piecewright.measure.length import Length, inches, mm
from piecewright.measure.showing import figure, show_cloth
from piecewright.measure.tolerance import AS_DRAWN
from piecewright.planning.cut_long import CutLong
from piecewright.planning.cutting_wishes import lay_out_cloth
from piecewright.planning.making import Workshop
from piecewright.planning.things import LongPiece, Made, Thing
from piecewright.problems import Problem, Refused
from piecewright.sewing.stations import Station
from piecewright.workroom.workroom import Workroom


def cut_long(workroom: Workroom) -> Length:
    """How much longer than needed a border is cut, to be trimmed to the measured top."""
    return inches(2) if workroom.unit == "in" else mm(50)


def make_lengthwise(shop: Workshop, placed: Placed, long: Length, short: Length) -> None:
    """Makes the strip for a long patch of so many inches, seams included; equal ones are one pile."""
    assert isinstance(placed.drawing, Patch)
    fabric = shop.cloths.fabric_of[placed.drawing.role]
    thing = _known(shop, fabric, long, short) or _new(shop, fabric, long, short)
    shop.lying[id(placed)] = Made(thing, _place(thing.cloth, placed))


def _known(shop: Workshop, fabric: str, long: Length, short: Length) -> CutLong | None:
    for thing in shop.things.values():
        size = (thing.piece.exact, thing.piece.height) if isinstance(thing, CutLong) else None
        if isinstance(thing, CutLong) and thing.fabric == fabric and size == (long, short):
            return thing
    return None


def _new(shop: Workshop, fabric: str, long: Length, short: Length) -> CutLong:
    unit, cut = shop.workroom.unit, long + cut_long(shop.workroom)
    name = shop.free_name(f"{fabric} lengthwise strip {figure(short, unit)} x {figure(long, unit)}")
    allowed = Allowed(float(shop.workroom.ease), float(shop.workroom.trim))
    raw = piece(fabric, rectangle(float(short), float(cut)), shop.seam)
    cloth = true_up(raw, "edges", (float(short), float(long)), "trim", shop.seam, allowed)
    given = LongPiece(name, cut, long, short)
    return shop.add(
        CutLong(name, Station.STRIP, cloth, (), fabric, short, cut, may_turn=False, reserve=True, piece=given)
    )


def _place(cloth: Cloth, placed: Placed) -> Isometry:
    """How the strip lies on its patch, a one-way print upright where it can be."""
    turns = list(outline_turns(cloth.net, placed.outline, AS_DRAWN))
    if not turns:
        raise Refused(Problem("a border strip does not have the size that was drawn"))
    way = placed.drawing.way if isinstance(placed.drawing, Patch) else None
    return min(turns, key=lambda turn: _off(LENGTHWISE + turn.degrees, way))


def _off(stands: float, way: float | None) -> float:
    off = (stands - way) % 360 if way is not None else 0.0
    return round(min(off, 360 - off), 3)


def lengthwise_notes(
    things: Mapping[str, Thing],
    demands: Mapping[str, Sequence[Demand]],
    bolts: Sequence[Bolt],
    workroom: Workroom,
    wish: CuttingWish,
) -> tuple[Problem, ...]:
    """For each cloth with lengthwise strips, what is bought of it, and what crosswise ones would take."""
    notes = []
    for bolt in bolts:
        wanted = demands.get(bolt.supply.key, ())
        long = [thing for d in wanted if isinstance(thing := things.get(d.name), CutLong)]
        if long:
            notes.append(_weighed(long, wanted, bolt.supply, workroom, wish))
    return tuple(notes)


def _weighed(
    long: Sequence[CutLong],
    demands: Sequence[Demand],
    supply: Supply,
    workroom: Workroom,
    wish: CuttingWish,
) -> Problem:
    lengthwise = lay_out_cloth(demands, supply, wish).buy
    crosswise = lay_out_cloth(crosswise_instead(long, demands, supply, workroom), supply, wish).buy
    what = f"lengthwise strips: {show_cloth(lengthwise, workroom.unit)} of {supply.key} to buy"
    if lengthwise == crosswise:
        what += ", as much as with strips from selvedge to selvedge."
    else:
        less, most = sorted((lengthwise, crosswise))
        told = f"{show_cloth(most - less, workroom.unit)} {'less' if lengthwise == less else 'more'}"
        what += f", {told} than with strips joined from selvedge to selvedge."
    return Problem(what, f"cloth {supply.key!r}", weight="note")


def crosswise_instead(
    long: Sequence[CutLong], demands: Sequence[Demand], supply: Supply, workroom: Workroom
) -> list[Demand]:
    """The same pieces, with strips across the cloth in place of the lengthwise ones."""
    names = {thing.name for thing in long}
    counts = {demand.name: demand.count for demand in demands}
    wanted: dict[Length, list[Length]] = {}
    for thing in long:
        wanted.setdefault(thing.piece.height, []).extend([thing.piece.exact] * counts[thing.name])
    strips = [
        Demand(
            f"strips {figure(height, workroom.unit)}",
            supply.usable_width,
            height,
            long_strips(tuple(exact), cut_long(workroom), supply.usable_width, workroom.take_up).count,
            may_turn=False,
            whole_strip=True,
            reserve=True,
        )
        for height, exact in wanted.items()
    ]
    return [*strips, *(demand for demand in demands if demand.name not in names)]
