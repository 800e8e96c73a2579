"""The order of cuts: strips of one setting together, then their crosscuts and subcuts, each counted once."""

from collections import Counter

from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.cutting.given.cloth import Given
from piecewright.cutting.given.layout import CutGiven
from piecewright.cutting.given.shopping import lay_on_given
from piecewright.cutting.laying import lay_out
from piecewright.cutting.layout import Layout
from piecewright.cutting.order_of_cuts import (
    NumberedCut,
    in_order_of_cutting,
    order_of_cuts,
    order_of_given_cuts,
)
from piecewright.cutting.patterns import Pattern, Section
from piecewright.cutting.wanted import Demand, Supply
from piecewright.measure.length import inches

CLOTH = Supply("sail", inches(40), inches("4 1/2"))
RAIL = Section("rails", inches("6 1/2"), inches("2 1/2"), 6, turned=True)
STACKED = Section("pins", inches("2 1/2"), inches("1 1/4"), 3, stack=2)


def told(cuts: tuple[NumberedCut, ...]) -> list[str]:
    return [f"{cut.number} {cut.kind} {cut.setting or '-'} {cut.cuts}" for cut in cuts]


def one_cloth(*patterns: Pattern) -> CutGiven:
    return CutGiven("net", "net", inches(44), inches(30), False, patterns)


def test_straightening_comes_first_reserved_strips_next_and_then_the_tallest():
    wanted = [
        Demand("squares", inches(3), inches(3), 5),
        Demand("panels", inches(8), inches(8), 2, may_turn=False),
        Demand("border", inches(40), inches("4 1/2"), 2, whole_strip=True, reserve=True),
    ]
    layout = lay_out(wanted, CLOTH)
    strips = [cut for cut in order_of_cuts(layout) if cut.kind == "strips"]
    assert order_of_cuts(layout)[0].kind == "straighten"
    assert layout.patterns[strips[0].places[0].pattern].reserve
    heights = [cut.setting for cut in strips[1:]]
    assert heights == sorted(heights, reverse=True)


def test_each_setting_follows_the_strips_it_is_for_and_what_has_the_same_setting_is_cut_first():
    height = inches("2 1/2")
    squares = Section("squares", height, height, 8)
    cut = one_cloth(Pattern(height, (RAIL,), 2), Pattern(height, (squares, STACKED), 3))
    assert told(order_of_given_cuts(cut)) == [
        "1 strips 2 1/2 in 5",
        "2 crosscuts 2 1/2 in 33",
        "3 crosscuts 6 1/2 in 12",
        "4 subcuts 1 1/4 in 9",
    ]
    assert [one.set_anew for one in order_of_given_cuts(cut)] == [True, False, True, True]


def test_a_setting_that_crosscuts_and_subcuts_share_is_set_once():
    wide, narrow = inches(5), inches(3)
    pattern = Pattern(
        inches(7), (Section("bars", wide, narrow, 2, stack=2), Section("posts", narrow, inches(7), 4))
    )
    cuts = order_of_given_cuts(one_cloth(pattern))
    assert told(cuts) == [
        "1 strips 7 in 1",
        "2 crosscuts 5 in 2",
        "3 crosscuts 3 in 4",
        "4 subcuts 3 in 4",
    ]
    assert [cut.set_anew for cut in cuts] == [True, True, True, False]


def test_pieces_that_lie_in_both_ways_are_all_cut_though_a_setting_comes_twice():
    a, b = inches(5), inches(3)
    pattern = Pattern(
        inches(7), (Section("lying", a, b, 1, stack=2), Section("standing", b, a, 1, turned=True))
    )
    cuts = order_of_given_cuts(one_cloth(pattern))
    assert sum(cut.cuts for cut in cuts) == one_cloth(pattern).cuts
    assert sum(pieces.count for cut in cuts for pieces in cut.gives) == 3


def test_pieces_of_strips_along_the_cloth_are_told_in_the_size_that_was_wanted():
    wanted = [Demand("masts", inches("2 1/2"), inches(18), 4, may_turn=False)]
    found = lay_on_given(wanted, [Given("scrap", inches("11 1/2"), inches(21), 1, strips="along")])
    (pieces,) = [one for cut in order_of_given_cuts(found.used[0]) for one in cut.gives]
    assert (pieces.width, pieces.height, pieces.count) == (inches("2 1/2"), inches(18), 4)


def test_nothing_is_cut_of_nothing():
    assert order_of_cuts(lay_out([], CLOTH)) == ()


sizes = st.lists(
    st.tuples(st.integers(6, 60), st.integers(6, 60), st.integers(1, 40), st.booleans()),
    min_size=1,
    max_size=6,
)


def laid_out(of: list[tuple[int, int, int, bool]]) -> tuple[list[Demand], Layout]:
    wanted = [
        Demand(f"piece {k}", inches(w) / 4, inches(h) / 4, count, turn)
        for k, (w, h, count, turn) in enumerate(of)
    ]
    return wanted, lay_out(wanted, CLOTH)


@settings(max_examples=15)
@given(sizes)
def test_all_cuts_of_a_layout_are_numbered_and_all_its_pieces_given_once(
    of: list[tuple[int, int, int, bool]],
):
    wanted, layout = laid_out(of)
    cuts = order_of_cuts(layout)
    assert [cut.number for cut in cuts] == list(range(1, len(cuts) + 1))
    assert sum(cut.cuts for cut in cuts if not cut.on_top) == layout.cuts
    assert sum(cut.set_anew for cut in cuts) >= layout.ruler_changes
    given_pieces: Counter[tuple[object, ...]] = Counter()
    for pieces in (one for cut in cuts for one in cut.gives):
        given_pieces[pieces.name, pieces.width, pieces.height] += pieces.count
    assert given_pieces == {(one.name, one.width, one.height): one.count for one in wanted}


@settings(max_examples=15)
@given(sizes)
def test_a_strip_is_cut_before_its_crosscuts_and_a_crosscut_before_its_subcuts(
    of: list[tuple[int, int, int, bool]],
):
    _, layout = laid_out(of)
    cuts = order_of_cuts(layout)
    number = {(cut.kind, place): cut.number for cut in cuts for place in cut.places}
    for (kind, place), at in number.items():
        if kind == "subcuts":
            assert number["crosscuts", place] < at
        if kind == "crosscuts":
            strip = next(n for (k, p), n in number.items() if k == "strips" and p.pattern == place.pattern)
            assert strip < at
    for index, pattern in enumerate(layout.patterns):
        ordered = in_order_of_cutting(pattern, index, cuts)
        assert sorted(ordered, key=lambda pair: pair[0]) == list(enumerate(pattern.sections))
