"""Cutting from given cloth: as few pieces as trying everything finds, shelf first, checked and replayed.

With CUTTING_INSTANCES naming a folder of published instances, those with bins are compared as well.
"""

from __future__ import annotations

import json
import os
from collections import Counter
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given as given_any
from hypothesis import settings
from hypothesis import strategies as st

from given_exhaustive import fewest_cloths
from piecewright.bench.bench import Bench
from piecewright.bench.plan import Supply as BenchSupply
from piecewright.cutting.given.checking import check_from_shelf
from piecewright.cutting.given.cloth import PRECUTS, Bolt, Given, Offered, Pack, precut
from piecewright.cutting.given.layout import CutGiven, FromShelf
from piecewright.cutting.given.shopping import from_shelf, lay_on_given
from piecewright.cutting.given.steps import given_steps, had
from piecewright.cutting.patterns import Pattern, Section
from piecewright.cutting.wanted import Demand, Supply
from piecewright.measure.length import ZERO, inches, mm
from piecewright.problems import Refused
from piecewright.workroom.workroom import Workroom

LITTLE = 8_000


def wanted(size: str, count: int, **more: object) -> Demand:
    """`wanted("2 1/2 x 4 1/2", 8)`; a single number is a square."""
    width, _, height = size.partition(" x ")
    demand = Demand(f"{size} pieces", inches(width), inches(height or width), count)
    return replace(demand, **more)  # type: ignore[arg-type]


def pieces(size: str, count: int, fabric: str = "net", **more: object) -> Given:
    """`pieces("20 1/2 x 17 1/2", 6)`."""
    width, _, height = size.partition(" x ")
    return replace(Given(f"{fabric} {size}", inches(width), inches(height), count, fabric), **more)  # type: ignore[arg-type]


def bolt(price: Fraction | None = None, **more: object) -> Bolt:
    supply = Supply("sail", inches(40), inches("4 1/2"))
    return Bolt(replace(supply, **more), price)  # type: ignore[arg-type]


# Scrappy sails, invented: what a lap quilt of fat quarters takes.
SAILS = [
    wanted("2 7/8", 48),
    wanted("2 1/2", 90),
    wanted("2 1/2 x 4 1/2", 40),
    wanted("2 x 8 1/2", 20),
    wanted("4 1/2", 24),
    wanted("6 1/2", 9),
]


def used(result: FromShelf) -> dict[str, int]:
    return dict(result.count_used)


def test_one_square_fills_one_square():
    result = lay_on_given([wanted("5", 1)], [pieces("5 x 5", 3)])
    assert used(result) == {"net 5 x 5": 1}
    assert result.least_area == result.area == result.area_used == 25
    assert result.used[0].patterns == (Pattern(inches(5), (Section("5 pieces", inches(5), inches(5), 1),)),)


def test_a_fat_quarter_gives_as_many_squares_as_fit_in_rows():
    # 20 1/2 / 2 1/2 = 8 across, 17 1/2 / 2 1/2 = 7 rows.
    assert used(lay_on_given([wanted("2 1/2", 56)], [precut("fat quarter", 3, "net")])) == {
        "fat quarter net": 1
    }
    assert used(lay_on_given([wanted("2 1/2", 57)], [precut("fat quarter", 3, "net")])) == {
        "fat quarter net": 2
    }


def test_ones_own_measured_size_goes_before_the_usual_one():
    own = precut("2 1/2 in strip", 4, "net", (inches(42), inches("2 3/8")))
    assert (own.width, own.height) == (inches(42), inches("2 3/8"))
    with pytest.raises(Refused, match="largest is 42 x 2 3/8 in, got 2 1/2 x 2 1/2 in"):
        lay_on_given([wanted("2 1/2", 4)], [own])
    assert used(lay_on_given([wanted("2 3/8", 17)], [own])) == {own.name: 1}


def test_every_precut_has_a_usable_size_inside_its_name():
    assert {kind: (float(p.width), float(p.height)) for kind, p in PRECUTS.items()} == {
        "fat quarter": (20.5, 17.5),
        "fat eighth": (20.5, 8.5),
        "10 in square": (10.0, 10.0),
        "5 in square": (5.0, 5.0),
        "2 1/2 in strip": (40.0, 2.5),
    }


