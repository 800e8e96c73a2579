"""Planning from the shelf: what is on hand is cut first, nothing is cut twice, and the shelf is told."""

from __future__ import annotations

import json
from pathlib import Path

import msgspec
import pytest

from piecewright.bench.replay import run
from piecewright.bench.steps import CutStrips
from piecewright.cli.main import call
from piecewright.design.model import Design
from piecewright.design.read import design_from, read_design
from piecewright.handout.tell_cloth import cutting, purchases
from piecewright.measure.length import inches
from piecewright.planning.job import Job
from piecewright.planning.make_plan import make_plan
from piecewright.planning.shelf_first import plan_from_shelf
from piecewright.planning.things import UnitThing
from piecewright.shelf.after_cutting import after
from piecewright.shelf.file import read_shelf
from piecewright.shelf.shelf import Shelf, ShelfCloth
from piecewright.toml_places import toml_from_text
from piecewright.workroom.workroom import INCH_WORKROOM

STAR = Path(__file__).parent.parent / "examples" / "sawtooth-star.toml"
CHECKS = '''
title = "Nine checks"
[fabrics.sea]
colour = "#223355"
[fabrics.sky]
colour = "#ddeeee"
[blocks.swell]
size = "4"
picture = "sea"
[blocks.calm]
size = "4"
picture = "sky"
[setting]
across = 3
down = 3
arrangement = """
swell calm swell
calm swell calm
swell calm swell
"""
'''


def star() -> Design:
    design, _ = read_design(STAR)
    assert design is not None
    return design


def checks() -> Design:
    design, problems = design_from(toml_from_text(CHECKS, "checks.toml"))
    assert design is not None, [*map(str, problems)]
    return design


def shelf_of(*cloth: tuple[str, str, str, int]) -> Shelf:
    return Shelf("in", tuple(ShelfCloth(key, inches(w), inches(h), n) for key, w, h, n in cloth))


def bought(job: Job) -> dict[str, str]:
    return {layout.key: layout.length.text() for layout in job.layouts}


def test_a_fabric_of_which_the_shelf_has_enough_is_not_bought():
    """arithmetic: 5 squares of 4 1/2 in; a 10 in square holds 2 x 2 of them, two squares hold them all."""
    job = make_plan(checks(), INCH_WORKROOM, shelf=shelf_of(("sea", "10", "10", 5)))
    assert job.replay.made_as_drawn
    assert [(used.fabric, used.count) for used in job.shelf.used] == [("sea", 2)]
    assert "sea" not in bought(job)
    assert not any(isinstance(step, CutStrips) and step.fabric == "sea" for step in job.plan.steps)
    row = next(row for row in purchases(job) if row.fabric.name == "sea")
    assert (row.bare, row.buy) == ("none", "nothing")
    assert row.note == "from the shelf: 2 pieces of 10 x 10 in"


def test_what_the_shelf_lacks_is_bought():
    """arithmetic: a 5 in square holds one of the 5 squares of 4 1/2 in, the other 4 come from one strip."""
    job = make_plan(checks(), INCH_WORKROOM, shelf=shelf_of(("sea", "5", "5", 1)))
    assert job.replay.made_as_drawn
    assert bought(job)["sea"] == "4 1/2 in"
    assert [(have.fabric, have.count) for have in job.plan.have] == [("sea", 1)]


def test_cloth_of_another_name_is_left_alone():
    job = make_plan(checks(), INCH_WORKROOM, shelf=shelf_of(("moss", "40", "36", 1)))
    plain = make_plan(checks(), INCH_WORKROOM)
    assert job.plan == plain.plan
    assert job.shelf.used == ()


def test_the_steps_take_no_more_off_the_shelf_than_is_there():
    """The bench itself refuses one piece less."""
    job = make_plan(checks(), INCH_WORKROOM, shelf=shelf_of(("sea", "10", "10", 5)))
    (have,) = job.plan.have
    short = msgspec.structs.replace(job.plan, have=(msgspec.structs.replace(have, count=have.count - 1),))
    assert run(job.plan)[1] == []
    assert run(short)[1] != []


