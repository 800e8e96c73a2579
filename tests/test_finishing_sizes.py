"""Three sizes, shrinkage, thread, cost and weight against figures from outside."""

from fractions import Fraction

import pytest

from piecewright.cutting.given.cloth import Bolt
from piecewright.cutting.laying import lay_out
from piecewright.cutting.wanted import Demand, Supply
from piecewright.finishing.cost import (
    Cost,
    Prices,
    bolt_line,
    cloth_line,
    layout_lines,
    price_of_step,
    spool_line,
)
from piecewright.finishing.how_quilted import Quilting, QuiltingPattern, quilting_run
from piecewright.finishing.shrinking import before_washing, share_lost, three_sizes, to_buy
from piecewright.finishing.thread import THREAD, ThreadUse, lockstitch, running_stitch, thread_need
from piecewright.finishing.weight import Weights, grams_a_square_metre, weight_of
from piecewright.measure.length import Length, inches, mm
from piecewright.problems import Refused

YARD = inches(36)


def test_what_to_buy_is_divided_by_what_is_left() -> None:
    # trade-checks shrink_buy, exact: 3 yd after 5 per cent shrinkage are L / (1 - p), ISO 5077 and TM135.
    assert float(before_washing(YARD * 3, 0.05)) / 36 == pytest.approx(3.157895, abs=1e-6)


def test_the_share_lost_in_the_wash() -> None:
    # trade-checks shrink_pct, published: 70 in to 68 in is 2.857 per cent (piecedgoods.com 2011/03/11).
    assert 100 * float(share_lost(inches(70), inches(68))) == pytest.approx(2.857, abs=1e-3)


def test_what_is_bought_washes_down_to_what_is_needed() -> None:
    supply = Supply("fog", inches(42), inches("4 1/2"), inches(2), 0.05)
    bought = to_buy(inches(136), supply)
    # (136 + 2) / 0.95 = 145.26, in steps of 4 1/2 in: 33 of them.
    assert (bought.steps, bought.buy) == (33, inches("148 1/2"))


def test_three_sizes_are_told() -> None:
    # Plane arithmetic: 60 x 0.97 = 58.2; 58.2 x 0.95 = 55.29, and 80 x 0.97 x 0.97 = 75.272.
    sizes = three_sizes((inches(60), inches(80)), 0.03, (0.05, 0.03))
    assert [float(side) for side in (*sizes.quilted, *sizes.washed)] == pytest.approx(
        [58.2, 77.6, 55.29, 75.272]
    )
    assert sizes.sum_lines("in") == (
        "quilted: 60 x 80 in, less 3 per cent each way = about 58 1/4 x 77 1/2 in",
        "washed: about 58 1/4 x 77 1/2 in, less 5 per cent across and 3 per cent along = "
        "about 55 1/4 x 75 1/4 in",
    )


@pytest.mark.parametrize("share", [-0.01, 1.0, 3])
def test_a_share_that_is_none_is_refused(share: float) -> None:
    with pytest.raises(Refused, match="from 0 to less than 1"):
        three_sizes((inches(60), inches(80)), share)


def test_the_lockstitch_formula() -> None:
    # trade-checks thread_301, published: 2 + 2TS at T 0.01 in and S 10 (textilecalculations.com, stitch 301).
    assert lockstitch(0.01, 10) == pytest.approx(2.2, abs=1e-9)


def test_a_running_stitch_takes_one_thread_instead_of_two() -> None:
    # Plane geometry: out and back through 0.1 in of cloth eight times an inch, and the inch itself.
    assert running_stitch(0.1, 8) == pytest.approx(2.6)


def uses(unit: str) -> list[ThreadUse]:
    usual = THREAD["in" if unit == "in" else "cm"]
    return [
        ThreadUse("piecing", 10_000.0, inches("1/50"), usual.piecing),
        ThreadUse("quilting by hand", 1_000.0, inches("1/10"), usual.by_hand, "hand"),
    ]


def test_thread_counts_tails_spools_and_bobbins() -> None:
    # 10,000 x (2 + 2 x 0.02 x 12) = 24,800; 1,000 x (1 + 2 x 0.1 x 8) = 2,600; with a fifth 32,880 in.
    need = thread_need(uses("in"), THREAD["in"], "in")
    assert need.sewn_in == pytest.approx(27_400)
    assert need.needed == pytest.approx(32_880)
    # 32,880 / 7,920 in a spool; half of 24,800 x 1.2 is 14,880 in on bobbins of 1,980.
    assert (need.spools, need.bobbins) == (5, 8)
    assert need.sum_lines("in")[0] == "piecing: 10,000 in sewn x (2 + 2 x 0.02 x 12 = 2.48) = 24,800 in"