@st.composite
def small_lists(draw: st.DrawFn) -> tuple[int, int, list[tuple[int, int, bool]], tuple[int, ...]]:
    """A small cloth in inches, and up to three sizes with few pieces each."""
    width, height = draw(st.integers(6, 12)), draw(st.integers(5, 12))
    largest = min(width, height)
    sizes = [
        (draw(st.integers(2, largest)), draw(st.integers(2, largest)), draw(st.booleans()))
        for _ in range(draw(st.integers(1, 3)))
    ]
    return width, height, sizes, tuple(draw(st.integers(1, 5)) for _ in sizes)


@settings(max_examples=120, deadline=None)
@given_any(small_lists())
def test_no_fewer_pieces_of_cloth_would_do_where_everything_is_tried(small):
    width, height, sizes, counts = small
    fewest = fewest_cloths(width, height, sizes, counts, most=15)
    demands = [
        Demand(f"size {k}", inches(w), inches(h), n, turns)
        for k, ((w, h, turns), n) in enumerate(zip(sizes, counts, strict=True))
    ]
    result = lay_on_given(demands, [Given("net", inches(width), inches(height), 15, "net")])
    assert (
        check_from_shelf(result, demands, Offered((Given("net", inches(width), inches(height), 15, "net"),)))
        == []
    )
    assert used(result) == {"net": fewest}


eighths = st.integers(8, 90).map(lambda number: inches(Fraction(number, 8)))
millimetres = st.integers(25, 240).map(mm)


@st.composite
def some_demands(draw: st.DrawFn) -> list[Demand]:
    sizes = draw(st.sampled_from([eighths, millimetres, st.one_of(eighths, millimetres)]))
    return [
        Demand(f"size {k}", draw(sizes), draw(sizes), draw(st.integers(1, 30)), draw(st.booleans()))
        for k in range(draw(st.integers(1, 5)))
    ]


@st.composite
def some_shelf(draw: st.DrawFn) -> tuple[Given, ...]:
    """Up to four kinds of cloth, long ones among them."""
    sides = st.one_of(eighths, st.integers(80, 500).map(lambda number: inches(Fraction(number, 8))))
    return tuple(
        Given(
            f"cloth {k}",
            draw(sides),
            draw(sides),
            draw(st.integers(1, 12)),
            draw(st.sampled_from(["net", "sail"])),
            draw(st.sampled_from(["across", "along", "either"])),
        )
        for k in range(draw(st.integers(0, 4)))
    )


@settings(max_examples=30, deadline=None)
@given_any(some_demands(), some_shelf(), st.sampled_from([0.0, 0.03]), st.booleans(), st.booleans())
def test_every_piece_is_cut_once_inside_its_cloth_and_no_bound_lies_above(
    demands, shelf, shrinkage, priced, with_pack
):
    packs = (Pack(pieces("10 x 10", 12, "tide"), Fraction(9)),) if with_pack else ()
    offered = Offered(shelf, packs, bolt(Fraction(2) if priced else None, shrinkage=shrinkage))
    result = from_shelf(demands, offered, effort=LITTLE)
    assert check_from_shelf(result, demands, offered) == []
    assert result.area == sum(d.width.exact * d.height.exact * d.count for d in demands)
    assert 0 <= result.least_cost <= result.cost
    assert result.priced == priced


@settings(max_examples=25, deadline=None)
@given_any(some_demands(), some_shelf())
def test_more_cloth_never_makes_it_impossible(demands, shelf):
    try:
        lay_on_given(demands, shelf, LITTLE)
    except Refused:
        return
    more = (*(replace(one, count=one.count + 1) for one in shelf), pieces("20 1/2 x 17 1/2", 2))
    assert check_from_shelf(lay_on_given(demands, more, LITTLE), demands, Offered(more)) == []


