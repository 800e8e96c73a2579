"""Virtual quilts: the same top sewn thousands of times, every cut and every seam a little different.

Propagation of distributions by Monte Carlo (JCGM 101:2008): each cut and each seam is drawn from a normal
law, and the top is measured. It checks the first-order figures, and shares nothing with them but the model.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Protocol

import numpy as np

from piecewright.tolerance.model import DrawnSize, LineSize, Model, Pair, PieceSize, UnitSize

Array = np.ndarray
QUILTS = 10_000
AT_ONCE = 250  # So many quilts are sewn at one time, so that their figures stay near the processor.
MOST_DRAWS = 50_000_000


class Draws(Protocol):
    """Where normal deviations come from; NumPy's generators are such."""

    def standard_normal(self, size: tuple[int, ...]) -> Array:
        """Deviations with mean 0 and standard deviation 1."""
        ...


@dataclass(frozen=True)
class VirtualQuilts:
    """What was measured on so many quilts; inches.

    `dims` has a row of two dims for each quilt, of one copy of each thing; `made` the same of units before
    they are trued up; `gaps` for each seam of a line how much longer the first edge is than the
    second; `orders` which dim is the longer one on the sheet.
    """

    quilts: int
    dims: Mapping[str, Array]
    made: Mapping[str, Array]
    gaps: Mapping[tuple[str, int], Array]
    orders: Mapping[str, tuple[int, int]]

    def range_of(self, name: str) -> tuple[Pair, Pair]:
        """Between which dims 95 of 100 lie, longest side first."""
        low, high = np.percentile(self.dims[name], [2.5, 97.5], axis=0)
        order = self.orders[name]
        return (float(low[order[0]]), float(low[order[1]])), (float(high[order[0]]), float(high[order[1]]))


def virtual_quilts(model: Model, quilts: int = QUILTS, draws: Draws | None = None) -> VirtualQuilts:
    """So many quilts; without `draws` the same ones each time. Where a quilt is vast there are fewer."""
    quilts = max(min(quilts, MOST_DRAWS // max(_draws_each(model), 1)), 1)
    source = np.random.default_rng(1) if draws is None else draws
    rounds = [_Sewing(model, min(AT_ONCE, quilts - done), source) for done in range(0, quilts, AT_ONCE)]
    for sewing in rounds:
        sewing.sew()
    return VirtualQuilts(
        quilts,
        {name: np.concatenate([s.first[name] for s in rounds]) for name in model.sizes},
        {name: np.concatenate([s.made[name] for s in rounds]) for name in rounds[0].made},
        {key: np.concatenate([s.gaps[key] for s in rounds]) for key in rounds[0].gaps},
        {name: model.order(name) for name in model.sizes},
    )


def _draws_each(model: Model) -> int:
    """How many deviations one quilt takes, roughly."""
    total = 0
    for name, size in model.sizes.items():
        each = len(size.parts) - 1 if isinstance(size, LineSize) else 2
        total += model.counts[name] * each
    return total


class _Sewing:
    """Some quilts sewn at one time; every copy of a thing is used in one place only."""

    def __init__(self, model: Model, quilts: int, draws: Draws) -> None:
        self.model, self.quilts, self.draws = model, quilts, draws
        self.first: dict[str, Array] = {}
        self.made: dict[str, Array] = {}
        self.gaps: dict[tuple[str, int], Array] = {}
        self._lying: dict[str, Array] = {}
        self._used: dict[str, int] = dict.fromkeys(model.sizes, 0)

    def sew(self) -> None:
        """Makes every thing, parts first."""
        for name, size in self.model.sizes.items():
            copies = self.model.counts[name]
            if isinstance(size, LineSize):
                made = self._line(name, size, copies)
            elif isinstance(size, UnitSize):
                made = self._unit(name, size, copies)
            else:
                made = self._piece(size, copies)
            self._lying[name] = made
            self.first[name] = made[:, :, 0].T.copy()
        self._lying.clear()

    def _piece(self, size: PieceSize | DrawnSize, copies: int) -> Array:
        """Dims of all copies: an array of dim, quilt, copy."""
        made = np.empty((2, self.quilts, copies))
        cut_off, spread = float(self.model.hands.cut_off), float(self.model.hands.cut_spread)
        for k in (0, 1):
            made[k] = size.dims[k]
            if isinstance(size, PieceSize) and not size.follows[k]:
                made[k] += cut_off + spread * self._drawn(copies)
        return made

    def _unit(self, name: str, size: UnitSize, copies: int) -> Array:
        seam = float(self.model.hands.spread) * self._drawn(copies)
        cuts = [float(self.model.hands.cut_spread) * self._drawn(copies) for _ in size.by_cut]
        made = np.empty((2, self.quilts, copies))
        for k in (0, 1):
            made[k] = size.made[k] + size.by_seam[k] * seam
            for by, cut in zip(size.by_cut, cuts, strict=True):
                made[k] += by[k] * cut
        self.made[name] = made[:, :, 0].T.copy()
        return np.minimum(made, np.array(size.dims)[:, None, None]) if size.trued else made

    def _line(self, name: str, size: LineSize, copies: int) -> Array:
        parts = [self._taken(part, copies) for part, _ in size.parts]
        edges = [part[k] for part, (_, k) in zip(parts, size.parts, strict=True)]
        for number, ((part, k), (after, j)) in enumerate(zip(size.parts, size.parts[1:], strict=False)):
            if not (self._follows(part, k) or self._follows(after, j)):
                self.gaps[name, number] = edges[number][:, 0] - edges[number + 1][:, 0]
        made = np.empty((2, self.quilts, copies))
        made[size.along] = size.dims[size.along]
        made[size.across] = size.dims[size.across]
        if not size.follows[size.along]:
            made[size.along] = sum(part[1 - k] for part, (_, k) in zip(parts, size.parts, strict=True))
            take_up, spread = float(self.model.hands.take_up), float(self.model.hands.spread)
            for _ in range(len(parts) - 1):
                made[size.along] -= 2 * (take_up + spread * self._drawn(copies))
        easing = [e for e, (n, k) in zip(edges, size.parts, strict=True) if not self._follows(n, k)]
        if easing:
            made[size.across] = sum(easing) / len(easing)
        return made

    def _follows(self, name: str, k: int) -> bool:
        return self.model.sizes[name].follows[k]

    def _taken(self, name: str, copies: int) -> Array:
        start = self._used[name]
        self._used[name] += copies
        return self._lying[name][:, :, start : start + copies]

    def _drawn(self, copies: int) -> Array:
        return self.draws.standard_normal((self.quilts, copies))
