"""Verdicts: what to do with a unit of the size that the ruler shows, before it is trued up.

Terms:
- *standing*: where a size lies beside the one that is wanted: short, as wanted, ease, sliver, over;
- *verdict*: what follows from it: fine, ease, true all up alike, sew again;
- *verdict row*: a verdict with the sizes, from and to, for which it holds, and what to do.

One rule holds wherever sizes are judged: up to the workroom's ease is worked in; what is trimmed is at least
the workroom's trim, and never less than a sixteenth of an inch; what lies between is a sliver.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from piecewright.bench.steps import Landmark
from piecewright.measure.length import Length, Unit, inches
from piecewright.measure.showing import figure, show
from piecewright.measure.tolerance import EDGE_MATCH
from piecewright.methods.recipe import Recipe
from piecewright.workroom.workroom import Workroom

Standing = Literal["short", "as wanted", "ease", "sliver", "over"]
Verdict = Literal["fine", "ease", "true all up alike", "sew again"]
Side = Literal["size", "width", "height"]

LEAST_TRIM = inches("1/16")
"""No narrower strip comes off under a rotary cutter's blade; common practice, no source."""

NOT_TRIMMED: tuple[Landmark, ...] = ("base",)
"""Landmarks of units that lose their corners when they are trimmed: these are cut to size beforehand."""

_WORST: tuple[Verdict, ...] = ("fine", "ease", "true all up alike", "sew again")


@dataclass(frozen=True)
class VerdictRow:
    """A verdict for sizes from `least` to `most` (None: without end), and what to do, in a sentence.

    A size on the border between two rows belongs to the milder one; `most` of a row without end is None.
    """

    least: Length | None
    most: Length | None
    verdict: Verdict
    standing: Standing
    do: str

    def sizes(self, unit: Unit) -> str:
        """The sizes in words: `under 2 1/2 in`, `2 1/2 to 2 9/16 in`, `2 5/8 in and over`."""
        if self.least is None or self.most is None:
            at = self.most if self.least is None else self.least
            assert at is not None
            return f"under {show(at, unit)}" if self.least is None else f"{show(at, unit)} and over"
        if self.least == self.most:
            return show(self.most, unit)
        return f"{figure(self.least, unit)} to {show(self.most, unit)}"


@dataclass(frozen=True)
class VerdictTable:
    """The verdicts on one side of a unit, the smallest sizes first; `wanted` is its unfinished size."""

    side: Side
    wanted: Length
    rows: tuple[VerdictRow, ...]

    def row(self, size: Length, workroom: Workroom) -> VerdictRow:
        """The row for a size as measured."""
        standing = standing_of(float(size) - float(self.wanted), workroom)
        return next(row for row in self.rows if row.standing == standing)


def least_trim(workroom: Workroom) -> Length:
    """The least that is ever trimmed off."""
    return max(workroom.trim, LEAST_TRIM)


def standing_of(off: float, workroom: Workroom) -> Standing:
    """Where a size lies that is so much (inches) over what is wanted, or short of it when below zero.

    >>> [standing_of(off, Workroom()) for off in (-0.02, 0.0, 0.05, 0.1, 0.125)]
    ['short', 'as wanted', 'ease', 'sliver', 'over']
    """
    if off < -EDGE_MATCH:
        return "short"
    if off <= EDGE_MATCH:
        return "as wanted"
    if off <= float(workroom.ease) + EDGE_MATCH:
        return "ease"
    return "over" if off >= float(least_trim(workroom)) - EDGE_MATCH else "sliver"


def verdict_tables(recipe: Recipe, workroom: Workroom) -> tuple[VerdictTable, ...]:
    """The verdicts on the units of a recipe, before truing: one table for a square, two for a rectangle."""
    width, height = recipe.unit.raw(workroom.take_up)
    landmark = recipe.method.landmark
    if width == height:
        return (VerdictTable("size", width, _rows(width, landmark, workroom)),)
    return (
        VerdictTable("width", width, _rows(width, landmark, workroom)),
        VerdictTable("height", height, _rows(height, landmark, workroom)),
    )


def verdict_of(recipe: Recipe, size: Sequence[Length], workroom: Workroom) -> VerdictRow:
    """The verdict on a unit that measures so much: its one size, or width and height.

    The worse of two sides decides. Raises ValueError for another number of sizes.
    """
    tables = verdict_tables(recipe, workroom)
    sizes = tuple(size) * 2 if len(size) == 1 and len(tables) == 1 else tuple(size)
    if len(sizes) != 2:
        raise ValueError(f"expected one size for a square or two for a rectangle, got {len(sizes)}")
    rows = [
        table.row(one, workroom)
        for table, one in zip(tables if len(tables) == 2 else tables * 2, sizes, strict=True)
    ]
    return max(rows, key=lambda row: _WORST.index(row.verdict))


def _rows(wanted: Length, landmark: Landmark, workroom: Workroom) -> tuple[VerdictRow, ...]:
    unit = workroom.unit
    eased, trimmed = wanted + workroom.ease, wanted + least_trim(workroom)
    size, ease, trim = show(wanted, unit), show(workroom.ease, unit), show(least_trim(workroom), unit)
    rows = [
        VerdictRow(None, wanted, "sew again", "short", _short(size, landmark)),
        VerdictRow(wanted, wanted, "fine", "as wanted", "Leave it as it is."),
    ]
    if eased > wanted:
        do = f"Leave it: up to {ease} is eased in when it is joined."
        rows.append(VerdictRow(wanted, eased, "ease", "ease", do))
    if trimmed > eased:
        what = f"Too little to trim well (under {trim}), too much to ease (over {ease}): "
        how = (
            "cut the base to its size and sew the corners over it again."
            if landmark in NOT_TRIMMED
            else "take a little more into the seam; for the rest, cut so that more comes off."
        )
        rows.append(VerdictRow(eased, trimmed, "sew again", "sliver", what + how))
    if landmark in NOT_TRIMMED:
        do = "The base was cut too large: trimming now would cut into the corners. Cut and sew it again."
        rows.append(VerdictRow(max(eased, trimmed), None, "sew again", "over", do))
    else:
        do = f"True all of them up alike, to {size}, never to the smallest of them."
        rows.append(VerdictRow(max(eased, trimmed), None, "true all up alike", "over", do))
    return tuple(rows)


def _short(size: str, landmark: Landmark) -> str:
    if landmark in NOT_TRIMMED:
        return f"The base was cut smaller than {size}: cut it again."
    return "Unpick it and sew it again with a narrower seam; if that does not help, it was cut too small."
