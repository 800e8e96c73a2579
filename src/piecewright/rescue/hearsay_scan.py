"""Where along all sizes a rule begins to be short: looked through mark by mark, then closed in on.

Terms:
- *crossing*: the size at which a rule is neither short nor over.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from piecewright.measure.tolerance import WELD
from piecewright.rescue.even_line import Figure
from piecewright.rescue.hearsay_judging import Verdict

CLOSE = WELD / 1000
MOST_HALVINGS = 200


@dataclass(frozen=True)
class ShortWhere:
    """Where a rule is short: a verdict (None: nowhere), its crossings, and the sizes found short."""

    verdict: Verdict | None
    crossings: tuple[float, ...] = ()
    short: tuple[float, ...] = ()


def short_where(off: Figure, sizes: Sequence[float], tolerance: float, is_smooth: bool) -> ShortWhere:
    """Where `off` falls below zero by more than a tolerance, looked at in these sizes, from small to large.

    A rule that is not smooth (it rounds) is only told as short at some sizes.
    """
    offs = [off(size) for size in sizes]
    short = [value < -tolerance for value in offs]
    found = tuple(size for size, is_short in zip(sizes, short, strict=True) if is_short)
    if not found:
        return ShortWhere(None)
    if all(short):
        return ShortWhere("short always", (), found)
    changes = [k for k in range(1, len(sizes)) if short[k] != short[k - 1]]
    if not is_smooth or len(changes) > 2 or (len(changes) == 2 and short[0]):
        return ShortWhere("short at some sizes", (), found)
    crossings = tuple(_crossing(off, sizes, offs, k, tolerance) for k in changes)
    if len(changes) == 2:
        return ShortWhere("short between", crossings, found)
    return ShortWhere("short below" if short[0] else "short above", crossings, found)


def _crossing(off: Figure, sizes: Sequence[float], offs: Sequence[float], at: int, tolerance: float) -> float:
    """The size where `off` is zero, near the change from short to not short (or back) at a place.

    Where it is below zero on both sides, though hardly so on one: where it passes the tolerance.
    """
    step = 1 if offs[at - 1] < offs[at] else -1
    inside = at - 1 if step == 1 else at
    outside = inside + step
    while 0 <= outside < len(sizes) and offs[outside] < 0:
        outside += step
    least = 0.0
    if not 0 <= outside < len(sizes):
        least, outside = -tolerance, inside + step
    short, enough = sizes[inside], sizes[outside]
    for _ in range(MOST_HALVINGS):
        if abs(enough - short) < CLOSE:
            break
        middle = (short + enough) / 2
        short, enough = (middle, enough) if off(middle) < least else (short, middle)
    return (short + enough) / 2
