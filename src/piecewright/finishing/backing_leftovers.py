"""A back pieced from what is left of the top's cloth: rows of leftovers, trimmed to equal height.

Terms:
- *row*: leftovers side by side over the whole back, joined, then trimmed to one height;
- *lacking*: what no leftover reaches, as one rectangle to be cut from other cloth.

The leftovers of greatest height go first, so that in a row little is trimmed off; what is cut off the end
of a row is used again where it is large enough.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from piecewright.cutting.given.layout import Leftover
from piecewright.finishing.figures import size_words
from piecewright.finishing.finishing import LEAST_PANEL
from piecewright.measure.length import ZERO, Length, Unit
from piecewright.measure.rounding import Ruler, round_down
from piecewright.measure.showing import figure, show


@dataclass(frozen=True)
class RowPiece:
    """One leftover in a row: cut `width` along the row, out of a piece `taken` (along the row, and up)."""

    fabric: str
    width: Length
    taken: tuple[Length, Length]


@dataclass(frozen=True)
class LeftoverRow:
    """A row: its pieces, trimmed to a `height`, raw."""

    height: Length
    pieces: tuple[RowPiece, ...]


@dataclass(frozen=True)
class LeftoverBack:
    """A back of rows; it must measure `least` (width, height), raw.

    `lacking` is the rectangle, raw, that is to be cut from other cloth below the rows, None where none is.
    `not_used` are leftovers that are over, or too small.
    """

    least: tuple[Length, Length]
    rows: tuple[LeftoverRow, ...]
    lacking: tuple[Length, Length] | None
    not_used: tuple[Leftover, ...]
    take_up: Length

    @property
    def reach(self) -> Length:
        """How high the rows come together, raw."""
        if not self.rows:
            return ZERO
        heights = sum((row.height for row in self.rows), ZERO)
        return heights - self.take_up * 2 * (len(self.rows) - 1)

    @property
    def seams(self) -> int:
        """How many seams it has, in the rows, between them, and to what is lacking."""
        between = max(0, len(self.rows) - 1) + (1 if self.rows and self.lacking else 0)
        return between + sum(len(row.pieces) - 1 for row in self.rows)

    @property
    def seam_run(self) -> float:
        """The stitching of all of them in inches."""
        between = max(0, len(self.rows) - 1) + (1 if self.rows and self.lacking else 0)
        in_rows = sum(float(row.height) * (len(row.pieces) - 1) for row in self.rows)
        return in_rows + between * float(self.least[0])

    def sum_lines(self, unit: Unit) -> tuple[str, ...]:
        """The rows, what they come to, and what is lacking, a line each."""
        lines = [self._row_line(number, row, unit) for number, row in enumerate(self.rows, 1)]
        if self.rows:
            heights = self._joined([(figure(row.height, unit)) for row in self.rows], unit)
            lines.append(f"{heights} = {show(self.reach, unit)} of {show(self.least[1], unit)}")
        if self.lacking is not None:
            lines.append(f"lacking: one piece {size_words(self.lacking, unit)}, seam allowance and all")
        return tuple(lines)

    def _row_line(self, number: int, row: LeftoverRow, unit: Unit) -> str:
        pieces = self._joined([f"{figure(piece.width, unit)} ({piece.fabric})" for piece in row.pieces], unit)
        joined = sum((piece.width for piece in row.pieces), ZERO) - self.take_up * 2 * (len(row.pieces) - 1)
        return f"row {number}, {show(row.height, unit)} high: {pieces} = {show(joined, unit)}"

    def _joined(self, parts: Sequence[str], unit: Unit) -> str:
        """Parts added up, less what their seams take."""
        seams = len(parts) - 1
        taken = f" - {seams} x {figure(self.take_up * 2, unit)} for seams" if seams else ""
        return " + ".join(parts) + taken


def back_of_leftovers(
    least: tuple[Length, Length],
    leftovers: Sequence[Leftover],
    take_up: Length,
    ruler: Ruler,
    one_way: frozenset[str] = frozenset(),
) -> LeftoverBack:
    """Rows of leftovers for a back of a size (width, height), raw, and what is lacking.

    Leftovers lie on their long side, but for one-way prints. Pieces are cut on the ruler's marks.
    """
    smallest = LEAST_PANEL[ruler.unit]
    pool = [_lying(one, one_way) for one in leftovers for _ in range(one.count)]
    small = [piece for piece in pool if min(piece.width, piece.height) < smallest]
    pool = [piece for piece in pool if min(piece.width, piece.height) >= smallest]
    rows: list[LeftoverRow] = []
    missing = least[1]
    while missing > ZERO and (found := _row(pool, least[0], missing, take_up, ruler)):
        row, pool = found
        rows.append(row)
        missing = least[1] - LeftoverBack(least, tuple(rows), None, (), take_up).reach
        if missing > ZERO:
            missing += take_up * 2
    lacking = (least[0], missing) if missing > ZERO else None
    return LeftoverBack(least, tuple(rows), lacking, tuple(small + pool), take_up)


def _lying(leftover: Leftover, one_way: frozenset[str]) -> Leftover:
    """One leftover on its long side; a one-way print stays upright."""
    short, long = sorted((leftover.width, leftover.height))
    if leftover.fabric in one_way:
        short, long = leftover.height, leftover.width
    return Leftover(leftover.fabric, long, short)


def _row(
    pool: Sequence[Leftover], width: Length, missing: Length, take_up: Length, ruler: Ruler
) -> tuple[LeftoverRow, list[Leftover]] | None:
    """The next row and the leftovers after it; None where what is there does not reach over the back."""
    left = sorted(pool, key=lambda piece: (-piece.height.exact, -piece.width.exact, piece.fabric))
    taken: list[Leftover] = []
    reach = ZERO
    while reach < width and left:
        piece = left.pop(0)
        taken.append(replace(piece, width=round_down(float(piece.width), ruler)))
        reach = sum((one.width for one in taken), ZERO) - take_up * 2 * (len(taken) - 1)
    if reach < width:
        return None
    height = min(round_down(float(min(piece.height for piece in taken)), ruler), missing)
    pieces = [RowPiece(piece.fabric, piece.width, (piece.width, piece.height)) for piece in taken]
    over = _cut_back(pieces, reach - width, ruler)
    smallest = LEAST_PANEL[ruler.unit]
    if over >= smallest and taken[-1].height >= smallest:
        left.append(Leftover(taken[-1].fabric, over, taken[-1].height))
    return LeftoverRow(height, tuple(pieces)), left


def _cut_back(pieces: list[RowPiece], over: Length, ruler: Ruler) -> Length:
    """Cuts the last piece of a row back by what it is over, but not below what is worth a seam."""
    last = pieces[-1]
    width = max(last.width - over, min(last.width, LEAST_PANEL[ruler.unit]))
    pieces[-1] = replace(last, width=width)
    return last.width - width
