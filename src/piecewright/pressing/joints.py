"""Blocks side by side: what meets at their joints, and the programme for a map of two pressings.

Terms:
- *place*: where a block lies in the arrangement, (row, column), rows from the top;
- *side* of a block: 0 the lower one, then counter-clockwise; seams run out on it;
- *joint*: two places side by side, and what meets where they are joined;
- *map*: the places that get the second pressing of their block.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import dataclass, replace

from piecewright.bench.cloth import Towards
from piecewright.pressing.directions import gathered
from piecewright.pressing.programme import Likeness, Meeting, Programme, Segment, Spin
from piecewright.pressing.weights import BOTH_ALIKE, PIN

Place = tuple[int, int]
SECOND = ", second pressing"
"""What stands behind the names of segments of a second pressing."""

NEAR = 0.01  # Seams that come out within this of each other meet; inches, as on the bench.


@dataclass(frozen=True)
class SideEnd:
    """A seam that runs out on a side: inches from the side's start, slant, and its stretch.

    `first_is_ahead` as on the bench: the seam's first cloth lies towards the end of the side.
    """

    at: float
    slant: float
    segment: Segment
    first_is_ahead: bool


@dataclass(frozen=True)
class BlockSeams:
    """A block: what runs out on its four sides, how long these are, and what is asked of one such block.

    `shared` segments are those of units and the like: they are pressed alike in both pressings.
    """

    sides: tuple[tuple[SideEnd, ...], ...]
    lengths: tuple[float, ...]
    inside: Programme
    shared: frozenset[Segment] = frozenset()


@dataclass(frozen=True)
class LaidBlock:
    """A block in a place, turned counter-clockwise by so many quarters."""

    block: str
    quarters: int = 0


Arrangement = tuple[tuple[LaidBlock, ...], ...]
Met = tuple[tuple[SideEnd, SideEnd], ...]


@dataclass(frozen=True)
class Joint:
    """Two places side by side, and the pairs of seam ends that meet between them."""

    one: Place
    other: Place
    met: Met


@dataclass(frozen=True)
class Laying:
    """An arrangement of blocks, and all its joints; what is pressed alike in both pressings of a block."""

    places: Mapping[Place, LaidBlock]
    blocks: Mapping[str, BlockSeams]
    joints: tuple[Joint, ...]
    shared: frozenset[Segment]

    def named(self, name: Segment, second: bool) -> Segment:
        """The name of a segment in the first pressing or the second."""
        return name + SECOND if second and name not in self.shared else name

    def inside(self, place: Place) -> Programme:
        """What is asked of the block that lies in a place."""
        return self.blocks[self.places[place].block].inside


def laid(arrangement: Arrangement, blocks: Mapping[str, BlockSeams]) -> Laying:
    """The arrangement with what meets at every joint of two blocks; like joints share one answer."""
    places = {(r, c): block for r, row in enumerate(arrangement) for c, block in enumerate(row)}
    known: dict[tuple[LaidBlock, LaidBlock, int], Met] = {}
    joints = []
    for (r, c), block in places.items():
        # Right of a place its side 1 and the other's side 3 lie together; below it, sides 0 and 2.
        for other, side in (((r, c + 1), 1), ((r + 1, c), 0)):
            if other in places:
                key = (block, places[other], side)
                if key not in known:
                    known[key] = _met(blocks, *key)
                joints.append(Joint((r, c), other, known[key]))
    shared = frozenset(name for block in blocks.values() for name in block.shared)
    return Laying(places, blocks, tuple(joints), shared)


def _met(blocks: Mapping[str, BlockSeams], one: LaidBlock, other: LaidBlock, side: int) -> Met:
    """The pairs that come together; the second side runs the other way."""
    first, second = (side - one.quarters) % 4, (side + 2 - other.quarters) % 4
    length = blocks[one.block].lengths[first]
    left = list(blocks[other.block].sides[second])
    pairs = []
    for end in blocks[one.block].sides[first]:
        like = [o for o in left if abs(length - o.at - end.at) <= NEAR and abs(end.slant - o.slant) <= NEAR]
        if like:
            pairs.append((end, like[0]))
            left.remove(like[0])
    return tuple(pairs)


def asked(laying: Laying, second: Collection[Place]) -> Programme:
    """The programme for a map: the segments of both pressings, what meets in blocks and between them."""
    numbers = Counter((block.block, place in second) for place, block in laying.places.items())
    inside = []
    for (key, way), count in numbers.items():
        alone = laying.blocks[key].inside
        inside.append(renamed(alone, {name: laying.named(name, way) for name in alone.segments}, count))
    met = between(laying, lambda name, place: laying.named(name, place in second))
    return merged([*inside, _both_alike(laying, numbers)], met)


def _both_alike(laying: Laying, numbers: Mapping[tuple[str, bool], int]) -> Programme:
    """The wish that both pressings of a block are alike in all that need not differ."""
    alike = [
        Likeness(name, name + SECOND, True, BOTH_ALIKE * number)
        for (key, second), number in numbers.items()
        if second and (key, False) in numbers
        for name in laying.blocks[key].inside.segments
        if name not in laying.shared
    ]
    return Programme((), likenesses=tuple(alike))


def each_for_itself(laying: Laying) -> Programme:
    """The programme with every place pressed for itself: no two pressings, nor more, clash less."""

    def named(name: Segment, place: Place) -> Segment:
        return f"{name} in {place}"

    inside = []
    for place in laying.places:
        block = laying.inside(place)
        inside.append(renamed(block, {name: named(name, place) for name in block.segments}))
    return merged(inside, between(laying, named))


def between(laying: Laying, named: Callable[[Segment, Place], Segment]) -> list[Meeting]:
    """What meets at the joints, under the names that segments have in each place."""
    return [
        Meeting(
            named(end.segment, joint.one),
            named(other.segment, joint.other),
            end.first_is_ahead == other.first_is_ahead,
        )
        for joint in laying.joints
        for end, other in joint.met
    ]


def renamed(inside: Programme, named: Mapping[Segment, Segment], count: int = 1) -> Programme:
    """What is asked of one block, for so many of them, under other names; none is pressed open."""
    return Programme(
        tuple(named[name] for name in inside.segments),
        tuple(Meeting(named[m.one], named[m.other], m.alike, m.count * count) for m in inside.meetings),
        tuple(replace(w, seam=named[w.seam], weight=w.weight * count) for w in inside.leanings),
        tuple(
            replace(w, one=named[w.one], other=named[w.other], weight=w.weight * count)
            for w in inside.likenesses
        ),
        tuple(
            Spin(named[s.before], named[s.after], tuple((named[n], w) for n, w in s.ends), s.weight * count)
            for s in inside.spins
        ),
        (),
        {named[name]: way for name, way in inside.fixed.items()},
        {(named[name], towards): weight * count for (name, towards), weight in inside.bulk.items()},
        inside.pin,
    )


def merged(parts: Iterable[Programme], meetings: Iterable[Meeting]) -> Programme:
    """Several programmes as one, and more meetings between them."""
    every = list(parts)
    bulk: dict[tuple[Segment, Towards], float] = {}
    for part in every:
        for key, weight in part.bulk.items():
            bulk[key] = bulk.get(key, 0.0) + weight
    return gathered(
        Programme(
            tuple(name for part in every for name in part.segments),
            (*(m for part in every for m in part.meetings), *meetings),
            tuple(w for part in every for w in part.leanings),
            tuple(w for part in every for w in part.likenesses),
            tuple(s for part in every for s in part.spins),
            (),
            {name: way for part in every for name, way in part.fixed.items()},
            bulk,
            every[0].pin if every else PIN,
        )
    )
