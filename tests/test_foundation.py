"""Foundation piecing: a legal order, the fewest sections, scraps that are large enough, and the bench."""

from itertools import permutations
from math import sqrt
from pathlib import Path
from random import Random

import pytest
from shapely import Polygon as ShapelyPolygon
from shapely import unary_union

from foundation_drawings import (
    drawn,
    fan,
    grid,
    half_rectangles,
    kite,
    log_cabin,
    shards,
    slabs,
    square,
    square_in_a_square,
    whirl,
)
from piecewright.bench.as_drawn import Comparison, compare
from piecewright.bench.bench import Bench, seam_of
from piecewright.bench.grain import bias_edges
from piecewright.bench.plan import Have, Supply
from piecewright.bench.steps import Join, Press, Stack
from piecewright.design.draw_block import draw_block
from piecewright.design.drawing import Group, Patch, Placed
from piecewright.design.read import design_from
from piecewright.design.units import draw_unit
from piecewright.geometry.isometry import folded
from piecewright.geometry.point import distance
from piecewright.geometry.polygon import Polygon, edges, placed, rectangle, same_polygon
from piecewright.measure.length import ZERO, inches, mm
from piecewright.measure.tolerance import AS_DRAWN
from piecewright.methods.foundation import sections as foundation_sections
from piecewright.methods.foundation.joins import joining_steps
from piecewright.methods.foundation.plan import Foundation, FoundationJoin, foundation_of, sections_of
from piecewright.methods.foundation.scraps import ScrapRule
from piecewright.methods.foundation.steps import foundation_steps
from piecewright.methods.foundation.trial import sewn_section, tried
from piecewright.problems import Refused
from piecewright.toml_places import toml_from_text
from piecewright.workroom.workroom import METRIC_WORKROOM, Workroom

EXAMPLES = Path(__file__).parents[1] / "examples"
QUARTER = ScrapRule(0.25)
SEAMS = {
    "1/4 in": Workroom(),
    "5 mm": Workroom(needle=mm("4.5"), fold=mm("0.5")),
    "6 mm": Workroom(needle=mm(6), fold=ZERO),
    "7.5 mm": METRIC_WORKROOM,
    "3/8 in": Workroom(needle=inches("11/32"), fold=inches("1/32")),
}


def unit(kind: str, facing: str, width: float, height: float) -> Group:
    group = draw_unit(kind, ("sail", "sea"), facing, width, height, (None, None))
    assert isinstance(group, Group)
    return group


def example(file: str, block: str) -> Group:
    design, problems = design_from(toml_from_text((EXAMPLES / file).read_text("utf-8"), file))
    assert design is not None, problems
    return draw_block(design, block)


def scraps_of(foundation: Foundation, count: int) -> list[Have]:
    return [
        Have(name=p.number, count=count, fabric=p.role, width=p.scrap.cut_width, height=p.scrap.cut_height)
        for section in foundation.sections
        for p in section.patches
    ]


def sew(
    foundation: Foundation, workroom: Workroom, count: int = 1, one_way: bool = False
) -> tuple[Bench, list]:
    """All sections from their scraps, then joined; the result lies in the pile "block"."""
    scraps = scraps_of(foundation, count)
    cloth = [
        Supply(fabric=role, width=inches(40), length=ZERO, one_way=one_way)
        for role in dict.fromkeys(scrap.fabric for scrap in scraps)
    ]
    bench, steps = Bench(workroom, cloth, scraps), []

    def do(more) -> None:
        for step in more:
            bench.do(step)
            steps.append(step)

    piles = {s.letter: f"section {s.letter}" if foundation.joins else "block" for s in foundation.sections}
    for section in foundation.sections:
        do(foundation_steps(section, [p.number for p in section.patches], piles[section.letter], count))
    cloths = {letter: (pile, bench.cloth(pile)) for letter, pile in piles.items()}
    do(joining_steps(foundation, cloths, "block", count, seam_of(workroom)))
    return bench, steps


def made(drawing: Group, workroom: Workroom, rule: ScrapRule | None = None) -> Comparison:
    """The drawing sewn on foundations from its scraps, against the drawing, every allowance whole."""
    take_up = float(workroom.take_up)
    bench, _ = sew(tried(foundation_of(drawing, rule or ScrapRule(take_up)), workroom), workroom)
    return compare(bench.cloth("block"), drawing, {}, take_up)


