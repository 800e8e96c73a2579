"""A file of strip tests: a `[[test]]` for each, so that the spread over several is kept.

```toml
unit = "in"

[[test]]
strips = 7
cut = "1 1/2"
across = "7 1/2"
inner = 5
inner_strips = 5
```
"""

from __future__ import annotations

import os
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import tomlkit
from tomlkit.items import AoT

from piecewright.measure.length import Length, Unit
from piecewright.measure.number import shortened
from piecewright.measure.reading import read_length
from piecewright.problems import Problem, Refused
from piecewright.toml_places import TomlFile, did_you_mean, read_toml
from piecewright.workroom.entries import setting_text
from piecewright.workroom.strip_checks import FIGURES, strip_problems
from piecewright.workroom.strip_sums import StripTest
from piecewright.workroom.workroom import Workroom

COUNTS, WANTED = ("strips", "inner_strips"), ("strips", "cut", "across", "inner")


@dataclass(frozen=True)
class StripFile:
    """The tests of a file, in its order, and the unit that it counts in."""

    unit: Unit
    tests: tuple[StripTest, ...]


def read_strip_tests(path: str | Path, workroom: Workroom) -> StripFile:
    """The tests of a file; raises Refused with all that is wrong in it, each with its line.

    That includes every test that cannot be right, with the line of the figure that looks wrong.
    """
    file = read_toml(path)
    reading = _Reading(file, workroom)
    unit, tests = reading.unit(), reading.tests()
    if reading.problems:
        raise Refused(*reading.problems)
    return StripFile(unit, tests)


def add_strip_test(path: str | Path, test: StripTest, unit: Unit) -> None:
    """Writes one more test behind those of a file, or a new file; what is there is kept as it is."""
    path = Path(path)
    document = tomlkit.parse(path.read_text("utf-8-sig")) if path.exists() else _new_document(unit)
    table = tomlkit.table()
    for figure in FIGURES_IN_ORDER:
        value = getattr(test, figure)
        if value is not None and not (figure == "inner_strips" and value == 1):
            table.add(figure, setting_text(value, unit) if isinstance(value, Length) else value)
    rows = document.setdefault("test", tomlkit.aot())
    assert isinstance(rows, AoT)
    rows.append(table)
    half_done = path.with_name(f"{path.name}.new")
    half_done.write_text(tomlkit.dumps(document), "utf-8")
    os.replace(half_done, path)


FIGURES_IN_ORDER = ("strips", "cut", "measured", "across", "inner", "inner_strips", "needle")


def _new_document(unit: Unit) -> tomlkit.TOMLDocument:
    document = tomlkit.document()
    document.add(tomlkit.comment("Strip tests: equal strips sewn side by side, pressed and measured."))
    document.add("unit", tomlkit.item(unit))
    document.add(tomlkit.nl())
    return document


class _Reading:
    """Goes through a file and gathers what it says and what is wrong."""

    def __init__(self, file: TomlFile, workroom: Workroom) -> None:
        self.file, self.workroom = file, workroom
        self.problems: list[Problem] = []

    def wrong(self, what: str, do: str, *path: str | int) -> None:
        self.problems.append(Problem(f"{what}.", self.file.where(*path), do))

    def unit(self) -> Unit:
        said = self.file.data.get("unit", self.workroom.unit)
        for key in self.file.data:
            if key not in ("unit", "test"):
                self.wrong(f"{shortened(key)} is not read here", did_you_mean(key, ("unit", "test")), key)
        if said == "in" or said == "cm":
            return "cm" if said == "cm" else "in"
        self.wrong(f'expected unit = "in" or unit = "cm", got {shortened(said)}', "", "unit")
        return "in"

    def tests(self) -> tuple[StripTest, ...]:
        rows = self.file.data.get("test", [])
        if not isinstance(rows, list) or not all(isinstance(row, dict) for row in rows):
            self.wrong("expected tests as tables", "Write [[test]] on a line of its own.", "test")
            return ()
        if not rows:
            self.wrong("expected at least one test, got none", "Write [[test]] and its figures.", "test")
        unit: Unit = "cm" if self.file.data.get("unit", self.workroom.unit) == "cm" else "in"
        found = [self.test(number, row, unit) for number, row in enumerate(rows)]
        return tuple(test for test in found if test is not None)

    def test(self, number: int, row: dict[str, Any], unit: Unit) -> StripTest | None:
        said: dict[str, Any] = {}
        before = len(self.problems)
        for key, value in row.items():
            if key not in FIGURES_IN_ORDER:
                help_ = did_you_mean(key, FIGURES_IN_ORDER)
                self.wrong(f"{shortened(key)} is no figure of a strip test", help_, "test", number, key)
                continue
            try:
                said[key] = _count(key, value) if key in COUNTS else read_length(value, unit)
            except ValueError as error:
                self.wrong(str(error), "", "test", number, key)
        for key in WANTED:
            if key not in row:
                self.wrong(f"expected {FIGURES[key]}, got none", f"Write {key} = ...", "test", number)
        if len(self.problems) > before:
            return None
        test = StripTest(**said)
        self.problems += [
            replace(problem, where=self.file.where("test", number, problem.where))
            for problem in strip_problems(test, self.workroom)
        ]
        return test


def _count(key: str, value: Any) -> int:
    if isinstance(value, bool) or not isinstance(value, int):
        raise ValueError(f"expected {FIGURES[key]} to be a whole number, got {shortened(value)}")
    return value
