"""The finishing of a quilt, whole: parts, sizes, thread, minutes, cost and weight from wishes and a plan.

Terms:
- *in the plan*: what the plan itself sews and cuts (its back, its binding); it is counted there, not twice.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from piecewright.bench.plan import Plan
from piecewright.cutting.given.layout import Leftover
from piecewright.cutting.layout import Layout
from piecewright.cutting.wanted import Supply
from piecewright.finishing.backing import BackingCloth, backing_ways
from piecewright.finishing.backing_leftovers import back_of_leftovers
from piecewright.finishing.batting import batting_ways
from piecewright.finishing.cost import Cost, CostLine, Prices, cloth_line, layout_lines, spool_line
from piecewright.finishing.edges import edge_of
from piecewright.finishing.finish_wishes import FinishWishes
from piecewright.finishing.finished import Finished, FinishingParts
from piecewright.finishing.finishing_minutes import finishing_minutes
from piecewright.finishing.finishing_thread import finishing_thread
from piecewright.finishing.hanging import hanging_sleeve, label_of
from piecewright.finishing.how_quilted import quilting_run
from piecewright.finishing.minutes import minutes_of
from piecewright.finishing.shrinking import three_sizes, to_buy
from piecewright.finishing.step_work import PlanWork, work_of
from piecewright.finishing.thread import ThreadNeed, ThreadUse, thread_need
from piecewright.finishing.weight import weight_of
from piecewright.measure.length import Length, Unit
from piecewright.problems import Problem
from piecewright.sewing.stations import Station
from piecewright.workroom.workroom import Workroom

Size = tuple[Length, Length]

AROUND_BLOCKS = (Station.ROW, Station.TOP)


@dataclass(frozen=True)
class PlannedTop:
    """A planned top: its finished `size`, the plan, the layouts of what is bought.

    `stations` tell where each pile is made, `ways` how many ways of making units there are, `leftovers` what
    is left of the cloth. Lengths are told in `unit`.
    """

    size: Size
    plan: Plan
    layouts: Sequence[Layout]
    workroom: Workroom
    unit: Unit
    stations: Mapping[str, Station] | None = None
    ways: int = 0
    leftovers: tuple[Leftover, ...] = ()

    @property
    def one_way(self) -> frozenset[str]:
        """The fabrics whose print must stand upright."""
        return frozenset(cloth.fabric for cloth in self.plan.cloth if cloth.one_way)


def finish_quilt(wishes: FinishWishes, top: PlannedTop, prices: Prices) -> Finished:
    """Works out the finishing of a planned top.

    Raises Refused, in a sentence with the figure, where something cannot be made as it is wished, and where
    the plan cannot be done.
    """
    work = work_of(top.plan)
    parts = parts_of(wishes, top)
    around = work.sewn_at(top.stations, AROUND_BLOCKS) if top.stations else None
    quilting = quilting_run(wishes.quilting, top.size, work.in_ditch, around)
    uses = [_piecing(wishes, top, work, parts), *finishing_thread(wishes, top.size, quilting.length, parts)]
    thread = thread_need(uses, wishes.thread, top.unit)
    back, joins = _not_in_plan(top.plan, parts)
    later = finishing_minutes(
        wishes, top.workroom.pace, top.size, quilting.length, parts, back, joins, top.unit
    )
    size = (float(top.size[0]), float(top.size[1]))
    return Finished(
        unit=top.unit,
        wishes=wishes,
        sizes=three_sizes(top.size, wishes.drawn_in, wishes.washing),
        parts=parts,
        work=work,
        quilting=quilting,
        thread=thread,
        minutes=minutes_of(work.steps, top.workroom.pace, top.stations or {}, top.ways, later),
        cost=_cost(wishes, top, prices, parts, thread),
        weight=weight_of(work.top_cloth, size, parts.edge.area, thread.sewn_in, wishes.weights),
        notes=tuple(_notes(work, parts)),
    )


def parts_of(wishes: FinishWishes, top: PlannedTop) -> FinishingParts:
    """Back, batting, edge, sleeve and label as they are wished, without the plan's work."""
    room, size = top.workroom, top.size
    cloths = wishes.backs or (BackingCloth("backing", room.usable_width),)
    backs = backing_ways(size, wishes.margin(top.unit), cloths, wishes.back, room.take_up, room.ruler)
    left = None
    if wishes.leftovers:
        left = back_of_leftovers(backs[0].least, top.leftovers, room.take_up, room.ruler, top.one_way)
    around = wishes.batting_margin(top.unit) * 2
    battings = batting_ways((size[0] + around, size[1] + around), wishes.batting, top.unit)
    width = wishes.edge_width or room.usable_width
    edge = edge_of(wishes.edge, wishes.binding, size, wishes.thickness, width, room)
    hanging, sleeve, label = wishes.hanging, None, None
    if hanging.sleeve or hanging.rod:
        sleeve = hanging_sleeve(size[0], hanging.rod, room.usable_width, room.take_up, room.ruler)
    if hanging.label or hanging.label_size:
        label = label_of(hanging.label_size, room.take_up, top.unit)
    return FinishingParts(backs, left, battings, edge, sleeve, label)