AS_WANTED = Comparison(())

# Plane geometry: how many sections there must be, and how many patches each has.
BLOCKS = {
    "half-square triangle": (unit("hst", "nw", 2, 2), [2]),
    "goose": (unit("geese", "n", 4, 2), [3]),
    "hourglass": (unit("hourglass", "ns", 4, 4), [2, 2]),
    "square in a square": (square_in_a_square(), [5]),
    "log cabin": (log_cabin(3), [13]),
    "half-rectangle triangles": (half_rectangles(), [2]),
    "kite": (kite(), [3]),
    "fan": (fan(17, 31, 50, 72), [5]),
    "four-patch": (grid(2, 2), [2, 2]),
    "nine-patch": (grid(3, 3), [3, 3, 3]),
    "sawtooth star": (example("sawtooth-star.toml", "star"), [5, 3, 4, 5]),
    "light": (example("harbour-lights.toml", "light"), [5, 5, 5, 5]),
    "net": (example("metric-nets.toml", "net"), [6, 6, 6, 6]),
}


@pytest.mark.parametrize("name", BLOCKS)
def test_sections_are_few_and_the_bench_makes_the_block_as_drawn(name):
    drawing, patches = BLOCKS[name]
    found = foundation_of(drawing, QUARTER)
    assert found.fewest
    assert [len(section.patches) for section in found.sections] == patches
    assert made(drawing, Workroom()) == AS_WANTED


def test_sections_are_lettered_and_patches_numbered_in_their_order():
    sections = sections_of(grid(2, 2), QUARTER)
    assert [[patch.number for patch in section.patches] for section in sections] == [
        ["A1", "A2"],
        ["B1", "B2"],
    ]
    assert sections[0].outline == ((0.0, 2.0), (4.0, 2.0), (4.0, 4.0), (0.0, 4.0))


def test_a_log_cabin_starts_with_its_hearth_and_goes_round():
    # Plane geometry: no log can be added before those that its long side lies along.
    (section,) = sections_of(log_cabin(3), QUARTER)
    assert [patch.role for patch in section.patches] == [str(k) for k in range(1, 14)]


def test_a_goose_starts_with_its_large_triangle():
    (section,) = sections_of(unit("geese", "n", 4, 2), QUARTER)
    assert [patch.role for patch in section.patches] == ["sail", "sea", "sea"]


def test_the_order_works_outwards():
    """Of five squares in a row those in the middle have two neighbours: the left-most of these is first."""
    (section,) = sections_of(grid(5, 1), QUARTER)
    assert [patch.role for patch in section.patches] == ["2", "1", "3", "4", "5"]


def test_of_as_few_sections_those_with_the_shortest_seams_between_them_are_taken():
    halves = [((x, y), (x + 4, y), (x + 4, y + 2), (x, y + 2)) for x in (0.0, 4.0) for y in (0.0, 2.0)]
    found = foundation_of(drawn("wide", rectangle(8, 4), *halves), QUARTER)
    assert found.joins is not None
    assert distance(*found.joins.seam) == pytest.approx(4)


def test_a_seam_runs_as_far_as_it_shows_with_what_is_sewn_on_its_left():
    (section,) = sections_of(log_cabin(1), QUARTER)
    assert [patch.seam for patch in section.patches] == [
        None,
        ((2.0, 0.0), (2.0, 2.0)),
        ((3.0, 2.0), (0.0, 2.0)),
        ((0.0, 3.0), (0.0, 0.0)),
        ((-1.0, 0.0), (3.0, 0.0)),
    ]


def test_the_needle_goes_a_hair_behind_the_line_that_the_fold_comes_to_lie_on():
    (section,) = sections_of(log_cabin(1), QUARTER)
    assert section.patches[1].stitching(0.015625) == ((2.015625, 0.0), (2.015625, 2.0))


def can_be_added(patch: Polygon, sewn: list[Polygon]) -> bool:
    """Whether a line along one edge of the patch has all that is sewn on its other side."""
    return not sewn or any(
        all((bx - ax) * (y - ay) - (by - ay) * (x - ax) < AS_DRAWN for other in sewn for x, y in other)
        for (ax, ay), (bx, by) in edges(patch)
    )


