"""The finishing of whole quilts: every figure with its sum, in inches and centimetres, with words."""

import re
from dataclasses import replace
from fractions import Fraction
from functools import cache
from pathlib import Path

import msgspec
import pytest

from piecewright.bench.plan import Finish, Plan
from piecewright.design.read import read_design
from piecewright.finishing.backing import wide_cloth
from piecewright.finishing.binding import BindingWishes
from piecewright.finishing.cost import Prices
from piecewright.finishing.finish_quilt import finish_quilt
from piecewright.finishing.finish_wishes import FinishWishes, usual_wishes
from piecewright.finishing.finished import Finished
from piecewright.finishing.hanging import HangingWishes
from piecewright.finishing.how_quilted import Quilting
from piecewright.handout.tell_finishing_more import finishing_more
from piecewright.measure.length import inches, mm
from piecewright.planning.finish_job import finish_job, planned_top, wishes_of
from piecewright.planning.job import Job
from piecewright.planning.make_plan import make_plan
from piecewright.problems import Refused
from piecewright.workroom.workroom import default_workroom

EXAMPLES = Path(__file__).parents[1] / "examples"
QUILTS = ["harbour-lights", "metric-nets", "sawtooth-star"]


@cache
def job(name: str) -> Job:
    design, problems = read_design(EXAMPLES / f"{name}.toml")
    assert design is not None, problems
    return make_plan(design, default_workroom(design.unit))


def finished(name: str, **wished: object) -> Finished:
    return finish_job(job(name), replace(wishes_of(job(name)), **wished))  # type: ignore[arg-type]


def words(told: Finished) -> list[str]:
    parts = finishing_more(told)
    return [
        line
        for part in parts
        for line in (*part.says, *part.steps, *(s.size for s in part.sizes), *part.sums)
    ]


@pytest.mark.parametrize("name", QUILTS)
def test_back_and_binding_are_those_that_the_plan_makes(name: str) -> None:
    told = finished(name)
    assert told.notes == ()
    assert told.parts.back.cloth == job(name).finishing.panels.cloth
    strips = job(name).finishing.binding
    if strips is not None:
        assert told.parts.edge.cloth == strips.width * strips.count


@pytest.mark.parametrize("name", QUILTS)
def test_minutes_and_stitching_are_those_of_every_step(name: str) -> None:
    told = finished(name)
    assert len(told.work.steps) == len(job(name).plan.steps)
    later = {"getting ready", "layering", "quilting", "edge", "sleeve and label"}
    of_steps = sum(one.minutes for one in told.minutes.stations if one.name not in later)
    assert of_steps == pytest.approx(sum(step.all for step in told.minutes.steps))
    assert told.thread.uses[0].sewn == pytest.approx(told.work.sewn)


@pytest.mark.parametrize("name", QUILTS)
def test_the_top_weighs_all_its_cloth(name: str) -> None:
    # The cloth of a top is more than its finished area, by what lies in the seams.
    told = finished(name)
    area = float(told.sizes.pieced[0]) * float(told.sizes.pieced[1])
    assert area < sum(told.work.top_cloth.values()) < 2.5 * area


@pytest.mark.parametrize(("name", "unit"), [("harbour-lights", "in"), ("metric-nets", "cm")])
def test_words_and_sums_keep_to_the_unit_of_the_quilt(name: str, unit: str) -> None:
    # A figure before the other unit's name; "in" is a word as well.
    other = r"\d cm\b" if unit == "in" else r"\d in\b(?! a| all)"
    told = words(finished(name, hanging=HangingWishes(sleeve=True, label=True)))
    assert [line for line in told if re.search(other, line)] == []


def test_a_quilt_without_prices_says_so_and_one_with_some_names_the_others() -> None:
    assert (
        words(finished("harbour-lights")).count("No price is known yet: write them where the cloth is named.")
        == 1
    )
    prices = Prices({"night": Fraction(12)}, spool=Fraction(5), coin="crowns")
    told = finish_job(job("harbour-lights"), None, prices)
    night = next(layout for layout in job("harbour-lights").layouts if layout.key == "night")
    cost = Fraction(12) * night.buy.exact / 36 + 5 * told.thread.spools
    assert told.cost.known == cost
    assert "night" not in told.cost.without_price
    assert "fog" in told.cost.without_price


def test_another_binding_than_the_plans_is_told() -> None:
    told = finished("harbour-lights", binding=BindingWishes(cut="continuous bias"))
    assert [note.what for note in told.notes] == [
        "the plan's binding has 6 joins, and as wished it has no join"
    ]


def test_what_the_plan_does_not_make_is_sewn_and_bought_besides() -> None:
    top = planned_top(job("harbour-lights"))
    bare = replace(top, plan=_without_finish(top.plan))
    wishes = replace(wishes_of(job("harbour-lights")), edge_cloth="lantern")
    told, planned = finish_quilt(wishes, bare, Prices()), finish_quilt(wishes, top, Prices())
    more = told.parts.back.seam_run + told.parts.edge.join_run
    assert told.thread.uses[0].sewn == pytest.approx(planned.thread.uses[0].sewn + more)
    assert [line.what for line in told.cost.lines][-4:] == ["backing", "lantern", "batting", "thread"]


def _without_finish(plan: Plan) -> Plan:
    return msgspec.structs.replace(plan, finish=Finish(top=plan.finish.top))


def test_one_wide_cloth_and_a_back_of_leftovers_may_be_wished() -> None:
    told = finished("harbour-lights", backs=(wide_cloth(inches(108), "in"),), leftovers=True)
    assert told.parts.back.seams == 0
    left = told.parts.from_leftovers
    assert left is not None
    assert left.least == (inches(63), inches(72))
    assert left.lacking is not None


def test_quilting_in_the_seams_is_as_long_as_they_are() -> None:
    told = finished("harbour-lights", quilting=Quilting(pattern="in the ditch"))
    assert told.quilting.length == told.work.in_ditch
    around = finished("harbour-lights", quilting=Quilting(pattern="around the blocks"))
    assert 0 < around.quilting.length < told.work.in_ditch


def test_hand_quilting_takes_longer_and_less_thread() -> None:
    by_hand = finished("harbour-lights", quilting=Quilting(by="hand"))
    at_home = finished("harbour-lights")
    assert by_hand.minutes.all > at_home.minutes.all
    assert by_hand.thread.needed < at_home.thread.needed


def test_where_stations_are_not_known_quilting_around_blocks_is_refused() -> None:
    top = replace(planned_top(job("harbour-lights")), stations=None)
    wishes = FinishWishes(quilting=Quilting(pattern="around the blocks"))
    with pytest.raises(Refused, match="which seams lie around the blocks is not known"):
        finish_quilt(wishes, top, Prices())


def test_metric_wishes_are_metric() -> None:
    usual = usual_wishes("cm")
    assert (usual.quilting.apart, usual.thread.piecing, usual.margin("cm")) == (mm(50), mm(2), mm(100))


def test_the_sheet_has_a_part_for_everything_that_is_wished() -> None:
    told = finished("harbour-lights", leftovers=True, hanging=HangingWishes(sleeve=True, label=True))
    assert [part.name for part in finishing_more(told)] == [
        "Three sizes",
        "Backing: how it is joined",
        "Backing from leftovers",
        "Batting: what to ask for",
        "Edge: binding",
        "Hanging sleeve",
        "Label",
        "Thread",
        "Time",
        "Cost",
        "Weight",
    ]
