"""Pressing directions: the best answer, proven, and equal to trying them all."""

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from piecewright.pressing.directions import press_all
from piecewright.pressing.programme import Leaning, Meeting

SEAMS = ("a", "b", "c", "d", "e")
MEETINGS = st.lists(
    st.builds(
        Meeting,
        st.sampled_from(SEAMS),
        st.sampled_from(SEAMS),
        st.booleans(),
        st.integers(min_value=1, max_value=5),
    ),
    max_size=12,
)


def clashes(to_first: dict[str, bool], meetings: list[Meeting]) -> int:
    return sum(m.count for m in meetings if (to_first[m.one] == to_first[m.other]) != m.alike)


@given(MEETINGS)
def test_no_pressing_has_fewer_clashes_than_the_one_found(meetings: list[Meeting]) -> None:
    found = press_all(SEAMS, meetings, [])
    every = (dict(zip(SEAMS, ways, strict=True)) for ways in product((True, False), repeat=len(SEAMS)))
    assert found.clashing == min(clashes(ways, meetings) for ways in every)
    assert found.clashing == clashes(dict(found.to_first), meetings)
    assert found.nesting + found.clashing == sum(m.count for m in meetings)
    assert found.proven


def test_a_wish_is_followed_where_nothing_meets() -> None:
    found = press_all(["a", "b"], [], [Leaning("a", True, 3.0), Leaning("b", False, 0.1)])
    assert dict(found.to_first) == {"a": True, "b": False}


def test_no_wish_however_strong_costs_a_place_that_nests() -> None:
    wishes = [Leaning("a", True, 1000.0), Leaning("b", False, 1000.0)]
    found = press_all(["a", "b"], [Meeting("a", "b", True)], wishes)
    assert found.clashing == 0


def test_the_stronger_wish_decides_between_equal_pressings() -> None:
    wishes = [Leaning("a", True, 1.0), Leaning("b", False, 2.0)]
    found = press_all(["a", "b"], [Meeting("a", "b", True)], wishes)
    assert dict(found.to_first) == {"a": False, "b": False}


@pytest.mark.parametrize("size", [1, 7])
def test_a_ring_of_seams_that_must_all_differ_clashes_once_when_odd(size: int) -> None:
    # Colouring a ring with two colours: an even ring takes none amiss, an odd one exactly one (graph theory).
    seams = [str(k) for k in range(size)]
    ring = [Meeting(seams[k - 1], seams[k], False) for k in range(size)]
    assert press_all(seams, ring, []).clashing == size % 2


def test_equal_problems_get_equal_answers() -> None:
    meetings = [Meeting("a", "b", True), Meeting("b", "c", False), Meeting("c", "a", True)]
    assert press_all(SEAMS, meetings, []) == press_all(SEAMS, meetings, [])


def test_nothing_to_press_is_no_problem() -> None:
    found = press_all([], [], [])
    assert (dict(found.to_first), found.nesting, found.clashing, found.proven) == ({}, 0, 0, True)
