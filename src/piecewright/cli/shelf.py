"""`piecewright shelf`: shows the cloth on hand, puts some in, takes some out, and minds what a plan used."""

from __future__ import annotations

import re
from collections.abc import Sequence
from pathlib import Path

from piecewright.cli.endings import FINE
from piecewright.cli.reading import count_from, said_in
from piecewright.cli.telling import show, show_table
from piecewright.cutting.wanted import WIDEST_CLOTH
from piecewright.measure.length import MM_PER_INCH, Unit
from piecewright.measure.number import decimal, mixed, shortened
from piecewright.measure.reading import in_range, read_size
from piecewright.measure.showing import figure, show_cloth
from piecewright.measure.showing import show as shown
from piecewright.problems import Problem, Refused
from piecewright.shelf.after_cutting import after, read_change
from piecewright.shelf.entries import LEAST, MOST, MOST_PIECES
from piecewright.shelf.file import read_shelf, write_shelf
from piecewright.shelf.shelf import OfFabric, Shelf, ShelfCloth, by_fabric, put_in, take_out

USUAL_FILE = Path("shelf.toml")
_COUNTED = re.compile(r"(?:(?P<count>[^,]*?) of )?(?P<size>[^,]*)", re.DOTALL)


def mind_shelf(
    file: Path | None,
    put: str | None,
    take: str | None,
    fabric: str | None,
    note: str | None,
    cut: Path | None,
    unit: Unit | None,
) -> int:
    """Shows the shelf after what was asked for; raises Refused, and writes nothing, where that cannot be."""
    path = file or USUAL_FILE
    if (put or take) and not (fabric and fabric.strip()):
        raise Refused(Problem("expected the name of the fabric, got none.", "--fabric", "Name the fabric."))
    shelf = _shelf(path, bool(put), unit)
    before = shelf
    if cut is not None:
        shelf = after(shelf, read_change(cut))
    name = (fabric or "").strip()
    if take is not None:
        with said_in("--take"):
            shelf = take_out(shelf, _pieces(take, name, shelf.unit))
    if put is not None:
        with said_in("--put"):
            shelf = put_in(shelf, _pieces(put, name, shelf.unit, (note or "").strip()))
    if shelf != before or (put and not path.exists()):
        write_shelf(shelf, path)
    wanted = name if name and not (put or take) else None
    _tell(path, shelf, wanted)
    return FINE


def _shelf(path: Path, may_be_new: bool, unit: Unit | None) -> Shelf:
    if may_be_new and not path.exists():
        return Shelf(unit or "in")
    shelf = read_shelf(path)
    if unit is not None and unit != shelf.unit:
        what = f"expected the unit of the file, {shelf.unit}, got {unit}."
        raise Refused(Problem(what, "--unit", "Write the unit behind the size: 18 x 21 in, 45 x 50 cm."))
    return shelf


def _pieces(text: str, fabric: str, unit: Unit, note: str = "") -> list[ShelfCloth]:
    return [_piece(part.strip(), fabric, unit, note) for part in text.split(",")]


def _piece(text: str, fabric: str, unit: Unit, note: str) -> ShelfCloth:
    found = _COUNTED.fullmatch(text)
    assert found is not None
    count = count_from(found["count"]) if found["count"] is not None else 1
    if not 1 <= count <= MOST_PIECES:
        raise ValueError(f"expected from 1 to {MOST_PIECES:,} pieces, got {shortened(found['count'])}")
    width, length = read_size(found["size"], unit)
    in_range(width, LEAST, WIDEST_CLOTH, "a width", unit)
    in_range(length, LEAST, MOST, "a length", unit)
    return ShelfCloth(fabric, width, length, count, note)


def _tell(path: Path, shelf: Shelf, fabric: str | None) -> None:
    show(f"The shelf in {path}", "bold")
    cloth = [entry for entry in shelf.cloth if fabric in (None, entry.fabric)]
    if not cloth:
        show(f"There is no cloth of {fabric!r} on it." if fabric else "There is no cloth on it.")
        return
    notes = any(entry.note for entry in cloth)
    prices = any(entry.price is not None for entry in cloth)
    head = ["fabric", "count", "width x length", *(["price"] * prices), *(["note"] * notes)]
    show_table(head, [_row(entry, shelf.unit, prices, notes) for entry in cloth])
    show()
    totals = [one for one in by_fabric(shelf) if fabric in (None, one.fabric)]
    show_table(("in all", "pieces", "length", "area"), [_total(one, shelf.unit) for one in totals])


def _row(entry: ShelfCloth, unit: Unit, prices: bool, notes: bool) -> Sequence[str]:
    size = f"{figure(entry.width, unit)} x {shown(entry.length, unit)}"
    price = "" if entry.price is None else decimal(entry.price, 2) or mixed(entry.price)
    return [entry.fabric, f"{entry.count:,}", size, *([price] * prices), *([entry.note] * notes)]


def _total(one: OfFabric, unit: Unit) -> tuple[str, ...]:
    return one.fabric, f"{one.pieces:,}", show_cloth(one.length, unit), _area(one, unit)


def _area(one: OfFabric, unit: Unit) -> str:
    """Square yards or square metres, as cloth is reckoned."""
    if unit == "cm":
        return f"{float(one.area * MM_PER_INCH**2) / 1e6:.2f} square m"
    return f"{float(one.area) / 36**2:.2f} square yd"