@settings(max_examples=20, deadline=None)
@given_any(some_demands(), some_shelf())
def test_what_is_cut_from_given_cloth_is_cut_on_the_bench(demands, shelf):
    shelf = tuple(replace(one, fabric="net") for one in shelf)
    offered = Offered(shelf, (), bolt())
    result = from_shelf(demands, offered, effort=LITTLE)
    bench = Bench(Workroom(), (BenchSupply(fabric="sail", width=inches(40), length=ZERO),), had(result.used))
    for step in given_steps(result.used):
        bench.do(step)
    cut = counted(result.used)
    assert {name: bench.count(name) for name in cut} == cut
    assert [name for name, pile in bench.table.piles.items() if pile.count and name not in cut] == []
    for demand in demands:
        for cloth, _ in bench.pile(demand.name).kinds:
            assert cloth.raw[2] == pytest.approx((float(demand.width), float(demand.height)))


def counted(cloths: tuple[CutGiven, ...]) -> Counter[str]:
    found: Counter[str] = Counter()
    for cut in cloths:
        for pattern in cut.patterns:
            for section in pattern.sections:
                found[section.name] += section.pieces * pattern.times * cut.times
    return found


def test_a_one_way_print_lies_upright_and_a_free_one_may_turn():
    flags = [wanted("3 x 9", 6, may_turn=False)]
    upright = lay_on_given(flags, [pieces("9 x 9", 3)])
    assert used(upright) == {"net 9 x 9": 2}
    with pytest.raises(Refused, match="must not be turned"):
        lay_on_given(flags, [pieces("9 x 3", 9)])
    assert used(lay_on_given([wanted("3 x 9", 6)], [pieces("9 x 3", 9)])) == {"net 9 x 3": 6}


def test_strips_run_the_way_that_is_asked_for():
    for run, along in (("across", {False}), ("along", {True})):
        cloth = precut("fat quarter", 12, "net")
        result = lay_on_given(SAILS, [replace(cloth, strips=run)], LITTLE)
        assert {cut.along for cut in result.used} == along


def test_the_same_cloth_gives_the_same_layout_to_the_byte():
    offered = Offered((precut("fat quarter", 4, "net"), pieces("41 x 30", 1, "sail")), (), bolt())
    first, second = (repr(from_shelf(SAILS, offered, effort=LITTLE)) for _ in range(2))
    assert first == second


def test_nothing_is_bought_where_the_shelf_is_enough():
    offered = Offered((precut("fat quarter", 12, "net"),), (Pack(pieces("10 x 10", 40, "tide")),), bolt())
    result = from_shelf(SAILS, offered)
    assert (result.cost, result.least_cost, result.bought, result.packs) == (0, 0, None, ())
    assert check_from_shelf(result, SAILS, offered) == []


def test_the_shelf_is_used_first_and_the_bolt_gives_only_the_rest():
    offered = Offered((precut("fat quarter", 3, "net"),), (), bolt())
    result = from_shelf(SAILS, offered)
    alone = from_shelf(SAILS, Offered((), (), bolt()))
    assert used(result) == {"fat quarter net": 3}
    assert result.bought is not None
    assert alone.bought is not None
    # Three fat quarters are 26.9 in of 40 in cloth; a step of an eighth of a yard is 4 1/2 in.
    assert result.bought.buy < alone.bought.buy - inches(18)
    assert result.cost == result.least_cost
    assert result.least_cost == result.bought.buy.exact * 40


def test_a_long_cloth_on_the_shelf_is_cut_like_a_bolt():
    offered = Offered((pieces("40 x 69", 1),))
    result = from_shelf(SAILS, offered)
    assert [cut.times for cut in result.used] == [1]
    assert result.used[0].filled <= inches(69)
    # Only its strips are taken, so they count, and not the whole cloth.
    assert result.least_area <= result.area_used == 40 * result.used[0].filled.exact
    assert check_from_shelf(result, SAILS, offered) == []


def test_cloth_in_inches_and_pieces_in_millimetres_are_bounded_by_their_area():
    demands = [Demand("squares", mm(63), mm(63), 400), wanted("2 1/8 x 9 1/8", 40)]
    offered = Offered((precut("fat quarter", 2, "net"),), (), bolt())
    result = from_shelf(demands, offered, effort=LITTLE)
    assert check_from_shelf(result, demands, offered) == []
    on_hand = 2 * Fraction(41, 2) * Fraction(35, 2)
    assert result.area - on_hand <= result.least_cost <= result.cost


