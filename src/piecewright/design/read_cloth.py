"""The fabrics and roles of a design file."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from piecewright.design.colour import hex_colour
from piecewright.design.entries import FabricEntry, RoleEntry
from piecewright.design.model import Fabric, Role
from piecewright.design.reader import Bounds, Reader
from piecewright.measure.length import ZERO, Length, inches, mm
from piecewright.measure.number import read_number, shortened
from piecewright.toml_places import KeyPath, did_you_mean

_WIDTH: Bounds = {"in": (inches(4), inches(130)), "cm": (mm(100), mm(3300))}
_REPEAT: Bounds = {"in": (inches("1/2"), inches(60)), "cm": (mm(10), mm(1500))}
_SELVEDGE: Bounds = {"in": (ZERO, inches("1 1/2")), "cm": (ZERO, mm(40))}
_BUYING_STEP: Bounds = {"in": (inches("1/4"), inches(40)), "cm": (mm(5), mm(1000))}
MOST_SHRINKAGE = 0.25
MOST_PRICE = 1_000_000


def read_fabrics(reader: Reader, entries: Mapping[str, FabricEntry]) -> dict[str, Fabric]:
    """The fabrics by key."""
    return {key: _fabric(reader, key, entry) for key, entry in entries.items()}


def _fabric(reader: Reader, key: str, entry: FabricEntry) -> Fabric:
    path: KeyPath = ("fabrics", key)
    width = None
    if entry.width is not None:
        width = reader.length((*path, "width"), entry.width, "a usable width", _WIDTH)
    return Fabric(
        key,
        reader.text((*path, "name"), entry.name, _spoken(key)),
        _colour(reader, (*path, "colour"), entry.colour),
        width,
        entry.one_way,
        selvedge=_selvedge(reader, path, entry),
        repeat_across=reader.length_or(
            (*path, "repeat_across"), entry.repeat_across, ZERO, "a repeat", _REPEAT
        ),
        repeat_along=reader.length_or((*path, "repeat_along"), entry.repeat_along, ZERO, "a repeat", _REPEAT),
        shrinkage=_shrinkage(reader, (*path, "shrinkage"), entry.shrinkage),
        price=_price(reader, (*path, "price"), entry.price),
        buying_step=reader.length_or(
            (*path, "buying_step"), entry.buying_step, None, "a buying step", _BUYING_STEP
        ),
    )


def _selvedge(reader: Reader, path: KeyPath, entry: FabricEntry) -> Length:
    """What goes off each side; without a width of the cloth's own there is nothing that it could go off."""
    if entry.selvedge is not None and entry.width is None:
        what = f"expected a width beside the selvedge of {path[-1]}, got none."
        do = "Add the width from edge to edge; the workroom's is measured between the selvedges."
        reader.add((*path, "selvedge"), what, do)
        return ZERO
    return reader.length_or((*path, "selvedge"), entry.selvedge, ZERO, "a selvedge", _SELVEDGE)


def _shrinkage(reader: Reader, path: KeyPath, share: float | None) -> float | None:
    if share is not None and not 0 <= share <= MOST_SHRINKAGE:
        what = f"expected shrinkage from 0 to {MOST_SHRINKAGE:g}, got {shortened(share)}."
        reader.add(path, what, "Write 3 per cent as 0.03.")
        return None
    return share


def _price(reader: Reader, path: KeyPath, written: str | int | float | None) -> Fraction | None:
    """The price of a yard or metre, in whatever coin one pays with."""
    if written is None:
        return None
    try:
        price = read_number(str(written))
    except ValueError:
        price = Fraction(-1)
    if not 0 <= price <= MOST_PRICE:
        what = f"expected a price such as 12.50, got {shortened(written)}."
        reader.add(path, what, "Write the number alone, without a coin.")
        return None
    return price


def read_roles(reader: Reader, entries: Mapping[str, RoleEntry]) -> dict[str, Role]:
    """The roles by key: those of the file, and one for each fabric that none of them names."""
    roles = {}
    for key, entry in entries.items():
        role = _role(reader, key, entry)
        if role is not None:
            roles[key] = role
        else:
            reader.spoiled.add(key)
    played = {entry.fabric for entry in entries.values()}
    reader.spoiled |= {
        e.fabric for key, e in entries.items() if key in reader.spoiled and e.fabric in reader.fabrics
    }
    for key, fabric in reader.fabrics.items():
        if key not in played and key not in entries:
            roles[key] = Role(key, fabric.name, key)
    return roles


def _role(reader: Reader, key: str, entry: RoleEntry) -> Role | None:
    path: KeyPath = ("roles", key)
    before = len(reader.problems)
    name = reader.text((*path, "name"), entry.name, _spoken(key))
    several = entry.prints is not None or bool(entry.colours)
    if (entry.fabric is not None) == several:
        got = "both" if several else "neither"
        reader.add(
            path,
            f"expected either fabric (one cloth) or prints (an assortment) for the role {key}, got {got}.",
            "Leave one out." if several else 'Add fabric = "..." or prints = 12.',
        )
    if key in reader.fabrics and entry.fabric != key:
        reader.add(
            path,
            f"expected different names for a fabric and a role, got {key} for both.",
            "Rename one of them.",
        )
    if entry.fabric is not None:
        if entry.fabric not in reader.fabrics and entry.fabric not in reader.spoiled:
            known = did_you_mean(entry.fabric, reader.fabrics)
            reader.add((*path, "fabric"), f"unknown fabric {shortened(entry.fabric)}.", known)
        if entry.alike is not None:
            reader.add(
                (*path, "alike"),
                f"expected no alike for the role {key}, which is one fabric.",
                "Leave it out.",
            )
    prints = entry.prints or max(1, len(entry.colours))
    if len(entry.colours) > prints:
        what = f"expected at most {prints} colours for {prints} prints, got {len(entry.colours)}."
        reader.add((*path, "colours"), what, "Leave some out.")
    colours = _colours(reader, (*path, "colours"), entry.colours)
    if len(reader.problems) > before or (entry.fabric is not None and entry.fabric not in reader.fabrics):
        return None
    return Role(key, name, entry.fabric, prints, entry.alike, colours)


def _colours(reader: Reader, path: KeyPath, written: Sequence[str]) -> tuple[str, ...]:
    return tuple(_colour(reader, (*path, i), colour) for i, colour in enumerate(written))


def _colour(reader: Reader, path: KeyPath, written: str) -> str:
    try:
        return hex_colour(written)
    except ValueError as error:
        what = f"expected a CSS colour such as #1b2a41 or seagreen, got {shortened(written)} ({error})."
        reader.add(path, what, "Six digits behind a # always work.")
        return "#000000"


def _spoken(key: str) -> str:
    return key.replace("_", " ")
