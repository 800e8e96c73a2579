"""Advice at the iron, chosen by the facts of a plan: bias edges, long seams, open seams, spun centres.

All of it is common practice, no source. How hot, and with steam or without, is for the makers of the iron and
of the cloth to say.
"""

from __future__ import annotations

from dataclasses import dataclass

from piecewright.measure.length import Unit
from piecewright.measure.showing import show_float

LONG_BIAS = 8.0
"""A bias edge from this on, in inches, is worth a row of stay-stitching."""

LONG_SEAM = 20.0
"""A seam from this on, in inches, is pressed in short stretches."""


@dataclass(frozen=True)
class IronFacts:
    """What of a plan matters at the iron; lengths in inches, 0 where there is none.

    `bias_edge` is the longest raw bias edge on the outside of anything on the way, `bias_seam` the longest
    seam along bias. `cut_on_bias`: pieces are cut with bias edges. `opened`: some seams are pressed open.
    `spun`: some seams change side where others meet them.
    """

    longest_seam: float
    bias_edge: float = 0.0
    bias_seam: float = 0.0
    cut_on_bias: bool = False
    opened: bool = False
    spun: bool = False


def advice(facts: IronFacts, unit: Unit) -> tuple[str, ...]:
    """Sentences for the person at the iron, in the order of the work."""
    return (*_before_cutting(facts, unit), *_seams(facts, unit), *_bias(facts, unit), *_at_last(facts))


def _before_cutting(facts: IronFacts, unit: Unit) -> list[str]:
    if not facts.cut_on_bias:
        return []
    return [
        "Starch the cloth before it is cut: some edges will be bias, and starch keeps them from stretching."
    ]


def _seams(facts: IronFacts, unit: Unit) -> list[str]:
    told = [
        "Set every seam first: press it flat as it was sewn, then open the cloth and press it to its side.",
        "Lift the iron and put it down again; do not slide it, or the cloth moves with it.",
    ]
    if facts.opened:
        told.append(
            "Open a seam with the tip of the iron from the back, let it cool, then press from the front."
        )
    if facts.spun:
        told.append(
            "Where a seam changes side, pick out the two or three stitches that lie in its allowance, and "
            "press the small middle flat."
        )
    if facts.longest_seam >= LONG_SEAM:
        long = show_float(facts.longest_seam, unit)
        told.append(
            f"Press a long seam (the longest is {long}) a hand's width at a time, the whole strip one way, "
            "and keep it straight along the edge of the board."
        )
    return told


def _bias(facts: IronFacts, unit: Unit) -> list[str]:
    longest = max(facts.bias_edge, facts.bias_seam)
    if not longest:
        return []
    told = ["No steam on bias edges, and do not pull them: press straight down, along the grain."]
    if facts.bias_edge >= LONG_BIAS:
        long = show_float(facts.bias_edge, unit)
        told.append(
            f"Stay-stitch long bias edges (here up to {long}) just inside the allowance, before they are "
            "handled."
        )
    return told


def _at_last(facts: IronFacts) -> list[str]:
    return ["Iron and steam are hot, and cloths differ: keep to what the makers of both say."]
