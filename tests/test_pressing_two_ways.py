"""Two pressings of a block: against trying every map with every pair of pressings, and on odd quilts."""

from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.pressing.joints import SECOND, Arrangement, BlockSeams, LaidBlock, SideEnd, asked, laid
from piecewright.pressing.maps import JointCost, best_map
from piecewright.pressing.programme import Meeting, Programme
from piecewright.pressing.reckoning import reckon
from piecewright.pressing.two_ways import two_pressings
from squares_pressed import all_alike, level, squares, upright

SEAMS = ("a", "b", "c")
PLACES = [(0, 0), (0, 1), (1, 0), (1, 1)]
EVERY_MAP = [
    frozenset(place for place, way in zip(PLACES, ways, strict=True) if way)
    for ways in product((True, False), repeat=len(PLACES))
]


@st.composite
def block(draw: st.DrawFn) -> BlockSeams:
    """Three seams, of which up to two run out on each side; some meet inside."""
    sides = tuple(
        tuple(
            SideEnd(float(at), 0.0, draw(st.sampled_from(SEAMS)), draw(st.booleans()))
            for at in sorted(draw(st.sets(st.integers(1, 2))))
        )
        for _ in range(4)
    )
    names = st.sampled_from(SEAMS)
    met = draw(st.lists(st.builds(Meeting, names, names, st.booleans()), max_size=2))
    return BlockSeams(sides, (3.0,) * 4, Programme(SEAMS, tuple(met)))


ARRANGED = st.lists(st.integers(0, 3), min_size=4, max_size=4).map(
    lambda q: (
        (LaidBlock("one", q[0]), LaidBlock("one", q[1])),
        (LaidBlock("one", q[2]), LaidBlock("one", q[3])),
    )
)


def fewest(
    arrangement: Arrangement, blocks: dict[str, BlockSeams], maps: list[frozenset[tuple[int, int]]]
) -> int:
    """The fewest clashes with two pressings, all maps and all pressings tried."""
    names = [name + way for name in SEAMS for way in ("", SECOND)]
    pressings = [dict(zip(names, ways, strict=True)) for ways in product((True, False), repeat=len(names))]
    laying = laid(arrangement, blocks)
    return min(reckon(asked(laying, second), ways).clashing for second in maps for ways in pressings)


@settings(max_examples=30, deadline=None)
@given(block(), ARRANGED)
def test_no_map_of_two_pressings_is_better_than_the_gap_says(
    seams: BlockSeams, arrangement: Arrangement
) -> None:
    found, blocks = two_pressings(arrangement, {"one": seams}), {"one": seams}
    assert found.one.clashing == fewest(arrangement, blocks, [frozenset()])
    best = fewest(arrangement, blocks, EVERY_MAP)
    assert found.bound <= best <= found.directions.clashing <= best + found.gap
    assert found.saves >= len(found.second)


def test_where_one_block_is_enough_only_one_gets_a_second_pressing() -> None:
    blocks = {"squares": squares(2), "other": squares(2, "other")}
    row = (LaidBlock("other"), LaidBlock("squares"), LaidBlock("squares"))
    found = two_pressings((row,), blocks)
    assert (found.directions.clashing, len(found.second), found.gap) == (0, 1, 0)


def test_a_turned_block_has_its_sides_elsewhere() -> None:
    """By hand: turned to the left by a quarter the top faces left; turned to the right the left faces up."""
    names = ("below", "right", "top", "left")
    sides = tuple((SideEnd(1.0, 0.0, name, False),) for name in names)
    one = BlockSeams(sides, (2.0,) * 4, Programme(names))
    arrangement = ((LaidBlock("one"), LaidBlock("one", 1)), (LaidBlock("one", 3), LaidBlock("one")))
    met = {
        (joint.one, joint.other): [(end.segment, other.segment) for end, other in joint.met]
        for joint in laid(arrangement, {"one": one}).joints
    }
    assert met[(0, 0), (0, 1)] == [("right", "top")]
    assert met[(0, 0), (1, 0)] == [("below", "left")]


def test_both_pressings_are_wished_alike_in_all_that_is_not_shared() -> None:
    plain = squares(2)
    one = BlockSeams(plain.sides, plain.lengths, plain.inside, frozenset({level(0)}))
    wishes = asked(laid(all_alike(3, 1), {"squares": one}), {(0, 1)}).likenesses
    assert {(wish.one, wish.other, wish.alike) for wish in wishes} == {
        (name, name + SECOND, True) for name in (upright(0, 0), upright(1, 0))
    }


def test_what_must_be_shared_cannot_save_a_clash() -> None:
    plain = squares(2)
    blocks = {"squares": BlockSeams(plain.sides, plain.lengths, plain.inside, frozenset({level(0)}))}
    found = two_pressings(all_alike(2, 1), blocks)
    assert (found.one.clashing, found.directions.clashing, found.second) == (1, 1, frozenset())


COSTS = st.tuples(*[st.integers(0, 3)] * 4)
ALONE = st.tuples(*[st.integers(0, 2)] * 2)


@settings(max_examples=60, deadline=None)
@given(
    st.lists(COSTS, min_size=4, max_size=4),
    st.lists(st.tuples(*[st.integers(0, 2)] * 2), min_size=4, max_size=4),
)
def test_no_map_clashes_less_or_has_fewer_places_than_the_best(
    at_joints: list[tuple[int, int, int, int]], inside: list[tuple[int, int]]
) -> None:
    pairs = [((0, 0), (0, 1)), ((0, 0), (1, 0)), ((0, 1), (1, 1)), ((1, 0), (1, 1))]
    joints = [JointCost(*pair, cost) for pair, cost in zip(pairs, at_joints, strict=True)]
    alone = dict(zip(PLACES, inside, strict=True))

    def come_to(second: frozenset[tuple[int, int]]) -> tuple[int, int]:
        clashes = sum(alone[place][place in second] for place in PLACES)
        clashes += sum(j.clashes[2 * (j.one in second) + (j.other in second)] for j in joints)
        return clashes, len(second)

    maps = [
        frozenset(p for p, way in zip(PLACES, ways, strict=True) if way) for ways in product((1, 0), repeat=4)
    ]
    assert come_to(best_map(PLACES, alone, joints)) == min(map(come_to, maps))


def test_what_both_pressings_share_is_pressed_alike() -> None:
    shared = frozenset({upright(0, 0), upright(1, 0)})
    plain = squares(2)
    blocks = {"squares": BlockSeams(plain.sides, plain.lengths, plain.inside, shared)}
    found = two_pressings(all_alike(3, 2), blocks)
    assert found.directions.clashing == 0
    assert found.differing() == {level(0)}


def test_equal_questions_get_equal_answers() -> None:
    blocks = {"squares": squares(5)}
    assert two_pressings(all_alike(4, 4), blocks) == two_pressings(all_alike(4, 4), blocks)
