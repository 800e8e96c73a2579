"""Blocks of n x n squares, rows pressed alternately and the seams between them one way.

Common practice, no source, and followed by hand: all alike, an even n nests along top and bottom and clashes
at the sides, an odd n clashes everywhere; with every second block turned by half all four sides nest for
every n; where a half turn would change the picture, two pressings do it; with sashing all may be alike.
"""

import pytest

from piecewright.pressing.directions import press
from piecewright.pressing.joints import Arrangement, LaidBlock, asked, laid
from piecewright.pressing.programme import Programme
from piecewright.pressing.reckoning import reckon
from piecewright.pressing.two_ways import two_pressings
from squares_pressed import all_alike, half_turns, rows_alternate, squares

SIZES = [2, 3, 4, 5, 6, 7]
ACROSS, DOWN = 4, 6


def programme(n: int, arrangement: Arrangement) -> Programme:
    return asked(laid(arrangement, {"squares": squares(n)}), ())


def clashes_as_pressed(n: int, arrangement: Arrangement) -> int:
    return reckon(programme(n, arrangement), rows_alternate(n)).clashing


@pytest.mark.parametrize("n", SIZES)
def test_inside_a_block_of_alternate_rows_all_seams_nest(n: int) -> None:
    alone = reckon(programme(n, all_alike(1, 1)), rows_alternate(n))
    assert (alone.nesting, alone.clashing) == ((n - 1) ** 2, 0)


@pytest.mark.parametrize("n", SIZES)
def test_all_alike_an_even_block_nests_above_and_below_and_an_odd_one_clashes(n: int) -> None:
    assert clashes_as_pressed(n, all_alike(1, 2)) == (0 if n % 2 == 0 else n - 1)


@pytest.mark.parametrize("n", SIZES)
def test_all_alike_every_block_clashes_at_its_sides(n: int) -> None:
    assert clashes_as_pressed(n, all_alike(2, 1)) == n - 1


@pytest.mark.parametrize("n", SIZES)
def test_with_every_second_block_turned_by_half_all_four_sides_nest(n: int) -> None:
    assert clashes_as_pressed(n, half_turns(ACROSS, DOWN)) == 0


@pytest.mark.parametrize("n", SIZES)
def test_the_best_pressing_of_blocks_turned_by_half_nests_everywhere(n: int) -> None:
    found = press(programme(n, half_turns(ACROSS, DOWN)))
    assert (found.clashing, found.proven) == (0, True)


@pytest.mark.parametrize("n", SIZES)
def test_all_alike_no_single_pressing_does_better_than_alternate_rows(n: int) -> None:
    found = press(programme(n, all_alike(ACROSS, DOWN)))
    assert (found.clashing, found.proven) == (clashes_as_pressed(n, all_alike(ACROSS, DOWN)), True)


@pytest.mark.parametrize("n", SIZES)
def test_where_no_block_may_be_turned_two_pressings_nest_everywhere(n: int) -> None:
    found = two_pressings(all_alike(ACROSS, DOWN), {"squares": squares(n)})
    assert (found.directions.clashing, found.gap) == (0, 0)
    assert found.saves == clashes_as_pressed(n, all_alike(ACROSS, DOWN))
    assert len(found.second) == ACROSS * DOWN // 2


@pytest.mark.parametrize("n", SIZES)
def test_the_map_is_told_by_a_rule(n: int) -> None:
    found = two_pressings(all_alike(ACROSS, DOWN), {"squares": squares(n)})
    assert found.rule == "every other place, as on a chessboard"
    assert len({(row + column) % 2 for row, column in found.second}) == 1


@pytest.mark.parametrize("n", SIZES)
def test_between_sashes_all_blocks_may_be_alike(n: int) -> None:
    """A sash is a plain strip: nothing comes out of its side."""
    sash = (LaidBlock("sash"),) * (2 * ACROSS - 1)
    row = tuple(LaidBlock("sash" if c % 2 else "squares") for c in range(2 * ACROSS - 1))
    arrangement = tuple(sash if r % 2 else row for r in range(2 * DOWN - 1))
    blocks = {"squares": squares(n), "sash": squares(1, "sash")}
    assert reckon(asked(laid(arrangement, blocks), ()), rows_alternate(n)).clashing == 0
    assert two_pressings(arrangement, blocks).second == frozenset()


def test_one_pressing_is_kept_where_a_second_saves_nothing() -> None:
    found = two_pressings(half_turns(ACROSS, DOWN), {"squares": squares(4)})
    assert (found.second, found.saves, found.gap) == (frozenset(), 0, 0)
