"""Rescue: units of another size, squares cut to another size, cloth that is left; every way out replays."""

from pathlib import Path

import pytest

from piecewright.batches.on_hand import OnHand
from piecewright.bench.plan_file import plan_from_text, plan_text
from piecewright.bench.replay import replay
from piecewright.cli.main import call
from piecewright.design.draw_quilt import draw_quilt
from piecewright.design.model import fabric_of, finished_size
from piecewright.design.read import design_from, read_design
from piecewright.measure.length import inches, mm
from piecewright.methods.method import Unit
from piecewright.planning.make_plan import make_plan
from piecewright.planning.report import report_of
from piecewright.planning.things import Gathered, ThingThere, UnitThing
from piecewright.planning.units import There
from piecewright.problems import Refused
from piecewright.rescue.suits import from_square, suits
from piecewright.rescue.ways_out import Which, came_out, ways_out
from piecewright.rescue.what_is_left import still_made
from piecewright.toml_places import toml_from_text
from piecewright.workroom.workroom import INCH_WORKROOM, METRIC_WORKROOM

EXAMPLES = Path(__file__).parents[1] / "examples"
THROW = EXAMPLES / "harbour-lights.toml"
TEXT = THROW.read_text("utf-8")
DESIGN = read_design(THROW)[0]
HST = Unit("hst", ("tide", "glass"), inches(2), inches(2))


def outs(size: str, count: int, kind: str = "hst"):
    sizes = tuple(inches(side) for side in size.split(" x "))
    units = came_out(DESIGN, kind, (sizes[0], sizes[-1]), count)
    return ways_out(TEXT, "quilt.toml", INCH_WORKROOM, units)


@pytest.mark.parametrize(
    ("raw", "as_it_is", "trued"),
    [
        # arithmetic: raw less two seams of 1/4 in; trued to the quarter inch below, at least 1/8 in off
        ("2 3/8", "1 7/8", "1 3/4"),
        ("2 1/2", "2", "2"),
        ("2 17/32", "2 1/32", "2"),  # 1/32 over is eased in
        ("2 19/32", "2 3/32", "1 3/4"),  # 3/32 over is neither eased nor trimmed well
        ("2 5/8", "2 1/8", "2"),
        ("9/16", "1/16", None),
    ],
)
def test_a_raw_size_suits_these_finished_sizes(raw, as_it_is, trued):
    found = suits(float(inches(raw)), INCH_WORKROOM)
    assert found.as_it_is == inches(as_it_is)
    assert found.trued == (inches(trued) if trued else None)


def test_in_centimetres_sizes_are_trued_to_half_centimetres():
    # arithmetic: 62 mm less 15 mm is 47 mm; 45 mm lies on the half centimetre below, 2 mm over is no trim
    found = suits(float(mm(64)), METRIC_WORKROOM)
    assert found.as_it_is == mm(49)
    assert found.trued == mm(45)


def test_of_a_unit_that_is_all_seam_nothing_is_left():
    with pytest.raises(Refused, match="nothing is left"):
        suits(0.5, INCH_WORKROOM)


def test_what_squares_that_are_cut_already_make():
    # plane geometry: S, S - sqrt(2) s, (S - 2s) / sqrt 2, S / 2 - sqrt(2) s of S = 5 3/4
    made = {one.method.name: one.raw for one in from_square("hst", inches("5 3/4"), INCH_WORKROOM)}
    root = 2**0.5
    assert made["one at a time"] == pytest.approx(5.75)
    assert made["two at a time"] == pytest.approx(5.75 - root / 4)
    assert made["four at a time"] == pytest.approx(5.25 / root)
    assert made["eight at a time"] == pytest.approx(2.875 - root / 4)


def test_what_is_left_is_told_for_every_size():
    # floor rule and plane geometry: 14 squares of 10 in are 7 pairs; eight at a time from each pair, 4 in
    # finished, takes 2 (4 1/2 + sqrt(2)/4) = 9.707 in
    found = {
        one.height: one.answer.made
        for one in still_made("hst", [OnHand(14, inches(10), inches(10))], INCH_WORKROOM)
    }
    assert found[inches(4)] == 56
    assert found[inches(8)] == 14
    assert list(found.values()) == sorted(found.values(), reverse=True)


def test_small_units_are_kept_and_the_blocks_follow():
    ways = outs("2 3/8", 60)
    assert [way.title for way in ways][-1] == "make them anew"
    keep = ways[0]
    # arithmetic: 1 7/8 for 2 is 15/16; a block of 8 in becomes 7 1/2, the quilt 5 x 1/2 in narrower
    assert keep.design.block_width == inches("7 1/2")
    assert finished_size(keep.design) == (inches("52 1/2"), inches(61))
    assert keep.job.replay.made_as_drawn
    assert {t.there for t in keep.job.things.values() if isinstance(t, ThingThere)} == {60}
    assert not any(t.recipe.unit.kind == "hst" for t in keep.job.things.values() if isinstance(t, UnitThing))


