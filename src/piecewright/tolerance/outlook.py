"""The outlook: what a plan will measure in one person's hands, thing by thing, and what to do about it."""

from __future__ import annotations

from dataclasses import dataclass

from piecewright.measure.length import Length
from piecewright.sewing.stations import Station
from piecewright.tolerance.hands import Hands
from piecewright.tolerance.model import Pair
from piecewright.tolerance.propagation import Cause
from piecewright.tolerance.verdicts import Verdict


@dataclass(frozen=True)
class Outcome:
    """What one thing will measure, longest side first; inches, raw.

    95 of 100 lie from `lowest` to `highest`. `beyond` is the share that is out by more than the ease.
    """

    name: str
    station: Station
    count: int
    nominal: Pair
    expected: Pair
    deviation: Pair
    lowest: Pair
    highest: Pair
    beyond: float
    verdict: Verdict
    do: str


@dataclass(frozen=True)
class Mismatch:
    """Two edges that are to be joined in `line`, `count` times: the first is `off` longer than the second.

    `beyond` is the share of such pairs that differ by more than can be eased in. Inches.
    """

    line: str
    first: str
    second: str
    count: int
    off: float
    deviation: float
    beyond: float
    verdict: Verdict
    do: str


@dataclass(frozen=True)
class Contribution:
    """What one source does to the size of the top (longest side first): all `off`, and its deviation."""

    name: str
    cause: Cause
    count: int
    off: Pair
    deviation: Pair


@dataclass(frozen=True)
class CutLarger:
    """Start sizes of a unit that is trued up later: as `planned`, and `larger` ones.

    `enough` and `then_enough` are the shares of units that come out large enough to be trued up. `larger` is
    empty where no start size helps.
    """

    name: str
    count: int
    planned: tuple[Length, ...]
    larger: tuple[Length, ...]
    enough: float
    then_enough: float
    over: float


@dataclass(frozen=True)
class Outlook:
    """What a plan will measure in these hands; the plan itself, and *made as drawn*, stay as they are.

    `outcomes` has everything in the top in the order it is made, the top last; `mismatches` and
    `contributions` the worst first. `left_in`: how much larger than `top.expected` the top comes out where
    the little that is over in units is not worked in. `not_followed`: things taken as drawn.
    """

    hands: Hands
    outcomes: tuple[Outcome, ...]
    mismatches: tuple[Mismatch, ...]
    contributions: tuple[Contribution, ...]
    larger: tuple[CutLarger, ...]
    left_in: Pair
    not_followed: tuple[str, ...]

    @property
    def top(self) -> Outcome:
        """What the whole top will measure."""
        return self.outcomes[-1]

    def of(self, name: str) -> Outcome:
        """What a thing will measure; raises KeyError where the top has no such thing."""
        found = {outcome.name: outcome for outcome in self.outcomes}
        return found[name]
