"""Backing, binding and long strips against worked figures from outside."""

import pytest

from piecewright.bench.steps import TrueUp
from piecewright.design.read import design_from
from piecewright.finishing.finishing import backing_panels, binding_strips, long_strips
from piecewright.measure.length import Length, inches, mm
from piecewright.planning.make_plan import make_plan
from piecewright.problems import Refused
from piecewright.toml_places import toml_from_text
from piecewright.workroom.workroom import default_workroom

QUARTER = inches("1/4")
YARD = inches(36)


def size(width: int, height: int) -> tuple[Length, Length]:
    return inches(width), inches(height)


@pytest.mark.parametrize(
    ("top", "yards"),
    [
        (size(60, 60), 3.778),  # exact: panels along and across compared, 4 in margin, 42 in cloth
        (size(86, 96), 7.833),  # exact: the same
    ],
)
def test_backing_takes_the_cheaper_way_of_its_panels(top: tuple[Length, Length], yards: float) -> None:
    panels = backing_panels(top, inches(4), inches(42), QUARTER)
    assert float(panels.cloth) / float(YARD) == pytest.approx(yards, abs=1e-3)


def test_backing_panels_reach_after_their_seams() -> None:
    # Two panels of 42 in give 84 - 2 x 1/4 = 83 1/2 in; five give 5 x 42 - 4 x 1/2 = 208: plane arithmetic.
    just = backing_panels((inches("75 1/2"), inches(200)), inches(4), inches(42), QUARTER)
    over = backing_panels((inches("75 5/8"), inches(200)), inches(4), inches(42), QUARTER)
    assert [(panels.upright, panels.count) for panels in (just, over)] == [(True, 2), (False, 5)]


def test_binding_strips_lose_a_strip_width_at_every_slanted_join() -> None:
    # exact: each 45 degree join costs one strip width; 60 x 72 top, 2 1/2 in strips, 40 in cloth, 10 spare.
    strips = binding_strips(size(60, 72), inches("2 1/2"), inches(40))
    assert strips.count == 8
    assert strips.least == inches(274)
    assert strips.made == inches(8 * 40) - inches("2 1/2") * 7


def test_binding_wider_than_its_cloth_is_refused() -> None:
    with pytest.raises(Refused, match="cannot be joined"):
        binding_strips(size(10, 10), inches(41), inches(40))


def test_long_strips_lose_two_allowances_at_every_straight_join() -> None:
    # 3 x 40 - 2 x 1/2 = 119 in for 2 x (57 1/2 + 2) = 119 in, plane arithmetic.
    strips = long_strips((inches("57 1/2"),) * 2, inches(2), inches(40), QUARTER)
    assert (strips.count, strips.made) == (3, inches(119))
    longer = long_strips((inches("57 5/8"),) * 2, inches(2), inches(40), QUARTER)
    assert longer.count == 4


def test_metric_backing_and_binding() -> None:
    panels = backing_panels((mm(1500), mm(1500)), mm(100), mm(1070), mm("7.5"))
    assert (panels.count, panels.length) == (2, mm(1700))
    assert binding_strips((mm(1500), mm(1500)), mm(65), mm(1070)).count == 7


def test_the_second_pair_of_butted_borders_is_longer_by_two_finished_widths() -> None:
    # published: raw top 69 1/2, borders cut 8 1/2: 85 1/2 for the second pair (quiltingboard.com t218434).
    text = """
title = "Butted"
reason = "a check"
unit = "in"
[fabrics.sea]
name = "sea"
colour = "#223355"
[blocks.plain]
name = "plain"
size = "3"
picture = "sea"
[setting]
across = 23
down = 23
arrangement = "plain"
[[borders]]
width = "8"
role = "sea"
"""
    design, problems = design_from(toml_from_text(text, "butted.toml"))
    assert design is not None, problems
    job = make_plan(design, default_workroom("in"))
    trimmed = [s.width for s in job.plan.steps if isinstance(s, TrueUp) and s.landmark == "edges"]
    assert sorted(trimmed) == [inches("69 1/2"), inches("69 1/2"), inches("85 1/2"), inches("85 1/2")]
    assert job.replay.made_as_drawn
