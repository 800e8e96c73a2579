"""Blocks on a grid: from the picture and the size in the file to units, with all that is wrong with them."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from piecewright.design.entries import BlockEntry
from piecewright.design.grid import (
    Cell,
    Complaint,
    Span,
    cells_of,
    count,
    grid_lines,
    spans_of,
    unit_of,
    wanted_shape,
)
from piecewright.design.model import GridUnit
from piecewright.design.reader import LARGEST, Reader
from piecewright.design.whole_marks import scale_step, whole_factors
from piecewright.measure.length import Length, inches, mm
from piecewright.measure.number import read_number, shortened
from piecewright.measure.showing import show
from piecewright.toml_places import KeyPath

_MOST_SHARE = 1000

Size = tuple[Length, Length]


def read_units(
    reader: Reader, path: KeyPath, entry: BlockEntry, picture: str, size: Size | None
) -> tuple[GridUnit, ...]:
    """The units of a picture; empty where a problem stands in the way."""
    before = len(reader.problems)
    first_line = reader.file.text_line_of(*path, "picture")
    rows, complaints = cells_of(picture, first_line, len(entry.columns) or None)
    reader.add_all(complaints)
    if entry.rows and rows and len(entry.rows) != len(rows):
        what = (
            f"expected {count(len(rows), 'share')} in rows, one a row of the picture, got {len(entry.rows)}."
        )
        reader.add((*path, "rows"), what)
    if len(reader.problems) > before:
        reader.add_all(_unreadable(reader, rows))
        return ()
    spans, complaints = spans_of(rows)
    reader.add_all(complaints)
    reader.add_all(_unknown_roles(reader, spans))
    columns = _shares(reader, (*path, "columns"), entry.columns, len(rows[0]))
    shares = _shares(reader, (*path, "rows"), entry.rows, len(rows))
    if size is None or columns is None or shares is None:
        return ()
    across, down = grid_lines(size[0], columns), grid_lines(size[1], shares)
    units = [unit_of(span, across, down) for span in spans]
    misshapen = [_misshapen(reader, span, unit) for span, unit in zip(spans, units, strict=True)]
    reader.add_all(complaint for complaint in misshapen if complaint is not None)
    if len(reader.problems) == before:
        _check_marks(reader, (*path, "size"), size, units)
    return tuple(units)


def _unreadable(reader: Reader, rows: Sequence[Sequence[Cell]]) -> list[Complaint]:
    """What is wrong with the single tokens of a picture whose rows are not equally long."""
    spans, complaints = spans_of([[cell] for row in rows for cell in row if cell.text not in "-:"])
    return sorted([*complaints, *_unknown_roles(reader, spans)])


def _unknown_roles(reader: Reader, spans: Sequence[Span]) -> list[Complaint]:
    """One complaint for each line and role."""
    wrong = {
        Complaint(span.cell.line, *found)
        for span in spans
        for role in span.token.roles
        if (found := reader.role_wrong(role)) is not None
    }
    return sorted(wrong)


def _misshapen(reader: Reader, span: Span, unit: GridUnit) -> Complaint | None:
    wanted = wanted_shape(unit)
    if not wanted:
        return None
    got = f"{show(unit.width, reader.unit)} x {show(unit.height, reader.unit)}"
    do = "Let it span other cells (with - and :), or change the shares of columns and rows."
    return Complaint(span.cell.line, f"{span.cell}: expected {wanted}, got {got} for {span.cell.text}.", do)


def _shares(
    reader: Reader, path: KeyPath, written: Sequence[str | int | float], number: int
) -> list[Fraction] | None:
    """The shares of columns or rows; even ones when none are written."""
    if not written:
        return [Fraction(1)] * number
    shares = []
    for i, share in enumerate(written):
        try:
            value = read_number(str(share))
        except ValueError as error:
            reader.add((*path, i), f"{error}.")
            return None
        if not 0 < value <= _MOST_SHARE:
            reader.add(
                (*path, i), f"expected a share above 0 and up to {_MOST_SHARE}, got {shortened(share)}."
            )
            return None
        shares.append(value)
    return shares


def _check_marks(reader: Reader, path: KeyPath, size: Size, units: Sequence[GridUnit]) -> None:
    """Pieces keep their exact size, so a block whose units no ruler shows names sizes nearby that work."""
    sizes = {side for unit in units for side in (unit.width, unit.height)}
    between = sorted(side for side in sizes if side % reader.mark)
    if not between:
        return
    whole = inches(1) if reader.unit == "in" else mm(10)
    good = [
        (size[0] * factor, size[1] * factor)
        for factor in whole_factors(scale_step(sizes, reader.mark), size[0], whole)
    ]
    largest = LARGEST[reader.unit]
    shown = ", ".join(_by(reader, side) for side in good if max(side) <= largest)
    marks = show(reader.mark, reader.unit)
    what = (
        f"expected units whose sizes a ruler shows (steps of {marks}), got {show(between[0], reader.unit)}."
    )
    reader.add(path, what, f"Block sizes nearby that work: {shown}." if shown else "Choose another size.")


def _by(reader: Reader, size: Size) -> str:
    width, height = (show(side, reader.unit) for side in size)
    return width if size[0] == size[1] else f"{width} x {height}"
