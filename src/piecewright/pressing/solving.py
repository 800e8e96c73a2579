"""The best pressing of segments that hang together, by HiGHS: clashes first, then all wishes.

Where meetings can be two-coloured no place need clash: there tied segments are one yes-or-no, and only
wishes are weighed. Of every odd ring of meetings the fewest clashes are found by itself, and kept while the
wishes are weighed. Where a seam would have to change side amiss then, or may be pressed open to save a clash,
all rings are weighed at once: the least sum of clashes is found, and kept.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field

from piecewright.pressing.model import SLACK, Model, Solved, Term, summed
from piecewright.pressing.parity import Ties
from piecewright.pressing.programme import Likeness, Programme, Segment, Spin
from piecewright.pressing.rings import Edge, fewest_clashes, is_odd, rings

YES, NO = Term(1.0), Term(0.0)


@dataclass(frozen=True)
class Answer:
    """Each segment's side, what is open; cost and bound of what comes first, then of the wishes."""

    to_first: Mapping[Segment, bool]
    opened: frozenset[Segment]
    cost: float = 0.0
    bound: float = 0.0
    wishes: float = 0.0
    wishes_bound: float = 0.0


def best(programme: Programme) -> Answer:
    """The best answer to a programme whose segments hang together."""
    found = None
    may_open = {name for opening in programme.openings for name in opening.segments}
    ties, odd = tied(programme)
    if not (may_open and odd):
        found = _ring_by_ring(programme, ties, odd)
    return found or _all_at_once(programme)


def tied(programme: Programme) -> tuple[Ties[Segment], list[list[Edge]]]:
    """The segments tied so that all nests that can nest at once, and the odd rings, where not all can.

    What is fixed is tied to "": equal to it when pressed to its first cloth. A segment that meets itself,
    or two that are fixed, clash there or nest, whatever one does: a ring of one.
    """
    ties = Ties[Segment]()
    for name, way in programme.fixed.items():
        ties.tie("", name, way)
    edges = []
    for meeting in programme.meetings:
        (one, turned), (other, also) = ties.root(meeting.one), ties.root(meeting.other)
        edges.append((one, other, meeting.alike ^ turned ^ also, meeting.count))
    found = rings(edges)
    odd = [ring for ring in found if is_odd(ring)]
    for ring in found:
        if ring not in odd:
            for one, other, alike, _ in ring:
                ties.tie(one, other, alike)
    return ties, odd


@dataclass
class _Writing:
    """The model while it is written: the terms for each segment, and the objective of the wishes."""

    model: Model
    first: dict[Segment, Term]
    opened: dict[Segment, Term] = field(default_factory=dict)
    wishes: list[tuple[Term, float]] = field(default_factory=list)

    def second(self, name: Segment) -> Term:
        return self.first[name].negated - self.opened.get(name, NO)

    def wish(self, term: Term, weight: float) -> None:
        self.wishes.append((term, weight))

    def unlike(self, one: Segment, other: Segment, alike: bool) -> Term:
        """A new column that is at least 1 where two segments are not as they are wished."""
        column = self.model.share()
        one_second, other_second = self.second(one), self.second(other)
        pairs = ((self.first[one], other_second), (one_second, self.first[other]))
        if not alike:
            pairs = ((self.first[one], self.first[other]), (one_second, other_second))
        for a, b in pairs:
            self.model.at_most(a + b - column, 1.0)
        return column


def _ring_by_ring(programme: Programme, ties: Ties[Segment], odd: Sequence[Sequence[Edge]]) -> Answer | None:
    """The best answer of those that clash as little as can be in every ring; None where a seam would have
    to change side amiss in all of these.

    A seam that meets others is not pressed open then: that would want pins, and save no clash.
    """
    model = Model()
    writing = _Writing(model, _by_root(model, programme, ties))
    meeting = {name for m in programme.meetings for name in (m.one, m.other)}
    _write_openings(writing, programme, meeting)
    cost = bound = 0.0
    for ring in odd:
        least, below = fewest_clashes(ring)
        clashes = [(writing.unlike(one, other, alike), float(count)) for one, other, alike, count in ring]
        model.at_most(summed(clashes), least + SLACK)
        model.at_most(summed(clashes).times(-1.0), SLACK - below)
        cost, bound = cost + least, bound + below
    _write_wishes(writing, programme)
    objective = summed(writing.wishes)
    solved = model.least(objective) if model.rows else _by_sign(model, objective)
    return None if solved is None else _answer(writing, solved, cost, bound)


