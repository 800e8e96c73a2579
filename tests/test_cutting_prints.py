"""An assortment shared out over its prints: the fewest that keep the wish, what is cut and bought of each."""

from __future__ import annotations

import itertools
from collections import Counter
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.cutting.laying import lay_out
from piecewright.cutting.prints.apart import apart_of, fewest_apart
from piecewright.cutting.prints.checking import check_shared_out
from piecewright.cutting.prints.programme import Choice, Chosen, choose_shares
from piecewright.cutting.prints.shared import SharedOut
from piecewright.cutting.prints.sharing import share_out
from piecewright.cutting.prints.touching import touching
from piecewright.cutting.prints.wish import Batch, Places, PrintsWish
from piecewright.cutting.wanted import Demand, Supply
from piecewright.measure.length import Length, inches
from piecewright.problems import Problem, Refused

SAILS = Supply("sails", inches(40), inches("4 1/2"), straightening=inches(2), spare_strips=1)


def squares(side: str, count: int, name: str = "square") -> Demand:
    return Demand(name, inches(side), inches(side), count)


def told(shared: SharedOut) -> list[tuple[int, dict[str, int]]]:
    return [(share.prints, dict(share.pieces)) for share in shared.shares]


def refusal(demands: list[Demand], wish: PrintsWish) -> str:
    with pytest.raises(Refused) as refused:
        share_out(demands, SAILS, wish)
    return str(refused.value)


def grid(across: int, down: int) -> tuple[tuple[int, int], ...]:
    """Squares side by side: each touches the next in its row and in its column."""
    places = {(row, column): row * across + column for row in range(down) for column in range(across)}
    steps = [((row, column), (row + r, column + c)) for row, column in places for r, c in ((0, 1), (1, 0))]
    return tuple((places[a], places[b]) for a, b in steps if b in places)


# ------------------------------------------------------------------------ how many prints


def test_at_most_ten_alike_of_ninety_six_takes_ten_prints() -> None:
    # 96 / 10, rounded up: plain arithmetic.
    shared = share_out([squares("5", 96)], SAILS, PrintsWish(most_alike=10))
    assert (shared.prints, shared.least_prints, shared.alike) == (10, 10, 10)


def test_units_made_eight_at_a_time_are_eight_alike() -> None:
    # 16 squares make 128 triangles; of 20 alike only two squares of 8 can come from one print.
    shared = share_out([squares("7 3/4", 16)], SAILS, PrintsWish(None, 20, {"square": Batch(gives=8)}))
    assert told(shared) == [(8, {"square": 2})]
    assert shared.alike == 16


def test_without_any_wish_one_print_does() -> None:
    assert told(share_out([squares("3", 7)], SAILS, PrintsWish())) == [(1, {"square": 7})]


def test_nothing_wanted_takes_no_print() -> None:
    shared = share_out([], SAILS, PrintsWish(4, 2))
    assert (shared.prints, shared.buy) == (0, inches(0))


# ------------------------------------------------------------------------ what is cut from each


def test_sets_are_never_parted() -> None:
    shared = share_out([squares("3", 30)], SAILS, PrintsWish(4, batches={"square": Batch(together=4)}))
    # 30 in sets of 4 are seven sets and a rest of 2.
    counts = sorted(count["square"] for prints, count in told(shared) for _ in range(prints))
    assert counts == [6, 8, 8, 8]


def test_what_is_beyond_an_even_share_goes_turn_about() -> None:
    shared = share_out([squares("3", 4, "a"), squares("2", 5, "b")], SAILS, PrintsWish(3))
    # A short strip of each size from every print; whoever has the second a has the first b only.
    assert told(shared) == [(1, {"a": 2, "b": 1}), (2, {"a": 1, "b": 2})]


def test_every_print_is_used_where_pieces_are_few() -> None:
    shared = share_out([squares("3", 2, "a"), squares("4", 3, "b")], SAILS, PrintsWish(5))
    assert told(shared) == [(2, {"a": 1}), (3, {"b": 1})]


