"""The pressing of whole quilts: seams that change side, open seams, two pressings; replayed on the bench."""

from dataclasses import replace
from itertools import product
from pathlib import Path

import msgspec
import pytest

from piecewright.bench.plan import Plan
from piecewright.bench.replay import Replay, replay, run
from piecewright.design.colour import lightness
from piecewright.design.model import Design, fabric_of
from piecewright.design.read import design_from, read_design
from piecewright.geometry.isometry import STILL, turned
from piecewright.planning.crossings import crossings_of
from piecewright.planning.iron_facts import iron_facts
from piecewright.planning.job import Job
from piecewright.planning.made_again import Again
from piecewright.planning.make_plan import cloths_of, make_plan
from piecewright.planning.making import Workshop
from piecewright.planning.pressing_asked import Asked, programme_of, seams_of
from piecewright.planning.pressing_map import second_pressing
from piecewright.planning.pressing_plan import Pressings, plan_pressing
from piecewright.planning.things import Gathered, Joined, Made
from piecewright.planning.where_to_pin import pressed_round, spun, to_pin
from piecewright.planning.writing import sewing_steps
from piecewright.pressing.at_the_iron import IronFacts
from piecewright.pressing.directions import press
from piecewright.pressing.reckoning import reckon
from piecewright.toml_places import toml_from_text
from piecewright.workroom.workroom import INCH_WORKROOM, PressOpen

EXAMPLES = Path(__file__).parent.parent / "examples"

HEAD = """
title = "Two tides"
reason = "To see which way the tide runs."
unit = "in"
[fabrics.ebb]
name = "ebb"
colour = "#223355"
[fabrics.flood]
name = "flood"
colour = "#ddeeee"
[fabrics.buoy]
name = "buoy"
colour = "#a8512f"
"""


def job_of(picture: str, across: int = 1, down: int = 1, size: str = "6", more: str = "") -> Job:
    text = (
        f'{HEAD}[blocks.tide]\nname = "Tide"\nsize = "{size}"\npicture = """\n{picture}\n"""\n'
        f'[setting]\nacross = {across}\ndown = {down}\narrangement = "tide"\n{more}'
    )
    design, problems = design_from(toml_from_text(text, "tide.toml"))
    assert design is not None, problems
    return make_plan(design, INCH_WORKROOM)


def light_of(design: Design) -> dict[str, float]:
    return {fabric_of(design, role.key): lightness(design, role.key) for role in design.roles}


def pressings_of(job: Job, press_open: PressOpen = "never", may_spin: bool = True) -> Pressings:
    return plan_pressing(job.things, job.counts, light_of(job.design), press_open, may_spin)


def pressed_so(job: Job, pressings: Pressings) -> Plan:
    """The plan of a job with its seams pressed in another way."""
    things = list(job.things.values())
    before, after = (sewing_steps(things, job.counts, p, INCH_WORKROOM) for p in (job.pressings, pressings))
    cutting = job.plan.steps[: len(job.plan.steps) - len(before)]
    return msgspec.structs.replace(job.plan, steps=(*cutting, *after))


def replayed(job: Job, pressings: Pressings) -> Replay:
    return replay(pressed_so(job, pressings), job.drawing.top, cloths_of(job.design).fabric_of)


FOUR = "ebb buoy\nflood ebb"
NINE = "ebb flood buoy\nbuoy ebb flood\nflood buoy ebb"
PINWHEEL = "ebb.ne.flood ebb.se.flood\nebb.nw.flood ebb.sw.flood"


def joined(job: Job, name: str) -> Joined:
    thing = job.things[name]
    assert isinstance(thing, Joined)
    return thing


def test_the_centre_of_a_four_patch_is_spun() -> None:
    """By hand: one crossing, in the middle of a seam of 6 in: worth 2, and costs 1 1/2."""
    job = job_of(FOUR)
    pressings = pressings_of(job)
    pressing, (change,) = pressings.pressing("Tide.0")
    assert (set(pressing.towards), change.at) == ({"first", "second"}, pytest.approx(3.0))
    assert replayed(job, pressings).made_as_drawn


def test_a_seam_with_two_crossings_is_ironed_in_one_go() -> None:
    job = job_of(NINE)
    pressings = pressings_of(job)
    assert [pressings.pressing(s.seam)[1] for s in joined(job, "Tide").seams] == [(), ()]
    assert pressings.directions.clashing == 0


