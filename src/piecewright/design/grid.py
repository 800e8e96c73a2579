"""From the text picture of a block to its units: cells, the units that span several, and their sizes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from piecewright.design.kinds import Form, kind_of
from piecewright.design.kinds.kind import with_article
from piecewright.design.model import GridUnit
from piecewright.design.tokens import ON_LEFT, ON_TOP, NotAToken, Token, read_token
from piecewright.design.units import PLAIN
from piecewright.measure.length import ZERO, Length
from piecewright.measure.number import shortened

MOST_CELLS = 10_000


@dataclass(frozen=True)
class Cell:
    """A token with the line of the file and its row and column (counted from the top left, from 0)."""

    text: str
    line: int
    row: int
    column: int

    def __str__(self) -> str:
        return f"row {self.row + 1}, cell {self.column + 1}"


@dataclass(frozen=True)
class Span:
    """A unit's token, and the cells it covers: columns and rows from the first up to, not with, the last."""

    cell: Cell
    token: Token
    columns: tuple[int, int]
    rows: tuple[int, int]


@dataclass(frozen=True, order=True)
class Complaint:
    """Something wrong on a line of the file: what was expected and came, and what would be right."""

    line: int
    what: str
    do: str = ""


def cells_of(
    picture: str, first_line: int, columns: int | None = None
) -> tuple[list[list[Cell]], list[Complaint]]:
    """The rows of cells, and what is wrong with their number.

    `columns` is how many cells a row must have; without it, as many as most rows have.
    """
    rows: list[list[Cell]] = []
    for offset, line in enumerate(picture.split("\n")):
        words = line.split()
        if words:
            rows.append([Cell(word, first_line + offset, len(rows), k) for k, word in enumerate(words)])
    size = sum(map(len, rows))
    if not 1 <= size <= MOST_CELLS:
        return [], [
            Complaint(first_line, f"expected 1 to {MOST_CELLS} cells, got {size}.", "Draw one token a cell.")
        ]
    wanted = columns or Counter(map(len, rows)).most_common(1)[0][0]
    return rows, [
        Complaint(
            row[0].line,
            f"expected {count(wanted, 'cell')} in row {number}, got {len(row)}.",
            _do(wanted - len(row)),
        )
        for number, row in enumerate(rows, 1)
        if len(row) != wanted
    ]


def count(number: int, thing: str) -> str:
    """A number of things in words: `1 cell`, `4 cells`."""
    return f"{number} {thing}" if number == 1 else f"{number} {thing}s"


def _do(missing: int) -> str:
    if missing > 0:
        return f"Add {count(missing, 'token')}; what goes on from the left is written -, from above :."
    return f"Leave out {count(-missing, 'token')}; a token has no spaces inside."


def spans_of(rows: Sequence[Sequence[Cell]]) -> tuple[list[Span], list[Complaint]]:
    """The units of a picture whose rows are equally long, and what is wrong with tokens and spans."""
    owner, complaints = _owners(rows)
    covered: dict[Cell, list[tuple[int, int]]] = {}
    for place, cell in owner.items():
        covered.setdefault(cell, []).append(place)
    spans = []
    for cell, places in covered.items():
        try:
            token = read_token(cell.text)
        except NotAToken as error:
            complaints.append(Complaint(cell.line, f"{cell}: {error.what}", error.do))
            continue
        rows_at, columns_at = [p[0] for p in places], [p[1] for p in places]
        span = Span(cell, token, (min(columns_at), max(columns_at) + 1), (min(rows_at), max(rows_at) + 1))
        if (span.columns[1] - span.columns[0]) * (span.rows[1] - span.rows[0]) == len(places):
            spans.append(span)
        else:
            cells = count(len(places), "cell")
            what = f"{cell}: expected {shortened(cell.text)} to fill a rectangle, got {cells} that do not."
            complaints.append(Complaint(cell.line, what, "Fill the rectangle with the signs - and :."))
    return spans, sorted(complaints)


def _owners(rows: Sequence[Sequence[Cell]]) -> tuple[dict[tuple[int, int], Cell], list[Complaint]]:
    """For each place (row, column), the cell whose unit covers it."""
    owner: dict[tuple[int, int], Cell] = {}
    complaints = []
    for cell in (cell for row in rows for cell in row):
        if cell.text not in (ON_LEFT, ON_TOP):
            owner[cell.row, cell.column] = cell
            continue
        to = (cell.row, cell.column - 1) if cell.text == ON_LEFT else (cell.row - 1, cell.column)
        if to in owner:
            owner[cell.row, cell.column] = owner[to]
        elif min(to) < 0:
            side = "on the left of" if cell.text == ON_LEFT else "above"
            what = f"{cell}: expected a unit {side} the sign {cell.text}, got the edge of the block."
            complaints.append(Complaint(cell.line, what, "Write the token of a unit here."))
    return owner, complaints


def unit_of(span: Span, across: Sequence[Length], down: Sequence[Length]) -> GridUnit:
    """The unit with its place and size; `across` has the grid's lines from the left, `down` from the top."""
    (left, right), (top, bottom) = span.columns, span.rows
    return GridUnit(
        span.token.kind,
        span.token.roles,
        span.token.facing,
        x=across[left],
        y=down[-1] - down[bottom],
        width=across[right] - across[left],
        height=down[bottom] - down[top],
    )


def wanted_shape(unit: GridUnit) -> str:
    """What its proportions should be, where they are not; an empty text where all is well."""
    if unit.kind == PLAIN:
        return ""
    kind = kind_of(unit.kind)
    wanted = kind.wanted(Form(float(unit.width), float(unit.height), unit.facing))
    looks = f" that looks {unit.facing}" if len(unit.facing) == 1 else ""
    return f"{with_article(kind.name)}{looks} {wanted}" if wanted else ""


def grid_lines(size: Length, shares: Sequence[Fraction]) -> list[Length]:
    """Where the lines of a grid lie that parts a size into shares: from 0 up to the size."""
    whole = sum(shares, Fraction(0))
    lines, so_far = [ZERO], Fraction(0)
    for share in shares:
        so_far += share
        lines.append(size * (so_far / whole))
    return lines