def has_an_order(patches: frozenset[Polygon]) -> bool:
    return any(
        all(can_be_added(patch, list(order[:k])) for k, patch in enumerate(order))
        for order in permutations(patches)
    )


def fewest(patches: frozenset[Polygon]) -> int | None:
    """The least number of sections, by trying every full cut and every order."""
    if has_an_order(patches):
        return 1
    found = []
    for a, b in {edge for patch in patches for edge in edges(patch)}:
        sides = [[(b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0]) for x, y in p] for p in patches]
        one = frozenset(p for p, off in zip(patches, sides, strict=True) if min(off) > -AS_DRAWN)
        two = frozenset(p for p, off in zip(patches, sides, strict=True) if max(off) < AS_DRAWN)
        if one and two and one | two == patches:
            parts = fewest(one), fewest(two)
            found.append(None if None in parts else sum(filter(None, parts)))
    return min((n for n in found if n is not None), default=None)


@pytest.mark.parametrize("seed", range(25))
def test_there_are_as_few_sections_as_trying_everything_finds(seed):
    random = Random(seed)
    drawing = shards(random, random.randint(3, 6))
    found = foundation_of(drawing, QUARTER)
    assert len(found.sections) == fewest(frozenset(patch.outline for patch in drawing.patches))


@pytest.mark.parametrize("seed", range(40))
def test_every_patch_is_added_along_one_straight_seam_all_across(seed):
    random = Random(seed)
    for section in sections_of(shards(random, random.randint(2, 12)), QUARTER):
        for k, patch in enumerate(section.patches[1:], start=1):
            sewn = [other.outline for other in section.patches[:k]]
            assert can_be_added(patch.outline, sewn)
            shared = unary_union([ShapelyPolygon(p).buffer(1e-6) for p in sewn]).intersection(
                ShapelyPolygon(patch.outline).exterior
            )
            assert shared.length == pytest.approx(distance(*patch.seam), abs=1e-3)


@pytest.mark.parametrize("seed", range(20))
def test_what_was_cut_off_one_after_another_is_one_section(seed):
    random = Random(seed)
    drawing = slabs(random, random.randint(2, 9))
    (section,) = sections_of(drawing, QUARTER)
    assert sorted(p.role for p in section.patches) == sorted(p.role for p in drawing.patches)


def told(drawing: Group) -> str:
    with pytest.raises(Refused) as refused:
        foundation_of(drawing, QUARTER)
    return str(refused.value)


def test_a_block_that_needs_a_partial_seam_is_refused_with_the_place():
    assert told(whirl()) == (
        "no straight seam goes all the way through the part of 'whirl' from 0, 0 to 6, 6 (in), so it cannot "
        "be sewn on a foundation. It needs a partial or a set-in seam; sew that part without a foundation."
    )


def test_only_the_part_that_needs_a_partial_seam_is_named():
    beside = drawn(
        "block", rectangle(8, 6), *(p.outline for p in whirl().patches), ((6, 0), (8, 0), (8, 6), (6, 6))
    )
    assert "the part of 'block' from 0, 0 to 6, 6 (in)" in told(beside)


def test_a_patch_with_an_inward_corner_is_refused_with_the_place():
    corner = ((0.0, 0.0), (4.0, 0.0), (4.0, 2.0), (2.0, 2.0), (2.0, 4.0), (0.0, 4.0))
    assert "a patch of 'corner' has an inward corner at 2, 2 (in)" in told(
        drawn("corner", rectangle(4, 4), corner, square(2, 2, 2))
    )


def test_an_outline_with_an_inward_corner_is_refused():
    corner = ((0.0, 0.0), (4.0, 0.0), (4.0, 2.0), (2.0, 2.0), (2.0, 4.0), (0.0, 4.0))
    assert "'corner' has an outline with an inward corner" in told(
        drawn("corner", corner, square(0, 0, 2), square(2, 0, 2), square(0, 2, 2))
    )


def test_patches_that_leave_a_hole_are_refused():
    assert "do not fill its outline" in told(drawn("gap", rectangle(4, 2), square(0, 0, 2)))