def test_no_seam_changes_side_where_nobody_asks_for_it() -> None:
    pressings = pressings_of(job_of(FOUR), may_spin=False)
    assert [pressings.pressing(name)[1] for name in pressings.of_seam] == [()] * len(pressings.of_seam)


def test_a_seam_of_a_row_or_the_top_never_changes_side() -> None:
    job = job_of(FOUR, across=2, down=2)
    pressings = pressings_of(job)
    changing = {name for name in pressings.of_seam if pressings.pressing(name)[1]}
    assert changing == {"Tide.0"}
    assert replayed(job, pressings).made_as_drawn


def test_the_eight_seams_of_a_pinwheel_are_pressed_round_and_nothing_is_to_be_pinned() -> None:
    """Common practice, no source: all eight go round one way, which is no fault."""
    job = job_of(PINWHEEL)
    pressings = pressings_of(job)
    (crossing,) = pressings.pressed_round(joined(job, "Tide"), 0)
    assert (crossing.at, crossing.seams) == (pytest.approx(3.0), 8)
    assert to_pin(job.things, job.counts, pressings, "in") == []
    (note,) = pressed_round(job.things, job.counts, pressings, "in")
    assert "8 seams come together 3 in from the left end, all pressed one way round" in note.what
    (note,) = spun(job.things, job.counts, pressings, "in")
    assert "the seam changes side 3 in from the left end" in note.what
    verdict = replayed(job, pressings)
    assert (verdict.made_as_drawn, verdict.clashes) == (True, 0)


@pytest.mark.parametrize("press_open", ["never", "where it helps", "always"])
@pytest.mark.parametrize("picture", [FOUR, NINE, PINWHEEL])
def test_every_pressing_is_replayed_as_it_was_planned(picture: str, press_open: PressOpen) -> None:
    job = job_of(picture, across=3, down=2)
    pressings = pressings_of(job, press_open)
    verdict = replayed(job, pressings)
    assert verdict.made_as_drawn, verdict.problems
    found = pressings.directions
    assert (verdict.nests, verdict.clashes) == (found.nesting, found.clashing + found.pinned)
    assert found.proven


# Two rows of unlike widths; a slanted seam that comes to a crossing from one side only.
UNEVEN = "ebb flood -\nflood buoy -"
SLANTED = "ebb.nw.flood buoy\nebb flood"


@pytest.mark.parametrize("picture", [FOUR, NINE, PINWHEEL, UNEVEN, SLANTED])
def test_every_seam_end_lies_on_the_bench_as_the_plan_says(picture: str) -> None:
    job = job_of(picture, across=2)
    pressings = pressings_of(job)
    bench, problems = run(pressed_so(job, pressings))
    assert list(problems) == []
    seen = set()
    for name, thing in job.things.items():
        if isinstance(thing, Joined) and job.counts[name]:
            (cloth, _) = bench.table.piles[name].kinds[0]
            for end in (end for side in range(len(cloth.sides)) for end in cloth.ends_on(side)):
                if end.name in pressings.of_seam:
                    stretch = pressings.of_seam[end.name].running_out(end)
                    assert end.pressed == pressings.side(stretch)
                    seen.add(end.name)
    assert "Tide.0" in seen


def test_a_seam_does_not_change_side_where_not_all_pair_off() -> None:
    """A third seam comes in from below alone: five come together, and only four go on."""
    job = job_of("ebb buoy\nebb.nw.flood flood")
    ((crossing,),) = crossings_of(joined(job, "Tide"))
    assert (crossing.seams, crossing.may_spin) == (5, False)
    assert pressings_of(job).pressing("Tide.0")[1] == ()


def test_places_are_told_from_the_left_whichever_way_a_seam_runs() -> None:
    """The patches are 2 in and 4 in wide: they meet 2 in from the left, and turned by half 4 in."""
    job = job_of(UNEVEN)
    pressings, block = pressings_of(job, "always"), joined(job, "Tide")
    for turn, at in ((0, "2 in"), (180, "4 in")):
        lying = replace(block, lies=turned(turn).after(block.lies))
        (note,) = to_pin({**job.things, "Tide": lying}, job.counts, pressings, "in")
        assert f"open seams do not lock {at} from the left end" in note.what


