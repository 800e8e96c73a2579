"""Pressing directions: the best side for every segment of every seam, solved and proven by HiGHS.

What no meeting, wish or spin ties together is solved apart, so that a large quilt is many small questions.
The answer is counted anew from itself before it is given.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from piecewright.bench.cloth import Towards
from piecewright.pressing.parity import together
from piecewright.pressing.programme import (
    Leaning,
    Likeness,
    Meeting,
    Opening,
    Programme,
    Segment,
    Spin,
)
from piecewright.pressing.reckoning import reckon
from piecewright.pressing.solving import best
from piecewright.problems import Problem, Refused

NEARLY = 1e-6


@dataclass(frozen=True)
class Directions:
    """For each segment whether it is pressed towards its first cloth; which are `opened` instead.

    `nesting`, `clashing` and `pinned` count places; `cost` is what comes first (a clash is 1, an open seam at
    a crossing a little), `wishes` the weight of all wishes gone against. No answer can have a lower `cost`
    than `bound`; none of this cost can have lower `wishes` than `wishes_bound`.
    """

    to_first: Mapping[Segment, bool]
    nesting: int
    clashing: int
    cost: float
    bound: float
    wishes: float = 0.0
    wishes_bound: float = 0.0
    opened: frozenset[Segment] = frozenset()
    pinned: int = 0

    @property
    def proven(self) -> bool:
        """Whether no other pressing is better."""
        return _met(self.cost, self.bound) and _met(self.wishes, self.wishes_bound)


def press_all(
    segments: Iterable[Segment],
    meetings: Iterable[Meeting],
    leanings: Iterable[Leaning],
    fixed: Mapping[Segment, bool] | None = None,
) -> Directions:
    """The best side for every segment, where none may change side or be pressed open."""
    return press(Programme(tuple(segments), tuple(meetings), tuple(leanings), fixed=fixed or {}))


def press(programme: Programme) -> Directions:
    """The best pressing: fewest clashes, and of all such answers the one that follows most wishes."""
    answers = [best(part) for part in apart(gathered(programme))]
    to_first = {name: way for answer in answers for name, way in answer.to_first.items()}
    opened = frozenset(name for answer in answers for name in answer.opened)
    in_order = {name: to_first[name] for name in dict.fromkeys(programme.segments)}
    found = reckon(programme, in_order, opened)
    cost, wishes = sum(a.cost for a in answers), sum(a.wishes for a in answers)
    if not (found.allowed and _met(found.cost, cost) and _met(found.wishes, wishes)):
        what = f"the pressing found comes to {found.cost:g}, not to {cost:g}"
        raise Refused(Problem(what, do="Report this with the quilt file."))
    return Directions(
        to_first=in_order,
        nesting=found.nesting,
        clashing=found.clashing,
        cost=found.cost,
        bound=sum(a.bound for a in answers),
        wishes=found.wishes,
        wishes_bound=sum(a.wishes_bound for a in answers),
        opened=opened,
        pinned=found.pinned,
    )


def press_open_all(programme: Programme) -> Directions:
    """Every seam open that may be and is not fixed; nothing is left to choose."""
    openings = (o for o in programme.openings if not any(name in programme.fixed for name in o.segments))
    opened = frozenset(name for opening in openings for name in opening.segments)
    to_first = {name: programme.fixed.get(name, False) for name in programme.segments}
    found = reckon(programme, to_first, opened)
    cost, wishes = found.cost, found.wishes
    return Directions(
        to_first, found.nesting, found.clashing, cost, cost, wishes, wishes, opened, found.pinned
    )


def _met(value: float, other: float) -> bool:
    return value - other <= NEARLY * max(1.0, abs(value))


def gathered(programme: Programme) -> Programme:
    """The same question with like meetings and like wishes taken together."""
    counts: dict[tuple[Segment, Segment, bool], int] = {}
    for meeting in programme.meetings:
        one, other = sorted((meeting.one, meeting.other))
        key = (one, other, meeting.alike)
        counts[key] = counts.get(key, 0) + meeting.count
    weights: dict[tuple[Segment, Segment, bool], float] = {}
    for wish in programme.likenesses:
        one, other = sorted((wish.one, wish.other))
        key = (one, other, wish.alike)
        weights[key] = weights.get(key, 0.0) + wish.weight
    return replace(
        programme,
        segments=tuple(dict.fromkeys(programme.segments)),
        meetings=tuple(Meeting(*key, count) for key, count in counts.items()),
        likenesses=tuple(Likeness(*key, weight) for key, weight in weights.items()),
    )


def apart(programme: Programme) -> list[Programme]:
    """The question in parts that can be answered one by one; what is fixed ties nothing together."""
    fixed = programme.fixed
    tied: list[tuple[Segment, ...]] = [(m.one, m.other) for m in programme.meetings]
    tied += [(wish.one, wish.other) for wish in programme.likenesses]
    tied += [(spin.before, spin.after, *(name for name, _ in spin.ends)) for spin in programme.spins]
    tied += [opening.segments for opening in programme.openings]
    free = [tuple(name for name in names if name not in fixed) for names in tied]
    groups = together(programme.segments, [names for names in free if names])
    parts = _Parts({name: k for k, group in enumerate(groups) for name in group}, fixed)
    for meeting in programme.meetings:
        parts.of((meeting.one, meeting.other)).meetings.append(meeting)
    for wish in programme.likenesses:
        parts.of((wish.one, wish.other)).likenesses.append(wish)
    for spin in programme.spins:
        parts.of((spin.before, spin.after, *(name for name, _ in spin.ends))).spins.append(spin)
    for opening in programme.openings:
        parts.of(opening.segments).openings.append(opening)
    for leaning in programme.leanings:
        parts.of((leaning.seam,)).leanings.append(leaning)
    for key, weight in programme.bulk.items():
        parts.of((key[0],)).bulk[key] = weight
    return [parts.programme(k, group, programme.pin) for k, group in enumerate(groups)]


@dataclass
class _Part:
    """What belongs to one part; `held` are the fixed segments that it meets."""

    meetings: list[Meeting] = field(default_factory=list)
    leanings: list[Leaning] = field(default_factory=list)
    likenesses: list[Likeness] = field(default_factory=list)
    spins: list[Spin] = field(default_factory=list)
    openings: list[Opening] = field(default_factory=list)
    bulk: dict[tuple[Segment, Towards], float] = field(default_factory=dict)
    held: dict[Segment, None] = field(default_factory=dict)


class _Parts:
    """The parts of a question by number; a thing belongs to the part of its first free segment."""

    def __init__(self, part_of: Mapping[Segment, int], fixed: Mapping[Segment, bool]) -> None:
        self.part_of = part_of
        self.fixed = fixed
        self.parts: dict[int, _Part] = {}

    def of(self, names: Sequence[Segment]) -> _Part:
        home = next((name for name in names if name not in self.fixed), names[0])
        part = self.parts.setdefault(self.part_of[home], _Part())
        part.held |= {name: None for name in names if name in self.fixed}
        return part

    def programme(self, number: int, group: Sequence[Segment], pin: float) -> Programme:
        part = self.parts.get(number, _Part())
        names = tuple(dict.fromkeys((*group, *part.held)))
        return Programme(
            names,
            tuple(part.meetings),
            tuple(part.leanings),
            tuple(part.likenesses),
            tuple(part.spins),
            tuple(part.openings),
            {name: self.fixed[name] for name in names if name in self.fixed},
            part.bulk,
            pin,
        )
