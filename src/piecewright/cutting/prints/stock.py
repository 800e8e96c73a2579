"""What is on hand of a print, and what may be cut from it: shares at given prices.

Prints of which there is equally much, in equal pieces, are one *stock*.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from piecewright.cutting.given.cloth import Given, Offered
from piecewright.cutting.given.finding import Finding
from piecewright.cutting.given.layout import CutGiven
from piecewright.cutting.given.offer import Source, sources
from piecewright.cutting.given.settling import Use, merged, pieces_of, settled
from piecewright.cutting.given.task import Column, GivenTask, task_of
from piecewright.cutting.given.telling import cut_given
from piecewright.cutting.pricing import Counts, Prices
from piecewright.cutting.wanted import Demand
from piecewright.measure.length import Length

MOST_PIECES_CUT = 60
"""So many pieces of cloth of one print are looked at, at most."""


@dataclass(frozen=True)
class PrintOnHand:
    """All pieces of one print, in a fixed order."""

    fabric: str
    cloth: tuple[Given, ...]

    @property
    def sizes(self) -> tuple[object, ...]:
        """What must be equal of prints that are one stock."""
        return tuple((given.width, given.height, given.count, given.strips) for given in self.cloth)


@dataclass(frozen=True)
class HandShare:
    """What is cut from one print of a stock: how, the pieces it gives, and the cloth it takes (square in)."""

    uses: tuple[Use, ...]
    pieces: tuple[int, ...]
    area: float


class Stock:
    """Prints that are equal but for their looks, with a task for one of them."""

    def __init__(self, prints: Sequence[PrintOnHand], demands: Sequence[Demand], ruler: Length) -> None:
        self.prints, self._demands = tuple(prints), demands
        offered = Offered(self.prints[0].cloth, ruler_length=ruler)
        self._kinds: list[Source] = sources(offered, None)
        self.task: GivenTask = task_of(demands, [kind.cloth for kind in self._kinds], ruler, None)
        self.holds_any = bool(self.task.frames)
        self._finding = Finding(self.task) if self.holds_any else None

    def share(self, prices: Prices, most: Counts) -> HandShare | None:
        """What is worth most from one print, at most so many of each size; None where nothing is."""
        if self._finding is None:
            return None
        left, uses = most.copy(), list[Use]()
        limits = [MOST_PIECES_CUT if kind.limit is None else kind.limit for kind in self.task.kinds]
        for _ in range(MOST_PIECES_CUT):
            column = self._best(self._finding, prices, left, limits)
            if column is None:
                break
            uses.append(Use(column, 1))
            limits[self.task.frames[column.frame].kind] -= self.task.amount(column)
            left = np.maximum(left - self.task.pieces(column), 0)
        return self.trimmed(uses, most - left) if uses else None

    def trimmed(self, uses: Sequence[Use], wanted: Counts) -> HandShare:
        """The same with no more than what is wanted."""
        exact = tuple(settled(self.task, merged(list(uses)), wanted))
        pieces = tuple(int(n) for n in pieces_of(self.task, exact))
        mark = float(self.task.mark)
        area = sum(self.task.cost(use.column) * use.times for use in exact)
        return HandShare(exact, pieces, round(area, 6) if mark else 0.0)

    def cut(self, share: HandShare, mine: PrintOnHand) -> tuple[CutGiven, ...]:
        """How the cloth of one print of this stock is cut."""
        own = dict(zip((g.name for g in self.prints[0].cloth), mine.cloth, strict=True))
        cut = cut_given(self.task, self._kinds, share.uses, self._demands)
        return tuple(replace(one, name=own[one.name].name, fabric=own[one.name].fabric) for one in cut)

    def _best(self, finding: Finding, prices: Prices, left: Counts, limits: Sequence[int]) -> Column | None:
        """The way of cutting that gives most for its cloth, of those for which there is cloth."""
        if not left.any():
            return None
        found = finding.best(prices, left, clip=True)
        best, most = None, 0.0
        for column in found.columns:
            there = limits[self.task.frames[column.frame].kind]
            if column.strips and self.task.amount(column) <= there:
                value = float(np.minimum(self.task.pieces(column), left) @ prices)
                if value > most * (1 + 1e-9):
                    best, most = column, value
        return best


def prints_on_hand(given: Sequence[Given]) -> list[PrintOnHand]:
    """The cloth print by print; cloth without a fabric is a print of its own."""
    by_print: dict[str, list[Given]] = {}
    for cloth in given:
        by_print.setdefault(cloth.fabric or cloth.name, []).append(cloth)
    ordered = {
        fabric: tuple(sorted(own, key=lambda g: (g.width, g.height, g.count, g.strips)))
        for fabric, own in by_print.items()
    }
    return [PrintOnHand(fabric, own) for fabric, own in ordered.items()]


def stocks_of(prints: Sequence[PrintOnHand], demands: Sequence[Demand], ruler: Length) -> list[Stock]:
    """Prints of which there is equally much, taken together."""
    alike: dict[tuple[object, ...], list[PrintOnHand]] = {}
    for one in prints:
        alike.setdefault(one.sizes, []).append(one)
    return [stock for own in alike.values() if (stock := Stock(own, demands, ruler)).holds_any]
