"""The workroom file: read with everything that is wrong in it at once, written with its comments kept."""

from __future__ import annotations

import inspect
import os
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

import msgspec
import tomlkit

from piecewright.measure.in_files import typed_length_schema
from piecewright.measure.length import Length, Unit
from piecewright.problems import Problem, Refused
from piecewright.toml_places import read_toml, toml_from_text
from piecewright.workroom.entries import setting_text, workroom_from
from piecewright.workroom.settings import PACE, SETTINGS, Setting
from piecewright.workroom.workroom import Pace, Workroom, default_workroom


def read_workroom(path: str | Path, ways: Sequence[str] = ()) -> tuple[Workroom, list[Problem]]:
    """The workroom that a file says, and all that is wrong in the file, each with its line.

    What the file does not say, or says wrongly, is as in the default workroom of its unit. Where `ways`
    names the known ways of making units, others are a problem. Never raises for what stands in the file.
    """
    try:
        return workroom_from(read_toml(path), ways)
    except Refused as refused:
        return default_workroom("in"), list(refused.problems)


def workroom_schema() -> dict[str, Any]:
    """The JSON Schema of the workroom file, made from the model."""
    schema = msgspec.json.schema(Workroom, schema_hook=typed_length_schema)
    for name, rows in (("Workroom", SETTINGS), ("Pace", PACE)):
        table = schema["$defs"][name]
        table["description"] = inspect.cleandoc(table["description"])
        for key, setting in rows.items():
            table["properties"][key]["description"] = setting.says
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **schema}


def workroom_text(workroom: Workroom, before: str = "") -> str:
    """The file for a workroom: `before` with its comments, changed only where the workroom differs.

    Without `before` it is a new file with every setting and what it means.
    """
    if not before:
        return _new_text(workroom)
    document = tomlkit.parse(before)
    was, _ = workroom_from(toml_from_text(before, ""))
    usual = default_workroom(workroom.unit)
    if workroom.unit != was.unit:
        document["unit"] = workroom.unit
    for key, value in _settings_of(workroom, SETTINGS):
        # A bare number means something else once the unit is another.
        stale = isinstance(value, Length) and workroom.unit != was.unit
        if (value != getattr(was, key) or stale) if key in document else value != getattr(usual, key):
            document[key] = _written(value, workroom.unit)
    for key, value in _settings_of(workroom.pace, PACE):
        if value != getattr(was.pace, key):
            document.setdefault("pace", tomlkit.table())[key] = value
    return tomlkit.dumps(document)


def write_workroom(workroom: Workroom, path: str | Path) -> None:
    """Writes the file in one go; comments and unchanged lines of a file that is there are kept.

    Raises Refused when what is there is no workroom file without mistakes, OSError when none can be written.
    """
    path = Path(path)
    before = ""
    if path.exists():
        _, problems = workroom_from(read_toml(path))
        if problems:
            raise Refused(*problems)
        before = path.read_text("utf-8-sig")
    half_done = path.with_name(f"{path.name}.new")
    half_done.write_text(workroom_text(workroom, before), "utf-8")
    os.replace(half_done, path)


def _new_text(workroom: Workroom) -> str:
    document = tomlkit.document()
    document.add(tomlkit.comment("The workroom: one person's seam, ruler, cloth, likes and pace."))
    document.add(
        tomlkit.comment('Lengths carry their unit ("1/4 in", "7 mm"); bare numbers are in the unit here.')
    )
    document.add("unit", tomlkit.item(workroom.unit))
    for key, value in _settings_of(workroom, SETTINGS):
        document.add(tomlkit.nl())
        document.add(tomlkit.comment(SETTINGS[key].says))
        document.add(key, tomlkit.item(_written(value, workroom.unit)))
    pace = tomlkit.table()
    for key, value in _settings_of(workroom.pace, PACE):
        pace.add(key, tomlkit.item(value).comment(PACE[key].says))
    document.add(tomlkit.nl())
    document.add("pace", pace)
    return tomlkit.dumps(document)


def _settings_of(holder: Workroom | Pace, rows: Mapping[str, Setting]) -> list[tuple[str, Any]]:
    return [(key, getattr(holder, key)) for key in rows]


def _written(value: Any, unit: Unit) -> Any:
    if isinstance(value, Length):
        return setting_text(value, unit)
    return list(value) if isinstance(value, tuple) else value
