"""An assortment from the prints on hand: which to take, what is cut from each, what is bought besides."""

from __future__ import annotations

import itertools
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.cutting.given.cloth import Given, precut
from piecewright.cutting.prints.checking import check_from_prints
from piecewright.cutting.prints.from_prints import FromPrints
from piecewright.cutting.prints.on_hand import share_on_hand
from piecewright.cutting.prints.wish import Batch, Places, PrintsWish
from piecewright.cutting.wanted import Demand, Supply
from piecewright.measure.length import inches
from piecewright.problems import Problem, Refused

SHOP = Supply("nets", inches(40), inches("4 1/2"), straightening=inches(2))


def squares(side: str, count: int, name: str = "square") -> Demand:
    return Demand(name, inches(side), inches(side), count)


def quarters(number: int) -> list[Given]:
    return [precut("fat quarter", 1, f"net {k}") for k in range(number)]


def cloth(fabric: str, width: str, height: str, count: int = 1) -> Given:
    return Given(f"{fabric} {width} x {height}", inches(width), inches(height), count, fabric)


def counts(result: FromPrints) -> dict[str, dict[str, int]]:
    return {one.fabric: dict(one.pieces) for one in result.prints}


def refusal(demands: list[Demand], there: list[Given], wish: PrintsWish) -> str:
    with pytest.raises(Refused) as refused:
        share_on_hand(demands, there, wish, "nets")
    return str(refused.value)


def test_so_few_prints_are_taken_as_hold_all_pieces() -> None:
    # A fat quarter of 20 1/2 x 17 1/2 in holds 4 x 3 squares of 5 in: 30 take three.
    result = share_on_hand([squares("5", 30)], quarters(8), PrintsWish(), "nets")
    assert len(result.prints) == 3
    assert sorted(n["square"] for n in counts(result).values()) == [10, 10, 10]


def test_as_many_prints_are_taken_as_wished_and_share_evenly() -> None:
    result = share_on_hand([squares("5", 30)], quarters(8), PrintsWish(7), "nets")
    assert sorted(n["square"] for n in counts(result).values()) == [4, 4, 4, 4, 4, 5, 5]


def test_long_cloth_of_which_there_is_plenty_is_shared_evenly_too() -> None:
    # One print could give all 48, or most of them.
    there = [cloth(fabric, "40", "72") for fabric in ("ebb", "flow", "tide")]
    result = share_on_hand([squares("5", 48)], there, PrintsWish(3), "nets")
    assert counts(result) == {print_: {"square": 16} for print_ in ("ebb", "flow", "tide")}


def test_sizes_are_mixed_on_a_print_where_nothing_else_fits() -> None:
    # 10 x 10 in holds four squares, or two pieces of 5 x 9, or two squares and one piece: six squares and
    # three pieces fill three such prints however they are cut.
    demands = [squares("5", 6), Demand("piece", inches(5), inches(9), 3)]
    there = [cloth(fabric, "10", "10") for fabric in ("ebb", "flow", "tide", "swell", "foam")]
    assert len(share_on_hand(demands, there, PrintsWish(), "nets").prints) == 3


def test_no_more_come_from_one_print_than_may_be_alike_though_its_cloth_has_room() -> None:
    there = [cloth("shoal", "40", "72"), *quarters(4)]
    wish = PrintsWish(most_alike=16, batches={"square": Batch(gives=8)})
    result = share_on_hand([squares("7 3/4", 9)], there, wish, "nets")
    assert (len(result.prints), result.least_prints, result.alike) == (5, 5, 16)
    assert max(n["square"] for n in counts(result).values()) == 2


def test_several_pieces_of_one_fabric_are_one_print() -> None:
    there = [cloth("ebb", "10", "10", 2), cloth("ebb", "20", "5"), cloth("flow", "12", "12")]
    result = share_on_hand([squares("5", 12)], there, PrintsWish(1), "nets")
    assert counts(result) == {"ebb": {"square": 12}}
    assert sum(cut.times for cut in result.prints[0].used) == 3


