"""The shelf file: read, and written with its comments kept; the version before is kept beside it.

```toml
unit = "in"

[[cloth]]
fabric = "net"
width = "20 1/2"
length = "17 1/2"
count = 6
```
"""

from __future__ import annotations

import os
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

import tomlkit
from tomlkit.items import AoT, Table

from piecewright.measure.length import Unit
from piecewright.measure.number import decimal, mixed
from piecewright.problems import Refused
from piecewright.shelf.entries import shelf_from
from piecewright.shelf.shelf import Shelf, ShelfCloth
from piecewright.toml_places import read_toml, toml_from_text
from piecewright.workroom.entries import setting_text

BEFORE = ".before"


def read_shelf(path: str | Path) -> Shelf:
    """The shelf in a file; raises Refused with all that is wrong in it, each with its line."""
    shelf, problems = shelf_from(read_toml(path))
    if problems:
        raise Refused(*problems)
    return shelf


def shelf_text(shelf: Shelf, before: str = "") -> str:
    """The file for a shelf: `before` with its comments, changed only where the shelf differs.

    `before` is a shelf file without mistakes, in the unit of the shelf; without it the file is new.
    """
    document = tomlkit.parse(before) if before else _new_document(shelf.unit)
    was, _ = shelf_from(toml_from_text(before, ""))
    rows = document.setdefault("cloth", tomlkit.aot())
    assert isinstance(rows, AoT)
    still, new = _matched(was.cloth, shelf.cloth)
    for number in range(len(was.cloth) - 1, -1, -1):
        if number not in still:
            del rows[number]
        elif still[number] != was.cloth[number].count:
            rows[number]["count"] = still[number]
    for entry in new:
        table = _table(entry, shelf.unit)
        table.trivia.indent = "\n" if rows else ""
        rows.append(table)
    if not rows:
        document.pop("cloth")
    return tomlkit.dumps(document)


def write_shelf(shelf: Shelf, path: str | Path) -> None:
    """Writes the file in one go; the version before is kept beside it, with `.before` behind its name.

    Raises Refused when what is there is no shelf file without mistakes, OSError when none can be written.
    """
    path = Path(path)
    before = ""
    if path.exists():
        read_shelf(path)
        before = path.read_text("utf-8-sig")
    text = shelf_text(shelf, before)
    if path.exists():
        _in_one_go(path.with_name(f"{path.name}{BEFORE}"), path.read_bytes())
    _in_one_go(path, text.encode())


def _in_one_go(path: Path, content: bytes) -> None:
    half_done = path.with_name(f"{path.name}.new")
    half_done.write_bytes(content)
    os.replace(half_done, path)


def _matched(was: Sequence[ShelfCloth], now: Sequence[ShelfCloth]) -> tuple[dict[int, int], list[ShelfCloth]]:
    """Which entries of before are still there, with their counts, and those that are new."""
    still: dict[int, int] = {}
    new = []
    for entry in now:
        same = [
            number
            for number, old in enumerate(was)
            if number not in still and replace(old, count=entry.count) == entry
        ]
        if same:
            still[same[0]] = entry.count
        else:
            new.append(entry)
    return still, new


def _new_document(unit: Unit) -> tomlkit.TOMLDocument:
    document = tomlkit.document()
    document.add(tomlkit.comment("The shelf: cloth on hand, at the size that can be used."))
    document.add(tomlkit.comment("width runs from selvedge to selvedge, length along the selvedge."))
    document.add("unit", tomlkit.item(unit))
    document.add(tomlkit.nl())
    return document


def _table(entry: ShelfCloth, unit: Unit) -> Table:
    table = tomlkit.table()
    table.add("fabric", entry.fabric)
    table.add("width", setting_text(entry.width, unit))
    table.add("length", setting_text(entry.length, unit))
    table.add("count", entry.count)
    for key, value in (("note", entry.note), ("price", _price(entry)), ("bought", entry.bought)):
        if value != "":
            table.add(key, value)
    return table


def _price(entry: ShelfCloth) -> Any:
    if entry.price is None:
        return ""
    plain = decimal(entry.price, 6)
    return mixed(entry.price) if plain is None else (float(plain) if "." in plain else int(plain))
