"""Which ways for all units at once: the cheapest mix, by brute force; wishes, likes, what is on hand."""

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from piecewright.batches.alike import kinds_alike
from piecewright.batches.choosing import choose, choose_all
from piecewright.batches.offers import Want, ready
from piecewright.batches.on_hand import OnHand, from_hand, starts_in
from piecewright.batches.programme import Offer, best_mix
from piecewright.batches.single import mix_of
from piecewright.design.units import draw_unit
from piecewright.measure.length import inches, mm
from piecewright.methods import ways_for
from piecewright.methods.comparing import compare_ways, unit_wanted, ways_left_out
from piecewright.methods.effort import cost_of, effort_of
from piecewright.methods.method import Unit
from piecewright.problems import Refused
from piecewright.workroom.wishes import wishes_from
from piecewright.workroom.workroom import INCH_WORKROOM, METRIC_WORKROOM, Workroom

HST = unit_wanted("hst", inches(2), inches(2))
GOOSE = unit_wanted("geese", inches(4), inches(2))
PLENTY = 12


def want(unit: Unit, count: int, **more) -> Want:
    return Want(unit, unit.drawing, count, **more)


def wishing(*wishes: str, workroom: Workroom = INCH_WORKROOM) -> Workroom:
    return replace(workroom, wishes=wishes)


def names(chosen) -> list[str]:
    return [source.recipe.method.name for source in chosen.sources]


offers = st.lists(
    st.builds(
        lambda gives, cost, set_up: Offer("way", gives, cost, set_up),
        st.dictionaries(st.integers(0, 1), st.integers(1, 8), min_size=1),
        st.integers(1, 40).map(lambda tenths: tenths / 10),
        st.sampled_from([0.0, 1.0, 2.5]),
    ),
    min_size=1,
    max_size=3,
)


@settings(max_examples=60)
@given(st.tuples(st.integers(0, 9), st.integers(0, 9)), offers)
def test_no_other_mix_is_cheaper(wanted, offered):
    """Against every mix there is (up to twelve of each)."""

    def cost(times):
        return sum(o.cost * n + o.sets_up * bool(n) for o, n in zip(offered, times, strict=True))

    def enough(times):
        return all(
            sum(o.gives.get(k, 0) * n for o, n in zip(offered, times, strict=True)) >= number
            for k, number in enumerate(wanted)
        )

    served = [k for k, number in enumerate(wanted) if number]
    if not all(any(o.gives.get(k) for o in offered) for k in served):
        with pytest.raises(Refused):
            best_mix(wanted, offered)
        return
    mix = best_mix(wanted, offered)
    best = min(cost(t) for t in product(range(PLENTY), repeat=len(offered)) if enough(t))
    assert enough(mix.times)
    assert mix.cost == pytest.approx(cost(mix.times))
    assert mix.cost == pytest.approx(best)
    assert mix.proven
    assert mix.bound == pytest.approx(mix.cost)


def test_twenty_are_made_of_two_eights_and_two_twos_where_a_third_eight_costs_more():
    # arithmetic: 2 x 8 + 2 x 2 = 20 at 15.2, 3 x 8 = 24 at 16
    eight, two = Offer("eight", {0: 8}, 5.0, 1.0), Offer("two", {0: 2}, 1.6, 1.0)
    assert best_mix([20], [eight, two]).times == (2, 2)
    assert best_mix([23], [eight, two]).times == (3, 0)


def test_a_piece_that_is_cut_into_starts_of_one_size_gives_no_others():
    # Two ways each take a ninth of a piece: both need a piece of their own.
    offered = [Offer("a", {0: 1}, 1.0, 0.0, ((0, 1 / 9),)), Offer("b", {1: 1}, 1.0, 0.0, ((0, 1 / 9),))]
    assert best_mix([9, 9], offered, [2]).times == (9, 9)
    with pytest.raises(Refused, match="does not suffice"):
        best_mix([9, 9], offered, [1])


def test_all_units_of_a_quilt_are_weighed_at_once_and_proven():
    choice = choose_all([want(HST, 48), want(GOOSE, 10)], INCH_WORKROOM)
    assert choice.mix.proven
    assert [sum(s.gives for s in c.sources) >= n for c, n in zip(choice.chosen, (48, 10), strict=True)] == [
        True,
        True,
    ]
    assert names(choice.chosen[0]) == ["eight at a time"]


