"""Which numbers of blocks suit an arrangement, and what is said where they do not.

Even by even for barn raisings and pinwheels of four, odd by odd for two blocks that take turns: common
practice, no source.
"""

import pytest

from piecewright.design.read import design_from
from piecewright.sizing.parity import CountWish, check_parity, kept_wishes, wished_counts
from piecewright.toml_places import toml_from_text


def quilt(arrangement: str, across: int, down: int):
    text = f'''
title = "Slack water"
[fabrics.sail]
colour = "#efe6d2"
[fabrics.tide]
colour = "#27465f"
[blocks.net]
size = "6"
picture = "sail.nw.tide"
[blocks.buoy]
size = "6"
picture = "tide.in.sail"
[setting]
across = {across}
down = {down}
arrangement = """
{arrangement}
"""
'''
    design, problems = design_from(toml_from_text(text, "quilt.toml"))
    assert design is not None, problems
    return design


PINWHEEL = "net net.right\nnet.left net.half"
TURNS = "net buoy\nbuoy net"
# Light comes to the middle from all four sides, as in a barn raising.
BARN = """
net        net        net.right  net.right
net        net        net.right  net.right
net.left   net.left   net.half   net.half
net.left   net.left   net.half   net.half
"""
BARN_OF_FIVE = """
net        net        net  net.right  net.right
net        net        net  net.right  net.right
net        net        net  net.right  net.right
net.left   net.left   net  net.half   net.half
net.left   net.left   net  net.half   net.half
"""


@pytest.mark.parametrize(
    ("arrangement", "good", "bad", "nearest"),
    [
        (PINWHEEL, (4, 6), (5, 6), "4 x 6 or 6 x 6"),
        (TURNS, (5, 7), (5, 6), "5 x 5 or 5 x 7"),
        (TURNS, (1, 3), (4, 4), "3 x 3 or 3 x 5"),
        (BARN, (4, 8), (4, 6), "4 x 4 or 4 x 8"),
        ("net buoy net.half", (6, 5), (4, 5), "3 x 5 or 6 x 5"),
        ("net buoy", (5, 4), (4, 4), "3 x 4 or 5 x 4"),
    ],
)
def test_counts_that_suit_are_silent_and_others_name_the_nearest_that_do(arrangement, good, bad, nearest):
    assert check_parity(quilt(arrangement, *good)) == []
    (note,) = check_parity(quilt(arrangement, *bad))
    assert note.weight == "note"
    assert f"the quilt has {bad[0]} x {bad[1]}" in note.what
    assert note.do == f"The nearest that suits: {nearest} blocks."


def test_a_pinwheel_of_four_and_a_barn_raising_are_called_what_they_are():
    assert (
        "figures of four turned blocks want an even number across"
        in check_parity(quilt(PINWHEEL, 3, 4))[0].what
    )
    assert "mirrored about its middle wants an even number down" in check_parity(quilt(BARN, 4, 5))[0].what


def test_a_barn_raising_drawn_with_an_odd_number_is_told_that_it_wants_an_even_one():
    across, _ = wished_counts(quilt(BARN_OF_FIVE, 5, 5))
    assert (across.step, across.offset) == (2, 0)
    assert "4 x" in check_parity(quilt(BARN_OF_FIVE, 5, 5))[0].do


def test_a_pinwheel_written_out_in_full_is_still_one_of_four():
    full = "\n".join(["net net.right net net.right", "net.left net.half net.left net.half"] * 2)
    assert [wish.step for wish in wished_counts(quilt(full, 4, 4))] == [2, 2]


def test_a_row_written_out_twice_repeats_as_often_as_one_written_once():
    assert [wish.step for wish in wished_counts(quilt("net net.half net net.half", 4, 3))] == [2, 1]


def test_turned_blocks_that_take_turns_with_another_still_want_odd_numbers():
    turned = "net buoy net.right buoy\nbuoy net buoy net.right"
    assert check_parity(quilt(turned, 5, 5)) == []
    assert len(check_parity(quilt(turned, 6, 5))) == 1


@pytest.mark.parametrize("arrangement", ["net", "net.right", "sail net\nnet net"])
def test_one_block_all_over_wants_nothing_and_plain_cloth_counts_as_a_block(arrangement):
    wishes = wished_counts(quilt(arrangement, 4, 4))
    assert [wish.suits(4) for wish in wishes] == [True, True]


def test_too_few_blocks_for_one_figure_are_told_the_least_that_makes_it():
    (note,) = check_parity(quilt(PINWHEEL, 1, 1))
    assert note.do == "The nearest that suits: 2 x 2 blocks."


@pytest.mark.parametrize(
    "wish", [CountWish(), CountWish(2, 0), CountWish(2, 1), CountWish(3, 0), CountWish(5)]
)
def test_the_nearest_counts_suit_and_none_between_them_does(wish):
    for count in range(1, 30):
        near = wish.near(count)
        assert all(wish.suits(n) for n in near)
        between = range(near[0] + 1, near[-1])
        assert not any(wish.suits(n) for n in between)
        assert near == (count,) if wish.suits(count) else near[-1] > count


def test_a_wish_that_the_design_does_not_keep_is_not_pressed_on_it():
    assert [wish.step for wish in kept_wishes(quilt(TURNS, 5, 6))] == [2, 1]
    assert [wish.step for wish in kept_wishes(quilt(TURNS, 6, 5))] == [1, 2]