def test_thread_is_the_same_in_centimetres() -> None:
    # The formula has no unit: T x S is a number. Stitches of 2 mm, 12.7 to the inch.
    need = thread_need(uses("cm")[:1], THREAD["cm"], "cm")
    assert need.sewn_in == pytest.approx(10_000 * (2 + 2 * 0.02 * 12.7))
    assert need.sum_lines("cm")[0].startswith("piecing: 25,400 cm sewn x (2 + 2 x 0.0508 x 5 = 2.51)")


def test_a_stitch_of_no_length_is_refused() -> None:
    with pytest.raises(Refused, match="above 0, got 0 in"):
        thread_need([ThreadUse("piecing", 1.0, inches(1), inches(0))], THREAD["in"], "in")


@pytest.mark.parametrize(
    ("pattern", "length"),
    [("lines", 2160.0), ("grid", 4320.0), ("all over", 2700.0), ("in the ditch", 333.0)],
)
def test_quilting_is_as_long_as_its_pattern_has_lines(pattern: QuiltingPattern, length: float) -> None:
    # 60 x 72 in, lines 2 in apart: 4320 / 2; a grid twice that; a winding line a quarter more (from memory).
    run = quilting_run(Quilting(pattern=pattern), (inches(60), inches(72)), 333.0, 100.0)
    assert run.length == pytest.approx(length)


def test_a_density_goes_before_every_pattern() -> None:
    run = quilting_run(Quilting(pattern="grid", density=0.25), (inches(10), inches(10)), 0.0, None)
    assert (run.length, run.sum_lines("in")) == (
        25.0,
        ("quilting: 10 x 10 x 0.25 in of line for a square in = 25 in = about 25 in",),
    )


def test_lines_that_lie_on_one_another_are_refused() -> None:
    with pytest.raises(Refused, match="apart by a length above 0"):
        quilting_run(Quilting(apart=inches(0)), (inches(10), inches(10)), 0.0, None)


def test_around_blocks_that_are_not_known_is_refused_with_what_to_do() -> None:
    with pytest.raises(Refused, match="Quilt in the ditch"):
        quilting_run(Quilting(pattern="around the blocks"), (inches(10), inches(10)), 5.0, None)


def test_cloth_costs_by_the_yard_and_by_the_metre() -> None:
    assert cloth_line("fog", inches(63), Fraction(12), "in").words("") == "fog: 1 3/4 yd x 12.00 = 21.00"
    assert cloth_line("sand", mm(1300), Fraction(14), "cm").words("EUR") == "sand: 1.3 m x 14.00 = 18.20 EUR"


def test_a_bolt_costs_its_buying_steps() -> None:
    supply = Supply("sail", inches(40), buying_step=inches("4 1/2"))
    layout = lay_out([Demand("squares", inches(5), inches(5), 16)], supply)
    price = price_of_step(Fraction(12), supply.buying_step, "in")
    assert price == Fraction(3, 2)
    # Two strips of 5 in are 10 in, which are three steps.
    assert bolt_line(layout, Bolt(supply, price), "in").cost == Fraction(9, 2)
    assert layout_lines([layout], Prices({"sail": Fraction(12)}), "in")[0].cost == Fraction(9, 2)


def test_what_has_no_price_is_named_and_not_counted() -> None:
    cost = Cost((cloth_line("fog", YARD, Fraction(12), "in"), spool_line(2, None)))
    assert cost.sum_lines()[-1] == "together 12.00; without thread"


def test_a_price_below_nothing_is_refused() -> None:
    with pytest.raises(Refused, match=r"0 or more for fog, got -1\.00"):
        cloth_line("fog", YARD, Fraction(-1), "in")


def square_metre() -> tuple[float, float]:
    side: Length = mm(1000)
    return (float(side), float(side))


def test_a_square_metre_weighs_what_its_layers_do() -> None:
    side = square_metre()[0]
    weight = weight_of(side * side, square_metre(), 0.0, 0.0, Weights(145, 145, 150, 30))
    assert weight.grams == pytest.approx(145 + 150 + 145)


def test_a_kilometre_of_thread_weighs_its_tex() -> None:
    weight = weight_of(0.0, (0.0, 0.0), 0.0, float(mm(1_000_000)), Weights(thread=30))
    assert weight.grams == pytest.approx(30)


def test_ounces_a_square_yard_are_grams_a_square_metre() -> None:
    # 1 oz a square yard is 33.906 g a square metre: by the definitions of ounce and inch.
    assert grams_a_square_metre(1) == pytest.approx(33.906, abs=1e-3)