def test_the_cost_of_a_choice_is_that_of_its_batches_and_set_ups():
    choice = choose_all([want(HST, 20)], INCH_WORKROOM)
    sources = choice.chosen[0].sources
    batches = sum(cost_of(s.recipe, s.recipe.method.makes, INCH_WORKROOM) * s.batches for s in sources)
    assert choice.mix.cost == pytest.approx(batches + len(sources) * INCH_WORKROOM.pace.set_up / 60)


def test_without_set_up_several_ways_are_taken_together():
    quick = replace(INCH_WORKROOM, pace=replace(INCH_WORKROOM.pace, set_up=0.0))
    chosen = choose(want(HST, 18), quick)
    assert len(chosen.sources) == 2
    assert sum(source.gives for source in chosen.sources) == 18
    assert len(mix_of(compare_ways(HST, 18, quick), quick)) == 2


def test_a_liked_way_is_taken_where_it_serves():
    liking = replace(INCH_WORKROOM, liked=("one at a time",))
    assert names(choose(want(HST, 48), liking)) == ["one at a time"]


def test_a_pinned_way_is_taken_whatever_is_wished():
    chosen = choose(want(HST, 48, pinned="four at a time"), wishing("no bias edges"))
    assert names(chosen) == ["four at a time"]
    assert chosen.pinned


@pytest.mark.parametrize(
    ("wish", "gone", "kept"),
    [
        # common practice, no source: sewn round the edge, all outer edges are bias
        ("no bias edges", "four at a time", "eight at a time"),
        ("no marking", "eight at a time", "from cut triangles"),
        ("at most 4 alike", "eight at a time", "four at a time"),
    ],
)
def test_a_wish_leaves_out_the_ways_that_go_against_it(wish, gone, kept):
    left = {recipe.method.name for recipe in ready(want(HST, 48), wishing(wish)).recipes}
    assert gone not in left
    assert kept in left
    assert gone in {note.where for note in ways_left_out(HST, wishing(wish))}


def test_whole_marks_are_quarter_inches_and_half_centimetres():
    for workroom, unit, step in (
        (INCH_WORKROOM, HST, inches("1/4")),
        (METRIC_WORKROOM, unit_wanted("hst", mm(60), mm(60)), mm(5)),
    ):
        found = ready(want(unit, 8), wishing("whole marks", workroom=workroom)).recipes
        assert found
        assert all(not cut % step for recipe in found for cut in recipe.sizing.cut)


def test_a_wish_that_no_way_keeps_to_is_told():
    room = replace(INCH_WORKROOM, refused=("on a foundation",))
    with pytest.raises(Refused, match="keeps to what is wished"):
        ready(want(GOOSE, 4), wishing("no marking", "at most 1 alike", workroom=room))


@pytest.mark.parametrize("words", ["no bears", "at most 0 alike", "at most alike", ""])
def test_words_that_are_no_wish_are_told(words):
    with pytest.raises(ValueError, match="expected one of the wishes"):
        wishes_from([words])


def test_of_two_numbers_the_smaller_is_kept():
    assert wishes_from(["at most 4 alike", "At most  2 alike"]).alike == 2


def test_starts_in_a_piece():
    # floor rule: ten_inch in the published list, 16 of 2 1/2 in from 10 in; two of 6 x 3 lying in 6 1/2 x 7
    assert starts_in(OnHand(1, inches(10), inches(10)), inches("2 1/2"), inches("2 1/2")) == 16
    assert starts_in(OnHand(1, inches("6 1/2"), inches(7)), inches(3), inches(6)) == 2
    assert starts_in(OnHand(1, inches(10), inches(4)), inches(4), inches(3)) == 3
    assert starts_in(OnHand(1, inches(10), inches(10)), inches("10 1/8"), inches(2)) == 0


def test_units_are_made_of_what_is_on_hand():
    recipes = [way.recipe for way in compare_ways(HST, 20, INCH_WORKROOM)]
    pieces = (OnHand(4, inches(10), inches(10)), OnHand(6, inches(5), inches(5)))
    answer = from_hand(recipes, 20, pieces, INCH_WORKROOM)
    assert answer.made >= 20
    assert answer.mix.proven
    used = dict.fromkeys(pieces, 0)
    for part in answer.parts:
        sizes = part.recipe.start_sizes()
        for start, size, stock, number in zip(
            part.recipe.method.starts, sizes, part.stock, part.pieces, strict=True
        ):
            assert starts_in(stock, *size) * number >= start.count * part.batches, "enough starts"
            used[stock] += number
    assert all(number <= piece.count for piece, number in used.items()), "no more than there is"