def test_open_seams_neither_nest_nor_clash_and_want_a_pin() -> None:
    job = job_of(NINE)
    pressings = pressings_of(job, "always")
    # Nine patches: two seams between the rows, two crossings on each.
    assert (pressings.directions.nesting, pressings.directions.clashing, pressings.directions.pinned) == (
        0,
        0,
        4,
    )
    notes = to_pin(job.things, job.counts, pressings, "in")
    assert ["open seams do not lock 2 in, 4 in from the left end" in note.what for note in notes] == [
        True
    ] * 2


def test_where_it_helps_a_seam_is_open_that_would_clash() -> None:
    """The half-square triangles of this block cannot all nest: they are one pile, pressed one way."""
    design, _ = read_design(EXAMPLES / "harbour-lights.toml")
    assert design is not None
    job = make_plan(design, INCH_WORKROOM)
    never, helped = pressings_of(job), pressings_of(job, "where it helps")
    assert never.directions.clashing > 0
    assert helped.directions.clashing < never.directions.clashing
    assert helped.directions.cost < never.directions.cost


def test_a_place_to_pin_is_told_with_its_seam_and_what_comes_together() -> None:
    design, _ = read_design(EXAMPLES / "harbour-lights.toml")
    assert design is not None
    job = make_plan(design, INCH_WORKROOM)
    (note,) = to_pin(job.things, job.counts, job.pressings, "in")
    assert (note.where, str(note.do)) == ("Wake row", "Pin there, and sew slowly.")
    assert note.what == (
        "where Wake column meets Wake column B, seams cannot nest 2 in from the lower end: seams of "
        "Wake column, Wake column B and half-square triangle tide and glass 2 come together there."
    )


def test_the_layers_decide_where_they_have_been_counted() -> None:
    """What costs much on one side is pressed to the other, whichever has more seams or is darker."""
    job = job_of(FOUR)
    for towards, other in (("first", "second"), ("second", "first")):
        bulk = {("Tide.0", towards): 50.0}
        assert (
            plan_pressing(job.things, job.counts, light_of(job.design), bulk=bulk).towards("Tide.0") == other
        )


def test_where_layers_are_counted_the_seams_on_either_side_are_not() -> None:
    """Away from two seams, to the whole patch; unless a layer was counted there."""
    job = job_of("ebb -\nflood buoy")
    usual = plan_pressing(job.things, job.counts, {}).towards("Tide.0")
    other = plan_pressing(job.things, job.counts, {}, bulk={("Tide.0", usual): 0.1}).towards("Tide.0")
    assert {usual, other} == {"first", "second"}


def test_a_crossing_counts_the_seams_that_come_together() -> None:
    job = job_of(PINWHEEL)
    (row,) = crossings_of(joined(job, "Tide row"))
    (block,) = crossings_of(joined(job, "Tide"))
    # In a row the two slanted seams end on the short seam's end: three seams so far.
    assert [(c.seams, c.inside) for c in row] == [(3, False)]
    assert [(c.seams, c.inside, c.may_spin) for c in block] == [(8, True, True)]


def test_a_nine_patch_of_its_own_gets_a_second_pressing_and_a_four_patch_does_not() -> None:
    """An odd block clashes with its like on all sides; a spun four-patch nests with its like."""
    for picture, counts in ((NINE, {"Tide": (8, 8)}), (FOUR, None)):
        job = job_of(picture, across=4, down=4)
        (laid,) = job.design.setting.arrangement[0]
        lying = {laid: Made(joined(job, "Tide"), STILL)}
        second = second_pressing(job.design, lying, job.things, light_of(job.design), may_spin=True)
        assert (second.counts if second else None) == counts


def test_only_what_is_pressed_otherwise_is_made_again() -> None:
    """Four-patches nest above and below as they are: only the seam between their rows has to differ. Of
    nine-patches the rails that are their rows have to differ as well.
    """
    for picture, rails in ((FOUR, 0), (NINE, 3)):
        job = job_of(picture, across=4, down=4)
        (laid,) = job.design.setting.arrangement[0]
        lying = {laid: Made(joined(job, "Tide"), STILL)}
        second = second_pressing(job.design, lying, job.things, light_of(job.design))
        assert second is not None
        assert {name for name in second.apart if isinstance(job.things[name], Joined)} == {"Tide"}
        of_blocks = {name for name, _ in joined(job, "Tide").needs}
        assert len(of_blocks & second.apart) == rails
        piles = [thing for name in second.apart if isinstance(thing := job.things[name], Gathered)]
        assert {source for pile in piles for source, _ in pile.sources} <= second.apart


