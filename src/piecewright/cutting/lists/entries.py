"""Single entries of a cutting list: lengths, shares, counts, prices, names; all that is wrong is gathered.

A *place* is a function from a key to where it stands in the file.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import Any

import msgspec

from piecewright.cutting.wanted import MOST_PIECES
from piecewright.measure.length import MM_PER_INCH, ZERO, Length, Unit, inches
from piecewright.measure.number import read_number, shortened
from piecewright.measure.reading import in_range, read_length
from piecewright.problems import Problem
from piecewright.toml_places import did_you_mean
from piecewright.workroom.workroom import Workroom, default_workroom

Place = Callable[[str], str]

LONGEST = inches(3600)
SMALLEST = inches("1/8")
MOST_PRICE = 1_000_000
MOST_SIGNS = 200
_YES, _NO = ("yes", "true", "1", "y"), ("no", "false", "0", "n", "")
_SOLD_BY = {
    **dict.fromkeys(("yd", "yard"), inches(36)),
    **dict.fromkeys(("m", "metre", "meter"), Length(1000 / MM_PER_INCH)),
}
_PRICE = re.compile(r"(.*?)(?:\s*(?:/|\bper\b|\bfor a\b|\ba\b)\s*(\w+)\s*)?", re.IGNORECASE)


class Entries:
    """Reads entries in one unit; every problem found is kept in `problems`.

    Where the list is silent the `room` says what is usual; without a workroom of one's own, the bare figures:
    nothing for straightening, no spare strip.
    """

    def __init__(self, unit: Unit, room: Workroom | None = None) -> None:
        self.unit, self.problems = unit, list[Problem]()
        bare = msgspec.structs.replace(default_workroom(unit), straightening=ZERO, spare_strips=0)
        self.room = room or bare

    def wrong(self, what: str, where: str, do: str = "") -> None:
        """Takes note of a problem, once."""
        problem = Problem(what if what.endswith(".") else f"{what}.", where, do)
        if problem not in self.problems:
            self.problems.append(problem)

    def known(self, entry: Mapping[str, Any], keys: tuple[str, ...], place: Place) -> None:
        """Every key that is none of these is a problem."""
        for key in entry:
            if key not in keys:
                self.wrong(f"{shortened(key)} is not read here", place(key), did_you_mean(key, keys))

    def length(
        self,
        entry: Mapping[str, Any],
        key: str,
        usual: Length,
        place: Place,
        least: Length = ZERO,
        most: Length = LONGEST,
    ) -> Length:
        """The length under a key, from the least to the most, or the usual one."""
        if key not in entry:
            return usual
        try:
            return in_range(read_length(entry[key], self.unit), least, most, key, self.unit)
        except ValueError as error:
            self.wrong(str(error), place(key))
            return usual

    def share(self, entry: Mapping[str, Any], key: str, usual: float, place: Place) -> float:
        """A share from 0 to less than 1, such as shrinkage; 3 per cent may be written "3 %" too."""
        value = entry.get(key, usual)
        if isinstance(value, str):
            try:
                found = re.fullmatch(r"(.*?)\s*(?:%|per cent)", value.strip())
                value = float(read_number(found[1]) / 100) if found else float(read_number(value))
            except ValueError:
                value = entry[key]
        if isinstance(value, bool) or not isinstance(value, int | float) or not 0 <= value < 1:
            what = f"expected {key} as a share from 0 to less than 1, got {shortened(value)}"
            self.wrong(what, place(key), 'Write 3 per cent as 0.03 or "3 %".')
            return usual
        return float(value)

    def yes(self, entry: Mapping[str, Any], key: str, usual: bool, place: Place) -> bool:
        """Yes or no: true or false in a .toml file, words in a .csv."""
        value = entry.get(key, usual)
        plain = str(value).strip().lower()
        if isinstance(value, bool):
            return value
        if isinstance(value, str) and plain == "":
            return usual
        if plain not in (*_YES, *_NO):
            self.wrong(f"expected {key} to be yes or no, got {shortened(value)}", place(key))
        return plain in _YES

    def count(
        self,
        entry: Mapping[str, Any],
        key: str,
        usual: int,
        place: Place,
        least: int,
        most: int = MOST_PIECES,
    ) -> int:
        """The whole number under a key, from the least to the most, or the usual one."""
        value = entry.get(key, usual)
        if isinstance(value, str) and re.fullmatch(r"\s*[+-]?\d{1,30}\s*", value):
            value = int(value)
        if isinstance(value, float) and value.is_integer():
            value = int(value)
        if isinstance(value, bool) or not isinstance(value, int) or not least <= value <= most:
            what = f"expected {key} to be a whole number from {least} to {most:,}"
            self.wrong(f"{what}, got {shortened(value)}", place(key))
            return max(usual, least)
        return value

    def text(self, entry: Mapping[str, Any], key: str, usual: str, place: Place) -> str:
        """The text under a key, such as a name; without it, or where it is blank, the usual one."""
        value = entry.get(key, usual)
        if not isinstance(value, str) or len(value) > MOST_SIGNS:
            what = f"expected {key} to be a text of up to {MOST_SIGNS} signs, got {shortened(value)}"
            self.wrong(what, place(key))
            return usual
        return value.strip() or usual

    def names(self, entry: Mapping[str, Any], key: str, place: Place) -> tuple[str, ...]:
        """The names under a key; one may stand without brackets."""
        value = entry.get(key, [])
        rows = [value] if isinstance(value, str) else value
        if not isinstance(rows, list) or not all(isinstance(row, str) and row.strip() for row in rows):
            self.wrong(f'expected {key} as names such as ["sail", "net"], got {shortened(value)}', place(key))
            return ()
        return tuple(dict.fromkeys(row.strip() for row in rows))

    def price(self, entry: Mapping[str, Any], place: Place) -> Fraction | None:
        """What one costs, if it is said."""
        return self._price(entry, place, "12.50", {"": ZERO})[0] if "price" in entry else None

    def price_of_length(self, entry: Mapping[str, Any], length: Length, place: Place) -> Fraction | None:
        """What so much cloth costs, from the price of a yard or a metre, if it is said.

        A bare number is for a yard where the list is in inches, for a metre in centimetres.
        """
        if "price" not in entry:
            return None
        usual = _SOLD_BY["yd" if self.unit == "in" else "m"]
        price, sold_by = self._price(entry, place, "12.50 a yard or 14 / m", {"": usual, **_SOLD_BY})
        return None if price is None else price * length.exact / sold_by.exact

    def _price(
        self, entry: Mapping[str, Any], place: Place, such: str, words: Mapping[str, Length]
    ) -> tuple[Fraction | None, Length]:
        value = entry["price"]
        found = _PRICE.fullmatch(str(value).strip())
        try:
            if isinstance(value, bool) or not isinstance(value, str | int | float) or found is None:
                raise ValueError
            price, word = read_number(found[1]), (found[2] or "").lower().rstrip("s")
            if not 0 < price <= MOST_PRICE or word not in words:
                raise ValueError
        except ValueError:
            what = f"expected price to be an amount above 0 such as {such}, got {shortened(value)}"
            self.wrong(what, place("price"))
            return None, ZERO
        return price, words[word]
