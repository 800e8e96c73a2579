"""The supplies of a cutting list: precuts and pieces on hand, packs that may be bought, each with its size.

```toml
[[supplies]]
kind = "fat quarter"
measured = "20 1/4 x 17 1/2"
count = 12
```
`count` is how many are on hand, `pack` how many are in a pack that may be bought (1 where sold singly).
"""

from __future__ import annotations

import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from piecewright.cutting.given.cloth import PRECUTS, Given, Pack, precut
from piecewright.cutting.given.problems import MOST_GIVEN
from piecewright.cutting.lists.entries import LONGEST, SMALLEST, Entries, Place
from piecewright.cutting.lists.fabric_entries import BOLT_KEYS
from piecewright.cutting.lists.listed import UNNAMED
from piecewright.cutting.wanted import WIDEST_CLOTH
from piecewright.measure.length import Length, Unit, inches
from piecewright.measure.number import shortened
from piecewright.measure.reading import read_length, read_size
from piecewright.measure.showing import figure, show
from piecewright.toml_places import did_you_mean

BOLT, PIECE, STRIP = "bolt", "piece", "2 1/2 in strip"
KINDS = (BOLT, *PRECUTS, PIECE)
BOLT_ROW = ("kind", "fabric", "price", *BOLT_KEYS, "ruler_length", "squaring", "spare_strips")
_SOLD = ("count", "pack", "price", "most")
_PRECUT_ROW = ("kind", "fabric", "measured", *_SOLD)
_PIECE_ROW = ("kind", "fabric", "width", "height", *_SOLD)
_ALSO_CALLED = {"w": "width", "h": "height", "length": "height"}
MOST_PACKS = 1000

# How much larger than its name a precut may measure: others cut their fat quarters from wider cloth.
_LARGER = {"fat quarter": inches(12), "fat eighth": inches(12)}
_SLIGHTLY_LARGER = inches("1/2")


@dataclass(frozen=True, slots=True)
class Supplied:
    """What one entry supplies: pieces on hand, a pack to buy, or both."""

    given: Given | None
    pack: Pack | None


def kind_of(entries: Entries, row: Mapping[str, Any], place: Place) -> str:
    """The kind of a supply, as it is said or as its sizes tell; nothing where it is none that is known."""
    said = row.get("kind")
    if said is None:
        pieces = {"height", "length", "h", "count", "pack", "measured"} & set(row)
        return PIECE if pieces else BOLT
    plain = unicodedata.normalize("NFKD", str(said)).replace("\u2044", "/").lower()
    words = " ".join(plain.replace("-", " ").replace("_", " ").replace("inch", "in").split())
    words = words.removesuffix("s").replace("2.5 in", "2 1/2 in").replace("21/2", "2 1/2")
    if isinstance(said, str) and words in KINDS:
        return words
    entries.wrong(
        f"expected kind to be a kind of cloth, got {shortened(said)}",
        place("kind"),
        did_you_mean(words, KINDS),
    )
    return ""


def supplied(entries: Entries, kind: str, fabric: str, row: Mapping[str, Any], place: Place) -> Supplied:
    """The pieces and packs that an entry tells of, unnamed: their `name` is that of their kind or size."""
    row = {_ALSO_CALLED.get(key, key) if kind == PIECE else key: value for key, value in row.items()}
    entries.known(row, _PIECE_ROW if kind == PIECE else _PRECUT_ROW, place)
    width, height = (
        _piece_size(entries, row, place) if kind == PIECE else _measured(entries, kind, row, place)
    )
    name = kind if kind != PIECE else f"{figure(width, entries.unit)} x {show(height, entries.unit)}"
    if "pack" not in row and ("price" in row or "most" in row):
        key = "price" if "price" in row else "most"
        entries.wrong(
            f"expected a pack for the {key}, got none",
            place(key),
            "Write pack = ..., how many are bought together: 1 where they are sold singly.",
        )
    if kind != PIECE and not {"count", "pack"} & set(row):
        entries.wrong(
            f"expected a count of the {kind}s, got none",
            place(""),
            "Write count = ... for those on hand, pack = ... for those that may be bought.",
        )
    there = entries.count(row, "count", 0 if "pack" in row else 1, place, 0, MOST_GIVEN)
    given = Given(name, width, height, there, fabric) if there else None
    if "pack" not in row:
        return Supplied(given, None)
    in_pack = entries.count(row, "pack", 1, place, 1, MOST_GIVEN)
    most = entries.count(row, "most", MOST_PACKS, place, 1, MOST_PACKS)
    piece = Given(name, width, height, in_pack, fabric)
    return Supplied(given, Pack(piece, entries.price(row, place), most))


