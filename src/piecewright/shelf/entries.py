"""Every line of a shelf file: read, and checked by itself; all that is wrong at once, each with its line."""

from __future__ import annotations

import datetime
from fractions import Fraction
from typing import Any

from piecewright.cutting.wanted import WIDEST_CLOTH
from piecewright.measure.length import Length, Unit, inches
from piecewright.measure.number import read_number, shortened
from piecewright.measure.reading import in_range, read_length
from piecewright.problems import Problem
from piecewright.shelf.shelf import Shelf, ShelfCloth
from piecewright.toml_places import TomlFile, did_you_mean

CLOTH_KEYS = ("fabric", "width", "length", "height", "count", "note", "price", "bought")
LEAST, MOST = inches("1/4"), inches(3600)
MOST_PIECES = 100_000
MOST_SIGNS = 200


def shelf_from(file: TomlFile) -> tuple[Shelf, list[Problem]]:
    """The shelf that a file says, as far as it is right, and all that is wrong in it."""
    reading = _Reading(file)
    shelf = reading.shelf()
    return shelf, sorted(reading.problems, key=lambda problem: int(problem.where.rpartition(":")[2]))


class _Reading:
    """Goes through a file and gathers what it says and what is wrong."""

    def __init__(self, file: TomlFile) -> None:
        self.file = file
        self.problems: list[Problem] = []

    def wrong(self, what: str, do: str, *path: str | int) -> None:
        self.problems.append(Problem(f"{what}.", self.file.where(*path), do))

    def shelf(self) -> Shelf:
        unit = self.unit()
        rows = self.file.data.get("cloth", [])
        if not isinstance(rows, list) or not all(isinstance(row, dict) for row in rows):
            self.wrong("expected cloth as tables", "Write [[cloth]] on a line of its own.", "cloth")
            rows = []
        entries = [self.entry(number, row, unit) for number, row in enumerate(rows)]
        return Shelf(unit, tuple(entry for entry in entries if entry is not None))

    def unit(self) -> Unit:
        said = self.file.data.get("unit", "in")
        for key in self.file.data:
            if key not in ("unit", "cloth"):
                self.wrong(f"{shortened(key)} is not read here", did_you_mean(key, ("unit", "cloth")), key)
        if said == "in" or said == "cm":
            return "cm" if said == "cm" else "in"
        self.wrong(f'expected unit = "in" or unit = "cm", got {shortened(said)}', "", "unit")
        return "in"

    def entry(self, number: int, row: dict[str, Any], unit: Unit) -> ShelfCloth | None:
        before = len(self.problems)
        for key in row:
            if key not in CLOTH_KEYS:
                help_ = did_you_mean(key, CLOTH_KEYS)
                self.wrong(f"{shortened(key)} is not read here", help_, "cloth", number, key)
        if "length" in row and "height" in row:
            self.wrong("expected length or height, got both", "Leave one out.", "cloth", number, "height")
        along = "height" if "height" in row and "length" not in row else "length"
        fabric = self.text(number, row, "fabric", needed=True)
        width = self.side(number, row, "width", unit)
        length = self.side(number, row, along, unit)
        count = self.count(number, row)
        note, bought = self.text(number, row, "note"), self.day(number, row)
        price = self.price(number, row)
        if len(self.problems) > before or width is None or length is None:
            return None
        return ShelfCloth(fabric, width, length, count, note, price, bought)

    def text(self, number: int, row: dict[str, Any], key: str, needed: bool = False) -> str:
        value = row.get(key, "")
        if key not in row and needed:
            self.wrong(f"expected a {key} for the cloth, got none", f"Write {key} = ...", "cloth", number)
        elif not isinstance(value, str) or len(value) > MOST_SIGNS or (needed and not value.strip()):
            what = f"expected {key} to be a text of up to {MOST_SIGNS} signs, got {shortened(value)}"
            self.wrong(what, "", "cloth", number, key)
        return value.strip() if isinstance(value, str) else ""

    def side(self, number: int, row: dict[str, Any], key: str, unit: Unit) -> Length | None:
        if key not in row:
            told = "what can be used from selvedge to selvedge" if key == "width" else "along the selvedge"
            do = f"Write {key} = ..., {told}."
            self.wrong(f"expected a {key} for the cloth, got none", do, "cloth", number)
            return None
        try:
            most = WIDEST_CLOTH if key == "width" else MOST
            return in_range(read_length(row[key], unit), LEAST, most, key, unit)
        except ValueError as error:
            self.wrong(str(error), "", "cloth", number, key)
            return None

    def count(self, number: int, row: dict[str, Any]) -> int:
        value = row.get("count", 1)
        if isinstance(value, bool) or not isinstance(value, int) or not 1 <= value <= MOST_PIECES:
            what = f"expected count to be a whole number from 1 to {MOST_PIECES:,}, got {shortened(value)}"
            self.wrong(what, "Leave out what is not there any more.", "cloth", number, "count")
            return 1
        return value

    def day(self, number: int, row: dict[str, Any]) -> str:
        value = row.get("bought", "")
        if isinstance(value, datetime.date | datetime.datetime):
            return value.isoformat()
        return self.text(number, row, "bought")

    def price(self, number: int, row: dict[str, Any]) -> Fraction | None:
        value = row.get("price")
        if value is None:
            return None
        try:
            if isinstance(value, bool) or not isinstance(value, str | int | float):
                raise ValueError
            price = read_number(str(value))
            if not 0 <= price <= 1_000_000:
                raise ValueError
        except ValueError:
            what = f"expected price to be an amount such as 3.50, got {shortened(value)}"
            self.wrong(what, "Write the number alone.", "cloth", number, "price")
            return None
        return price
