"""What the readers of a file's sections share: its unit, the problems so far, lengths and roles."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import TypeVar

from piecewright.design.grid import Complaint
from piecewright.design.model import Fabric, Role
from piecewright.measure.length import Length, Unit, inches, mm
from piecewright.measure.number import shortened
from piecewright.measure.reading import in_range, read_length, read_size
from piecewright.measure.showing import show
from piecewright.problems import Problem, Weight
from piecewright.toml_places import KeyPath, TomlFile, did_you_mean

# No part of a quilt is larger than this, and no quilt that many hands make together.
LARGEST: dict[Unit, Length] = {"in": inches(400), "cm": mm(10_000)}
LARGEST_QUILT: dict[Unit, Length] = {"in": inches(4_000), "cm": mm(100_000)}

# The least and the greatest length that makes sense, for files in inches and in centimetres.
Bounds = Mapping[Unit, tuple[Length, Length]]

Usual = TypeVar("Usual", Length, None)


def default_mark(unit: Unit) -> Length:
    """The marks on which finished sizes must lie unless someone has a finer ruler: 1/8 in, 1 mm."""
    return inches("1/8") if unit == "in" else mm(1)


@dataclass
class Reader:
    """Reads values of one file and collects what is wrong with them.

    `known` holds the roles that can be used; `spoiled` the keys of roles, fabrics and blocks that are in the
    file but faulty, so that no second problem is made of each use.
    """

    file: TomlFile
    problems: list[Problem]
    unit: Unit
    mark: Length
    fabrics: dict[str, Fabric] = field(default_factory=dict)
    known: dict[str, Role] = field(default_factory=dict)
    spoiled: set[str] = field(default_factory=set)

    def add(self, path: KeyPath, what: str, do: str = "", weight: Weight = "error") -> None:
        """Notes a problem at a place of the file."""
        self.problems.append(Problem(what, self.file.where(*path), do, weight))

    def add_all(self, complaints: Iterable[Complaint]) -> None:
        """Notes problems that know their line."""
        for complaint in complaints:
            self.problems.append(Problem(complaint.what, f"{self.file.name}:{complaint.line}", complaint.do))

    def text(self, path: KeyPath, written: str | None, default: str) -> str:
        """A text that can be printed, on one line."""
        text = " ".join((written or default).split())
        if not text.isprintable():
            what = f"expected a text that can be printed, got {shortened(text)}."
            self.add(path, what, "Leave the odd signs out.")
        return text

    def length(self, path: KeyPath, written: str | int | float, what: str, bounds: Bounds) -> Length | None:
        """A length within the bounds for the file's unit, or None and a problem."""
        try:
            return in_range(read_length(written, self.unit), *bounds[self.unit], what, self.unit)
        except ValueError as error:
            self.add(path, f"{error}.")
            return None

    def length_or(
        self, path: KeyPath, written: str | int | float | None, usual: Usual, what: str, bounds: Bounds
    ) -> Length | Usual:
        """The same where something is written; else, and where that is wrong, what is usual."""
        length = None if written is None else self.length(path, written, what, bounds)
        return usual if length is None else length

    def width(self, path: KeyPath, written: str | int | float, what: str) -> Length | None:
        """A finished width that a ruler shows."""
        sides = {self.unit: (self.mark, LARGEST[self.unit])}
        length = self.length(path, written, what, sides)
        if length is not None and length % self.mark:
            below = self.mark * (length // self.mark)
            near = " or ".join(show(side, self.unit) for side in (below, below + self.mark))
            marks = show(self.mark, self.unit)
            self.add(
                path, f"expected {what} in steps of {marks}, got {shortened(written)}.", f"Write {near}."
            )
            return None
        return length

    def size(self, path: KeyPath, written: str | int | float) -> tuple[Length, Length] | None:
        """A finished width and height."""
        try:
            if isinstance(written, str):
                width, height = read_size(written, self.unit)
            else:
                width = height = read_length(written, self.unit)
            for side in (width, height):
                in_range(side, self.mark, LARGEST[self.unit], "a block", self.unit)
        except ValueError as error:
            self.add(path, f"{error}.")
            return None
        return width, height

    def role_wrong(self, key: str) -> tuple[str, str] | None:
        """What is wrong with a role that something names, and what would be right; None where all is well."""
        if key in self.known or key in self.spoiled or not self.known:
            return None
        roles = [role.key for role in self.known.values() if role.fabric == key]
        if key in self.fabrics and roles:
            return f"{key} is a fabric that goes by the role {' or '.join(roles)} here.", f"Write {roles[0]}."
        return f"unknown role {shortened(key)}.", did_you_mean(
            key, dict.fromkeys([*self.known, *sorted(self.spoiled)])
        )

    def role(self, path: KeyPath, key: str) -> None:
        """Notes a problem where a role that something names does not exist."""
        wrong = self.role_wrong(key)
        if wrong is not None:
            self.add(path, *wrong)


def spoiled_keys(raw: Mapping[str, object], sound: Mapping[str, object], *sections: str) -> set[str]:
    """The keys that a file gives in some sections, but not soundly."""
    keys: set[str] = set()
    for section in sections:
        written, usable = raw.get(section), sound.get(section)
        if isinstance(written, dict):
            keys |= written.keys() - (usable.keys() if isinstance(usable, dict) else set())
    return keys