def test_the_inner_border_makes_up_for_what_the_blocks_lose():
    wider = next(way for way in outs("2 3/8", 60) if "border" in way.title)
    # arithmetic: five blocks lose 1/2 in each, half of it on each side
    assert wider.design.borders[0].width == DESIGN.borders[0].width + inches("1 1/4")
    assert finished_size(wider.design)[0] == finished_size(DESIGN)[0]


def test_units_that_are_over_are_trued_up_and_no_cloth_is_cut_for_them():
    first, *_ = outs("2 5/8", 60)
    assert first.title == "true them up to what was wanted"
    assert finished_size(first.design) == finished_size(DESIGN)
    assert first.cloth < outs("2 5/8", 60)[-1].cloth


def test_a_little_over_is_eased_in_and_the_rest_is_made():
    first, *rest = outs("2 17/32", 37)
    assert [way.title for way in rest] == ["make them anew"]
    gathered = next(t for t in first.job.things.values() if isinstance(t, Gathered))
    assert first.job.counts[gathered.name] == 60
    there = next(t for t in first.job.things.values() if isinstance(t, ThingThere))
    assert first.job.counts[there.name] == 37


def test_geese_are_judged_by_both_sides():
    assert outs("4 1/4 x 2 3/8", 20, "geese")[0].design.block_width == inches("7 1/2")
    # Too narrow for their height: only what the width allows.
    assert all("7 1/2" not in str(w.design.block_width) for w in outs("4 x 2 3/8", 20, "geese"))


def test_units_that_are_as_wanted_need_no_rescue():
    with pytest.raises(Refused, match="measure what is wanted"):
        outs("2 1/2", 60)


def test_a_unit_that_the_quilt_does_not_have_is_told_with_those_it_has():
    with pytest.raises(Refused, match="tide and glass, 2 in x 2 in finished"):
        came_out(DESIGN, "hst", (inches(2), inches(2)), 1, Which(("night",)))


def test_a_plan_that_starts_from_units_replays_from_its_file():
    job = make_plan(DESIGN, INCH_WORKROOM, [There(HST, 37)])
    plan = plan_from_text(plan_text(job.plan, report_of(job)))
    fabrics = {role.key: fabric_of(DESIGN, role.key) for role in DESIGN.roles}
    assert replay(plan, draw_quilt(DESIGN).top, fabrics).made_as_drawn
    assert [(have.count, len(have.made_by) > 0) for have in plan.have] == [(37, True)]


def test_a_plan_with_fewer_units_than_it_says_does_not_replay():
    import msgspec

    job = make_plan(DESIGN, INCH_WORKROOM, [There(HST, 37)])
    (have,) = job.plan.have
    fewer = msgspec.structs.replace(job.plan, have=(msgspec.structs.replace(have, count=35),))
    fabrics = {role.key: fabric_of(DESIGN, role.key) for role in DESIGN.roles}
    assert not replay(fewer, draw_quilt(DESIGN).top, fabrics).made_as_drawn


def test_units_of_a_size_that_the_quilt_does_not_have_cannot_be_started_from():
    with pytest.raises(Refused, match="the quilt has no such unit"):
        make_plan(DESIGN, INCH_WORKROOM, [There(Unit("hst", ("tide", "glass"), inches(3), inches(3)), 5)])


def run(*words: str) -> int:
    return call(["rescue", *words])


def test_the_command_tells_the_ways_out_and_writes_one(tmp_path, capsys):
    folder = tmp_path / "rescued"
    words = ["hst", "--came-out", "2 3/8", "--count", "60", "--quilt", str(THROW)]
    assert run(*words, "--take", "1", "--out", str(folder)) == 0
    said = capsys.readouterr().out
    assert "2 1/2 in unfinished was wanted, yours measure 2 3/8 in, 0.1250 in short" in said
    assert "blocks 7 1/2 in, the quilt 52 1/2 x 61 in finished" in said
    assert (folder / "job-sheet.pdf").read_bytes().startswith(b"%PDF")
    assert call(["replay", str(folder / "plan.json"), str(folder / "quilt.toml")]) == 0
    assert "# Harbour lights" in (folder / "quilt.toml").read_text("utf-8"), "remarks are kept"


