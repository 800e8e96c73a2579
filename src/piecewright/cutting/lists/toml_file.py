"""A cutting list in a .toml file: what stands at its top, in each fabric, and in the supplies of both."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from piecewright.cutting.lists.entries import Entries, Place
from piecewright.cutting.lists.fabric_entries import FABRIC_KEYS, fabric_from, item_from
from piecewright.cutting.lists.listed import UNNAMED, CuttingList, ListedFabric
from piecewright.cutting.lists.supply_rows import Supplies, SupplyRow
from piecewright.measure.length import Unit
from piecewright.measure.number import shortened
from piecewright.problems import Problem
from piecewright.toml_places import TomlFile
from piecewright.workroom.workroom import Workroom

TOP_KEYS = ("unit", "title", "shelf", "items", "supplies", "fabric", "name", *FABRIC_KEYS)
KEYS_OF_A_FABRIC = ("items", "supplies", "name", *FABRIC_KEYS)
KeyPath = tuple[str | int, ...]


def list_from_toml(
    file: TomlFile, width: str | None, unit: Unit, room: Workroom | None
) -> tuple[CuttingList, list[Problem]]:
    """The list, as far as it is right, and all that is wrong in it, by its lines."""
    said = file.data.get("unit", unit)
    entries = Entries("cm" if said == "cm" else "in", room)
    if said not in ("in", "cm"):
        entries.wrong(f'expected unit = "in" or unit = "cm", got {shortened(said)}', file.where("unit"))
    return _Reading(file, entries, width).whole_list(), sorted(entries.problems, key=_line)


@dataclass(frozen=True)
class _Layers:
    """Keys that go before those beneath them, each with its place."""

    keys: Mapping[str, Any]
    places: Mapping[str, str]
    whole: str

    def with_more(self, keys: Mapping[str, Any], place: Place) -> _Layers:
        places = {key: place(key) for key in keys}
        return _Layers({**self.keys, **keys}, {**self.places, **places}, place(""))

    def place(self, key: str) -> str:
        return self.places.get(key, self.whole)


class _Reading:
    """Goes through a file once; what is wrong is gathered by the entries."""

    def __init__(self, file: TomlFile, entries: Entries, width: str | None) -> None:
        self.file, self.entries = file, entries
        shared = {key: value for key, value in file.data.items() if key in FABRIC_KEYS}
        option = {} if width is None else {"width": width}
        nothing = _Layers({}, {}, file.where())
        self.top = nothing.with_more(shared, self._place()).with_more(option, lambda key: f"--{key}")

    def whole_list(self) -> CuttingList:
        data, entries = self.file.data, self.entries
        entries.known(data, TOP_KEYS, self._place())
        rows = self._tables(data, "fabric", ())
        own: list[tuple[KeyPath, Mapping[str, Any]]] = [(("fabric", k), row) for k, row in enumerate(rows)]
        if "items" in data or "fabric" not in data:
            own.insert(0, ((), data))
        fabrics, supplies = list[ListedFabric](), Supplies(entries, self.file.name)
        for path, row in own:
            layers = self._layers(path, row)
            fabrics.append(self._fabric(path, row, layers))
            if path:
                supplies.read(self._supplies(path, row, layers), fabrics[-1].name)
        usual = fabrics[0].name if len(fabrics) == 1 else ""
        supplies.read(self._supplies((), data, self.top), usual, tuple(fabric.name for fabric in fabrics))
        title = entries.text(data, "title", "", self._place())
        shelf = entries.text(data, "shelf", "", self._place())
        return supplies.with_fabrics(fabrics, title, shelf)

    def _layers(self, path: KeyPath, row: Mapping[str, Any]) -> _Layers:
        if not path:
            return self.top
        self.entries.known(row, KEYS_OF_A_FABRIC, self._place(*path))
        keys = {key: value for key, value in row.items() if key in FABRIC_KEYS}
        return self.top.with_more(keys, self._place(*path))

    def _fabric(self, path: KeyPath, row: Mapping[str, Any], layers: _Layers) -> ListedFabric:
        rows = self._tables(row, "items", path)
        if not rows and row.get("items", []) == []:
            do = "Write [[items]] with w, h and count."
            self.entries.wrong("expected pieces to cut, got none", self.file.where(*path), do)
        items = []
        for number, item in enumerate(rows):
            place = self._place(*path, "items", number)
            items.append(item_from(self.entries, item, place))
        usual = f"{UNNAMED} {int(path[-1]) + 1}" if path else UNNAMED
        name = self.entries.text(row, "name", usual, self._place(*path))
        return fabric_from(self.entries, name, layers.keys, items, layers.place)

    def _supplies(self, path: KeyPath, row: Mapping[str, Any], layers: _Layers) -> Sequence[SupplyRow]:
        found = []
        for number, supply in enumerate(self._tables(row, "supplies", path)):
            place = self._place(*path, "supplies", number)
            bolt = layers.with_more(supply, place)
            found.append(SupplyRow(supply, place, bolt.keys, bolt.place))
        return found

    def _tables(self, entry: Mapping[str, Any], key: str, path: KeyPath) -> list[dict[str, Any]]:
        rows = entry.get(key, [])
        if isinstance(rows, list) and all(isinstance(row, dict) for row in rows):
            return rows
        do = f"Write [[{key}]] on its own line."
        self.entries.wrong(f"expected {key} as tables", self.file.where(*path, key), do)
        return []

    def _place(self, *path: str | int) -> Place:
        return lambda key: self.file.where(*path, key) if key else self.file.where(*path)


def _line(problem: Problem) -> int:
    number = problem.where.rpartition(":")[2]
    return int(number) if number.isdigit() else 0
