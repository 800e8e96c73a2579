"""The pressing programme against trying everything: random questions of a few segments."""

from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.pressing.directions import press
from piecewright.pressing.programme import Leaning, Likeness, Meeting, Opening, Programme, Spin
from piecewright.pressing.reckoning import Reckoned, reckon

SEAMS = tuple("abcdefg")
NAMES = st.sampled_from(SEAMS)
# Halves, so that sums are exact and ties are ties.
WEIGHTS = st.integers(min_value=-6, max_value=6).map(lambda n: n / 2)
WISHES = st.integers(min_value=0, max_value=6).map(lambda n: n / 2)


@st.composite
def spins(draw: st.DrawFn) -> Spin:
    names = draw(st.permutations(SEAMS))
    ends = tuple((name, draw(st.booleans())) for name in names[2 : 2 + draw(st.integers(1, 4))])
    return Spin(names[0], names[1], ends, draw(WEIGHTS))


def programmes(openings: st.SearchStrategy[tuple[Opening, ...]]) -> st.SearchStrategy[Programme]:
    return st.builds(
        Programme,
        st.just(SEAMS),
        st.lists(st.builds(Meeting, NAMES, NAMES, st.booleans(), st.integers(1, 4)), max_size=9).map(tuple),
        st.lists(st.builds(Leaning, NAMES, st.booleans(), WISHES), max_size=6).map(tuple),
        st.lists(st.builds(Likeness, NAMES, NAMES, st.booleans(), WISHES), max_size=5).map(tuple),
        st.lists(spins(), max_size=2).map(tuple),
        openings,
        st.dictionaries(NAMES, st.booleans(), max_size=2),
        st.dictionaries(st.tuples(NAMES, st.sampled_from(("first", "second", "open"))), WISHES, max_size=3),
    )


SOME_OPEN = st.lists(NAMES, unique=True, max_size=3).flatmap(
    lambda names: st.tuples(*(st.builds(Opening, st.just((name,)), WISHES) for name in names))
)


def every_pressing(programme: Programme) -> list[Reckoned]:
    """Every way to press seven segments, open ones included, that is allowed."""
    may_open = [opening.segments[0] for opening in programme.openings if opening.segments[0]]
    found = []
    for ways in product((True, False), repeat=len(SEAMS)):
        to_first = dict(zip(SEAMS, ways, strict=True))
        for which in product((True, False), repeat=len(may_open)):
            opened = {name for name, is_open in zip(may_open, which, strict=True) if is_open}
            if not opened & programme.fixed.keys():
                found.append(reckon(programme, to_first, opened))
    return [reckoned for reckoned in found if reckoned.allowed]


def check(programme: Programme) -> None:
    every = every_pressing(programme)
    found = press(programme)
    assert (found.cost, round(found.wishes, 6)) == min((r.cost, r.wishes) for r in every)
    assert found.proven


@settings(max_examples=150, deadline=None)
@given(programmes(st.just(())))
def test_no_pressing_clashes_less_or_follows_more_wishes(programme: Programme) -> None:
    check(programme)


@settings(max_examples=60, deadline=None)
@given(programmes(SOME_OPEN))
def test_no_pressing_is_better_where_seams_may_be_pressed_open(programme: Programme) -> None:
    check(programme)