@pytest.mark.parametrize("turned", [False, True])
def test_the_least_cloth_is_cut_into(turned: bool) -> None:
    there = [cloth("big", "20", "20"), cloth("small", "10", "10"), cloth("sea", "20", "20")]
    there.append(cloth("other", "10", "10"))
    result = share_on_hand([squares("5", 8)], there[::-1] if turned else there, PrintsWish(2), "nets")
    assert counts(result) == {"small": {"square": 4}, "other": {"square": 4}}
    assert result.area_used == 200


def test_what_is_lacking_is_shared_out_over_new_prints() -> None:
    demands, wish = [squares("5", 40)], PrintsWish(8, 5)
    result = share_on_hand(demands, quarters(3), wish, "nets", SHOP)
    assert sorted(n["square"] for n in counts(result).values()) == [5, 5, 5]
    assert result.bought is not None
    assert (result.bought.prints, [dict(s.pieces) for s in result.bought.shares]) == (5, [{"square": 5}])
    assert check_from_prints(result, demands, quarters(3), wish) == []


def test_new_prints_come_besides_where_more_are_wished_than_are_on_hand() -> None:
    # Three fat quarters hold all twelve squares, and four prints more are wished: each has two, or one.
    demands, wish = [squares("5", 12)], PrintsWish(7)
    result = share_on_hand(demands, quarters(3), wish, "nets", SHOP)
    assert sorted(n["square"] for n in counts(result).values()) == [2, 2, 2]
    assert (len(result.prints), result.bought and result.bought.prints) == (3, 4)
    assert check_from_prints(result, demands, quarters(3), wish) == []


def test_every_new_print_that_is_wished_gets_a_piece() -> None:
    # One fat quarter has room for both, and another print is wished besides; the scrap is too small.
    there, demands = [*quarters(1), cloth("scrap", "2", "2")], [squares("5", 1), squares("4", 1, "small")]
    result = share_on_hand(demands, there, PrintsWish(2), "nets", SHOP)
    assert counts(result) == {"net 0": {"small": 1}}
    assert result.bought is not None
    assert [dict(share.pieces) for share in result.bought.shares] == [{"square": 1}]


def test_prints_that_are_too_small_are_not_counted() -> None:
    words = refusal([squares("5", 8)], [*quarters(2), cloth("scrap", "2", "2")], PrintsWish(3))
    assert "3 prints are wanted, 3 are on hand, 2 of them large enough" in words


def test_with_nothing_on_hand_all_is_bought() -> None:
    result = share_on_hand([squares("5", 12)], [], PrintsWish(4), "nets", SHOP)
    assert (result.prints, result.bought and result.bought.prints) == ((), 4)


def test_places_get_prints_on_hand_so_that_none_alike_touch() -> None:
    ring = tuple((k, (k + 1) % 8) for k in range(8))
    wish = PrintsWish(4, places=Places(("square",) * 8, ring))
    result = share_on_hand([squares("5", 8)], quarters(4), wish, "nets")
    assert (result.clashes, sorted(result.prints_at)) == (0, [0, 0, 1, 1, 2, 2, 3, 3])


def test_what_is_left_of_each_print_is_told() -> None:
    result = share_on_hand([squares("5", 4)], [cloth("ebb", "22", "5")], PrintsWish(), "nets")
    assert result.prints[0].leftovers == ()
    result = share_on_hand([squares("5", 3)], [cloth("ebb", "22", "5")], PrintsWish(), "nets")
    assert [(left.width, left.height) for left in result.prints[0].leftovers] == [(inches(7), inches(5))]


# ------------------------------------------------------------------------ what cannot be


def test_more_prints_than_are_on_hand_is_told() -> None:
    words = refusal([squares("2", 40)], quarters(5), PrintsWish(12))
    assert "12 prints are wanted, 5 are on hand. Take fewer, or let the rest be bought." in words


def test_too_little_cloth_within_the_likeness_is_told_with_the_figures() -> None:
    words = refusal([squares("5", 40)], quarters(6), PrintsWish(most_alike=6))
    assert "expected 40 pieces from 6 of the 6 prints on hand with at most 6 alike" in words
    assert "found room for 36: 4 of 'square' are lacking" in words


def test_pieces_larger_than_any_cloth_are_told() -> None:
    assert "the largest is 20 1/2 x 17 1/2 in" in refusal([squares("21", 1)], quarters(3), PrintsWish())


