"""What design and workroom say of each cloth, and of how it is cut, in the words of the cutting.

Words: *to spare* is what is cut or bought besides, for mistakes; a *tall* piece is longer, along the
selvedge, than the ruler.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from piecewright.cutting.given.cloth import Bolt
from piecewright.cutting.laying import lay_out
from piecewright.cutting.layout import Layout
from piecewright.cutting.lists.listed import ListedFabric, Motif
from piecewright.cutting.lists.spare import NOTHING_SPARE, Spare, read_spare, with_spare
from piecewright.cutting.wanted import Demand, Supply
from piecewright.cutting.wishes import LITTLE_EFFORT, Aim, CuttingWish
from piecewright.design.model import Design, Fabric
from piecewright.measure.length import ZERO, Length, inches, mm
from piecewright.measure.showing import show
from piecewright.problems import Problem, Refused
from piecewright.workroom.workroom import NONE_SPARE, Cloth, Workroom

AIM_OF: dict[Cloth, Aim] = {
    "least": "least cloth",
    "usual": "fewest settings",
    "least-cutting": "least cutting",
}


def wish_of(workroom: Workroom, effort: int = LITTLE_EFFORT) -> CuttingWish:
    """How the workroom wishes cloth to be cut."""
    return CuttingWish(AIM_OF[workroom.cloth], layers=workroom.layers, effort=effort)


def usable_width_of(fabric_key: str, design: Design, workroom: Workroom) -> Length:
    """The width that pieces are cut from: less the selvedges, and a repeat to find the first motif.

    Raises Refused where nothing is left of it.
    """
    fabric = design.fabric.get(fabric_key)
    width = (fabric.width if fabric else None) or workroom.usable_width
    usable = _listed(fabric_key, design, workroom, width).bolt.usable_width
    if usable > ZERO:
        return usable
    got = f"{show(width, design.unit)}, of which nothing is left"
    what = f"expected cloth wider than its selvedges and a repeat of its motif, got {got}."
    raise Refused(Problem(what, f"cloth {fabric_key!r}", "Check width, selvedge and repeat_across."))


def supply_of(fabric_key: str, design: Design, workroom: Workroom, width: Length) -> Supply:
    """The cloth as it is bought; `width` is the usable one (see `usable_width_of`)."""
    listed = _listed(fabric_key, design, workroom, width)
    return replace(listed.bolt, usable_width=width)


def bolt_of(fabric_key: str, design: Design, workroom: Workroom, width: Length) -> Bolt:
    """The same with the price of one buying step, where the design says what the cloth costs."""
    supply, fabric = supply_of(fabric_key, design, workroom, width), design.fabric.get(fabric_key)
    if fabric is None or fabric.price is None:
        return Bolt(supply)
    return Bolt(supply, fabric.price * _measures(supply.buying_step, design))


def _measures(length: Length, design: Design) -> Fraction:
    """How many yards a length is, or metres in a design in centimetres."""
    return length.exact / (inches(36) if design.unit == "in" else mm(1000)).exact


def _listed(key: str, design: Design, workroom: Workroom, width: Length) -> ListedFabric:
    fabric = design.fabric.get(key) or Fabric(key, key, "")
    supply = Supply(
        key,
        width,
        fabric.buying_step or workroom.buying_step,
        workroom.straightening,
        workroom.shrinkage if fabric.shrinkage is None else fabric.shrinkage,
        workroom.spare_strips,
        workroom.ruler_length,
        workroom.unit,
        workroom.squaring,
    )
    # Panels of a backing that is no fabric of the top are cut with care: nothing is spared for them.
    is_for_top = key in design.fabric or key in design.role
    spare = spare_of(workroom) if is_for_top else NOTHING_SPARE
    motif = Motif(fabric.repeat_across, fabric.repeat_along)
    return ListedFabric(key, (), supply, fabric.selvedge, one_way=fabric.one_way, motif=motif, spare=spare)


def spare_of(workroom: Workroom) -> Spare:
    """What the workroom wishes to spare; its file has been checked already."""
    if workroom.spare == NONE_SPARE:
        return NOTHING_SPARE
    return read_spare(workroom.spare, workroom.unit)


def spared(demands: Sequence[Demand], workroom: Workroom) -> list[Demand]:
    """What is cut, with the pieces to spare; none of whole strips, and of borders and panels."""
    spare = spare_of(workroom)
    return [
        demand if demand.whole_strip or demand.reserve else with_spare([demand], spare)[0]
        for demand in demands
    ]


def pieces_to_spare(
    wanted: Mapping[str, Sequence[Demand]], cut: Mapping[str, Sequence[Demand]]
) -> dict[str, int]:
    """How many of each piece are cut beyond those that are wanted, by cloth in both; for `left_over`."""
    asked = {demand.name: demand.count for demands in wanted.values() for demand in demands}
    cut_of = {demand.name: demand.count for demands in cut.values() for demand in demands}
    return {name: count - asked[name] for name, count in cut_of.items() if count > asked[name]}


def lay_out_cloth(demands: Sequence[Demand], supply: Supply, wish: CuttingWish) -> Layout:
    """The layout for a wish, where beside tall pieces the rest of the width is not left lying.

    Cuts beside tall pieces count one by one, so that few settings may be had for whole lengths of cloth:
    then the shortest layout is taken.
    """
    found = lay_out(demands, supply, wish)
    if wish.aim != "fewest settings" or not any(_is_tall(demand, supply) for demand in demands):
        return found
    shortest = lay_out(demands, supply, replace(wish, aim="least cloth"))
    return shortest if shortest.buy < found.buy else found


def _is_tall(demand: Demand, supply: Supply) -> bool:
    """Whether a piece leaves part of the width beside it, along more than a ruler's length."""
    if demand.whole_strip or supply.ruler_length is None:
        return False
    return demand.height > supply.ruler_length and not demand.may_turn
