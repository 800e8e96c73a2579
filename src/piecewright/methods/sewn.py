"""What a batch asks of iron and needle: counted on the bench, step by step."""

from __future__ import annotations

from dataclasses import dataclass, replace

from piecewright.bench.bench import Bench
from piecewright.bench.cloth import Cloth, Seam
from piecewright.bench.steps import AnyStep, Close, Join, Press
from piecewright.geometry.point import add, distance, scale, sub, unit
from piecewright.geometry.polygon import length_inside

BEYOND = 4.0
"""How many take-ups a seam's net end may lie from the raw edge: more than twice one at 45 degrees."""


@dataclass(frozen=True)
class Sewn:
    """Seams pressed; seams joined or closed, and how many inches of them were `joined`.

    Stitching through a stack is told by its own lines, and not counted here.
    """

    presses: int = 0
    joins: int = 0
    joined: float = 0.0

    def after(self, step: AnyStep, bench: Bench) -> Sewn:
        """The same with a step that the bench has just done."""
        if isinstance(step, Press):
            return replace(self, presses=self.presses + bench.count(step.pile) * len(step.seams))
        if isinstance(step, Join):
            cloth, times = bench.pile(step.gives).kinds[-1][0], step.times
            seams = cloth.own_seams
        elif isinstance(step, Close):
            cloth, times = bench.cloth(step.pile), bench.count(step.pile)
            seams = cloth.own_seams[-1:]
        else:
            return self
        long = sum(_from_edge_to_edge(seam, cloth, BEYOND * bench.rules.seam.take_up) for seam in seams)
        return Sewn(self.presses, self.joins + times * len(seams), self.joined + times * long)


NOTHING_SEWN = Sewn()


def _from_edge_to_edge(seam: Seam, cloth: Cloth, reach: float) -> float:
    """How long one sews along a seam: on to the raw edges near its ends; round a corner from dot to dot."""
    if len(seam.segments) > 1:
        return sum(distance(a, b) for a, b in seam.segments)
    start, end = seam.path
    beyond = scale(unit(sub(end, start)), reach)
    return length_inside((sub(start, beyond), add(end, beyond)), cloth.raw)
