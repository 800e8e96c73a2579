"""What one fabric of a list leaves for the next: cloth on hand that it did not take, and its leftovers."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace

from piecewright.cutting.given.cloth import Given
from piecewright.cutting.given.layout import Leftover
from piecewright.cutting.lists.cut_fabric import CutFabric
from piecewright.measure.showing import figure, show

# So many sizes of leftovers are offered to the fabrics after; smaller ones stay what they are.
MOST_LEFTOVERS = 8


class Left:
    """The cloth that is left while the fabrics of a list are cut one after the other."""

    def __init__(self, there: Sequence[Given]) -> None:
        self._left = {given.name: given for given in there}
        self._leftovers: dict[str, tuple[str, Leftover]] = {}
        self._used: dict[str, int] = {}

    @property
    def cloth(self) -> tuple[Given, ...]:
        """All of it."""
        return tuple(given for given in self._left.values() if given.count)

    def take(self, cut: CutFabric, later: Collection[str]) -> None:
        """Takes out what was cut; puts in its leftovers of fabrics that may be cut `later`."""
        for name, count in cut.cut.count_used.items():
            if name in self._left:
                self._left[name] = replace(self._left[name], count=self._left[name].count - count)
            if name in self._leftovers:
                self._used[name] = self._used.get(name, 0) + count
        for rest in [rest for rest in cut.cut.leftovers if rest.fabric in later][:MOST_LEFTOVERS]:
            unit = cut.offered.unit
            size = f"{figure(rest.width, unit)} x {show(rest.height, unit)}"
            name = f"{rest.fabric} {size}, left of {cut.fabric.name}"
            if name not in self._left:
                self._left[name] = Given(name, rest.width, rest.height, rest.count, rest.fabric)
                self._leftovers[name] = cut.fabric.name, rest

    def without_what_was_used(self, cut: CutFabric) -> CutFabric:
        """The fabric as it was cut, with those of its leftovers alone that no other was cut from."""
        used = {
            rest: self._used[name]
            for name, (fabric, rest) in self._leftovers.items()
            if fabric == cut.fabric.name and name in self._used
        }
        kept = [replace(rest, count=rest.count - used.get(rest, 0)) for rest in cut.cut.leftovers]
        return replace(cut, cut=replace(cut.cut, leftovers=tuple(rest for rest in kept if rest.count)))
