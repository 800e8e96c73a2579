"""A cutting list in a file: .toml with everything it may say, or .csv with the pieces alone.

```toml
unit = "in"
width = 40

[[items]]
name = "geese"
w = "2 1/2"
h = "4 1/2"
count = 64
```
"""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from piecewright.cutting.list_entries import BOLT_KEYS, FABRIC_KEYS, ITEM_KEYS, Entries
from piecewright.cutting.listed import CuttingList, Item, ListedFabric
from piecewright.measure.length import Unit
from piecewright.measure.number import shortened
from piecewright.problems import Problem, Refused
from piecewright.toml_places import MOST_BYTES, TomlFile, read_toml

UNNAMED = "cloth"
CSV_KEYS = (*ITEM_KEYS, "fabric")


def read_list(path: str | Path, width: str | None = None, unit: Unit | None = None) -> CuttingList:
    """The list in a file; `width` goes before the list's own, `unit` stands for what it does not say.

    Raises Refused with all that is wrong in it, each with its line.
    """
    if str(path).lower().endswith(".csv"):
        return _from_csv(Path(path), width, unit or "in")
    if not str(path).lower().endswith(".toml"):
        raise Refused(Problem("expected a cutting list in a .toml or .csv file.", str(path)))
    return _from_toml(read_toml(path), width, unit)


def _from_toml(file: TomlFile, width: str | None, unit: Unit | None) -> CuttingList:
    said = file.data.get("unit", unit or "in")
    entries = Entries("cm" if said == "cm" else "in")
    if said not in ("in", "cm"):
        entries.wrong(f'expected unit = "in" or unit = "cm", got {shortened(said)}', file.where("unit"))
    top = dict(file.data)
    if width is not None:
        top["width"] = entries.width({"width": width}, "width", lambda key: f"--{key}").text()
    keys = ("unit", "items", "supplies", "fabric", "name", *FABRIC_KEYS)
    entries.known(file.data, keys, lambda key: file.where(key))
    fabrics = [_fabric(entries, file, top, ())] if "items" in top or "fabric" not in top else []
    for number, row in enumerate(_tables(entries, file, file.data, "fabric", ())):
        entries.known(row, ("items", "supplies", "name", *FABRIC_KEYS), _place(file, "fabric", number))
        shared = {key: top[key] for key in FABRIC_KEYS if key in top}
        fabrics.append(_fabric(entries, file, {**shared, **row}, ("fabric", number)))
    if entries.problems:
        raise Refused(*entries.problems)
    return CuttingList(entries.unit, _checked(fabrics, file.name))


def _fabric(
    entries: Entries, file: TomlFile, entry: Mapping[str, Any], path: tuple[str | int, ...]
) -> ListedFabric:
    rows = _tables(entries, file, entry, "items", path)
    if not rows:
        entries.wrong(
            "expected pieces to cut, got none", file.where(*path), "Write [[items]] with w, h and count."
        )
    items = []
    for number, row in enumerate(rows):
        place = _place(file, *path, "items", number)
        entries.known(row, ITEM_KEYS, place)
        items.append(entries.item(row, place))
    bolt = _bolt(entries, file, entry, path)
    name = str(entry.get("name", UNNAMED if not path else f"{UNNAMED} {int(path[-1]) + 1}"))
    return entries.fabric(name, {**entry, **bolt}, _sound(items), _place(file, *path))


def _bolt(
    entries: Entries, file: TomlFile, entry: Mapping[str, Any], path: tuple[str | int, ...]
) -> Mapping[str, Any]:
    """The one bolt among the supplies. Pieces that are there already would be read here too."""
    supplies = _tables(entries, file, entry, "supplies", path)
    for number, row in enumerate(supplies):
        entries.known(row, BOLT_KEYS, _place(file, *path, "supplies", number))
    if len(supplies) > 1:
        place = file.where(*path, "supplies", 1)
        entries.wrong(
            f"expected one bolt for a fabric, got {len(supplies)}", place, "Write a [[fabric]] each."
        )
    return supplies[0] if supplies else {}


def _tables(
    entries: Entries, file: TomlFile, entry: Mapping[str, Any], key: str, path: tuple[str | int, ...]
) -> list[dict[str, Any]]:
    rows = entry.get(key, [])
    if isinstance(rows, list) and all(isinstance(row, dict) for row in rows):
        return rows
    entries.wrong(f"expected {key} as tables", file.where(*path, key), f"Write [[{key}]] on its own line.")
    return []


def _place(file: TomlFile, *path: str | int) -> Any:
    return lambda key: file.where(*path, key) if key else file.where(*path)


def _sound(items: list[Item | None]) -> tuple[Item, ...]:
    return tuple(item for item in items if item is not None)


def _from_csv(path: Path, width: str | None, unit: Unit) -> CuttingList:
    entries, name = Entries(unit), str(path)
    table = csv.DictReader(io.StringIO(_text_of(path)), strict=True)
    by_fabric: dict[str, list[Item | None]] = {}
    try:
        head = [str(key).strip().lower() for key in table.fieldnames or ()]
        _check_head(head, name)
        table.fieldnames = head
        for row in table:
            place = _csv_place(name, table.line_num)
            if None in row or None in row.values():
                what = f"expected {len(head)} entries in a row, as the first line names them"
                entries.wrong(what, place(""), "Count the commas; a comma inside an entry needs quotes.")
                continue
            said = {key: value for key, value in row.items() if value.strip() or key in ("w", "h", "count")}
            fabric = by_fabric.setdefault(row.get("fabric", "").strip() or UNNAMED, [])
            fabric.append(entries.item(said, place))
    except csv.Error as error:
        raise Refused(Problem(f"expected rows with commas between entries, got: {error}.", name)) from error
    if not by_fabric and not entries.problems:
        entries.wrong("expected pieces to cut, got none", name, "Write a row for each size.")
    cloth = {} if width is None else {"width": width}
    fabrics = [
        entries.fabric(fabric, cloth, _sound(items), lambda key: f"--{key}")
        for fabric, items in by_fabric.items()
    ]
    if entries.problems:
        raise Refused(*entries.problems)
    return CuttingList(unit, _checked(fabrics, name))


def _check_head(head: list[str], name: str) -> None:
    lacking = [key for key in ("w", "h", "count") if key not in head]
    unknown = [key for key in head if key not in CSV_KEYS]
    if lacking or unknown or len(set(head)) < len(head):
        got = ", ".join(head) or "nothing"
        what = f"expected a first line that names the entries, such as w, h, count, got {shortened(got)}."
        raise Refused(Problem(what, f"{name}:1", f"Known here: {', '.join(CSV_KEYS)}."))


def _csv_place(name: str, line: int) -> Any:
    return lambda _: f"{name}:{line}"


def _text_of(path: Path) -> str:
    try:
        with open(path, "rb") as file:
            content = file.read(MOST_BYTES + 1)
        if len(content) > MOST_BYTES:
            raise Refused(Problem("expected at most 1 MiB of text, got more.", str(path)))
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        what = "expected UTF-8 text, got bytes that are none."
        raise Refused(Problem(what, str(path), "Save the file as UTF-8 text.")) from error
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise Refused(Problem(f"expected a file to read, got: {reason}.", str(path))) from error


def _checked(fabrics: list[ListedFabric], name: str) -> tuple[ListedFabric, ...]:
    names = [fabric.name for fabric in fabrics]
    for fabric in sorted(set(names)):
        if names.count(fabric) > 1:
            what = f"expected every fabric to have its own name, got {shortened(fabric)} twice."
            raise Refused(Problem(what, name, "Name them apart, or put their pieces together."))
    return tuple(fabrics)
