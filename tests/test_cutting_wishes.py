"""From least cloth to least cutting: what each wish keeps to; cloth to spare; borders, motifs, prints."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings

from piecewright.cutting.cuts import STACKS, TALL_STRIPS
from piecewright.cutting.laying import from_least_cloth_to_least_cutting, lay_out, own_strips_layout
from piecewright.cutting.lists.listed import Item, ListedFabric, Motif, rough_sizes
from piecewright.cutting.lists.spare import NOTHING_SPARE, Spare, read_spare, with_spare
from piecewright.cutting.patterns import Pattern, Section
from piecewright.cutting.wanted import Demand, Supply
from piecewright.cutting.wishes import AIMS, CuttingWish
from piecewright.measure.length import inches
from test_cutting import HARBOUR, HARBOUR_CLOTH, cloth, wanted
from test_cutting_properties import cloths, pieces

OWN = own_strips_layout(HARBOUR, HARBOUR_CLOTH)


def test_cuts_are_counted_once_for_all_layers() -> None:
    # exact: each strip 1 cut and 6 crosscuts; 5 strips in 2 layers are cut 3 times, in 4 layers twice.
    six = Section("sixes", inches(6), inches(6), 6)
    strips = Pattern(inches(6), (six,), times=5)
    assert [strips.operations(layers) for layers in (1, 2, 4, 5)] == [35, 21, 14, 7]


def test_the_usual_layout_of_a_long_list_needs_no_more_operations_than_own_strips() -> None:
    usual = lay_out(HARBOUR, HARBOUR_CLOTH)
    assert usual.operations(2) <= OWN.operations(2)
    assert float(usual.length) <= 0.97 * float(OWN.length)


def test_from_least_cloth_to_least_cutting_cloth_grows_and_work_shrinks() -> None:
    least_cloth, fewest, least_cutting = from_least_cloth_to_least_cutting(
        HARBOUR, HARBOUR_CLOTH, CuttingWish()
    )
    assert AIMS == ("least cloth", "fewest settings", "least cutting")
    assert least_cloth.length < fewest.length < least_cutting.length <= OWN.length
    work = [layout.ruler_changes + layout.operations(2) for layout in (least_cloth, fewest, least_cutting)]
    assert work == sorted(work, reverse=True)
    assert (least_cloth.cuts_as, fewest.cuts_as) == (TALL_STRIPS, STACKS)


def test_strips_are_cut_in_pairs_where_two_layers_are_cut_together() -> None:
    # exact: 52 squares are four strips of 13; in two layers that is twice 14 cuts, in four layers once.
    layout = lay_out([wanted("3", 52)], cloth("40"))
    assert [layout.operations(layers) for layers in (1, 2, 4)] == [56, 28, 14]


@settings(max_examples=30, deadline=None)
@given(pieces(), cloths())
def test_the_usual_layout_buys_no_more_than_own_strips(demands: list[Demand], bolt: Supply) -> None:
    usual, own = lay_out(demands, bolt), own_strips_layout(demands, bolt)
    assert usual.buy <= own.buy
    assert usual.length <= own.length


@pytest.mark.parametrize(
    ("text", "spare"),
    [
        ("one extra of each", Spare(of_each=1)),
        ("2 more", Spare(of_each=2)),
        ("5 %", Spare(share=Fraction(1, 20))),
        ("2.5 per cent", Spare(share=Fraction(1, 40))),
        ("1/4 yd", Spare(length=inches(9))),
        ("10 cm", Spare(length=inches(Fraction(500, 127)))),
    ],
)
def test_cloth_to_spare_is_read_as_people_say_it(text: str, spare: Spare) -> None:
    assert read_spare(text, "in") == spare


@pytest.mark.parametrize("text", ["", "a little", "-1 yd", "500 %", "one million more", "5 % of each yard"])
def test_what_is_nothing_to_spare_is_refused_in_one_sentence(text: str) -> None:
    with pytest.raises(ValueError, match="expected something to spare such as") as refused:
        read_spare(text, "in")
    assert "\n" not in str(refused.value)


def test_a_share_to_spare_is_at_least_one_piece() -> None:
    # exact: 5 per cent of 10 and of 41 are 1/2 and 2.05.
    demands = with_spare([wanted("3", 10), wanted("4", 41)], Spare(share=Fraction(1, 20)))
    assert [demand.count for demand in demands] == [11, 44]


def test_a_length_to_spare_is_bought_besides() -> None:
    plain = lay_out([wanted("5", 16)], cloth("40"))
    spared = lay_out([wanted("5", 16)], cloth("40", spare_length=inches(9)))
    assert (plain.purchase.needed, spared.purchase.needed) == (inches(10), inches(19))
    assert spared.sum_lines()[-1] == "10 + 9 more to spare = 19 -> 5 x 4 1/2 = 22 1/2 in to buy"


def fabric(*items: Item, **more: object) -> ListedFabric:
    plain = ListedFabric("sail", items, cloth("40"), spare=NOTHING_SPARE)
    return replace(plain, **more)  # type: ignore[arg-type]


def test_a_lengthwise_piece_has_its_longer_side_along_the_selvedge() -> None:
    border = Item("border", inches(76), inches(6), 4, lengthwise=True)
    demand = fabric(border).demands[0]
    assert (demand.width, demand.height, demand.may_turn) == (inches(6), inches(76), False)


def test_nothing_turns_on_a_one_way_print() -> None:
    items = (Item("a", inches(2), inches(4), 3), Item("b", inches(5), inches(5), 3, may_turn=False))
    assert [demand.may_turn for demand in fabric(*items, one_way=True).demands] == [False, False]
    assert [demand.may_turn for demand in fabric(*items).demands] == [True, False]


def test_cloth_cut_on_the_repeat_takes_whole_repeats_and_one_more_to_find_the_first() -> None:
    # exact: 5 1/2 in squares of a motif every 6 in take 6 x 6 in; 36 of 42 in are left across.
    listed = fabric(
        Item("squares", inches("5 1/2"), inches("5 1/2"), 12),
        supply=cloth("42"),
        motif=Motif(inches(6), inches(6)),
    )
    layout = lay_out(listed.demands, listed.bolt)
    assert (layout.usable_width, layout.length, layout.purchase.needed) == (
        inches(36),
        inches(12),
        inches(18),
    )
    assert [(item.width, demand.width) for item, demand in rough_sizes(listed)] == [
        (inches("5 1/2"), inches(6))
    ]


def test_selvedges_and_shrinkage_across_are_taken_off_the_bolt() -> None:
    # exact: 44 less 2 x 1/2 is 43; less a tenth 38.7.
    listed = fabric(supply=cloth("44"), selvedge=inches("1/2"), shrinkage_across=0.1)
    assert listed.bolt.usable_width == inches("38.7")
