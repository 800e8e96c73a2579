"""From a design file to a replayed plan: what is cut, which way is taken, what stands upright."""

from pathlib import Path

import msgspec
import pytest

from piecewright.bench.replay import replay
from piecewright.bench.steps import Close, Join, Stack, TrueUp
from piecewright.design.read import design_from, read_design
from piecewright.measure.length import inches, mm
from piecewright.planning.job import Job
from piecewright.planning.make_plan import make_plan
from piecewright.planning.things import Cut, Joined, UnitThing
from piecewright.planning.uses import one_block, uses_of
from piecewright.problems import Refused
from piecewright.sewing.stations import Station
from piecewright.toml_places import toml_from_text
from piecewright.workroom.workroom import Workroom, default_workroom

EXAMPLES = Path(__file__).parent.parent / "examples"

HEAD = """
title = "Test"
reason = "A test needs no reason."
unit = "in"
[fabrics.sea]
name = "sea"
colour = "#223355"
[fabrics.sky]
name = "sky"
colour = "#ddeeee"
"""


def planned(text: str, workroom: Workroom | None = None, head: str = HEAD) -> Job:
    design, problems = design_from(toml_from_text(head + text, "test.toml"))
    assert design is not None, [str(problem) for problem in problems]
    return make_plan(design, workroom or default_workroom(design.unit))


def block(picture: str, across: int = 1, down: int = 1, size: str = "6", arrangement: str = "one") -> str:
    return (
        f'[blocks.one]\nname = "One"\nsize = "{size}"\npicture = """\n{picture}\n"""\n'
        f'[setting]\nacross = {across}\ndown = {down}\narrangement = """\n{arrangement}\n"""\n'
    )


def cut_sizes(job: Job) -> dict[str, set[tuple[str, int]]]:
    """The sizes of all squares and rectangles that are cut, with their counts, cloth by cloth."""
    sizes: dict[str, set[tuple[str, int]]] = {}
    for name, thing in job.things.items():
        if isinstance(thing, Cut) and job.counts[name] and not thing.whole_strip:
            size = f"{thing.width.text()} x {thing.height.text()}"
            sizes.setdefault(thing.fabric, set()).add((size, job.counts[name]))
    return sizes


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("*.toml")), ids=lambda path: path.stem)
def test_every_example_is_made_as_drawn(path: Path) -> None:
    design, problems = read_design(path)
    assert design is not None, problems
    job = make_plan(design, default_workroom(design.unit))
    assert job.replay.problems == ()
    assert job.replay.made_as_drawn


def test_the_sawtooth_star_is_cut_as_published() -> None:
    # Corners 3 + 1/2 and centre 6 + 1/2: plane geometry. Geese 6 x 3 four at a time, 7 1/4 and 3 7/8: two
    # independent tables, members.shaw.ca/beverlysquiltingpage/ffg.htm and alinequilts.blogspot.com 2011/03.
    design, _ = read_design(EXAMPLES / "sawtooth-star.toml")
    assert design is not None
    sizes = cut_sizes(make_plan(design, default_workroom("in")))
    found = {size for cloth in sizes.values() for size in cloth}
    assert {
        ("3 1/2 in x 3 1/2 in", 4),
        ("6 1/2 in x 6 1/2 in", 1),
        ("7 1/4 in x 7 1/4 in", 1),
        ("3 7/8 in x 3 7/8 in", 4),
    } == found


def test_a_pinned_way_is_taken() -> None:
    free = planned(block("sea.nw.sky sky\nsky sea.se.sky", across=4, down=4))
    pinned = planned(
        block("sea.nw.sky sky\nsky sea.se.sky", across=4, down=4) + '[choices]\nhst = "one at a time"\n'
    )
    ways = [
        {t.recipe.method.name for t in job.things.values() if isinstance(t, UnitThing)}
        for job in (free, pinned)
    ]
    assert ways == [{"eight at a time"}, {"one at a time"}]
    assert pinned.replay.made_as_drawn