def test_what_is_on_hand_and_does_not_suffice_is_told_with_what_it_gives():
    recipes = [way.recipe for way in compare_ways(HST, 99, INCH_WORKROOM)]
    # plane geometry: two 5 in squares make at most four squares 2 1/2 each: one by one four units
    with pytest.raises(Refused, match=r"give 4 of these units, 99 are wanted\. Add pieces, or want 4"):
        from_hand(
            [r for r in recipes if r.method.name == "one at a time"],
            99,
            (OnHand(2, inches(5), inches(5)),),
            INCH_WORKROOM,
        )


def test_pieces_of_a_fabric_are_for_that_fabric_alone():
    recipes = [way.recipe for way in compare_ways(HST, 1, INCH_WORKROOM)]
    both = [OnHand(1, inches(5), inches(5), "first"), OnHand(1, inches(5), inches(5), "second")]
    assert from_hand(recipes, 1, both, INCH_WORKROOM).made >= 1
    with pytest.raises(Refused, match="no piece on hand"):
        from_hand(recipes, 1, both[:1], INCH_WORKROOM)


def test_a_size_that_the_ruler_shows_goes_before_one_that_must_be_measured_out():
    # exact: 6 / sqrt 2 and two seams make a centre of 4.7426 in, on no mark; trimmed it is cut 4 3/4
    unit = unit_wanted("insquare", inches(6), inches(6))
    left = {recipe.method.name for recipe in ready(want(unit, 8), INCH_WORKROOM).recipes}
    assert "from cut triangles" not in left
    assert "from cut triangles, trimmed" in left
    liking = replace(INCH_WORKROOM, liked=("from cut triangles",))
    assert "from cut triangles" in {r.method.name for r in ready(want(unit, 8), liking).recipes}


def test_scraps_for_a_foundation_do_not_put_a_way_first():
    # The star's strips are on no mark; a foundation's scraps are cut to any size.
    star = unit_wanted("star8", inches(12), inches(12))
    assert "set in" in {recipe.method.name for recipe in ready(want(star, 4), INCH_WORKROOM).recipes}


def test_one_batch_serves_both_hands():
    left, right = (unit_wanted("threepatch", inches(3), inches(3), (), hand) for hand in ("left", "right"))
    liking = replace(INCH_WORKROOM, liked=("from half-square triangles",))
    choice = choose_all([want(left, 8), want(right, 8)], liking)
    batches = {id(s.recipe): s.batches * s.recipe.method.makes for c in choice.chosen for s in c.sources}
    assert sum(batches.values()) == 8
    assert [sum(s.gives for s in chosen.sources) for chosen in choice.chosen] == [8, 8]


def test_where_prints_should_stand_upright_a_way_that_tilts_them_is_none():
    only_four = replace(
        INCH_WORKROOM,
        wishes=("upright prints",),
        refused=tuple(m.name for m in ways_for(HST, INCH_WORKROOM) if m.name != "four at a time"),
    )
    upright = draw_unit("hst", HST.fabrics, "se", 2.0, 2.0, (90.0, 90.0))
    with pytest.raises(Refused, match="keeps to what is wished"):
        ready(Want(HST, upright, 8), only_four, frozenset(HST.fabrics))
    assert ready(Want(HST, upright, 8), replace(only_four, wishes=()), frozenset(HST.fabrics)).tilted


def test_printed_lines_need_no_marking():
    (foundation,) = [r for r in ready(want(HST, 4), INCH_WORKROOM).recipes if r.method.printed]
    assert effort_of(foundation, 4, INCH_WORKROOM).marks == 0
    assert foundation.method.name in {
        r.method.name for r in ready(want(HST, 4), wishing("no marking")).recipes
    }


def test_units_with_bias_outside_do_not_lie_with_others_on_one_pile():
    recipes = {recipe.method.name: recipe for recipe in ready(want(HST, 4), INCH_WORKROOM).recipes}
    two, four = recipes["two at a time"], recipes["four at a time"]
    assert len(kinds_alike([two, four])) == 2
    others = tuple(name for name in recipes if name not in ("two at a time", "four at a time"))
    pace = replace(INCH_WORKROOM.pace, set_up=0.0)
    quick = replace(INCH_WORKROOM, pace=pace, bias_minutes=0.0, refused=others)
    # Four and two together would cost less than three times two.
    cost = {recipe.method.name: cost_of(recipe, recipe.method.makes, quick) for recipe in (two, four)}
    assert cost["four at a time"] < 2 * cost["two at a time"]
    assert names(choose(want(HST, 6), quick)) == ["two at a time"]