def named_apart(
    unit: Unit, given: list[Given], packs: list[Pack]
) -> tuple[tuple[Given, ...], tuple[Pack, ...]]:
    """All given cloth under names of its own; equal pieces on hand are counted together."""
    counts: dict[tuple[str, str, Length, Length], int] = {}
    for one in given:
        key = (one.fabric, one.name, one.width, one.height)
        counts[key] = counts.get(key, 0) + one.count
    taken: set[str] = set()
    named = []
    for (fabric, name, width, height), count in counts.items():
        told = _untaken(_of(fabric, name), f", {figure(width, unit)} x {show(height, unit)}", taken)
        named.append(Given(told, width, height, count, fabric))
    sold = []
    for pack in packs:
        told = _untaken(_of(pack.piece.fabric, pack.piece.name), ", bought", taken)
        sold.append(replace(pack, piece=replace(pack.piece, name=told)))
    return tuple(named), tuple(sold)


def _of(fabric: str, name: str) -> str:
    return name if fabric == UNNAMED else f"{fabric} {name}"


def _untaken(name: str, more: str, taken: set[str]) -> str:
    tries = [name, f"{name}{more}", *(f"{name}{more} ({number})" for number in range(2, len(taken) + 3))]
    found = next(one for one in tries if one not in taken)
    taken.add(found)
    return found


def _piece_size(entries: Entries, row: Mapping[str, Any], place: Place) -> tuple[Length, Length]:
    for key, told in (("width", "from selvedge to selvedge"), ("height", "along the selvedge")):
        if key not in row:
            do = f"Write {key} = ..., what can be used {told}."
            entries.wrong(f"expected a {key} for the piece of cloth, got none", place(""), do)
    width = entries.length(row, "width", SMALLEST, place, SMALLEST, WIDEST_CLOTH)
    return width, entries.length(row, "height", SMALLEST, place, SMALLEST, LONGEST)


def _measured(entries: Entries, kind: str, row: Mapping[str, Any], place: Place) -> tuple[Length, Length]:
    """The person's own measure before the usual one; one figure alone is how wide a strip is."""
    usual = precut(kind, 1)
    if "measured" not in row:
        return usual.width, usual.height
    said = row["measured"]
    try:
        if kind == STRIP and not (isinstance(said, str) and any(sign in said for sign in "xX×")):
            width, height = usual.width, read_length(said, entries.unit)
        else:
            width, height = read_size(said, entries.unit)
        more = _LARGER.get(kind, _SLIGHTLY_LARGER)
        most = WIDEST_CLOTH if kind == STRIP else usual.width + more, usual.height + more
        if not (SMALLEST <= width <= most[0] and SMALLEST <= height <= most[1]):
            unit = entries.unit
            room, got = (
                f"{figure(most[0], unit)} x {show(most[1], unit)}",
                f"{figure(width, unit)} x {show(height, unit)}",
            )
            raise ValueError(
                f'expected a {kind} to measure up to {room}, got {got}; write kind = "piece" for other cloth'
            )
    except ValueError as error:
        entries.wrong(str(error), place("measured"))
        return usual.width, usual.height
    return width, height
