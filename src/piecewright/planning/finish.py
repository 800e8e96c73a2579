"""Backing and binding as things of the plan."""

from __future__ import annotations

from dataclasses import dataclass, replace

from piecewright.bench.ends import joined_ends
from piecewright.bench.plan import Finish
from piecewright.design.model import Design, fabric_of, finished_size
from piecewright.design.read import roles_used
from piecewright.finishing.finishing import (
    BINDING_SPARE,
    BindingStrips,
    Panels,
    backing_panels,
    binding_strips,
    with_narrow_panel,
)
from piecewright.measure.length import Length
from piecewright.planning.long_strips import end_to_end, side_by_side
from piecewright.planning.making import Workshop
from piecewright.planning.things import Backed, Bound, Cut, Thing
from piecewright.sewing.stations import Station

BACKING = "backing"


@dataclass(frozen=True, eq=False)
class BackedUnevenly(Backed):
    """A backing of so many `panels` in all, of which the `last` is narrower than the others."""

    last: str


@dataclass(frozen=True)
class Finishing:
    """How the quilt is finished: panels, binding (None where none is wished), batting size, where it ends."""

    panels: Panels
    backing_cloth: str
    binding: BindingStrips | None
    binding_cloth: str
    batting: tuple[Length, Length]
    finish: Finish


def backing_cloth(design: Design) -> str:
    """The key of the cloth for the backing; one of its own where the file names none."""
    return fabric_of(design, design.backing.role) if design.backing.role else BACKING


def make_finishing(shop: Workshop, design: Design, top: Thing, widths: dict[str, Length]) -> Finishing:
    """Makes the backing panels and the binding strip of a design."""
    size = finished_size(design)
    cloth = backing_cloth(design)
    panels = backing_panels(size, design.backing.margin, widths[cloth], shop.workroom.take_up)
    if cloth in cloths_of_front(design):
        panels = with_narrow_panel(panels, widths[cloth], shop.workroom.take_up, shop.workroom.ruler)
    backing = _back(shop, cloth, panels, widths[cloth])
    strips, binding = None, ""
    binding_fabric = ""
    if design.binding is not None:
        binding_fabric = fabric_of(design, design.binding.role)
        strips = binding_strips(
            size, design.binding.width, widths[binding_fabric], BINDING_SPARE[design.unit]
        )
        binding = _bind(shop, binding_fabric, strips, widths[binding_fabric]).name
    batting = (size[0] + design.batting.margin * 2, size[1] + design.batting.margin * 2)
    finish = Finish(
        top=top.name,
        backing=backing.name,
        backing_least=(float(panels.width), float(panels.height)),
        binding=binding,
        binding_least=float(strips.least) if strips else 0.0,
        batting=(float(batting[0]), float(batting[1])),
    )
    return Finishing(panels, cloth, strips, binding_fabric, batting, finish)


def cloths_of_front(design: Design) -> frozenset[str]:
    """The keys of the cloths of top and binding."""
    front = replace(design, backing=replace(design.backing, role=None))
    return frozenset(fabric_of(design, role) for role in roles_used(front))


def _back(shop: Workshop, cloth: str, panels: Panels, width: Length) -> Thing:
    """The backing: one panel, or several that are joined along their length."""
    whole = panels.count if panels.last is None else panels.count - 1
    parts: list[tuple[Cut, int]] = []
    if whole:
        parts.append((shop.cut(cloth, width, panels.length, may_turn=False, whole_strip=True), whole))
    if panels.last is not None:
        last = shop.cut(cloth, panels.last, panels.length, may_turn=False, reserve=True)
        parts.append((last, 1))
    panel = parts[0][0]
    if panels.count == 1:
        return panel
    name, needs = shop.free_name("backing"), tuple((part.name, count) for part, count in parts)
    if panels.last is None:
        joined = end_to_end(panel.cloth, whole, name, shop)
        return shop.add(Backed(name, Station.BACK, joined, needs, panel.name, whole))
    joined = side_by_side([part.cloth for part, count in parts for _ in range(count)], name, shop)
    return shop.add(
        BackedUnevenly(name, Station.BACK, joined, needs, panel.name, panels.count, parts[-1][0].name)
    )


def _bind(shop: Workshop, fabric: str, strips: BindingStrips, width: Length) -> Thing:
    strip = shop.cut(fabric, width, strips.width, whole_strip=True)
    name = shop.free_name("binding")
    cloth = joined_ends(strip.cloth, strips.count, name, shop.seam)
    return shop.add(
        Bound(
            name, Station.BINDING, cloth, ((strip.name, strips.count),), strip.name, strips.count, cloth.size
        )
    )
