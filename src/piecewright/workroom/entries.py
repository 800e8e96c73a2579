"""Every line of a workroom file: read, and checked by itself and with the others."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import msgspec

from piecewright.measure.length import Length, Unit
from piecewright.measure.number import decimal, shortened
from piecewright.measure.reading import in_range, read_length
from piecewright.problems import Problem
from piecewright.toml_places import TomlFile, did_you_mean
from piecewright.workroom.settings import (
    PACE,
    ROUNDINGS,
    SETTINGS,
    ChoiceSetting,
    LengthSetting,
    NumberSetting,
    Setting,
    SpareSetting,
)
from piecewright.workroom.spare import read_spare
from piecewright.workroom.wishes import wishes_from
from piecewright.workroom.workroom import NONE_SPARE, Workroom, default_workroom


def workroom_from(file: TomlFile, ways: Sequence[str] = ()) -> tuple[Workroom, list[Problem]]:
    """The workroom that a file says, and all that is wrong in the file, each with its line.

    What the file does not say, or says wrongly, is as in the default workroom of its unit. Where `ways`
    names the known ways of making units, others are a problem.
    """
    reading = _Reading(file, ways)
    unit = reading.unit()
    said = reading.table((), file.data, SETTINGS, unit)
    usual = default_workroom(unit)
    pace = msgspec.structs.replace(usual.pace, **reading.pace(unit))
    workroom = msgspec.structs.replace(usual, pace=pace, **said)
    problems = [*reading.problems, *_at_odds(workroom, file)]
    return workroom, sorted(problems, key=lambda problem: int(problem.where.rpartition(":")[2]))


def setting_text(length: Length, unit: Unit) -> str:
    """A length as the workroom file has it, exact and with its unit: `15/64 in`, `7 mm`."""
    millimetres = decimal(length.in_mm, 3) if unit == "cm" else None
    return length.text() if millimetres is None else f"{millimetres} mm"


class _Reading:
    """Goes through a file and gathers what it says and what is wrong."""

    def __init__(self, file: TomlFile, ways: Sequence[str]) -> None:
        self.file = file
        self.ways = ways
        self.problems: list[Problem] = []

    def wrong(self, sentence: str, *path: str | int) -> None:
        """Notes a problem; what is behind a semicolon says what to do."""
        what, _, remedy = sentence.partition("; ")
        do = (
            f"{remedy[:1].upper()}{remedy[1:].rstrip('.?')}{'?' if remedy.endswith('?') else '.'}"
            if remedy
            else ""
        )
        self.problems.append(Problem(f"{what}.", self.file.where(*path), do))

    def unit(self) -> Unit:
        said = self.file.data.get("unit", "in")
        if said == "in" or said == "cm":
            return "cm" if said == "cm" else "in"
        self.wrong(f'expected unit = "in" or unit = "cm", got {shortened(said)}', "unit")
        return "in"

    def pace(self, unit: Unit) -> dict[str, Any]:
        said = self.file.data.get("pace", {})
        if isinstance(said, dict):
            return self.table(("pace",), said, PACE, unit)
        self.wrong("expected pace to be a table; write [pace] on a line of its own", "pace")
        return {}

    def table(
        self, path: tuple[str, ...], data: Mapping[str, Any], rows: Mapping[str, Setting], unit: Unit
    ) -> dict[str, Any]:
        """The settings of one table by key; only those that are right."""
        said: dict[str, Any] = {}
        elsewhere = () if path else ("unit", "pace")
        for key, value in data.items():
            if key in rows:
                try:
                    said[key] = self.value(key, value, rows[key], unit)
                except ValueError as error:
                    self.wrong(str(error), *path, key)
            elif key not in elsewhere:
                known = [*elsewhere, *rows]
                self.wrong(f"{shortened(key)} is no setting; {did_you_mean(key, known)}", *path, key)
        return said

    def value(self, key: str, value: Any, setting: Setting, unit: Unit) -> Any:
        if isinstance(setting, LengthSetting):
            return _length(key, value, setting, unit)
        if isinstance(setting, NumberSetting):
            return _number(key, value, setting)
        if isinstance(setting, ChoiceSetting):
            return _choice(key, value, setting)
        if isinstance(setting, SpareSetting):
            return _spare(value, unit)
        return self.words(key, value)

    def words(self, key: str, value: Any) -> tuple[str, ...]:
        if not isinstance(value, list) or not all(isinstance(word, str) for word in value):
            raise ValueError(
                f'expected {key} to be a list of names, got {shortened(value)}; write ["a", "b"]'
            )
        if key == "wishes":
            return self.wishes(value)
        for i, word in enumerate(value):
            if self.ways and word not in self.ways:
                self.wrong(
                    f"{shortened(word)} is no way of making units; {did_you_mean(word, self.ways)}", key, i
                )
        return tuple(value)

    def wishes(self, value: list[str]) -> tuple[str, ...]:
        for i, word in enumerate(value):
            try:
                wishes_from([word])
            except ValueError as error:
                self.wrong(str(error), "wishes", i)
        return tuple(value)


def _length(key: str, value: Any, setting: LengthSetting, unit: Unit) -> Length:
    try:
        length = read_length(value, unit)
    except ValueError as error:
        raise ValueError(f"{key}: {error}") from error
    in_range(length, *setting.bounds(unit), key, unit)
    if key == "rounding" and length not in ROUNDINGS[unit]:
        known = ", ".join(setting_text(mark, unit) for mark in ROUNDINGS[unit])
        got = setting_text(length, unit)
        raise ValueError(f"expected rounding to be one of {known}, got {got}; take a step of your own ruler")
    return length


def _number(key: str, value: Any, setting: NumberSetting) -> float:
    kinds = int if setting.whole else (int, float)
    if isinstance(value, bool) or not isinstance(value, kinds) or not setting.least <= value <= setting.most:
        kind = "a whole number" if setting.whole else "a number"
        bounds = f"{kind} from {setting.least:g} to {setting.most:g}"
        raise ValueError(f"expected {key} to be {bounds}, got {shortened(value)}; it means {setting.says}")
    return value if setting.whole else float(value)


def _choice(key: str, value: Any, setting: ChoiceSetting) -> str:
    if value not in setting.words or not isinstance(value, str):
        known = " or ".join(f'{key} = "{word}"' for word in setting.words)
        raise ValueError(f"expected {known}, got {shortened(value)}")
    return value


def _spare(value: Any, unit: Unit) -> str:
    """What to spare, as it was typed, with the unit of a bare length written out."""
    if not isinstance(value, str):
        raise ValueError(
            f'expected something to spare such as "5 %", got {shortened(value)}; put it in quotes'
        )
    if value.strip().lower() in ("", NONE_SPARE):
        return NONE_SPARE
    spare = read_spare(value, unit)
    return setting_text(spare.length, unit) if spare.length else value.strip()


def _at_odds(workroom: Workroom, file: TomlFile) -> list[Problem]:
    """Settings that are fine one by one, but not together."""
    found = []
    unit = workroom.unit
    if workroom.ease > workroom.trim:
        ease, trim = setting_text(workroom.ease, unit), setting_text(workroom.trim, unit)
        what = f"expected ease to be at most trim, got ease {ease} and trim {trim}."
        found.append(Problem(what, file.where("ease"), "Make ease smaller, or trim larger."))
    for way in sorted(set(workroom.liked) & set(workroom.refused)):
        what = f"expected a way to be liked or refused, got {way!r} in both lists."
        found.append(Problem(what, file.where("refused"), "Take it out of one of them."))
    return found