def test_between_sashes_one_pressing_will_do() -> None:
    job = job_of(NINE, across=3, down=3, more='[sashing]\nwidth = "1"\nrole = "buoy"\n')
    (laid,) = job.design.setting.arrangement[0]
    lying = {laid: Made(joined(job, "Tide"), STILL)}
    assert second_pressing(job.design, lying, job.things, light_of(job.design)) is None


def test_what_is_made_again_has_names_and_seams_of_its_own_and_shares_the_rest() -> None:
    job = job_of(NINE)
    shop = Workshop(INCH_WORKROOM, cloths_of(job.design), things=dict(job.things))
    block = joined(job, "Tide")
    again = Again(shop, {"Tide", "Tide row"}).second(Made(block, block.lies))
    assert isinstance(again.thing, Joined)
    second = "Tide row, second pressing"
    assert {part.name for part in again.thing.parts} == {second, "Tide row B", "Tide row C"}
    assert [seamed.seam for seamed in again.thing.seams] == [
        "Tide, second pressing.0",
        "Tide, second pressing.1",
    ]
    names = {name.rpartition(".")[0] for name in again.thing.cloth.unpressed}
    assert names == {"Tide, second pressing", "Tide row, second pressing", "Tide row B", "Tide row C"}
    met = {
        end.name.rpartition(".")[0] for seamed in again.thing.seams for pair in seamed.pairs for end in pair
    }
    assert met == names - {"Tide, second pressing"}
    assert again.place == block.lies


def test_like_rows_on_one_another_are_pressed_by_turns() -> None:
    job = job_of(FOUR, across=2, down=4)
    shop = Workshop(INCH_WORKROOM, cloths_of(job.design), things=dict(job.things))
    row = Made(joined(job, "block row"), STILL)
    other = Made(replace(joined(job, "block row"), name="block row B"), STILL)
    turned = Again(shop, set()).by_turns([row, row, row, other, row])
    second = "block row, second pressing"
    assert [made.thing.name for made in turned] == [
        "block row",
        second,
        "block row",
        "block row B",
        "block row",
    ]


def facts_of(picture: str, across: int = 1) -> IronFacts:
    job = job_of(picture, across=across)
    return iron_facts(job.things, job.counts, pressings_of(job))


def test_at_the_iron_a_plan_of_squares_has_no_bias_and_its_longest_seam_is_that_between_rows() -> None:
    """Nine patches of 2 in: the seam between two rows is 6 in long."""
    facts = facts_of(NINE)
    assert (facts.bias_edge, facts.bias_seam, facts.cut_on_bias, facts.opened, facts.spun) == (
        0,
        0,
        False,
        False,
        False,
    )
    assert facts.longest_seam == pytest.approx(6.0)


def test_at_the_iron_the_seam_of_a_half_square_triangle_is_bias() -> None:
    """The slanted seam of a 3 in unit, seen with its allowances, is 3 1/2 in times the root of two."""
    facts = facts_of(PINWHEEL)
    assert facts.bias_seam == pytest.approx(3.5 * 2**0.5)
    assert (facts.bias_edge, facts.spun) == (0, True)


@pytest.mark.parametrize(
    ("picture", "across", "down"), [(FOUR, 2, 1), (FOUR, 2, 2), (PINWHEEL, 1, 1), (NINE, 1, 1)]
)
def test_the_pressing_of_a_small_quilt_is_the_best_of_all(picture: str, across: int, down: int) -> None:
    job = job_of(picture, across=across, down=down)
    crossings = {t.name: crossings_of(t) for t in job.things.values() if isinstance(t, Joined)}
    asked = Asked(job.things, job.counts, light_of(job.design), crossings, may_spin=True)
    programme = replace(programme_of(asked, seams_of(asked)), openings=())
    assert len(programme.segments) <= 14
    every = [
        reckon(programme, dict(zip(programme.segments, ways, strict=True)))
        for ways in product((True, False), repeat=len(programme.segments))
    ]
    found = press(programme)
    best = min((one.clashing, round(one.wishes, 6)) for one in every if one.allowed)
    assert (found.clashing, round(found.wishes, 6)) == best