def test_where_there_are_too_many_ways_a_good_one_is_taken_and_said_to_be_no_more(monkeypatch):
    monkeypatch.setattr(foundation_sections, "MOST_PARTS", 0)
    found = foundation_of(grid(4, 4), QUARTER)
    assert not found.fewest
    assert made(grid(4, 4), Workroom()) == AS_WANTED


def test_the_scraps_of_a_half_square_triangle():
    # Plane geometry, finished 2 in: along its seam the second triangle shows 2 1/2 sqrt(2) with its
    # allowances, and half of that across, with 1/4 behind the seam; the first one, laid square, 2 1/2 and
    # what lies behind the seam. A margin of 1/4 all round is common practice, no source.
    (section,) = sections_of(unit("hst", "nw", 2, 2), QUARTER)
    first, second = (patch.scrap for patch in section.patches)
    assert (second.width, second.height) == pytest.approx((2.5 * sqrt(2) + 0.5, 1.25 * sqrt(2) + 0.25 + 0.5))
    assert (second.cut_width, second.cut_height) == (inches("4 1/4"), inches("2 3/4"))
    assert (first.width, first.height) == pytest.approx((2.5 + 0.25 / sqrt(2) + 0.5,) * 2)
    assert first.cut_width == first.cut_height == inches("3 1/4")


def test_the_scrap_of_a_log():
    # Plane geometry: a log of 1 x 2 in with 1/4 in all round, and 1/4 in more on every side.
    (section,) = sections_of(log_cabin(2), QUARTER)
    scrap = section.patches[1].scrap
    assert (scrap.cut_width, scrap.cut_height) == (inches(3), inches(2))


def test_scraps_are_rounded_to_the_workrooms_own_ruler():
    rule = ScrapRule(float(METRIC_WORKROOM.take_up), margin=mm(6), ruler=METRIC_WORKROOM.ruler)
    (section,) = sections_of(log_cabin(2), rule)
    # Plane geometry: 25.4 and 50.8 mm, with 7.5 and 6 mm on both sides.
    assert [section.patches[1].scrap.cut_width, section.patches[1].scrap.cut_height] == [mm(78), mm(53)]


@pytest.mark.parametrize("seed", range(20))
def test_a_scrap_covers_its_patch_with_allowance_and_margin_all_round(seed):
    random = Random(seed)
    rule = ScrapRule(0.25, grain=random.choice(["seam", "edge"]))
    for section in sections_of(shards(random, random.randint(2, 9)), rule):
        for patch in section.patches:
            # An oracle of its own: round corners, half an inch.
            wanted = ShapelyPolygon(patch.outline).buffer(0.5 - 1e-6)
            assert ShapelyPolygon(patch.scrap.outline).covers(wanted)


def test_opening_a_scrap_about_its_seam_brings_it_to_its_place():
    (section,) = sections_of(kite(), QUARTER)
    corner = ((0.0, 0.0), (1.0, 0.0), (0.0, 2.0))
    for patch in section.patches[1:]:
        lying = patch.scrap.face_down(patch.seam)
        opened = folded(*patch.seam).after(lying)
        assert lying.mirrored
        assert same_polygon(placed(corner, opened), placed(corner, patch.scrap.place), 1e-9)


@pytest.mark.parametrize("grain", ["seam", "edge"])
def test_bias_at_the_outside_is_what_the_bench_finds(grain):
    (section,) = tried(
        foundation_of(unit("geese", "n", 4, 2), ScrapRule(0.25, grain=grain)), Workroom()
    ).sections
    wings = [patch.scrap.bias_outside for patch in section.patches[1:]]
    # Common practice, no source: triangles laid with their long side on the grain have bias at the outside.
    assert wings == [grain == "seam"] * 2
    assert (bias_edges(sewn_section(section, Workroom())) > 0) == (grain == "seam")


