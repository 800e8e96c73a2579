"""Blocks of n x n squares, as the pressing programme sees them: for tests."""

from piecewright.pressing.joints import Arrangement, BlockSeams, LaidBlock, SideEnd
from piecewright.pressing.programme import Meeting, Programme, Segment


def upright(row: int, column: int) -> Segment:
    """The seam right of the square in a row (from below) and column; its first cloth lies left."""
    return f"row {row}, seam {column}"


def level(row: int) -> Segment:
    """The seam above a row; its first cloth lies below."""
    return f"above row {row}"


def squares(n: int, key: str = "") -> BlockSeams:
    """A block of n x n squares of 1 in: rows are joined from the left, then from below.

    The side below runs to the right, so that the first cloth of an upright seam lies behind; and so on.
    """

    def name(segment: Segment) -> Segment:
        return f"{key} {segment}".strip()

    inner = range(n - 1)
    below = tuple(SideEnd(c + 1.0, 0.0, name(upright(0, c)), False) for c in inner)
    right = tuple(SideEnd(r + 1.0, 0.0, name(level(r)), False) for r in inner)
    above = tuple(SideEnd(n - c - 1.0, 0.0, name(upright(n - 1, c)), True) for c in reversed(inner))
    left = tuple(SideEnd(n - r - 1.0, 0.0, name(level(r)), True) for r in reversed(inner))
    # Row against row: the side above one runs to the left, that below the next to the right.
    meetings = tuple(
        Meeting(name(upright(r, c)), name(upright(r + 1, c)), alike=False) for r in inner for c in inner
    )
    segments = (*(name(upright(r, c)) for r in range(n) for c in inner), *(name(level(r)) for r in inner))
    return BlockSeams((below, right, above, left), (float(n),) * 4, Programme(segments, meetings))


def rows_alternate(n: int) -> dict[Segment, bool]:
    """Rows pressed alternately to the left and to the right, the seams between them all down."""
    ways = {upright(r, c): r % 2 == 0 for r in range(n) for c in range(n - 1)}
    return ways | {level(r): True for r in range(n - 1)}


def all_alike(across: int, down: int, key: str = "squares") -> Arrangement:
    return ((LaidBlock(key),) * across,) * down


def half_turns(across: int, down: int, key: str = "squares") -> Arrangement:
    """Every second block is turned by half, as on a chessboard."""
    return tuple(tuple(LaidBlock(key, 2 if (r + c) % 2 else 0) for c in range(across)) for r in range(down))