def test_whole_strips_are_fewer_where_that_is_wished() -> None:
    # Eight 5 in squares from a strip of 40 in: 96 / 8 = 12 strips. Shared evenly, nine prints give 10 or 11
    # each, so two strips of every print.
    evenly = share_out([squares("5", 96)], SAILS, PrintsWish(9))
    whole = share_out([squares("5", 96)], SAILS, PrintsWish(9, sharing="in whole strips"))
    assert (evenly.strips, whole.strips) == (18, 12)
    assert {dict(share.pieces)["square"] for share in whole.shares} == {8, 16}


def test_what_is_bought_is_the_sum_of_all_prints_and_is_told_against_one_cloth() -> None:
    shared = share_out([squares("2 1/2", 160)], SAILS, PrintsWish(10))
    # 16 squares fill one 40 in strip: of each print 2 1/2 + 2 in to straighten, one step of 4 1/2 in;
    # as one cloth ten strips, one to spare and 2 in to straighten, 29 1/2 in: seven steps.
    bought = (shared.buy, shared.as_one.buy, shared.costs_more)
    assert bought == (inches(45), inches("31 1/2"), inches("13 1/2"))
    assert shared.least_buy == shared.buy
    assert shared.strips == 10


def test_a_single_print_keeps_its_spare_strip() -> None:
    shared = share_out([squares("5", 16)], SAILS, PrintsWish(1))
    # Two strips of 5 in, one to spare and 2 in to straighten: 17 in, four steps of 4 1/2 in.
    assert (shared.buy, shared.costs_more, shared.shares[0].layout.purchase.spare_strips) == (
        inches(18),
        inches(0),
        1,
    )


def test_the_precut_that_holds_a_share_is_named() -> None:
    # Sixteen 2 1/2 in squares: 4 x 4 from a 10 in square, or 16 along a 40 in strip.
    shared = share_out([squares("2 1/2", 32)], SAILS, PrintsWish(2))
    assert shared.shares[0].fits == ("10 in square", "2 1/2 in strip")


def test_of_many_sizes_each_goes_to_another_print() -> None:
    # More unlike shares are thinkable than are looked at; eight pieces still go to eight prints.
    demands = [squares(str(k + 2), 1, f"size {k}") for k in range(8)]
    shared = share_out(demands, SAILS, PrintsWish(8))
    assert sorted(share.count for share in shared.each()) == [1] * 8


def test_the_last_set_may_make_a_print_cheaper_and_no_bound_lies_above_it() -> None:
    # Five squares of 19 in, two to a strip, are a set of four, two strips and 2 in to straighten, 40 in, and
    # a single one, 21 in: nine steps of 4 1/2 in and five. A whole second set would take nine again.
    shared = share_out([squares("19", 5)], SAILS, PrintsWish(2, batches={"square": Batch(together=4)}))
    assert shared.least_buy <= shared.buy == inches(63)


def test_least_is_bought_first_then_fewest_strips_then_the_evenest() -> None:
    # Sets, steps, least steps, strips, unevenness.
    cheap, short = Choice((4,), 1, 1, 3, 0.0), Choice((4,), 2, 2, 1, 0.0)
    assert choose_shares([cheap, short], [8], 2) == Chosen((2, 0), 2)
    assert choose_shares([cheap, short], [8], 2, strips_first=True) == Chosen((0, 2), 2)
    apart = [Choice((n,), 1, 1, 1, float((n - 4) ** 2)) for n in (1, 4, 7)]
    assert choose_shares(apart, [12], 3) == Chosen((0, 3, 0), 3)
    uneven = [Choice((n,), 1, 1, 1, float(n)) for n in (3, 5)] + [Choice((4,), 1, 1, 1, 9.0)]
    assert choose_shares(uneven, [20], 5) == Chosen((0, 0, 5), 5)
    even = [Choice((a, b), 1, 1, 1, float((a + b - 3) ** 2)) for a, b in ((2, 2), (1, 1), (2, 1), (1, 2))]
    assert choose_shares(even, [3, 3], 2) == Chosen((0, 0, 1, 1), 2)
    assert choose_shares([cheap], [9], 2) is None


# ------------------------------------------------------------------------ no two alike touching


