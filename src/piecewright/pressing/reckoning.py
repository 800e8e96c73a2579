"""What a pressing comes to: counted anew from the answer alone, whoever found it."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from piecewright.pressing.programme import Likeness, Meeting, Programme, Segment, Spin

Sides = Mapping[Segment, bool]


@dataclass(frozen=True)
class Reckoned:
    """Places that nest, that clash, and that want a pin because a seam is open; the wishes gone against.

    `allowed` tells that no seam changes side where it may not, and that what is fixed is as fixed.
    """

    nesting: int
    clashing: int
    pinned: int
    wishes: float
    allowed: bool
    pin: float

    @property
    def cost(self) -> float:
        """What comes first: a clash is 1, an open seam at a crossing a little."""
        return self.clashing + self.pin * self.pinned


def reckon(programme: Programme, to_first: Sides, opened: Collection[Segment] = ()) -> Reckoned:
    """What a pressing comes to: for each segment whether it is pressed to its first cloth; or open."""
    nesting = clashing = pinned = 0
    for meeting in programme.meetings:
        if meeting.one in opened or meeting.other in opened:
            pinned += meeting.count
        elif _clash(meeting, to_first):
            clashing += meeting.count
        else:
            nesting += meeting.count
    allowed = all(_may(spin, to_first, opened) for spin in programme.spins)
    allowed = allowed and all(to_first[name] == way for name, way in programme.fixed.items())
    wishes = _wishes(programme, to_first, opened)
    return Reckoned(nesting, clashing, pinned, wishes, allowed, programme.pin)


def _clash(meeting: Meeting, to_first: Sides) -> bool:
    return (to_first[meeting.one] == to_first[meeting.other]) != meeting.alike


def _changes(spin: Spin, to_first: Sides, opened: Collection[Segment]) -> bool:
    return to_first[spin.before] != to_first[spin.after] and spin.before not in opened


def _may(spin: Spin, to_first: Sides, opened: Collection[Segment]) -> bool:
    """Whether a seam keeps its side at a spin, or all that meet there go round with it."""
    if not _changes(spin, to_first, opened):
        return True
    before = to_first[spin.before]
    return all(name not in opened and (to_first[name] == before) == way for name, way in spin.ends)


def _wishes(programme: Programme, to_first: Sides, opened: Collection[Segment]) -> float:
    sides = programme.side_weights()
    total = sum(sides[s][0 if to_first[s] else 1] for s in programme.segments if s not in opened)
    total += sum(_unlike(likeness, to_first, opened) for likeness in programme.likenesses)
    total += sum(spin.weight for spin in programme.spins if _changes(spin, to_first, opened))
    for opening, weight in zip(programme.openings, programme.open_weights(), strict=True):
        total += weight if opening.segments[0] in opened else 0.0
    return total


def _unlike(likeness: Likeness, to_first: Sides, opened: Collection[Segment]) -> float:
    if likeness.one in opened or likeness.other in opened:
        return 0.0
    return likeness.weight if (to_first[likeness.one] == to_first[likeness.other]) != likeness.alike else 0.0
