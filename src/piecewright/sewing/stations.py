"""The stations of the work: pieces are cut, units made in batches, blocks, rows, the top, the finish."""

from __future__ import annotations

from enum import IntEnum


class Station(IntEnum):
    """The stations of the work, in the order in which they are come to."""

    PIECE = 0
    UNIT = 1
    ASSEMBLY = 2
    BLOCK = 3
    ROW = 4
    STRIP = 5
    TOP = 6
    BACK = 7
    BINDING = 8
