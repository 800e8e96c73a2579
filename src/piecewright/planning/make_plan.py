"""From a design and a workroom to a replayed plan: a chain of pure stages.

draw -> make each distinct thing once -> count -> press -> lay out the cloth -> write the steps -> replay
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence

import msgspec

from piecewright.bench.plan import Have, Plan
from piecewright.bench.replay import run, verdict
from piecewright.cutting.wishes import LITTLE_EFFORT
from piecewright.design.colour import lightness
from piecewright.design.draw_block import draw_block
from piecewright.design.draw_quilt import draw_quilt
from piecewright.design.drawing import Placed, QuiltDrawing
from piecewright.design.model import Design, fabric_of
from piecewright.design.settings.kinds import Laid
from piecewright.measure.length import Length
from piecewright.methods.recipe import from_cloth
from piecewright.planning.assortments import share_assortments
from piecewright.planning.building import Building, block_drawings
from piecewright.planning.cloths import Cloths
from piecewright.planning.counting import count_things, left_over
from piecewright.planning.cutting_wishes import bolt_of, pieces_to_spare, spared, usable_width_of, wish_of
from piecewright.planning.finish import backing_cloth, make_finishing
from piecewright.planning.job import Job
from piecewright.planning.laying_out import (
    cloth_had,
    cloth_listed,
    demands_of,
    lay_out_cloths,
    shelf_change,
    steps_of_cutting,
)
from piecewright.planning.lengthwise import lengthwise_notes
from piecewright.planning.long_strips import make_lengths
from piecewright.planning.made_again import Again
from piecewright.planning.making import BlockWish, Workshop
from piecewright.planning.motif import motif_notes, motifs_of
from piecewright.planning.notes import notes_on, second_note
from piecewright.planning.patches import settle_cuttings
from piecewright.planning.pressing_map import SecondPressing, second_pressing
from piecewright.planning.pressing_plan import plan_pressing
from piecewright.planning.things import Made, Thing, ThingThere, UnitThing
from piecewright.planning.units import There
from piecewright.planning.writing import sewing_steps
from piecewright.shelf.shelf import Shelf
from piecewright.workroom.workroom import Workroom

SPINS = True
"""Seams inside blocks may change side where all can go round one way."""


def make_plan(
    design: Design,
    workroom: Workroom,
    there: Sequence[There] = (),
    shelf: Shelf | None = None,
    effort: int = LITTLE_EFFORT,
) -> Job:
    """The job for a design in a workroom, replayed; it starts from units that are `there` already.

    Cloth is taken from the `shelf` first; its layouts are sought with so much `effort` for each (thousand
    entries of a table; 300,000 are about a second).

    Raises Refused when the quilt cannot be planned. A plan that does not replay is returned with what is
    wrong in `job.replay`; no face shows such a plan.
    """
    drawing = draw_quilt(design)
    cloths = cloths_of(design)
    widths = widths_of(design, workroom)
    shop = Workshop(workroom, cloths, tuple(there), wishes_of(design))
    block_of = block_drawings(design)
    shop.choose_ways(drawing.top, block_of)
    make_lengths(shop, drawing.order, widths)
    light = {fabric_of(design, role.key): lightness(design, role.key) for role in design.roles}
    second = None
    if workroom.press_open != "always":
        lying = _lying(design, shop, drawing, block_of)
        second = second_pressing(design, lying, shop.things, light, SPINS)
    top = _building(drawing, shop, block_of, second).build(drawing.order).thing
    finishing = make_finishing(shop, design, top, widths)
    finish = finishing.finish
    ends = {name: 1 for name in (finish.top, finish.backing, finish.binding) if name}
    settle_cuttings(shop, ends, widths, motifs_of(design))
    counts = count_things(shop.things, ends)
    pressings = plan_pressing(shop.things, counts, light, workroom.press_open, SPINS, seam=shop.seam)
    bolts = [bolt_of(key, design, workroom, width) for key, width in widths.items()]
    wanted = demands_of(shop.things, counts)
    cut = {key: spared(demands, workroom) for key, demands in wanted.items()}
    prints, prints_notes = share_assortments(design, drawing, cut, bolts, shop.things)
    cloth = lay_out_cloths(cut, bolts, wish_of(workroom, effort), shelf)
    steps = (
        *steps_of_cutting(cloth, workroom),
        *sewing_steps(list(shop.things.values()), counts, pressings, workroom),
    )
    upright = frozenset(cloths.one_way - _tilted_fabrics(shop.things))
    plan = Plan(
        title=design.title,
        workroom=workroom,
        cloth=cloth_listed(cloth, bolts, upright),
        steps=steps,
        finish=finish,
        have=(*_have(shop.things, workroom), *cloth_had(cloth)),
        left_over={**left_over(shop.things, counts), **pieces_to_spare(wanted, cut)},
    )
    bench, problems = run(plan)
    came_to = verdict(plan, bench, problems, drawing.top, cloths.fabric_of)
    if came_to.tilted:
        # A print that cannot stand upright is said so in the plan, and nowhere else does the bench allow it.
        plan = msgspec.structs.replace(plan, not_upright=came_to.tilted)
        came_to = verdict(plan, bench, problems, drawing.top, cloths.fabric_of)
    pressed = {name: pile.kinds[0][0] for name, pile in bench.table.piles.items() if pile.kinds}
    blocks = {key: made.thing.name for key, made in _blocks_made(design, shop).items()}
    return Job(
        design=design,
        workroom=workroom,
        drawing=drawing,
        plan=plan,
        replay=came_to,
        cloth=cloth,
        prints=prints,
        shelf=shelf_change([c for c in cloth if c.name not in prints or c.cut.used], shelf or Shelf(), ""),
        things=shop.things,
        counts=counts,
        blocks=blocks,
        pressings=pressings,
        pressed=pressed,
        finishing=finishing,
        second=second,
        notes=(
            *shop.remarks,
            *notes_on(design, shop.things, counts, pressings, came_to),
            *prints_notes,
            *motif_notes(design, shop.things, counts),
            *lengthwise_notes(shop.things, cut, bolts, workroom, wish_of(workroom, effort)),
            *(second_note(second) if second else ()),
        ),
    )


def _lying(
    design: Design, shop: Workshop, drawing: QuiltDrawing, block_of: Mapping[int, str]
) -> dict[Laid, Made]:
    """The thing for each block of the arrangement, as it lies once turned."""
    lying: dict[Laid, Made] = {}
    for child in drawing.top.children:
        if id(child.drawing) in block_of:
            laid = design.setting.at(*drawing.cells[id(child)])
            if laid not in lying:
                lying[laid] = shop.placed(child, block_of[id(child.drawing)])
    return lying


def _building(
    drawing: QuiltDrawing, shop: Workshop, block_of: Mapping[int, str], second: SecondPressing | None
) -> Building:
    if second is None:
        return Building(shop, block_of, straight=drawing.straight)

    def is_second(child: Placed) -> bool:
        return id(child.drawing) in block_of and second.is_second(drawing.cells[id(child)])

    return Building(shop, block_of, is_second, Again(shop, second.apart), drawing.straight)


def _have(things: Mapping[str, Thing], workroom: Workroom) -> tuple[Have, ...]:
    """What is there already, told by steps that make it from pieces cut for it."""
    return tuple(
        Have(name=thing.name, count=thing.there, made_by=from_cloth(thing.recipe, thing.name, workroom))
        for thing in things.values()
        if isinstance(thing, ThingThere)
    )


def cloths_of(design: Design) -> Cloths:
    """What the workshop must know of a design's cloth."""
    return Cloths(
        fabric_of={role.key: fabric_of(design, role.key) for role in design.roles},
        one_way=frozenset(f.key for f in design.fabrics if f.one_way),
        alike={role.key: role.alike for role in design.roles if role.is_assortment},
        pins={(choice.kind, choice.block): choice.way for choice in design.choices},
        motifs=frozenset(motifs_of(design)),
    )


def widths_of(design: Design, workroom: Workroom) -> dict[str, Length]:
    """The usable width of every cloth of the quilt, its backing included."""
    keys = [*(fabric_of(design, role.key) for role in design.roles), backing_cloth(design)]
    return {key: usable_width_of(key, design, workroom) for key in keys}


def wishes_of(design: Design) -> dict[str, BlockWish]:
    """How each block would rather be sewn, and how many times the quilt has it."""
    setting = design.setting
    times = Counter(setting.at(*place).key for place in setting.cells())
    return {block.key: BlockWish(block.prefer, times[block.key]) for block in design.blocks}


def _blocks_made(design: Design, shop: Workshop) -> dict[str, Made]:
    used = design.setting.keys()
    return {
        block.key: shop.made(draw_block(design, block.key), block.key)
        for block in design.blocks
        if block.key in used and id(draw_block(design, block.key)) in shop.drawn
    }


def _tilted_fabrics(things: Mapping[str, Thing]) -> set[str]:
    """The one-way cloths that cannot stand upright in some unit, so that the bench cannot ask it of them."""
    return {
        fabric
        for thing in things.values()
        if isinstance(thing, UnitThing | ThingThere) and thing.tilted
        for fabric in thing.recipe.unit.fabrics
    }