def test_whole_packs_are_bought_where_they_cost_less_than_the_bolt():
    squares = [wanted("5", 60)]
    pack = Pack(Given("fives", inches(5), inches(5), 42, "tide"), Fraction(12))
    cheap = from_shelf(squares, Offered((), (pack,), bolt(Fraction(100))))
    assert [(p.piece.name, n) for p, n in cheap.packs] == [("fives", 2)]
    assert (cheap.cost, cheap.bought) == (24, None)
    # 60 of 84 squares, were packs sold by the square.
    assert cheap.least_cost == pytest.approx(Fraction(24 * 60, 84), rel=1e-5)
    dear = from_shelf(squares, Offered((), (pack,), bolt(Fraction(1))))
    # 60 squares, 8 in a strip: 8 strips of 5 in are 40 in, which is 9 steps of 4 1/2 in.
    assert (dear.packs, dear.cost) == ((), 9)


def test_packs_without_a_price_are_weighed_by_their_cloth():
    pack = Pack(Given("fives", inches(5), inches(5), 42, "tide"))
    result = from_shelf([wanted("5", 84)], Offered((), (pack,)))
    assert (result.priced, result.cost, result.least_cost) == (False, 2 * 42 * 25, 2 * 42 * 25)


def test_binding_strips_as_long_as_the_bolt_is_wide_come_from_the_bolt():
    binding = Demand("binding", inches(1), inches("2 1/4"), 6, whole_strip=True)
    offered = Offered((precut("fat quarter", 12, "net"),), (), bolt())
    result = from_shelf([binding, *SAILS], offered)
    assert result.bought is not None
    assert result.bought.buy == inches("13 1/2")
    assert {s.name for p in result.bought.patterns for s in p.sections} == {"binding"}


def test_what_is_left_is_listed_where_it_is_worth_keeping():
    result = lay_on_given([wanted("10", 1)], [pieces("20 x 17", 1)])
    kept = [(float(rest.width), float(rest.height), rest.count) for rest in result.leftovers]
    assert sorted(kept) in ([(10.0, 10.0, 1), (20.0, 7.0, 1)], [(10.0, 7.0, 1), (10.0, 17.0, 1)])
    assert lay_on_given([wanted("10", 1)], [pieces("12 x 12", 1)]).leftovers == ()


def test_too_little_cloth_is_told_with_the_figures():
    with pytest.raises(Refused) as told:
        lay_on_given([wanted("5", 10)], [pieces("5 x 5", 7)])
    assert str(told.value) == (
        "the cloth on hand: expected at least 250 square in of cloth for the pieces, got 175 square in, "
        "75 square in too little. Add cloth, or let the rest be bought."
    )
    with pytest.raises(Refused) as told:
        lay_on_given([wanted("5", 10)], [pieces("9 x 9", 4)])
    assert str(told.value) == (
        "the cloth on hand: expected room for 10 pieces, found it for 4: 6 of '5 pieces' are left over. "
        "Add cloth, or let the rest be bought."
    )


@pytest.mark.parametrize(
    ("demands", "shelf", "said"),
    [
        ([wanted("12", 1)], [pieces("10 x 10", 3)], "the largest is 10 x 10 in, got 12 x 12 in"),
        (
            [wanted("5", 0)],
            [pieces("10 x 10", 3)],
            "expected from 1 to 10,000,000 pieces of '5 pieces', got 0",
        ),
        ([wanted("5", 1)], [pieces("10 x 10", 0)], "expected from 1 to 100,000 pieces of cloth, got 0"),
        ([wanted("5", 1)], [pieces("0 x 10", 1)], "got 0 x 10 in"),
        ([wanted("5", 1), wanted("5", 2)], [pieces("10 x 10", 1)], "got '5 pieces' twice"),
        ([wanted("5", 1)], [pieces("10 x 10", 1), pieces("10 x 10", 1)], "got 'net 10 x 10' twice"),
        ([wanted("5", 1)], [], "expected cloth to cut from, got none"),
        ([wanted("0", 1)], [pieces("10 x 10", 1)], "to have a size above 0"),
    ],
)
def test_wrong_input_is_told_in_a_sentence(demands, shelf, said):
    with pytest.raises(Refused) as told:
        lay_on_given(demands, shelf)
    assert said in str(told.value)


