"""What the pressing programme is asked: segments of seams, where they meet, and what one wishes for them.

Terms:
- *segment*: a seam, or a stretch of one between two places where it may change side;
- *meeting*: two segments that come together at a crossing, one from either side of the seam that is sewn
  over them; they nest when they lie opposite;
- *leaning*: a wish that a segment be pressed to one side; *likeness*: a wish that two be pressed alike;
- *spin*: a place where a seam may change side, since all that meet there can go round one way;
- *opening*: a seam that may be pressed open.

Meetings come first: no sum of wishes is worth a clash. `Towards` is first, second or open, as on the bench.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from piecewright.bench.cloth import Towards

Segment = str
Bulk = Mapping[tuple[Segment, Towards], float]
"""What it costs, in weights, to press a segment to a side: the more layers come to lie there the more."""


def segment(seam: str, number: int) -> Segment:
    """The name of a stretch of a seam, counted from 0 at its start; the first has the seam's own name.

    >>> segment("Wake.0", 0), segment("Wake.0", 1)
    ('Wake.0', 'Wake.0 stretch 2')
    """
    return f"{seam} stretch {number + 1}" if number else seam


@dataclass(frozen=True)
class Meeting:
    """Two segments that meet at `count` places of the quilt; they nest when both are pressed alike
    (both towards the first, or both towards the second cloth) if `alike`, else when not.
    """

    one: Segment
    other: Segment
    alike: bool
    count: int = 1


@dataclass(frozen=True)
class Leaning:
    """A wish: press a segment towards its first cloth (`to_first`) or its second."""

    seam: Segment
    to_first: bool
    weight: float


@dataclass(frozen=True)
class Likeness:
    """A wish: press two segments both to the first or both to the second cloth; if not `alike`, not so."""

    one: Segment
    other: Segment
    alike: bool
    weight: float


@dataclass(frozen=True)
class Spin:
    """A place where a seam may change side, from the segment `before` it to the one `after` it.

    It may only where all go round one way: each of `ends` is a segment that meets there, and whether it is
    pressed to its first cloth when `before` is. `weight` is what it costs; below 0 it is worth doing.
    """

    before: Segment
    after: Segment
    ends: tuple[tuple[Segment, bool], ...]
    weight: float


@dataclass(frozen=True)
class Opening:
    """A seam that may be pressed open, all its segments; `weight` is what that costs at the iron."""

    segments: tuple[Segment, ...]
    weight: float


@dataclass(frozen=True)
class Programme:
    """The whole question. `fixed` segments are pressed to their first cloth, or not, whatever one wishes.

    `pin` is what an open seam costs at every crossing, counted in clashes: it neither nests nor clashes.
    """

    segments: tuple[Segment, ...]
    meetings: tuple[Meeting, ...] = ()
    leanings: tuple[Leaning, ...] = ()
    likenesses: tuple[Likeness, ...] = ()
    spins: tuple[Spin, ...] = ()
    openings: tuple[Opening, ...] = ()
    fixed: Mapping[Segment, bool] = field(default_factory=dict)
    bulk: Bulk = field(default_factory=dict)
    pin: float = 0.25

    def side_weights(self) -> dict[Segment, tuple[float, float]]:
        """What each segment costs pressed to its first cloth and to its second, all wishes together."""
        weights = dict.fromkeys(self.segments, (0.0, 0.0))
        for leaning in self.leanings:
            first, second = weights[leaning.seam]
            against = (0.0, leaning.weight) if leaning.to_first else (leaning.weight, 0.0)
            weights[leaning.seam] = (first + against[0], second + against[1])
        for (name, towards), weight in self.bulk.items():
            first, second = weights[name]
            if towards != "open":
                more = (weight, 0.0) if towards == "first" else (0.0, weight)
                weights[name] = (first + more[0], second + more[1])
        return weights

    def open_weights(self) -> tuple[float, ...]:
        """What each opening costs; of the wishes for a side an open seam goes against half."""
        sides, leanings = self.side_weights(), dict.fromkeys(self.segments, 0.0)
        for name, (first, second) in sides.items():
            bulky = self.bulk.get((name, "first"), 0.0) + self.bulk.get((name, "second"), 0.0)
            leanings[name] = (first + second - bulky) / 2 + self.bulk.get((name, "open"), 0.0)
        return tuple(opening.weight + sum(leanings[s] for s in opening.segments) for opening in self.openings)