def test_a_way_that_does_not_exist_is_refused_with_those_that_do() -> None:
    with pytest.raises(Refused, match=r"no way 'ten at a time'.*one at a time, two at a time"):
        planned(block("sea.nw.sky") + '[choices]\nhst = "ten at a time"\n')


def triangles(job: Job) -> list[UnitThing]:
    units = [t for t in job.things.values() if isinstance(t, UnitThing)]
    return [unit for unit in units if unit.recipe.unit.kind == "hst"]


def test_at_most_so_many_alike_rules_out_ways_that_make_more() -> None:
    scrappy = HEAD + '[roles.lights]\nname = "lights"\nprints = 12\nalike = 2\n'
    job = planned(block("sea.nw.lights sky\nsky lights", across=6, down=6), head=scrappy)
    (unit,) = triangles(job)
    assert unit.recipe.method.makes <= 2
    assert all(other.method.makes <= 2 for other in unit.others)


def test_a_refused_way_is_not_taken() -> None:
    text = block("sea.nw.sky sky\nsky sea", across=4, down=4)
    (free,) = triangles(planned(text))
    refused = planned(text, Workroom(refused=(free.recipe.method.name,)))
    (unit,) = triangles(refused)
    assert free.recipe.method.name not in {r.method.name for r in (unit.recipe, *unit.others)}


def test_equal_units_of_two_blocks_are_made_together() -> None:
    text = block("sea.nw.sky sky\nsky sea", arrangement="one two", across=2)
    text = text.replace(
        "[setting]",
        '[blocks.two]\nname = "Two"\nsize = "6"\npicture = """\nsky sea\nsea sea.se.sky\n"""\n[setting]',
    )
    job = planned(text)
    (unit,) = [t for t in job.things.values() if isinstance(t, UnitThing)]
    assert job.counts[unit.name] == 2
    assert set(uses_of(job.things, unit.name)) == {"One", "Two"}


def test_like_rows_of_a_block_are_one_thing() -> None:
    job = planned(block("sea.n.sky - sea\nsky.w.sea sky sky.e.sea\n: sky :\nsea.n.sky - sea", size="6 x 8"))
    inner = [t for t in job.things.values() if isinstance(t, Joined) and t.station is Station.ASSEMBLY]
    assert [job.counts[part.name] for part in inner if job.counts[part.name] > 1] == [2]


def test_a_block_that_is_a_four_patch_is_made_as_one_unit() -> None:
    """From strip sets where there are many; one alone from single pieces."""
    few, many = (planned(block("sea sky\nsky sea", across=n, down=n)) for n in (1, 6))
    ways = [
        [t.recipe.method.name for t in job.things.values() if isinstance(t, UnitThing)] for job in (few, many)
    ]
    assert ways[0] == ["from single pieces"]
    assert any("strip sets" in way for way in ways[1])
    assert few.replay.made_as_drawn
    assert many.replay.made_as_drawn


@pytest.mark.parametrize("turn", ["", ".right", ".half", ".left"])
@pytest.mark.parametrize("cell", ["sea.nw.sky", "sea.se.sky", "sky.sw.sea", "sea.n.sky -", "sky.s.sea -"])
def test_a_one_way_print_stands_upright_in_every_turn(cell: str, turn: str) -> None:
    one_way = HEAD.replace('colour = "#223355"\n', 'colour = "#223355"\none_way = true\n')
    picture = f"{cell}\nsea sky" if "-" in cell else f"{cell} sea\nsky sea"
    job = planned(block(picture, size="8", arrangement=f"one{turn}"), head=one_way)
    assert job.replay.made_as_drawn
    assert job.replay.tilted == 0


def test_where_a_one_way_print_cannot_stand_upright_the_plan_says_so() -> None:
    one_way = HEAD.replace('colour = "#223355"\n', 'colour = "#223355"\none_way = true\n')
    job = planned(block("sea.ns.sky sea\nsky sea"), head=one_way)
    assert job.replay.made_as_drawn
    assert job.replay.tilted > 0
    assert any("cannot stand upright" in note.what for note in job.notes)