def test_nothing_wanted_takes_nothing():
    result = lay_on_given([], [pieces("10 x 10", 1)])
    assert (result.used, result.area, result.cost) == ((), 0, 0)


def broken(result: FromShelf) -> dict[str, FromShelf]:
    """The result with one thing wrong in each."""
    cut = next(
        one for one in result.used if one.patterns[0].sections[0].width != one.patterns[0].sections[0].height
    )
    pattern, section = cut.patterns[0], cut.patterns[0].sections[0]

    def instead(**fields: object) -> FromShelf:
        return replace(result, used=(replace(cut, **fields), *(o for o in result.used if o is not cut)))  # type: ignore[arg-type]

    def sections(**fields: object) -> FromShelf:
        changed = replace(pattern, sections=(replace(section, **fields), *pattern.sections[1:]))  # type: ignore[arg-type]
        return instead(patterns=(changed, *cut.patterns[1:]))

    return {
        "more cloth than there is": instead(times=cut.times + 1000),
        "another size of cloth": instead(width=cut.width + inches(1)),
        "another fabric": instead(fabric="tar"),
        "other cloth": instead(name="driftwood"),
        "a strip too many": instead(patterns=cut.patterns * 3),
        "a piece too wide": sections(width=section.width + inches("1/8")),
        "too many pieces": sections(count=section.count + 40),
        "turned": sections(turned=not section.turned),
        "an unknown piece": sections(name="oar"),
        "the other way": instead(along=not cut.along),
        "one way left out": replace(result, used=tuple(o for o in result.used if o is not cut)),
        "bound too high": replace(result, least_area=result.area_used + 1),
        "cost too low": replace(result, least_cost=result.cost + 1),
    }


def test_the_checker_finds_everything_that_is_wrong():
    offered = Offered((precut("fat quarter", 12, "net"),))
    result = from_shelf(SAILS, offered)
    assert check_from_shelf(result, SAILS, offered) == []
    wrong = broken(result)
    assert [name for name, one in wrong.items() if not check_from_shelf(one, SAILS, offered)] == []


FOLDER = os.environ.get("CUTTING_INSTANCES", "")


@pytest.mark.skipif(not FOLDER, reason="name a folder of published instances in CUTTING_INSTANCES")
def test_fat_quarters_reach_the_bound_of_the_study():
    """fq_scrappy: 30 fat quarters, which is the bound."""
    data = json.loads((Path(FOLDER) / "quilt_lists" / "fq_scrappy.json").read_text("utf-8"))
    demands = [
        Demand(f"size {k}", inches(Fraction(i["w"], 8)), inches(Fraction(i["h"], 8)), i["qty"])
        for k, i in enumerate(data["items"])
    ]
    result = lay_on_given(demands, [precut("fat quarter", 60)])
    assert used(result) == {"fat quarter": data["best_known_bins"]}
    assert result.least_area == result.area_used


@pytest.mark.skipif(not FOLDER, reason="name a folder of published instances in CUTTING_INSTANCES")
@pytest.mark.parametrize("number", range(1, 13))
def test_equal_bins_are_within_one_of_the_best_published(number):
    """gcut1d to gcut12d, three stages with equal stacks, any first cut (Chen 2016)."""
    folder = Path(FOLDER) / "bins_one_3stage_homogenous"
    data = json.loads((folder / f"gcut{number}d.json").read_text("utf-8"))
    demands = [
        Demand(f"size {k}", inches(i["w"]), inches(i["h"]), i["qty"], may_turn=False)
        for k, i in enumerate(data["items"])
    ]
    (size,) = data["bins"]
    many = sum(demand.count for demand in demands)
    cloth = Given("bin", inches(size["w"]), inches(size["h"]), many)
    offered = Offered((cloth,), ruler_length=inches(3600))
    result = from_shelf(demands, offered)
    assert used(result)["bin"] <= data["best_known"] + 1
    assert check_from_shelf(result, demands, offered) == []
