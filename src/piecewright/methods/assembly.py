"""Joins written down from how things lie in a picture: sides and nesting are found on a table of its own.

Terms:
- *lying*: a pile, and how one thing of it lies in the picture.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

from piecewright.bench.cloth import Cloth, Towards, piece
from piecewright.bench.doing import Rules, Table, done
from piecewright.bench.joining import Joining, meetings_of, nests, tallied
from piecewright.bench.piles import Pile
from piecewright.bench.steps import AnyStep, Join, JoinPart
from piecewright.bench.truing import Allowed
from piecewright.geometry.isometry import Isometry
from piecewright.geometry.matching import outline_turns
from piecewright.geometry.point import near
from piecewright.geometry.polygon import Polygon, rectangle
from piecewright.measure.tolerance import AS_DRAWN, EDGE_MATCH
from piecewright.methods.lines import press_all
from piecewright.methods.method import Making, Start
from piecewright.problems import Problem, Refused

Sides = tuple[int, ...]


@dataclass(frozen=True)
class Lying:
    """A thing of a pile where it lies in the picture; the same elsewhere by `moved`."""

    pile: str
    place: Isometry

    def moved(self, by: Isometry) -> Lying:
        """Another of the same pile, turned or moved to another place."""
        return Lying(self.pile, by.after(self.place))


class Assembly:
    """Steps that are written and done at the same time, so that each can be told from what is there.

    `steps` are those so far. It begins with the starts of a batch, cut and laid out.
    """

    def __init__(self, making: Making, starts: tuple[Start, ...]) -> None:
        self.making = making
        self.steps: list[AnyStep] = []
        self.rules = Rules(making.seam, Allowed(inf, 0.0), {}, frozenset())
        piles: dict[str, Pile] = {}
        for name, start in zip(making.pieces, starts, strict=True):
            # Starts of one fabric and size lie on one pile.
            (cloth, count), *_ = piles.get(name, Pile()).kinds or ((self._start(start), 0),)
            piles[name] = Pile(((cloth, count + start.count * making.times),))
        self.table = Table(piles=piles, cloth_left={}, offcuts={}, starts={})

    def _start(self, start: Start) -> Cloth:
        size = (self.making.sizes[start.width], self.making.sizes[start.height])
        return piece(f"fabric {start.fabric}", rectangle(*size), self.making.seam)

    def do(self, *steps: AnyStep) -> None:
        """Writes steps down and does them; raises Refused where one cannot be done."""
        for step in steps:
            self.table = done(step, self.table, self.rules)
            self.steps.append(step)

    def lay(self, pile: str, outline: Polygon) -> Lying:
        """A thing of a pile laid on its place in the picture; raises Refused where it does not fit."""
        place = next(outline_turns(self.table.only(pile).net, outline, AS_DRAWN), None)
        if place is None:
            raise Refused(Problem(f"{pile!r} does not fit where it was drawn"))
        return Lying(pile, place)

    def join(self, one: Lying, two: Lying, gives: str, times: int = 1, towards: Towards = "second") -> Lying:
        """Joins two things where they lie together, in one seam, and presses it; `times` for each batch."""
        leaving, entering = self._shared(one, two)
        first = Joining(self.table.only(one.pile), (), leaving, one.pile)
        second = Joining(self.table.only(two.pile), entering, (), two.pile)
        met = tallied(meetings_of((first, second)))
        nested = sum(count * sum(map(nests, pairs)) for pairs, count in met)
        clashing = sum(count * len(pairs) for pairs, count in met) - nested
        self.do(
            Join(
                parts=(JoinPart(name=one.pile, exit=leaving), JoinPart(name=two.pile, entry=entering)),
                gives=gives,
                times=times * self.making.times,
                nests=nested,
                clashes=clashing,
            ),
            press_all(gives, f"{gives}.0", towards=towards),
        )
        return Lying(gives, one.place)

    def _shared(self, one: Lying, two: Lying) -> tuple[Sides, Sides]:
        """The sides along which two things lie together, each counter-clockwise."""
        sides = [(one.place.at(a), one.place.at(b)) for a, b in self.table.only(one.pile).sides]
        others = [(two.place.at(a), two.place.at(b)) for a, b in self.table.only(two.pile).sides]
        met = {
            k: j
            for k, (a, b) in enumerate(sides)
            for j, (c, d) in enumerate(others)
            if near(a, d, EDGE_MATCH) and near(b, c, EDGE_MATCH)
        }
        first = next((k for k in met if (k - 1) % len(sides) not in met), None)
        if first is None:
            raise Refused(Problem(f"{one.pile!r} and {two.pile!r} have no whole side in common"))
        leaving = tuple((first + k) % len(sides) for k in range(len(met)))
        return leaving, tuple(met[k] for k in leaving[::-1] if k in met)