def test_a_block_drawn_by_its_corners_is_cut_like_the_same_block_on_a_grid() -> None:
    drawn = """
[blocks.one]
name = "One"
size = "6"
[[blocks.one.patches]]
role = "sea"
corners = [["0", "0"], ["3", "0"], ["0", "3"]]
[[blocks.one.patches]]
role = "sky"
corners = [["3", "0"], ["3", "3"], ["0", "3"]]
[[blocks.one.patches]]
role = "sky"
corners = [["3", "0"], ["6", "0"], ["6", "3"], ["3", "3"]]
[[blocks.one.patches]]
role = "sea"
corners = [["0", "3"], ["6", "3"], ["3", "6"]]
[[blocks.one.patches]]
role = "sky"
corners = [["0", "3"], ["3", "6"], ["0", "6"]]
[[blocks.one.patches]]
role = "sky"
corners = [["6", "3"], ["6", "6"], ["3", "6"]]
[setting]
across = 2
down = 2
arrangement = "one"
"""
    on_grid = planned(block("sea.n.sky -\nsea.sw.sky sky", across=2, down=2))
    by_corners = planned(drawn)
    assert by_corners.replay.made_as_drawn
    assert cut_sizes(by_corners) == cut_sizes(on_grid)


@pytest.mark.parametrize("ring", ["sea - sky\nsky sea :\n: sea -", "sky sea -\n: sea sky\nsea - :"])
def test_a_ring_of_either_hand_is_sewn_with_a_partial_seam_that_is_closed_in_the_end(ring: str) -> None:
    job = planned(block(ring))
    assert job.replay.made_as_drawn
    joins = [step for step in job.plan.steps if isinstance(step, Join)]
    assert [step.part_sewn is not None for step in joins] == [True, False, False, False]
    (closing,) = [step for step in job.plan.steps if isinstance(step, Close)]
    assert closing.pile == joins[-1].gives


def test_border_strips_are_cut_first_and_long_and_trimmed_to_the_top() -> None:
    job = planned(block("sea sky\nsky sea", across=8, down=8) + '[[borders]]\nwidth = "3"\nrole = "sea"\n')
    (layout,) = [layout for layout in job.layouts if layout.key == "sea"]
    assert layout.patterns[0].reserve
    assert layout.patterns[0].strip_height == inches("3 1/2")
    trimmed = [step for step in job.plan.steps if isinstance(step, TrueUp) and step.landmark == "edges"]
    # Butted, sides first: two of the raw height 48 1/2, two of 48 1/2 + 2 x 3 (plane geometry).
    assert sorted(float(step.width) for step in trimmed) == [48.5, 48.5, 54.5, 54.5]


def test_metric_quilts_are_cut_to_millimetres() -> None:
    head = HEAD.replace('unit = "in"', 'unit = "cm"')
    job = planned(block("sea.nw.sky sky\nsky sea", size="12", across=3, down=3), head=head)
    assert job.replay.made_as_drawn
    (unit,) = triangles(job)
    # 60 mm finished at a 7.5 mm seam: 60 + 25.607 (plane geometry: s(2 + sqrt 2)) for each of two at a time.
    two = next(r for r in (unit.recipe, *unit.others) if r.method.name == "two at a time")
    assert float(two.sizing.exact[0]) * 25.4 == pytest.approx(85.607, abs=1e-3)
    assert two.sizing.cut == (mm(86),)


def test_one_test_block_takes_the_pieces_of_one_block() -> None:
    job = planned(block("sea sea sea.nw.sky\nsky sky sea.nw.sky\nsea.nw.sky sky sky", across=3, down=1))
    counts = one_block(job.things, job.blocks["one"])
    cut = {name: n for name, n in counts.items() if isinstance(job.things[name], Cut)}
    # arithmetic: finished 2 and two seams of 1/4; a half-square triangle comes with another
    assert cut["sea 2 1/2 square"] == 2
    assert cut["sky 2 1/2 square"] == 4