def test_squares_side_by_side_take_two_prints_and_a_ring_of_five_takes_three() -> None:
    # A grid of squares is a chessboard; an odd ring takes three colours (textbooks of graphs).
    ring = tuple((k, (k + 1) % 5) for k in range(5))
    chess, odd = Places(("",) * 12, grid(4, 3)), Places(("",) * 5, ring)
    assert fewest_apart(apart_of(chess)) == (2, 2)
    assert fewest_apart(apart_of(odd)) == (3, 3)


def test_a_wheel_within_a_wheel_is_proven_by_the_solver() -> None:
    # The Grötzsch graph has no three that touch each other, and still takes four (Grötzsch 1959).
    ring = [(k, (k + 1) % 5) for k in range(5)]
    outer = [(5 + k, (k + d) % 5) for k in range(5) for d in (1, 4)]
    places = Places(("",) * 11, tuple(ring + outer + [(10, 5 + k) for k in range(5)]))
    assert fewest_apart(apart_of(places)) == (4, 4)


def test_every_place_has_a_print_and_none_alike_touch() -> None:
    wish = PrintsWish(5, places=Places(("square",) * 48, grid(8, 6)))
    shared = share_out([squares("3", 48)], SAILS, wish)
    assert shared.clashes == 0
    assert all(shared.prints_at[one] != shared.prints_at[other] for one, other in grid(8, 6))
    assert sorted(Counter(shared.prints_at).values()) == [9, 9, 10, 10, 10]


def kings(across: int, down: int) -> tuple[tuple[int, int], ...]:
    """The same with those that meet at a corner."""
    slanting = [
        (r * across + c, (r + 1) * across + c + d)
        for r in range(down - 1)
        for c in range(across)
        for d in (-1, 1)
        if 0 <= c + d < across
    ]
    return (*grid(across, down), *slanting)


@pytest.mark.parametrize(("across", "down", "prints"), [(5, 5, 5), (7, 7, 5), (9, 9, 5), (5, 5, 6)])
def test_alike_ones_change_places_until_none_touch_not_even_at_a_corner(
    across: int, down: int, prints: int
) -> None:
    number, pairs = across * down, kings(across, down)
    wish = PrintsWish(prints, places=Places(("square",) * number, pairs))
    shared = share_out([squares("2", number)], SAILS, wish)
    assert [pair for pair in pairs if len({shared.prints_at[k] for k in pair}) == 1] == []


def test_in_a_block_no_more_are_alike_than_wished() -> None:
    # Nine patches to a block, two alike at most: five prints at least.
    blocks = tuple(tuple(range(k, k + 9)) for k in (0, 9, 18))
    wish = PrintsWish(places=Places(("",) * 27, blocks=blocks, most_in_block=2))
    assert wish.places is not None
    assert fewest_apart(apart_of(wish.places)) == (5, 5)
    shared = share_out([squares("3", 27)], SAILS, wish)
    assert (shared.least_prints, shared.prints, shared.clashes) == (5, 5, 0)
    assert max(max(Counter(shared.prints_at[k] for k in block).values()) for block in blocks) == 2


def test_patches_touch_where_they_share_part_of_a_side_but_not_at_a_corner() -> None:
    low = ((0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0))
    beside = tuple((x + 2.0, y + 1.0) for x, y in low)
    cornerwise = tuple((x + 2.0, y - 2.0) for x, y in low)
    assert touching([low, beside, cornerwise]) == ((0, 1),)
    assert touching([low, beside, cornerwise], corners=True) == ((0, 1), (0, 2))


# ------------------------------------------------------------------------ what cannot be


def test_more_prints_than_pieces_is_told() -> None:
    assert "20 prints are wanted, but only 12 pieces are cut. Take 12 prints" in refusal(
        [squares("3", 12)], PrintsWish(20)
    )


def test_too_few_prints_for_the_likeness_says_what_would_do() -> None:
    words = refusal([squares("3", 96)], PrintsWish(20, 2))
    assert "at most 2 alike of 96 pieces of 'square' needs 48 prints, got 20. 5 alike would do" in words
    share_out([squares("3", 96)], SAILS, PrintsWish(20, 5))