def test_the_sheet_says_how_pieces_off_the_shelf_are_cut_and_what_is_left():
    job = make_plan(checks(), INCH_WORKROOM, shelf=shelf_of(("sea", "10", "10", 5)))
    (told,) = [cloth for cloth in cutting(job) if cloth.fabric.name == "sea"]
    assert [line.cut.split(" off ")[0] for line in told.lines] == [
        "take 1 piece of 10 x 10 in",
        "take 1 piece of 10 x 10 in",
    ]
    assert "4 squares 4 1/2 in (block rows)" in " ".join(then for line in told.lines for then in line.then)
    assert told.keep.startswith("Left and worth keeping: 1 of 10 x ")
    assert len(told.layouts) == 2


def test_a_quilt_is_planned_from_the_shelf_and_the_shelf_is_settled_when_it_is_cut(
    tmp_path, capsys, monkeypatch
):
    monkeypatch.chdir(tmp_path)
    shelf = tmp_path / "shelf.toml"
    shelf.write_text('[[cloth]]\nfabric = "fog"\nwidth = 42\nlength = 72 # best\n', "utf-8")
    assert call(["plan", str(STAR), "--shelf", "shelf.toml", "--out", "job"]) == 0
    out = capsys.readouterr().out
    assert [line.split()[-1] for line in out.splitlines() if line.startswith("fog")] == ["nothing"]
    assert "1 piece of 42 x 72 in" in out
    assert shelf.read_text("utf-8").endswith("# best\n")
    assert call(["replay", "job/plan.json", str(STAR)]) == 0
    plan = json.loads((tmp_path / "job" / "plan.json").read_text("utf-8"))
    assert plan["shelf"]["used"] == [{"fabric": "fog", "width": "42 in", "length": "72 in", "count": 1}]
    assert call(["shelf", "shelf.toml", "--cut", "job/plan.json"]) == 0
    left = [cloth for cloth in read_shelf(shelf).cloth if cloth.fabric == "fog"]
    # arithmetic: 72 less the strips of 7 1/4 in that a plan without a shelf cuts from 40 in
    assert left[0].width == inches(42)
    assert inches(60) < left[0].length < inches(72)


def test_what_is_left_of_bought_cloth_comes_onto_the_shelf_too():
    job = make_plan(star(), INCH_WORKROOM)
    shelf = after(Shelf("in"), job.shelf)
    assert job.shelf.used == ()
    assert {cloth.fabric for cloth in shelf.cloth} <= {*bought(job)}
    assert shelf.cloth


FOUR_PATCHES = CHECKS.replace('picture = "sea"', 'picture = "sea sky\\nsky sea"')


def test_strip_sets_are_given_up_where_the_shelf_has_only_small_pieces():
    """Four-patches are quickest from strips of the whole width; squares of 10 in do as well."""
    design, _ = design_from(toml_from_text(FOUR_PATCHES, "checks.toml"))
    assert design is not None
    shelf = shelf_of(("sea", "10", "10", 9))
    assert "sea" in bought(make_plan(design, INCH_WORKROOM, shelf=shelf))
    job = plan_from_shelf(design, INCH_WORKROOM, shelf)
    assert job.replay.made_as_drawn
    assert "sea" not in bought(job)
    assert "strip sets are left out" in job.notes[-1].what
    plain = make_plan(design, INCH_WORKROOM)
    ways = {t.recipe.method.name for t in plain.things.values() if isinstance(t, UnitThing)}
    assert any("strip sets" in way for way in ways)
    assert plan_from_shelf(design, INCH_WORKROOM).plan == plain.plan


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("nonsense = [", "nonsense"),
        ('[[cloth]]\nfabric = "fog"\nwidth = 0\nlength = 5\n', "width"),
    ],
)
def test_a_shelf_that_cannot_be_read_is_told_and_nothing_is_written(
    tmp_path, capsys, monkeypatch, text, says
):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "shelf.toml").write_text(text, "utf-8")
    assert call(["plan", str(STAR), "--shelf", "shelf.toml", "--out", "job"]) == 1
    assert says in capsys.readouterr().err
    assert not (tmp_path / "job").exists()
