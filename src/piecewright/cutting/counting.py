"""How much work strips are: ruler settings, cuts, and operations on several layers."""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.cutting.marks import CutList, Strip


def settings(task: CutList, strips: Sequence[Strip]) -> int:
    """How often the ruler is set anew: all measures of each strip height, cut together."""
    measures: dict[int, set[int]] = {}
    for strip in strips:
        at = measures.setdefault(strip.height, {strip.height})
        for cut in strip.cuts:
            way = task.ways[cut.way]
            at.add(way.width)
            if cut.stack > 1 or way.height != strip.height:
                at.add(way.height)
    return sum(map(len, measures.values()))


def cuts(task: CutList, strip: Strip) -> int:
    """The cuts of one strip: itself, its crosscuts, their subcuts and trims."""
    count = 1
    for cut in strip.cuts:
        trim = task.ways[cut.way].height * cut.stack < strip.height
        count += cut.crosscuts * (cut.stack + trim)
    return count


def operations(task: CutList, strips: Sequence[Strip], layers: int) -> int:
    """The cuts made with so many equal strips on each other."""
    return sum(-(-strip.times // layers) * cuts(task, strip) for strip in strips)
