"""The sheet's words on cloth off the shelf: what to take, how to cut it, what is left and worth keeping."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from piecewright.cutting.given.layout import CutGiven, FromShelf, Leftover
from piecewright.cutting.patterns import Pattern
from piecewright.measure.length import Length, Unit
from piecewright.measure.showing import figure, show

MOST_KEPT = 5
"""So many sizes of leftovers are named; smaller ones are kept or not."""


def off_the_shelf(cut: FromShelf, unit: Unit) -> str:
    """What is taken off the shelf: `from the shelf: 3 pieces of 20 1/2 x 17 1/2 in`."""
    counts: dict[tuple[str, Length, Length], int] = {}
    for piece in cut.used:
        size = (piece.fabric, piece.width, piece.height)
        counts[size] = counts.get(size, 0) + piece.times
    several = len({fabric for fabric, _, _ in counts}) > 1
    told = [
        f"{_counted(count)} of {_size(width, height, unit)}{f' ({fabric})' if several else ''}"
        for (fabric, width, height), count in counts.items()
    ]
    return f"from the shelf: {', '.join(told)}"


def taken(cut: CutGiven, unit: Unit) -> str:
    """What is taken and cut alike: `take 3 pieces of 20 1/2 x 17 1/2 in off the shelf and cut each alike`."""
    alike = " and cut each alike" if cut.times > 1 else ""
    return f"take {_counted(cut.times)} of {_size(cut.width, cut.height, unit)} off the shelf{alike}"


def strips_of(cut: CutGiven, unit: Unit) -> Iterator[tuple[str, Pattern]]:
    """Which strips one piece is cut into, and how each is cut: `2 strips 3 1/2 in, across`."""
    way = "along the selvedge" if cut.along else "across"
    for pattern in cut.patterns:
        strips = "strip" if pattern.times == 1 else "strips"
        yield f"{pattern.times} {strips} {show(pattern.strip_height, unit)}, {way}", pattern


def pieces_of(patterns: Iterable[Pattern]) -> dict[str, int]:
    """How many pieces of each name come of strips."""
    pieces: dict[str, int] = {}
    for pattern in patterns:
        for section in pattern.sections:
            pieces[section.name] = pieces.get(section.name, 0) + section.pieces * pattern.times
    return pieces


def worth_keeping(leftovers: Sequence[Leftover], unit: Unit) -> str:
    """The leftovers to put back on the shelf, the largest named."""
    if not leftovers:
        return ""
    named = [f"{rest.count} of {_size(rest.width, rest.height, unit)}" for rest in leftovers[:MOST_KEPT]]
    more = sum(rest.count for rest in leftovers[MOST_KEPT:])
    smaller = f", and {more} smaller" if more else ""
    return f"Left and worth keeping: {', '.join(named)}{smaller}."


def _counted(count: int) -> str:
    return f"{count} {'piece' if count == 1 else 'pieces'}"


def _size(width: Length, height: Length, unit: Unit) -> str:
    return f"{figure(width, unit)} x {show(height, unit)}"
