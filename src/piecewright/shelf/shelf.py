"""The shelf and what changes it: pure functions that lose nothing."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from piecewright.cutting.given.cloth import Given
from piecewright.measure.length import ZERO, Length, Unit
from piecewright.measure.showing import figure, show
from piecewright.problems import Problem, Refused


@dataclass(frozen=True, slots=True)
class ShelfCloth:
    """`count` equal pieces of a fabric, as one can use them: `width` across, `length` along the selvedge.

    `price` is what one of them has cost, `bought` when, both as far as known.
    """

    fabric: str
    width: Length
    length: Length
    count: int = 1
    note: str = ""
    price: Fraction | None = None
    bought: str = ""

    @property
    def size(self) -> tuple[str, Length, Length]:
        """What must be the same of cloth that may stand for one another."""
        return self.fabric, self.width, self.length

    @property
    def area(self) -> Fraction:
        """The area of all these pieces in square inches."""
        return self.width.exact * self.length.exact * self.count


@dataclass(frozen=True, slots=True)
class Shelf:
    """The cloth on hand, in the order of its file, and the unit that the file counts in."""

    unit: Unit = "in"
    cloth: tuple[ShelfCloth, ...] = ()


@dataclass(frozen=True, slots=True)
class OfFabric:
    """All cloth of one fabric: how many pieces, their lengths added up, their area in square inches."""

    fabric: str
    pieces: int
    length: Length
    area: Fraction


def take_out(shelf: Shelf, used: Iterable[ShelfCloth]) -> Shelf:
    """The shelf without what was used; entries that come to nothing go.

    Of equal entries the first is taken first. Raises Refused, with every figure, where there is not so much.
    """
    counts = [entry.count for entry in shelf.cloth]
    problems = []
    for piece in used:
        wanted = piece.count
        for number, entry in enumerate(shelf.cloth):
            taken = min(wanted, counts[number]) if entry.size == piece.size else 0
            counts[number] -= taken
            wanted -= taken
        if wanted:
            problems.append(_not_there(shelf.unit, piece, piece.count - wanted))
    if problems:
        raise Refused(*problems)
    left = zip(shelf.cloth, counts, strict=True)
    return replace(shelf, cloth=tuple(replace(entry, count=count) for entry, count in left if count))


def put_in(shelf: Shelf, pieces: Iterable[ShelfCloth]) -> Shelf:
    """The shelf with more cloth: counted with an entry that is the same but for its count, or a new one."""
    cloth = list(shelf.cloth)
    for piece in pieces:
        alike = [number for number, entry in enumerate(cloth) if replace(entry, count=piece.count) == piece]
        if alike:
            cloth[alike[0]] = replace(cloth[alike[0]], count=cloth[alike[0]].count + piece.count)
        else:
            cloth.append(piece)
    return replace(shelf, cloth=tuple(cloth))


def by_fabric(shelf: Shelf) -> list[OfFabric]:
    """What there is of each fabric, in the order in which they first come."""
    found = []
    for fabric in dict.fromkeys(entry.fabric for entry in shelf.cloth):
        own = [entry for entry in shelf.cloth if entry.fabric == fabric]
        length = sum((entry.length * entry.count for entry in own), ZERO)
        area = sum((entry.area for entry in own), Fraction(0))
        found.append(OfFabric(fabric, sum(entry.count for entry in own), length, area))
    return found


def given_from(shelf: Shelf, fabrics: Sequence[str] | None = None) -> tuple[Given, ...]:
    """The cloth of these fabrics (of all without them) as it is given to cutting; equal entries together.

    >>> from piecewright.measure.length import inches
    >>> given_from(Shelf("in", (ShelfCloth("net", inches(20), inches("17 1/2"), 6),)))[0].name
    'net 20 x 17 1/2 in'
    """
    counts: dict[tuple[str, Length, Length], int] = {}
    for entry in shelf.cloth:
        if fabrics is None or entry.fabric in fabrics:
            counts[entry.size] = counts.get(entry.size, 0) + entry.count
    names: dict[str, int] = {}
    found = []
    for (fabric, width, length), count in counts.items():
        name = f"{fabric} {figure(width, shelf.unit)} x {show(length, shelf.unit)}"
        names[name] = names.get(name, 0) + 1
        # Sizes that differ by less than a ruler shows are told apart by a number.
        apart = name if names[name] == 1 else f"{name} ({names[name]})"
        found.append(Given(apart, width, length, count, fabric))
    return tuple(found)


def _not_there(unit: Unit, piece: ShelfCloth, there: int) -> Problem:
    size = f"{figure(piece.width, unit)} x {show(piece.length, unit)}"
    pieces = "piece" if piece.count == 1 else "pieces"
    what = f"expected {piece.count} {pieces} of {piece.fabric!r}, {size}, on the shelf, got {there}."
    return Problem(what, do="Count the shelf, or take fewer.")