def test_a_batch_larger_than_the_likeness_says_what_to_allow() -> None:
    words = refusal([squares("8", 9)], PrintsWish(None, 5, {"square": Batch(gives=8)}))
    assert "at most 5 alike cannot be kept: each 'square' makes 8 alike. Allow 8 alike" in words


def test_too_few_prints_to_keep_apart_says_how_many_it_takes() -> None:
    touch = ((0, 1), (1, 2), (0, 2))
    words = refusal([squares("3", 3)], PrintsWish(2, places=Places(("",) * 3, touch)))
    assert "expected 3 prints so that no two alike touch, got 2. Take 3 prints" in words


@pytest.mark.parametrize(
    ("wish", "words"),
    [
        (PrintsWish(0), "expected from 1 to 10,000 prints, got 0"),
        (PrintsWish(2, 0), "expected at least 1 alike to be allowed, got 0"),
        (
            PrintsWish(2, batches={"square": Batch(0)}),
            "expected 'square' to give 1 or more, and 1 or more together, got 0 and 1",
        ),
        (PrintsWish(2, places=Places(("",), ((0, 1),))), "Number the places from 0"),
        (PrintsWish(2, places=Places(("square",) * 9)), "expected at least 9 of 'square', got 8"),
    ],
)
def test_a_wish_that_makes_no_sense_is_told(wish: PrintsWish, words: str) -> None:
    assert words in refusal([squares("3", 8)], wish)


# ------------------------------------------------------------------------ against trying everything


def every_sharing(sets: list[int], prints: int, cap: int) -> list[tuple[tuple[int, ...], ...]]:
    """All ways to share so many sets of each size out over prints that each get something."""
    shares = [s for s in itertools.product(*(range(min(n, cap) + 1) for n in sets)) if any(s)]
    return [
        each
        for each in itertools.combinations_with_replacement(shares, prints)
        if [sum(share[k] for share in each) for k in range(len(sets))] == sets
    ]


@pytest.mark.parametrize(
    ("first", "second", "prints"), [(5, 4, 3), (7, 2, 4), (3, 3, 5), (6, 6, 3), (1, 9, 4)]
)
def test_no_even_sharing_buys_less(first: int, second: int, prints: int) -> None:
    demands = [squares("9 1/2", first, "a"), Demand("b", inches(3), inches(14), second)]
    shared = share_out(demands, SAILS, PrintsWish(prints))
    even = [
        each
        for each in every_sharing([first, second], prints, 9)
        if all(max(s[k] for s in each) - min(s[k] for s in each) <= 1 for k in (0, 1))
    ]
    assert shared.buy == min(sum((bought(demands, s) for s in each), inches(0)) for each in even)
    assert shared.least_buy == shared.buy


def bought(demands: list[Demand], share: tuple[int, ...]) -> Length:
    """What one print costs: its own layout, without spare strips."""
    own = [replace(demand, count=n) for demand, n in zip(demands, share, strict=True) if n]
    return lay_out(own, replace(SAILS, spare_strips=0)).buy


@settings(max_examples=60)
@given(
    st.integers(1, 6).flatmap(
        lambda n: st.tuples(
            st.just(n), st.sets(st.tuples(st.integers(0, n - 1), st.integers(0, n - 1)), max_size=12)
        )
    )
)
def test_the_fewest_prints_to_keep_apart_are_as_few_as_trying_everything_finds(
    drawn: tuple[int, set[tuple[int, int]]],
) -> None:
    number, pairs = drawn[0], tuple(sorted((a, b) for a, b in drawn[1] if a != b))
    fewest = min(
        len(set(tried))
        for tried in itertools.product(range(number), repeat=number)
        if all(tried[a] != tried[b] for a, b in pairs)
    )
    assert fewest_apart(apart_of(Places(("",) * number, pairs))) == (fewest, fewest)


# ------------------------------------------------------------------------ what always holds


