"""The verdict of a check: fine, ease, sew again, true all up alike; as on the job sheet.

What all things of a kind have in common is *off*; what single ones differ by is their deviation. Where all
are out alike, sewing single ones again would not help.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Literal

Verdict = Literal["fine", "ease", "sew again", "true all up alike"]
FEW = 0.05  # So few may be out and the rest is still called fine, or ease.
LITTLE = 1 / 4  # Of the ease: within this, a thing measures what the sheet says.

_ORDER: tuple[Verdict, ...] = ("fine", "ease", "sew again", "true all up alike")


def judge(off: float, chance_beyond: Callable[[float], float], ease: float) -> Verdict:
    """The verdict where all are `off` by so much, and single ones beyond a limit with some chance; inches.

    >>> judge(0.0, lambda limit: 0.0, 0.0625), judge(0.07, lambda limit: 1.0, 0.0625)
    ('fine', 'true all up alike')
    """
    if abs(off) > ease:
        return "true all up alike"
    if chance_beyond(ease) > FEW:
        return "sew again"
    return "ease" if chance_beyond(ease * LITTLE) > FEW else "fine"


def worst(verdicts: Iterable[Verdict]) -> Verdict:
    """The verdict that asks for most."""
    return max(verdicts, key=_ORDER.index, default="fine")
