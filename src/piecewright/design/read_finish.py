"""How a design file finishes the quilt: binding, backing, batting; and the methods that the maker pins."""

from __future__ import annotations

from collections.abc import Mapping

from piecewright.design.entries import BackingEntry, BattingEntry, BindingEntry
from piecewright.design.kinds import KINDS
from piecewright.design.model import Backing, Batting, Binding, Block, Choice
from piecewright.design.reader import Bounds, Reader
from piecewright.measure.length import ZERO, Length, inches, mm
from piecewright.measure.number import shortened
from piecewright.toml_places import did_you_mean

_BINDING: Bounds = {"in": (inches(1), inches(8)), "cm": (mm(25), mm(200))}
_MARGIN: Bounds = {"in": (ZERO, inches(40)), "cm": (ZERO, mm(1000))}


def read_binding(reader: Reader, entry: BindingEntry) -> Binding | None:
    """The binding; its strips are cut 2 1/2 in or 6.5 cm wide where the file does not say."""
    reader.role(("binding", "role"), entry.role)
    width: Length | None = inches("2 1/2") if reader.unit == "in" else mm(65)
    if entry.width is not None:
        path = ("binding", "width")
        width = reader.length(path, entry.width, "binding strips", _BINDING)
    return None if width is None else Binding(entry.role, width)


def read_backing(reader: Reader, entry: BackingEntry) -> Backing:
    """The backing."""
    if entry.role is not None:
        reader.role(("backing", "role"), entry.role)
    return Backing(entry.role, _margin(reader, "backing", entry.margin))


def read_batting(reader: Reader, entry: BattingEntry) -> Batting:
    """The batting."""
    return Batting(_margin(reader, "batting", entry.margin))


def _margin(reader: Reader, section: str, written: str | int | float | None) -> Length:
    """The margin on each side: 4 in or 10 cm where the file does not say."""
    usual = inches(4) if reader.unit == "in" else mm(100)
    if written is None:
        return usual
    margin = reader.length((section, "margin"), written, "a margin", _MARGIN)
    return usual if margin is None else margin


def read_choices(
    reader: Reader, entries: Mapping[str, str | Mapping[str, str]], blocks: Mapping[str, Block]
) -> tuple[Choice, ...]:
    """The pinned methods; whether a method of that name exists is for the planning to say."""
    kinds = list(KINDS)
    choices = []
    for key, entry in entries.items():
        if isinstance(entry, str):
            if key not in kinds:
                reader.add(
                    ("choices", key), f"unknown kind of unit {shortened(key)}.", did_you_mean(key, kinds)
                )
            choices.append(Choice(key, entry))
            continue
        if key not in blocks and key not in reader.spoiled:
            reader.add(("choices", key), f"unknown block {shortened(key)}.", did_you_mean(key, blocks))
        for kind, way in entry.items():
            if kind not in kinds:
                what = f"unknown kind of unit {shortened(kind)}."
                reader.add(("choices", key, kind), what, did_you_mean(kind, kinds))
            choices.append(Choice(kind, way, key))
    return tuple(choices)
