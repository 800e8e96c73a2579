"""The entries of a cutting list, read into fabrics and items; what is wrong is gathered with its place."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import Any

from piecewright.cutting.listed import Item, ListedFabric, Motif
from piecewright.cutting.spare import NOTHING_SPARE, Spare, read_spare
from piecewright.cutting.wanted import MOST_PIECES, WIDEST_CLOTH, Supply
from piecewright.measure.length import ZERO, Length, Unit, inches
from piecewright.measure.number import shortened
from piecewright.measure.reading import in_range, read_length
from piecewright.measure.showing import figure
from piecewright.problems import Problem
from piecewright.toml_places import did_you_mean
from piecewright.workroom.workroom import default_workroom

Place = Callable[[str], str]

LONGEST = inches(3600)
SMALLEST = inches("1/8")
ITEM_KEYS = ("w", "h", "count", "may_turn", "lengthwise", "name")
BOLT_KEYS = ("width", "selvedge", "shrinkage", "shrinkage_across", "straightening", "buying_step")
WISH_KEYS = ("ruler_length", "squaring", "spare_strips", "spare", "one_way", "repeat_across", "repeat_along")
FABRIC_KEYS = (*BOLT_KEYS, *WISH_KEYS)
_YES, _NO = ("yes", "true", "1", "y"), ("no", "false", "0", "n", "")


class Entries:
    """Reads entries in one unit; every problem found is kept in `problems`."""

    def __init__(self, unit: Unit) -> None:
        self.unit, self.problems = unit, list[Problem]()

    def wrong(self, what: str, where: str, do: str = "") -> None:
        """Takes note of a problem."""
        self.problems.append(Problem(what if what.endswith(".") else f"{what}.", where, do))

    def known(self, entry: Mapping[str, Any], keys: tuple[str, ...], place: Place) -> None:
        """Every key that is none of these is a problem."""
        for key in entry:
            if key not in keys:
                self.wrong(f"{shortened(key)} is not read here", place(key), did_you_mean(key, keys))

    def item(self, entry: Mapping[str, Any], place: Place) -> Item | None:
        """The item of an entry; None where something in it is wrong."""
        before = len(self.problems)
        for key in ("w", "h", "count"):
            if key not in entry:
                told = {"w": "a width", "h": "a height", "count": "a count"}[key]
                self.wrong(f"expected {told} for every piece, got none", place(""), f"Write {key} = ...")
        width = self.length(entry, "w", ZERO, place, SMALLEST, LONGEST)
        height = self.length(entry, "h", ZERO, place, SMALLEST, LONGEST)
        count = self._count(entry.get("count", 1), "count", 1, place)
        name = str(entry.get("name") or f"{figure(width, self.unit)} x {figure(height, self.unit)}").strip()
        may_turn = self.yes(entry, "may_turn", True, place)
        lengthwise = self.yes(entry, "lengthwise", False, place)
        if len(self.problems) > before:
            return None
        return Item(name, width, height, count, may_turn, lengthwise)

    def fabric(
        self, name: str, entry: Mapping[str, Any], items: tuple[Item, ...], place: Place
    ) -> ListedFabric:
        """The fabric of an entry, with what the workroom's usual cloth says where the entry is silent."""
        usual = default_workroom(self.unit)
        supply = Supply(
            key=name,
            usable_width=self.width(entry, "width", place),
            buying_step=self.length(entry, "buying_step", usual.buying_step, place, SMALLEST),
            straightening=self.length(entry, "straightening", ZERO, place),
            shrinkage=self.share(entry, "shrinkage", place),
            spare_strips=self._count(entry.get("spare_strips", 0), "spare_strips", 0, place),
            ruler_length=self.length(entry, "ruler_length", usual.ruler_length, place, inches(1)),
            unit=self.unit,
            squaring=self.length(entry, "squaring", ZERO, place),
        )
        across = self.length(entry, "repeat_across", ZERO, place)
        return ListedFabric(
            name=name,
            items=_named_apart(items),
            supply=supply,
            selvedge=self.length(entry, "selvedge", ZERO, place),
            shrinkage_across=self.share(entry, "shrinkage_across", place),
            one_way=self.yes(entry, "one_way", False, place),
            motif=Motif(across, self.length(entry, "repeat_along", ZERO, place)),
            spare=self._spare(entry, place),
        )

    def width(self, entry: Mapping[str, Any], key: str, place: Place) -> Length:
        """The usable width under a key, or the usual one."""
        usual = default_workroom(self.unit).usable_width
        return self.length(entry, key, usual, place, SMALLEST, WIDEST_CLOTH)

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

    def share(self, entry: Mapping[str, Any], key: str, place: Place) -> float:
        """A share from 0 to less than 1, such as shrinkage."""
        value = entry.get(key, 0.0)
        if isinstance(value, bool) or not isinstance(value, int | float) or not 0 <= value < 1:
            what = f"expected {key} as a share from 0 to less than 1, got {shortened(value)}"
            self.wrong(what, place(key), "Write 3 per cent as 0.03.")
            return 0.0
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

    def _count(self, value: Any, key: str, least: int, place: Place) -> int:
        if isinstance(value, str) and re.fullmatch(r"\s*[+-]?\d{1,30}\s*", value):
            value = int(value)
        if isinstance(value, float) and value.is_integer():
            value = int(value)
        if isinstance(value, bool) or not isinstance(value, int) or not least <= value <= MOST_PIECES:
            what = f"expected {key} to be a whole number from {least} to {MOST_PIECES:,}"
            self.wrong(f"{what}, got {shortened(value)}", place(key))
            return least
        return value

    def _spare(self, entry: Mapping[str, Any], place: Place) -> Spare:
        try:
            return read_spare(str(entry["spare"]), self.unit) if "spare" in entry else NOTHING_SPARE
        except ValueError as error:
            self.wrong(str(error), place("spare"))
            return NOTHING_SPARE


def _named_apart(items: tuple[Item, ...]) -> tuple[Item, ...]:
    """Items of the same name are numbered from the second on."""
    seen: dict[str, int] = {}
    named = []
    for item in items:
        seen[item.name] = number = seen.get(item.name, 0) + 1
        name = item.name if number == 1 else f"{item.name} ({number})"
        named.append(Item(name, item.width, item.height, item.count, item.may_turn, item.lengthwise))
    return tuple(named)
