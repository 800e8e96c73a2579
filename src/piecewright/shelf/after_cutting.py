"""What a plan says of the shelf: which cloth it uses up, and what is left of it and worth keeping.

In plan.json this stands beside the plan, under `shelf`:
`{"used": [{"fabric": "net", "width": "20 1/2 in", "length": "17 1/2 in", "count": 6}], "left": [...]}`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import msgspec

from piecewright.bench.plan_file import LARGEST
from piecewright.cutting.given.cloth import Given
from piecewright.cutting.given.layout import FromShelf
from piecewright.cutting.wanted import WIDEST_CLOTH
from piecewright.measure.in_files import length_from_text
from piecewright.measure.length import Length
from piecewright.problems import Problem, Refused
from piecewright.shelf.entries import LEAST, MOST, MOST_PIECES
from piecewright.shelf.shelf import Shelf, ShelfCloth, put_in, take_out


@dataclass(frozen=True, slots=True)
class ShelfChange:
    """What goes off the shelf when a quilt is cut, and what comes onto it."""

    used: tuple[ShelfCloth, ...]
    left: tuple[ShelfCloth, ...]


class _Piece(msgspec.Struct, frozen=True, kw_only=True):
    fabric: str
    width: Length
    length: Length
    count: int = 1


class _Change(msgspec.Struct, frozen=True, kw_only=True):
    used: tuple[_Piece, ...] = ()
    left: tuple[_Piece, ...] = ()


class _PlanFile(msgspec.Struct, frozen=True, kw_only=True):
    title: str = ""
    shelf: _Change | None = None


def change_of(result: FromShelf, shelf: Sequence[Given], note: str = "") -> ShelfChange:
    """What a layout does to the shelf that it was given; pack pieces that were not cut are left as well."""
    names = {given.name: given for given in shelf}
    used = [
        ShelfCloth(given.fabric, given.width, given.height, result.count_used[name])
        for name, given in names.items()
        if result.count_used[name]
    ]
    left = [ShelfCloth(rest.fabric, rest.width, rest.height, rest.count, note) for rest in result.leftovers]
    for pack, number in result.packs:
        piece = pack.piece
        whole = piece.count * number - result.count_used[piece.name]
        if whole:
            left.append(ShelfCloth(piece.fabric or piece.name, piece.width, piece.height, whole, note))
    return ShelfChange(tuple(used), tuple(left))


def shelf_part(change: ShelfChange) -> dict[str, Any]:
    """The part of a plan's report that `read_change` reads."""
    return {"used": [_written(cloth) for cloth in change.used], "left": [_written(c) for c in change.left]}


def read_change(path: str | Path) -> ShelfChange:
    """What the plan in a file does to the shelf.

    Raises Refused when the file cannot be read, is no plan, or says nothing of the shelf.
    """
    try:
        with Path(path).open("rb") as file:
            text = file.read(LARGEST + 1)
    except OSError as error:
        reason = f"the plan cannot be read: {error.strerror or error}."
        raise Refused(Problem(reason, str(path), "Give the path of a plan.json.")) from None
    try:
        plan = msgspec.json.decode(text, type=_PlanFile, dec_hook=length_from_text)
    except (msgspec.DecodeError, ValueError, ZeroDivisionError) as error:
        raise Refused(Problem(f"expected a plan, got: {error}.", str(path))) from None
    if plan.shelf is None:
        what = "expected a plan that is cut from the shelf, got one that says nothing of it."
        raise Refused(Problem(what, str(path), "Plan the quilt with a shelf file first."))
    for piece in (*plan.shelf.used, *plan.shelf.left):
        _check(piece, str(path))
    note = f"left of {plan.title}" if plan.title else ""
    return ShelfChange(
        tuple(_cloth(piece) for piece in plan.shelf.used),
        tuple(_cloth(piece, note) for piece in plan.shelf.left),
    )


def after(shelf: Shelf, change: ShelfChange) -> Shelf:
    """The shelf when the quilt is cut; raises Refused where what was used is not there."""
    return put_in(take_out(shelf, change.used), change.left)


def _check(piece: _Piece, name: str) -> None:
    sizes = LEAST <= piece.width <= WIDEST_CLOTH and LEAST <= piece.length <= MOST
    if not (sizes and 1 <= piece.count <= MOST_PIECES and piece.fabric):
        got = f"{piece.count} of {piece.width} x {piece.length}"
        what = f"expected pieces of cloth with sizes and counts, got {got}."
        raise Refused(Problem(what, name, "Make the plan again."))


def _cloth(piece: _Piece, note: str = "") -> ShelfCloth:
    return ShelfCloth(piece.fabric, piece.width, piece.length, piece.count, note)


def _written(cloth: ShelfCloth) -> Mapping[str, Any]:
    sides = {"width": cloth.width.text(), "length": cloth.length.text()}
    return {"fabric": cloth.fabric, **sides, "count": cloth.count}