@st.composite
def assortments(draw: st.DrawFn) -> tuple[list[Demand], Supply, PrintsWish]:
    """Up to three sizes in batches and sets, some places that touch, any number of prints that may do."""
    sides = st.integers(8, 80).map(lambda n: Length(inches(n).exact / 8))
    demands = [
        Demand(f"size {k}", draw(sides), draw(sides), draw(st.integers(1, 40)), draw(st.booleans()))
        for k in range(draw(st.integers(1, 3)))
    ]
    batches = {d.name: Batch(draw(st.integers(1, 8)), draw(st.integers(1, 4))) for d in demands}
    wish = PrintsWish(batches=batches, sharing=draw(st.sampled_from(["evenly", "in whole strips"])))
    most = max(wish.alike_in_set(d) for d in demands)
    alike = draw(st.one_of(st.none(), st.integers(most, most * 4)))
    wish = replace(wish, most_alike=alike)
    if draw(st.booleans()):
        sizes = tuple(d.name for d in demands for _ in range(min(d.count, 5)))
        number = st.integers(0, len(sizes) - 1)
        pairs = draw(st.sets(st.tuples(number, number), max_size=10))
        wish = replace(wish, places=Places(sizes, tuple(sorted((a, b) for a, b in pairs if a != b))))
    sets = sum(map(wish.sets, demands))
    wanted = draw(st.one_of(st.none(), st.integers(1, min(sets, 30))))
    supply = replace(
        SAILS, usable_width=inches(draw(st.integers(20, 44))), shrinkage=draw(st.sampled_from([0, 0.04]))
    )
    return demands, supply, replace(wish, prints=wanted)


@settings(max_examples=25, deadline=None)
@given(assortments())
def test_every_assortment_is_shared_out_within_the_wish_or_refused_with_figures(
    drawn: tuple[list[Demand], Supply, PrintsWish],
) -> None:
    demands, supply, wish = drawn
    refused: tuple[Problem, ...] = ()
    try:
        shared = share_out(demands, supply, wish)
    except Refused as told:
        refused = told.problems
    if refused:
        assert all(problem.what and problem.do for problem in refused)
        return
    assert check_shared_out(shared, demands, wish) == []
    if wish.sharing == "evenly":
        for demand in demands:
            counts = [dict(share.pieces).get(demand.name, 0) for share in shared.each()]
            assert max(counts) - min(counts) <= 2 * wish.batch(demand.name).together - 1


def test_equal_wishes_are_shared_out_alike() -> None:
    wish = PrintsWish(7, 9, places=Places(("square",) * 40, grid(8, 5)))
    demands = [squares("3", 48), squares("5", 11, "large")]
    assert share_out(demands, SAILS, wish) == share_out(demands, SAILS, wish)


# ------------------------------------------------------------------------ the checker


def test_the_checker_sees_what_is_wrong() -> None:
    wish = PrintsWish(4, 5, {"square": Batch(together=2)}, Places(("square",) * 9, grid(3, 3)))
    demands = [squares("3", 16)]
    shared = share_out(demands, SAILS, wish)
    first = shared.shares[0]
    assert check_shared_out(shared, demands, wish) == []
    spared = lay_out([squares("3", 4)], SAILS)
    wrong = {
        "expected 4 prints, got 3": replace(shared, shares=(replace(first, prints=3),)),
        "expected 4 alike, got 1": replace(shared, shares=(replace(first, alike=1),)),
        "expected 3 pieces of 'square', got 4": replace(
            shared, shares=(replace(first, pieces=(("square", 3),)),)
        ),
        "expected nothing to be spared": replace(shared, shares=(replace(first, layout=spared),)),
        "no bound above": replace(shared, least_buy=shared.buy + inches(1)),
        "a print for 9 places, got 0": replace(shared, prints_at=()),
        "0 clashes to be told, got 2": replace(shared, clashes=2),
        "expected 4 of 'square' from print 0, got 9": replace(shared, prints_at=(0,) * 9, clashes=12),
    }
    for words, bad in wrong.items():
        assert any(words in str(problem) for problem in check_shared_out(bad, demands, wish)), words
    apart = replace(wish, batches={"square": Batch(together=3)})
    assert any("expected sets of 3" in str(p) for p in check_shared_out(shared, demands, apart))
    strict = replace(wish, most_alike=3)
    assert any("at most 3 alike, got 4" in str(p) for p in check_shared_out(shared, demands, strict))


def test_where_there_is_no_patch_none_touch():
    """A binding alone is cut of an assortment that no patch shows."""
    assert touching([]) == ()
