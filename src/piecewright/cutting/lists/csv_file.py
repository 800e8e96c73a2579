"""A cutting list as a table: .csv with a row for each size, and the pieces alone."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from pathlib import Path

from piecewright.cutting.lists.entries import Entries, Place
from piecewright.cutting.lists.fabric_entries import CSV_ITEM_KEYS, fabric_from, item_from
from piecewright.cutting.lists.listed import Item, ListedFabric
from piecewright.cutting.shapes.wanted import ShapeDemand
from piecewright.measure.number import shortened
from piecewright.problems import Problem, Refused
from piecewright.toml_places import MOST_BYTES

CSV_KEYS = (*CSV_ITEM_KEYS, "fabric")
_NEEDED = ("w", "h", "count")


def fabrics_from_csv(path: Path, width: str | None, unnamed: str, entries: Entries) -> list[ListedFabric]:
    """The fabrics of a table; `unnamed` is what cloth without a name is called.

    What is wrong in its rows is gathered by `entries`. Raises Refused where it is no such table.
    """
    name, by_fabric = str(path), dict[str, list[Item | ShapeDemand | None]]()
    table = csv.DictReader(io.StringIO(_text_of(path)), strict=True)
    try:
        table.fieldnames = head = _head(table.fieldnames or (), name)
        for row in table:
            place = _place(name, table.line_num)
            if None in row or None in row.values():
                what = f"expected {len(head)} entries in a row, as the first line names them"
                entries.wrong(what, place(""), "Count the commas; a comma inside an entry needs quotes.")
                continue
            said = {key: value for key, value in row.items() if value.strip() or key in _NEEDED}
            said.pop("fabric", None)
            fabric = by_fabric.setdefault(row.get("fabric", "").strip() or unnamed, [])
            fabric.append(item_from(entries, said, place))
    except csv.Error as error:
        raise Refused(Problem(f"expected rows with commas between entries, got: {error}.", name)) from error
    if not by_fabric and not entries.problems:
        entries.wrong("expected pieces to cut, got none", name, "Write a row for each size.")
    cloth = {} if width is None else {"width": width}
    return [
        fabric_from(entries, fabric, cloth, items, lambda key: f"--{key}")
        for fabric, items in by_fabric.items()
    ]


def _head(names: Sequence[str], file: str) -> list[str]:
    head = [str(key).strip().lower() for key in names]
    lacking = [key for key in _NEEDED if key not in head]
    unknown = [key for key in head if key not in CSV_KEYS]
    if lacking or unknown or len(set(head)) < len(head):
        got = ", ".join(head) or "nothing"
        what = f"expected a first line that names the entries, such as w, h, count, got {shortened(got)}."
        raise Refused(Problem(what, f"{file}:1", f"Known here: {', '.join(CSV_KEYS)}."))
    return head


def _place(name: str, line: int) -> Place:
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