def _by_root(model: Model, programme: Programme, ties: Ties[Segment]) -> dict[Segment, Term]:
    """For every segment the term that is 1 when it is pressed to its first cloth: one column for all tied."""
    fixed, turned = ties.root("")
    of_root: dict[Segment, Term] = {fixed: NO if turned else YES}
    first: dict[Segment, Term] = {}
    for name in ("", *programme.segments):
        root, opposite = ties.root(name)
        if root not in of_root:
            of_root[root] = model.yes_or_no()
        first[name] = of_root[root].negated if opposite else of_root[root]
    return first


def _answer(writing: _Writing, solved: Solved, cost: float, bound: float) -> Answer:
    to_first = {name: solved.yes(term) for name, term in writing.first.items() if name}
    opened = frozenset(name for name, term in writing.opened.items() if solved.yes(term))
    return Answer(to_first, opened, cost, bound, solved.cost, solved.bound)


def _by_sign(model: Model, objective: Term) -> Solved:
    """Columns that nothing ties: each is 1 where that costs less than nothing."""
    factors = [0.0] * len(model.whole)
    for column, factor in objective.columns:
        factors[column] += factor
    cost = objective.number + sum(min(factor, 0.0) for factor in factors)
    return Solved(tuple(float(factor < 0) for factor in factors), cost, cost)


def _all_at_once(programme: Programme) -> Answer:
    model = Model()
    writing = _Writing(model, {})
    for name in programme.segments:
        held = programme.fixed.get(name)
        writing.first[name] = model.yes_or_no() if held is None else (YES if held else NO)
    _write_openings(writing, programme)
    clashes = [
        (writing.unlike(m.one, m.other, m.alike), float(m.count))
        for m in programme.meetings
        if m.one != m.other
    ]
    clashes += [
        (writing.opened.get(m.one, NO).negated, 0.0 if m.alike else float(m.count))
        for m in programme.meetings
        if m.one == m.other
    ]
    clashes += _pins(writing, programme)
    _write_wishes(writing, programme)
    objective = summed(clashes)
    least = model.least(objective)
    assert least is not None
    model.at_most(objective, least.cost + SLACK)
    solved = model.least(summed(writing.wishes), least.values)
    assert solved is not None
    return _answer(writing, solved, least.cost, least.bound)


def _write_openings(writing: _Writing, programme: Programme, closed: Collection[Segment] = ()) -> None:
    """An open seam is pressed to no side; what is `closed` is not pressed open."""
    for opening, weight in zip(programme.openings, programme.open_weights(), strict=True):
        if any(name in closed for name in opening.segments):
            continue
        column = writing.model.yes_or_no()
        writing.wish(column, weight)
        for name in opening.segments:
            writing.opened[name] = column
            writing.model.at_most(writing.first[name] + column, 1.0)
        if any(name in programme.fixed for name in opening.segments):
            writing.model.at_most(column, 0.0)


def _pins(writing: _Writing, programme: Programme) -> list[tuple[Term, float]]:
    """For every meeting of seams of which one may be open a column that is 1 where it is."""
    found = []
    for meeting in programme.meetings:
        opened = [writing.opened[n] for n in (meeting.one, meeting.other) if n in writing.opened]
        if opened:
            column = writing.model.share()
            for term in opened:
                writing.model.at_most(term - column, 0.0)
            found.append((column, programme.pin * meeting.count))
    return found


def _write_wishes(writing: _Writing, programme: Programme) -> None:
    for name, (first, second) in programme.side_weights().items():
        writing.wish(writing.first[name], first)
        writing.wish(writing.second(name), second)
    for likeness in programme.likenesses:
        _write_likeness(writing, likeness)
    for spin in programme.spins:
        _write_spin(writing, spin)


def _write_likeness(writing: _Writing, likeness: Likeness) -> None:
    if likeness.one != likeness.other:
        column = writing.unlike(likeness.one, likeness.other, likeness.alike)
        writing.wish(column, likeness.weight)
    elif not likeness.alike:
        writing.wish(writing.opened.get(likeness.one, NO).negated, likeness.weight)


def _write_spin(writing: _Writing, spin: Spin) -> None:
    """A column for either way round; a seam that changes side takes one, and all must go round with it."""
    rounds = []
    for way in (True, False):
        column = writing.model.share()
        sides = [(spin.before, way), (spin.after, not way)]
        sides += [(name, way == with_it) for name, with_it in spin.ends]
        for name, to_first in sides:
            writing.model.at_most(column - (writing.first[name] if to_first else writing.second(name)), 0.0)
        (before, ahead), (after, behind) = sides[:2]
        pressed = [
            writing.first[name] if to_first else writing.second(name)
            for name, to_first in ((before, ahead), (after, behind))
        ]
        writing.model.at_most(pressed[0] + pressed[1] - column, 1.0)
        rounds.append(column)
    for column in rounds:
        writing.wish(column, spin.weight)