def test_a_one_way_print_stands_upright_in_every_patch():
    corners = (((0.0, 0.0), (3.0, 0.0), (0.0, 4.0)), ((3.0, 0.0), (3.0, 4.0), (0.0, 4.0)))
    upright = tuple(Placed(Patch(f"print {k}", corner, 90.0)) for k, corner in enumerate(corners))
    drawing = Group("slant", upright, rectangle(3, 4))
    bench, _ = sew(tried(foundation_of(drawing, QUARTER), Workroom()), Workroom(), one_way=True)
    assert compare(bench.cloth("block"), drawing, {}, 0.25) == Comparison((), tilted=0)


@pytest.mark.parametrize("seam", SEAMS)
@pytest.mark.parametrize("seed", range(6))
def test_random_sections_come_out_as_drawn_at_any_seam(seam, seed):
    random = Random(f"{seam} {seed}")
    workroom = SEAMS[seam]
    rule = ScrapRule(float(workroom.take_up), ruler=workroom.ruler, grain=random.choice(["seam", "edge"]))
    assert made(slabs(random, random.randint(2, 8)), workroom, rule) == AS_WANTED


@pytest.mark.parametrize("seed", range(12))
def test_random_blocks_come_out_as_drawn_from_their_sections(seed):
    random = Random(seed)
    assert made(shards(random, random.randint(4, 12)), Workroom()) == AS_WANTED


def test_scraps_that_would_end_a_seam_without_an_allowance_are_cut_larger():
    """The third seam slants past the end of the first scrap."""
    drawing = drawn(
        "slabs",
        rectangle(6, 6),
        ((0.0, 0.0), (6.0, 0.0), (6.0, 1.33), (0.95, 2.8), (0.0, 2.42)),
        ((6.0, 1.33), (6.0, 4.82), (0.95, 2.8)),
        ((0.0, 2.42), (6.0, 4.82), (6.0, 6.0), (0.0, 6.0)),
    )
    plain = foundation_of(drawing, QUARTER)
    with pytest.raises(Refused, match="the allowance beside the seam"):
        sewn_section(plain.sections[0], Workroom())
    larger = tried(plain, Workroom())
    widths = [[patch.scrap.cut_width for patch in found.sections[0].patches] for found in (plain, larger)]
    assert widths == [[inches("7 1/4"), inches("6 1/2"), inches(8)], [inches("7 3/4"), inches(7), inches(8)]]
    assert compare(sewn_section(larger.sections[0], Workroom()), drawing, {}, 0.25) == AS_WANTED


def test_many_at_once_take_as_many_steps_as_one():
    found = tried(foundation_of(grid(3, 3), QUARTER), Workroom())
    one, steps = sew(found, Workroom())
    many, again = sew(found, Workroom(), count=12)
    assert many.count("block") == 12
    assert many.operations == one.operations == len(steps) == len(again)


def test_each_scrap_is_one_stack_and_each_join_is_one_join():
    found = tried(foundation_of(grid(3, 3), QUARTER), Workroom())
    _, steps = sew(found, Workroom())
    # Plane geometry: nine patches in three sections take six seams in the sections and two between them.
    assert sum(isinstance(step, Stack) for step in steps) == 6
    assert sum(isinstance(step, Join) for step in steps) == 2


def test_every_seam_is_pressed_over_its_patch_and_every_join_open():
    _, steps = sew(tried(foundation_of(grid(2, 2), QUARTER), Workroom()), Workroom())
    towards = [pressing.towards for step in steps if isinstance(step, Press) for pressing in step.seams]
    assert towards == [("second",), ("second",), ("open",)]


def test_joins_are_a_tree_of_full_seams():
    found = foundation_of(unit("hourglass", "ns", 4, 4), QUARTER)
    assert isinstance(found.joins, FoundationJoin)
    assert (found.joins.name, found.joins.first, found.joins.second) == ("AB", "A", "B")
    assert distance(*found.joins.seam) == pytest.approx(4 * sqrt(2))
    assert foundation_of(half_rectangles(), QUARTER).joins is None


def test_a_section_drawn_for_another_seam_is_refused():
    with pytest.raises(Refused, match="drawn for another seam"):
        tried(foundation_of(kite(), QUARTER), METRIC_WORKROOM)


def test_too_few_scraps_are_told_by_number():
    (section,) = sections_of(kite(), QUARTER)
    with pytest.raises(Refused, match="section A takes 3 scraps, 2 are named"):
        foundation_steps(section, ["A1", "A2"], "kite", 1)
