"""Which cloth of a list is for which of its fabrics, and which bolt where the list names none."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from piecewright.cutting.given.cloth import Given, Pack
from piecewright.cutting.lists.entries import Entries, Place
from piecewright.cutting.lists.fabric_entries import bolt_from
from piecewright.cutting.lists.listed import CuttingList, ListedBolt, ListedFabric
from piecewright.cutting.lists.supply_entries import BOLT, BOLT_ROW, kind_of, named_apart, supplied
from piecewright.measure.number import shortened
from piecewright.toml_places import did_you_mean


@dataclass(frozen=True)
class SupplyRow:
    """One entry of the supplies, and the same over what its fabric says of bolts."""

    row: Mapping[str, Any]
    place: Place
    as_bolt: Mapping[str, Any]
    bolt_place: Place


class Supplies:
    """All cloth that a list supplies, as it is read."""

    def __init__(self, entries: Entries, file: str) -> None:
        self._entries, self._file = entries, file
        self._given, self._packs, self._bolts = list[Given](), list[Pack](), list[ListedBolt]()
        self._places: dict[str, str] = {}
        self._stand_ins: dict[str, list[str]] = {}

    def read(self, rows: Sequence[SupplyRow], usual: str, every: Sequence[str] = ()) -> None:
        """Reads entries: of the fabric they name, or of the `usual` one.

        Without either a bolt is there in `every` fabric. What a fabric's own supplies are called stands in
        for it.
        """
        for row in rows:
            kind = kind_of(self._entries, row.row, row.place)
            fabric = self._entries.text(row.row, "fabric", usual, row.place)
            if fabric:
                self._places.setdefault(fabric, row.place("fabric" if "fabric" in row.row else ""))
            if fabric != usual and not every:
                self._stand_ins.setdefault(usual, []).append(fabric)
            if kind == BOLT:
                self._check_bolt(row)
                names = [fabric] if fabric else every
                self._bolts += [bolt_from(self._entries, name, row.as_bolt, row.bolt_place) for name in names]
            elif kind and not fabric:
                what, do = (
                    "expected the fabric of this cloth, got none",
                    "Write fabric = ..., one of this list.",
                )
                self._entries.wrong(what, row.place(""), do)
            elif kind:
                found = supplied(self._entries, kind, fabric, row.row, row.place)
                self._given += [found.given] if found.given else []
                self._packs += [found.pack] if found.pack else []

    def _check_bolt(self, row: SupplyRow) -> None:
        for key in ("count", "height", "length", "pack"):
            if key in row.row:
                what = f"expected a bolt, which is sold by length, got {key} = {shortened(row.row[key])}"
                self._entries.wrong(
                    what, row.place(key), 'Write kind = "piece" for cloth that is cut off it.'
                )
                return
        self._entries.known(row.row, BOLT_ROW, row.place)

    def with_fabrics(self, fabrics: Sequence[ListedFabric], title: str, shelf: str) -> CuttingList:
        """The whole list: its fabrics with their stand-ins and bolts."""
        listed = [
            replace(one, stand_ins=tuple(dict.fromkeys((*one.stand_ins, *self._stand_ins.get(one.name, ())))))
            for one in fabrics
        ]
        self._check_fabrics(listed)
        given, packs = named_apart(self._entries.unit, self._given, self._packs)
        bolts = [*self._bolts, *(bolt for one in listed for bolt in self._usual_bolt(one))]
        listed = [_on_own_bolt(one, bolts) for one in listed]
        return CuttingList(self._entries.unit, tuple(listed), given, packs, tuple(bolts), title, shelf)

    def _usual_bolt(self, fabric: ListedFabric) -> list[ListedBolt]:
        """The bolt that goes without saying: where nothing else is supplied, or its width is said."""
        if any(bolt.fabric in fabric.fabrics for bolt in self._bolts):
            return []
        there = {one.fabric for one in self._given} | {pack.piece.fabric for pack in self._packs}
        return [] if there & set(fabric.fabrics) and not fabric.says_bolt else [fabric.own_bolt]

    def _check_fabrics(self, fabrics: Sequence[ListedFabric]) -> None:
        known = {name for fabric in fabrics for name in fabric.fabrics}
        for name, place in self._places.items():
            if name not in known:
                what = f"expected a fabric of this list or a stand-in for one, got {shortened(name)}"
                self._entries.wrong(what, place, did_you_mean(name, sorted(known)))


def _on_own_bolt(fabric: ListedFabric, bolts: Sequence[ListedBolt]) -> ListedFabric:
    own = next((bolt for bolt in bolts if bolt.fabric == fabric.name), None)
    if own is None:
        return fabric
    return replace(
        fabric,
        supply=own.supply,
        selvedge=own.selvedge,
        shrinkage_across=own.shrinkage_across,
        price=own.price,
    )