def test_the_command_without_a_quilt(capsys):
    assert run("hst", "--came-out", "2 3/8") == 0
    assert "1.8750 in" in capsys.readouterr().out
    assert run("hst", "--cut", "5 3/4") == 0
    assert "eight at a time" in capsys.readouterr().out
    assert run("geese", "--left", "14 of 10") == 0
    assert "at most" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (("hst",), "expected one of --came-out, --cut and --left, got none"),
        (("hst", "--cut", "5", "--left", "5"), "got --cut and --left"),
        (("hsd", "--cut", "5"), "unknown kind of unit 'hsd'. Did you mean hst?"),
        (("hst", "--cut", "5, 6"), "--cut: expected the side of one size"),
        (("hst", "--cut", "0"), "--cut: expected squares above 0"),
        (("hst", "--cut", "-3"), "--cut: expected squares above 0"),
        (("hst", "--cut", "1/8"), "no half-square triangle comes of squares of 1/8 in. Take larger squares"),
        (("geese", "--cut", "5 1/4"), "a flying goose does not start from squares of one size"),
        (("hst", "--came-out", "99999"), "expected a unit of up to"),
        (("hst", "--left", "0 of 5"), "--left: expected from 1 to 10,000 pieces"),
        (("hst", "--left", "3 of"), "--left: "),
        (("hst", "--left", "2 of 1"), "--left: nothing of that kind"),
        (("hst", "--came-out", "fish"), "--came-out: "),
        (("hst", "--came-out", "2", "--quilt", str(THROW)), "--count: expected how many there are"),
        (
            ("hst", "--came-out", "2 3/8", "--count", "9", "--quilt", str(THROW), "--fabrics", "x"),
            "--fabrics: expected a half-square triangle of this quilt",
        ),
        (
            (
                "hst",
                "--came-out",
                "2 3/8",
                "--count",
                "9",
                "--quilt",
                str(THROW),
                "--take",
                "9",
                "--out",
                "x",
            ),
            "--take: expected a way out from 1 to",
        ),
        (
            ("hst", "--came-out", "2 3/8", "--count", "9", "--quilt", str(THROW), "--take", "1"),
            "--out: expected the name of a folder",
        ),
    ],
)
def test_wrong_words_are_told_in_one_sentence(words, message, capsys):
    assert run(*words) == 1
    err = capsys.readouterr().err
    assert message in err
    assert len(err.strip().splitlines()) == 1


CORNERS = """title = "Moorings"
unit = "in"
[fabrics.sail]
colour = "#e6e2d8"
[fabrics.tide]
colour = "#3d5a73"
[blocks.one]
size = "4"
patches = [
  {role = "sail", corners = [[0, 0], [2, 0], [2, 4]]},
  {role = "tide", corners = [[0, 0], [2, 4], [0, 4]]},
  {role = "sail", corners = [[2, 0], [4, 0], [2, 4]]},
  {role = "tide", corners = [[4, 0], [4, 4], [2, 4]]},
]
[setting]
across = 2
down = 2
arrangement = "one"
[backing]
margin = "4"
"""


def test_blocks_drawn_by_their_corners_follow_as_well():
    design = design_from(toml_from_text(CORNERS, "quilt.toml"))[0]
    size = (inches("2 1/4"), inches(4))  # arithmetic: finished 1 3/4 x 3 1/2, seven eighths of 2 x 4
    with pytest.raises(Refused, match="--hand"):
        came_out(design, "hrt", size, 4)
    units = came_out(design, "hrt", size, 4, Which(hand="right"))
    keep, *_ = ways_out(CORNERS, "quilt.toml", INCH_WORKROOM, units)
    assert keep.design.block_width == inches("3 1/2")
    assert keep.job.replay.made_as_drawn
    assert {t.there for t in keep.job.things.values() if isinstance(t, ThingThere)} == {4}


def test_units_of_another_finished_size_are_not_meant():
    with pytest.raises(Refused, match="expected a half-square triangle of this quilt"):
        came_out(DESIGN, "hst", (inches(2), inches(2)), 1, Which(finished=(inches(3), inches(3))))


def test_units_that_are_there_may_be_of_a_print_that_cannot_stand_upright():
    one_way = TEXT.replace('name = "deep navy solid"', 'name = "deep navy solid"\none_way = true')
    design = design_from(toml_from_text(one_way, "quilt.toml"))[0]
    goose = Unit("geese", ("night", "lantern"), inches(4), inches(2))
    job = make_plan(design, INCH_WORKROOM, [There(goose, 12, "four at a time")])
    assert [t.tilted for t in job.things.values() if isinstance(t, ThingThere)] == [True]
    assert not [
        problem for problem in job.replay.problems if "what is there already" in (problem.where or "")
    ]
