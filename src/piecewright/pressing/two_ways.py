"""Two pressings of a block: where one pressing cannot nest at all joints, which places get a second one.

First come maps that a person can follow by rule (like a chessboard, every other row or column, the turned
blocks); each is pressed at its best. From each a better map is sought in turns: the best map for the two
pressings by an integer programme, then the best pressings for that map, until nothing is gained. No number
of pressings can clash less than every place pressed for itself: that is the bound.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from piecewright.pressing.directions import Directions, apart, press
from piecewright.pressing.joints import (
    SECOND,
    Arrangement,
    BlockSeams,
    Joint,
    Laying,
    Place,
    asked,
    each_for_itself,
    laid,
)
from piecewright.pressing.maps import JointCost, best_map, maps_by_rule
from piecewright.pressing.programme import Programme, Segment
from piecewright.pressing.reckoning import reckon
from piecewright.pressing.rings import fewest_clashes
from piecewright.pressing.solving import best, tied

MOST_FOR_BOUND = 60
"""In parts of the question with more segments the bound leaves out that seams may not change side amiss."""


@dataclass(frozen=True)
class TwoPressings:
    """The best with `one` pressing of every block, and with two.

    `second` are the places of the second pressing, and `rule` the words that tell them ("" where only a map
    does); `directions` have the segments of the second pressing with `SECOND` behind their names. `bound`: no
    number of pressings clashes at fewer places.
    """

    one: Directions
    directions: Directions
    second: frozenset[Place]
    rule: str
    bound: float

    @property
    def saves(self) -> int:
        """How many places nest that clash with one pressing."""
        return self.one.clashing - self.directions.clashing

    @property
    def gap(self) -> float:
        """By how many clashes an answer could still be better, at most."""
        return max(self.directions.cost - self.bound, 0.0)

    def differing(self) -> frozenset[Segment]:
        """The segments that are pressed otherwise in the second pressing."""
        ways = self.directions.to_first
        return frozenset(name for name in ways if ways.get(name + SECOND, ways[name]) != ways[name])


def two_pressings(arrangement: Arrangement, blocks: Mapping[str, BlockSeams]) -> TwoPressings:
    """One pressing of each block; or two, where that saves a clash for every block pressed the second way."""
    laying = laid(arrangement, blocks)
    one = press(asked(laying, ()))
    found = TwoPressings(one, one, frozenset(), "", least_clashes(each_for_itself(laying)))
    if found.gap:
        for rule, second in maps_by_rule(laying.places).items():
            tried = [one for one in _improved(laying, found, rule, second) if one.saves >= len(one.second)]
            found = min((found, *tried), key=_rank)
    return found


def _rank(found: TwoPressings) -> tuple[float, int, float]:
    """Clashes first; then few places of the second, a map without a rule counting twice; then wishes."""
    places = len(found.second) * (1 if found.rule else 2)
    return round(found.directions.cost, 6), places, round(found.directions.wishes, 6)


def _improved(
    laying: Laying, known: TwoPressings, rule: str, second: frozenset[Place]
) -> Iterator[TwoPressings]:
    """The answer for a map, and for better maps found from it, as long as clashes are saved."""
    cost = float("inf")
    while True:
        directions = press(asked(laying, second))
        different = _different(laying, second, directions)
        yield replace(known, directions=directions, second=different, rule=rule)
        if directions.cost >= cost or directions.cost <= known.bound or not different:
            return
        cost, rule, second = directions.cost, "", _better_map(laying, directions)


def _different(laying: Laying, second: frozenset[Place], directions: Directions) -> frozenset[Place]:
    """The places whose block is pressed otherwise there."""
    ways = directions.to_first
    return frozenset(
        place
        for place in second
        if any(
            ways[laying.named(name, True)] != ways[name]
            for name in laying.inside(place).segments
            if name in ways
        )
    )


def _better_map(laying: Laying, directions: Directions) -> frozenset[Place]:
    """The best map for the two pressings of an answer; a block that has only one of them keeps that."""
    ways = dict(directions.to_first)
    for block in laying.blocks.values():
        for name in block.inside.segments:
            there = [n for n in (laying.named(name, False), laying.named(name, True)) if n in ways]
            for missing in (laying.named(name, False), laying.named(name, True)):
                if there:
                    ways.setdefault(missing, ways[there[0]])
    inside = {place: _inside(laying, place, ways) for place in laying.places}
    return best_map(list(laying.places), inside, [_cost(laying, joint, ways) for joint in laying.joints])


def _inside(laying: Laying, place: Place, ways: Mapping[Segment, bool]) -> tuple[int, int]:
    """What clashes in the block of a place, pressed the first way and the second."""
    inside = laying.inside(place)
    first, second = (
        reckon(inside, {name: ways[laying.named(name, way)] for name in inside.segments}).clashing
        for way in (False, True)
    )
    return first, second


def _cost(laying: Laying, joint: Joint, ways: Mapping[Segment, bool]) -> JointCost:
    def clashes(one: bool, other: bool) -> int:
        return sum(
            (ways[laying.named(end.segment, one)] == ways[laying.named(facing.segment, other)])
            != (end.first_is_ahead == facing.first_is_ahead)
            for end, facing in joint.met
        )

    every = clashes(False, False), clashes(False, True), clashes(True, False), clashes(True, True)
    return JointCost(joint.one, joint.other, every)


def least_clashes(programme: Programme) -> float:
    """A number of clashes that no pressing goes below; exact where all parts of the question are small."""
    return sum(_least(part) for part in apart(programme))


def _least(part: Programme) -> float:
    return best(part).bound if len(part.segments) <= MOST_FOR_BOUND else ring_bound(part)


def ring_bound(programme: Programme) -> float:
    """The same in short: that seams may not change side amiss is left out."""
    return sum(fewest_clashes(ring)[1] for part in apart(programme) for ring in tied(part)[1])