def test_whole_strips_of_unknown_length_are_told() -> None:
    strip = replace(squares("2", 3), whole_strip=True)
    assert "Say how long the strips are" in refusal([strip], quarters(3), PrintsWish())


# ------------------------------------------------------------------------ against trying everything


@settings(max_examples=25, deadline=None)
@given(
    st.lists(st.tuples(st.integers(1, 3), st.integers(1, 3)), min_size=1, max_size=4),
    st.integers(1, 16),
    st.integers(1, 9),
)
def test_the_fewest_prints_are_as_few_as_trying_every_choice_finds(
    sizes: list[tuple[int, int]], count: int, alike: int
) -> None:
    # Cloth of n x m squares holds n m of them, so that every choice of prints is easily counted.
    there = [cloth(f"p{k}", str(5 * n), str(5 * m)) for k, (n, m) in enumerate(sizes)]
    room = [min(n * m, alike) for n, m in sizes]
    choices = (c for k in range(1, len(room) + 1) for c in itertools.combinations(room, k))
    fewest = min((len(choice) for choice in choices if sum(choice) >= count), default=None)
    result = None
    try:
        result = share_on_hand([squares("5", count)], there, PrintsWish(most_alike=alike), "nets")
    except Refused:
        assert fewest is None
    assert (len(result.prints) if result else None) == fewest


# ------------------------------------------------------------------------ what always holds


@st.composite
def shelves(draw: st.DrawFn) -> tuple[list[Demand], list[Given], PrintsWish, Supply | None]:
    """A few sizes, prints of all kinds on hand, with and without a shop."""
    sides = st.integers(2, 16).map(lambda n: inches(n) / 2)
    demands = [
        Demand(f"size {k}", draw(sides), draw(sides), draw(st.integers(1, 30)), draw(st.booleans()))
        for k in range(draw(st.integers(1, 3)))
    ]
    there = [
        Given(
            f"cloth {k}",
            inches(draw(st.integers(5, 40))),
            inches(draw(st.integers(5, 40))),
            draw(st.integers(1, 3)),
            f"print {draw(st.integers(0, 7))}",
        )
        for k in range(draw(st.integers(1, 8)))
    ]
    batches = {d.name: Batch(draw(st.integers(1, 4)), draw(st.integers(1, 3))) for d in demands}
    wish = PrintsWish(batches=batches)
    most = max(wish.alike_in_set(d) for d in demands)
    alike = draw(st.one_of(st.none(), st.integers(most, 3 * most)))
    number = draw(st.one_of(st.none(), st.integers(1, 8)))
    return demands, there, replace(wish, most_alike=alike, prints=number), draw(st.sampled_from([None, SHOP]))


@settings(max_examples=60, deadline=None)
@given(shelves())
def test_every_shelf_gives_the_assortment_within_the_wish_or_it_is_refused_with_figures(
    drawn: tuple[list[Demand], list[Given], PrintsWish, Supply | None],
) -> None:
    demands, there, wish, shop = drawn
    refused: tuple[Problem, ...] = ()
    try:
        result = share_on_hand(demands, there, wish, "nets", shop)
    except Refused as told:
        refused = told.problems
    if refused:
        assert all(problem.what and problem.do for problem in refused)
        return
    assert check_from_prints(result, demands, there, wish) == []


def test_the_checker_sees_what_is_wrong() -> None:
    demands, there, wish = [squares("5", 9)], quarters(3), PrintsWish(3, 4)
    result = share_on_hand(demands, there, wish, "nets")
    first, second, third = result.prints
    assert check_from_prints(result, demands, there, wish) == []
    wrong = {
        "expected every print once": replace(result, prints=(first, first, third)),
        "expected 3 prints, got 2": replace(result, prints=(first, second)),
        "expected 9 pieces of 'square', got 6": replace(result, prints=(first, second)),
        "expected cloth that is there": replace(
            result, prints=(replace(first, fabric="net 9"), second, third)
        ),
        "no bound above": replace(result, least_prints=4),
        "expected 3 alike, got 2": replace(result, prints=(replace(first, alike=2), second, third)),
    }
    for words, bad in wrong.items():
        assert any(words in str(problem) for problem in check_from_prints(bad, demands, there, wish)), words