def _not_in_plan(plan: Plan, parts: FinishingParts) -> tuple[float, float]:
    """Inches of stitching of the back, and of the edge's joins, that the plan does not sew itself."""
    back = 0.0 if plan.finish.backing else parts.back.seam_run
    return back, 0.0 if plan.finish.binding else parts.edge.join_run


def _piecing(wishes: FinishWishes, top: PlannedTop, work: PlanWork, parts: FinishingParts) -> ThreadUse:
    sewn = work.sewn + sum(_not_in_plan(top.plan, parts))
    return ThreadUse("piecing", sewn, wishes.thickness.layers(2), wishes.thread.piecing)


def _cost(
    wishes: FinishWishes, top: PlannedTop, prices: Prices, parts: FinishingParts, thread: ThreadNeed
) -> Cost:
    lines = layout_lines(top.layouts, prices, top.unit)
    usual, back = top.workroom.usable_width, parts.back.cloth_used
    if not top.plan.finish.backing:
        price = prices.cloth.get(back.name) if back.price is None else back.price
        lines.append(
            cloth_line(back.name, _bought(parts.back.cloth, back.usable_width, top), price, top.unit)
        )
    if not top.plan.finish.binding:
        bought = _bought(parts.edge.cloth, wishes.edge_width or usual, top)
        lines.append(cloth_line(wishes.edge_cloth, bought, prices.cloth.get(wishes.edge_cloth), top.unit))
    if parts.sleeve:
        bought = _bought(parts.sleeve.cloth, usual, top)
        lines.append(cloth_line("sleeve", bought, prices.cloth.get("sleeve"), top.unit))
    lines.append(CostLine("batting", parts.batting.told(top.unit), "", parts.batting.cost(top.unit)))
    lines.append(spool_line(thread.spools, prices.spool))
    lines += [CostLine(what, "", "", cost) for what, cost in prices.other.items()]
    return Cost(tuple(lines), prices.coin)


def _bought(length: Length, usable_width: Length, top: PlannedTop) -> Length:
    """What the shop cuts of a cloth that the plan does not know."""
    room = top.workroom
    supply = Supply("", usable_width, room.buying_step, room.straightening, room.shrinkage, unit=top.unit)
    return to_buy(length, supply).buy


def _notes(work: PlanWork, parts: FinishingParts) -> list[Problem]:
    """Where the plan makes the back or the binding otherwise than is wished here."""
    found = []
    if work.back_seams is not None and work.back_seams != parts.back.seams:
        planned, wished = _count(work.back_seams, "seam"), _count(parts.back.seams, "seam")
        said = f"the plan's back has {planned}, and as wished it has {wished}"
        found.append(Problem(said, do="Cut the back as the plan has it, or plan it anew.", weight="note"))
    if work.binding_joins is not None and work.binding_joins != parts.edge.joins:
        planned, wished = _count(work.binding_joins, "join"), _count(parts.edge.joins, "join")
        said = f"the plan's binding has {planned}, and as wished it has {wished}"
        found.append(Problem(said, do="Cut it as the plan has it, or plan it anew.", weight="note"))
    return found


def _count(count: int, what: str) -> str:
    return f"no {what}" if not count else f"{count} {what}" + ("" if count == 1 else "s")
