"""The kinds of settings as values: what lies in which cell, and how large the middle comes out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from piecewright.measure.length import Length

Size = tuple[Length, Length]
Place = tuple[int, int]


@dataclass(frozen=True)
class Laid:
    """One place of the arrangement: the key of a block, or of a role (a plain block), and its turn.

    The turn is in degrees to the left: 0, 90, 180 or 270.
    """

    key: str
    turn: int = 0


@dataclass(frozen=True)
class Setting:
    """A straight set; the arrangement's rows run from top to bottom and repeat to fill the quilt."""

    across: int
    down: int
    arrangement: tuple[tuple[Laid, ...], ...]

    def at(self, row: int, column: int) -> Laid:
        """What lies in a row (0 is the top one) and a column (0 is the left one)."""
        cells = self.arrangement[row % len(self.arrangement)]
        return cells[column % len(cells)]

    def cells(self) -> Iterator[Place]:
        """Every cell, row by row."""
        return ((row, column) for row in range(self.down) for column in range(self.across))

    def keys(self) -> set[str]:
        """The blocks and roles of the arrangement."""
        return {laid.key for row in self.arrangement for laid in row}

    def roles(self) -> tuple[str, ...]:
        """The roles of cloth that the setting asks for besides what is laid in its cells."""
        return ()

    def size(self, block: Size, gap: Length, around: bool) -> Size:
        """How large the middle is, of blocks of one size, with sashes as wide as the gap between them."""
        outside = 1 if around else -1
        width = self.across * block[0] + (self.across + outside) * gap
        return width, self.down * block[1] + (self.down + outside) * gap
