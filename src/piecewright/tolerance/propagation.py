"""First-order propagation: what is the same for all seams adds up in a line, what differs adds in squares.

The law of propagation of uncertainty for independent inputs (JCGM 100:2008, 5.1.2) through the model, whose
sensitivities are constants; a unit that is trued up is a normal variable cut off at its exact size.
Every figure is kept by its *source*: the thing where it arises, and whether in its seams, its cutting or (of
a unit) in coming out small.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import sqrt
from typing import Literal

from piecewright.tolerance.chances import RANGE, cut_off
from piecewright.tolerance.model import DrawnSize, LineSize, Model, Pair, PieceSize, UnitSize

Cause = Literal["seams", "cutting", "unit"]
Source = tuple[str, Cause]
Share = tuple[float, float]
"""What a source adds to a dim: how far off (inches), and a variance (square inches)."""


@dataclass(frozen=True)
class Spreading:
    """A thing's dims as propagated: nominal, and by source how far off each dim is and how it varies."""

    dims: Pair
    shares: tuple[Mapping[Source, Share], Mapping[Source, Share]]
    lowest: Pair
    highest: Pair

    @property
    def off(self) -> Pair:
        """How far the mean of each dim is off; inches."""
        return sum(o for o, _ in self.shares[0].values()), sum(o for o, _ in self.shares[1].values())

    @property
    def mean(self) -> Pair:
        """The mean of each dim."""
        off = self.off
        return self.dims[0] + off[0], self.dims[1] + off[1]

    @property
    def deviation(self) -> Pair:
        """The standard deviation of each dim."""
        return _root(self.shares[0]), _root(self.shares[1])


def propagated(model: Model) -> dict[str, Spreading]:
    """Every thing of the top; `lowest` and `highest` hold 95 of 100."""
    found: dict[str, Spreading] = {}
    for name, size in model.sizes.items():
        if isinstance(size, LineSize):
            found[name] = _line(name, size, model, found)
        elif isinstance(size, UnitSize):
            found[name] = _unit(name, size, model)
        elif isinstance(size, PieceSize):
            share = (float(model.hands.cut_off), float(model.hands.cut_spread) ** 2)
            cut: dict[Source, Share] = {(name, "cutting"): share}
            first, second = ({} if trimmed else cut for trimmed in size.follows)
            found[name] = _normal(size.dims, (first, second))
        elif isinstance(size, DrawnSize):
            found[name] = _normal(size.dims, ({}, {}))
    return found


def _unit(name: str, size: UnitSize, model: Model) -> Spreading:
    deviation = size.deviation(model.hands)
    shares: list[dict[Source, Share]] = []
    ends: list[tuple[float, float]] = []
    for exact, made, spread in zip(size.dims, size.made, deviation, strict=True):
        low, high = made - RANGE * spread, made + RANGE * spread
        mean, variance = cut_off(exact, made, spread) if size.trued else (made, spread**2)
        shares.append({(name, "unit"): (mean - exact, variance)})
        ends.append((min(low, exact), min(high, exact)) if size.trued else (low, high))
    return Spreading(size.dims, (shares[0], shares[1]), (ends[0][0], ends[1][0]), (ends[0][1], ends[1][1]))


def _line(name: str, size: LineSize, model: Model, found: Mapping[str, Spreading]) -> Spreading:
    along: dict[Source, Share] = {}
    across: dict[Source, Share] = {}
    easing = [(part, k) for part, k in size.parts if not model.sizes[part].follows[k]]
    for part, k in size.parts:
        if not size.follows[size.along]:
            _add(along, found[part].shares[1 - k], 1.0)
    for part, k in easing:
        _add(across, found[part].shares[k], 1 / len(easing))
    if not size.follows[size.along]:
        # A seam takes from both cloths.
        seams, more = len(size.parts) - 1, float(model.hands.take_up - model.workroom.take_up)
        along[name, "seams"] = (-2 * seams * more, seams * (2 * float(model.hands.spread)) ** 2)
    return _normal(size.dims, (across, along) if size.across == 0 else (along, across))


def _add(total: dict[Source, Share], shares: Mapping[Source, Share], weight: float) -> None:
    for source, (off, variance) in shares.items():
        so_far = total.get(source, (0.0, 0.0))
        total[source] = (so_far[0] + weight * off, so_far[1] + weight**2 * variance)


def _normal(dims: Pair, shares: tuple[dict[Source, Share], dict[Source, Share]]) -> Spreading:
    off = [sum(o for o, _ in one.values()) for one in shares]
    reach = [RANGE * _root(one) for one in shares]
    return Spreading(
        dims,
        shares,
        (dims[0] + off[0] - reach[0], dims[1] + off[1] - reach[1]),
        (dims[0] + off[0] + reach[0], dims[1] + off[1] + reach[1]),
    )


def _root(shares: Mapping[Source, Share]) -> float:
    return sqrt(sum(variance for _, variance in shares.values()))