def test_equal_designs_give_equal_plans() -> None:
    text = block("sea.nw.sky sky sea\nsky sea.n.sky -\nsea sky sea", size="9", across=4, down=4)
    assert planned(text).plan == planned(text).plan


def test_pressing_is_proven_best_and_every_meeting_is_counted() -> None:
    job = planned(block("sea sky\nsky sea", across=4, down=4))
    assert job.pressings.directions.proven
    joins = [step for step in job.plan.steps if isinstance(step, Join)]
    # Four-patches: one meeting in each of 16 blocks; at each block join in a row one, 3 x 4; row joins: 2 x 4
    # seams come out of a row of four blocks and 3 seams lie between them, 7 x 3 (counted by hand).
    assert sum((s.nests + s.clashes) * s.times for s in joins) == 16 + 12 + 21


def test_every_start_size_in_a_plan_is_what_the_bench_found() -> None:
    job = planned(block("sea.n.sky -\nsea.sw.sky sky", across=5, down=4))
    stacks = [step for step in job.plan.steps if isinstance(step, Stack)]
    assert stacks
    assert all(step.expect is not None for step in stacks)


def test_the_print_of_side_borders_is_said_to_lie_on_its_side() -> None:
    one_way = HEAD.replace('colour = "#223355"\n', 'colour = "#223355"\none_way = true\n')
    job = planned(
        block("sky sky\nsky sky", across=8, down=8) + '[[borders]]\nwidth = "3"\nrole = "sea"\n', head=one_way
    )
    assert job.replay.made_as_drawn
    assert job.replay.tilted == 2
    assert [note.where for note in job.notes if "on its side" in note.what] == ["borders"]


def test_when_no_way_makes_so_few_alike_the_assortment_is_named_as_the_reason() -> None:
    scrappy = HEAD + '[roles.lights]\nname = "lights"\nprints = 12\nalike = 1\n'
    with pytest.raises(Refused, match=r"hourglass no way .* leaves at most 1 alike.*assortment"):
        planned(block("sea.ns.lights"), Workroom(refused=("on a foundation", "from cut triangles")), scrappy)


def test_where_seams_do_not_nest_is_told_as_the_thing_lies_in_the_quilt() -> None:
    turned = 0
    for path in sorted(EXAMPLES.glob("*.toml")):
        design, _ = read_design(path)
        assert design is not None
        job = make_plan(design, default_workroom(design.unit))
        for thing in (t for t in job.things.values() if isinstance(t, Joined) and t.lies.degrees):
            for number, seamed in enumerate(thing.seams):
                if not job.pressings.clashes(seamed):
                    continue
                # As it lies: the seam of the thing turned, level or upright by its two ends.
                a, b = thing.cloth.placed(thing.lies).own_seams[number].path
                end = "left" if abs(a[0] - b[0]) > abs(a[1] - b[1]) else "lower"
                one, _ = thing.neighbours(number)
                assert any(
                    note.where == thing.name and one in note.what and f"from the {end} end" in note.what
                    for note in job.notes
                )
                turned += 1
    assert turned


def test_what_comes_besides_and_is_not_wanted_is_told_as_left_over() -> None:
    job = planned(block("sea.n.sky -\nsea.s.sky -"), Workroom(liked=("stitch and flip, bonus saved",)))
    (unit,) = [t for t in job.things.values() if isinstance(t, UnitThing)]
    # both corners of each of two geese make a small half-square triangle
    assert job.plan.left_over == {f"{unit.name} bonus": 2, f"{unit.name} second bonus": 2}
    assert job.replay.made_as_drawn
    silent = msgspec.structs.replace(job.plan, left_over={})
    assert not replay(silent, job.drawing.top, {"sea": "sea", "sky": "sky"}).made_as_drawn
