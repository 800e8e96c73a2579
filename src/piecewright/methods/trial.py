"""Trying a method out on a bench of its own, and solving for its start sizes there.

Nothing is remembered: the unit is made from start sizes, measured, and the sizes are moved until it comes
out as wanted. What comes out grows evenly with the start sizes, so one round suffices; another confirms.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from piecewright.bench.bench import Bench, seam_of
from piecewright.bench.cloth import Cloth, piece
from piecewright.bench.piles import Pile
from piecewright.bench.plan import Supply
from piecewright.bench.steps import AnyStep
from piecewright.bench.truing import measured
from piecewright.geometry.polygon import rectangle
from piecewright.measure.length import ZERO, inches
from piecewright.measure.tolerance import WELD
from piecewright.methods.laying import AS_IT_COMES, Laying
from piecewright.methods.method import Making, Method, Unit
from piecewright.methods.sewn import NOTHING_SEWN, Sewn
from piecewright.problems import Problem, Refused
from piecewright.workroom.workroom import Workroom

FIRST_GUESS = (
    7.0,
    4.5,
    4.5,
    4.5,
)  # Start sizes are about so many take-ups above the finished width and height.


@dataclass(frozen=True)
class Trial:
    """What a batch came to: the bench after it, the unit's raw size before truing, its steps."""

    bench: Bench
    size: tuple[float, float]
    steps: tuple[AnyStep, ...]
    gives: str
    sewn: Sewn = NOTHING_SEWN

    @property
    def kinds(self) -> list[Cloth]:
        """The kinds of unit that came off, before truing."""
        return [cloth for cloth, _ in self.bench.pile(self.gives).kinds]


def try_out(
    method: Method,
    unit: Unit,
    sizes: tuple[float, ...],
    workroom: Workroom,
    one_way: frozenset[str] = frozenset(),
    laying: Laying = AS_IT_COMES,
) -> Trial:
    """One batch of a method from pieces of the given start sizes (inches)."""
    supplies = [Supply(fabric=f, width=inches(1), length=ZERO, one_way=f in one_way) for f in unit.fabrics]
    bench = Bench(workroom, supplies)
    names = tuple(f"start {k}" for k in range(len(method.starts)))
    for name, start in zip(names, method.starts, strict=True):
        across, along = sizes[start.width], sizes[start.height]
        turns = method.every_start_turns or start is method.starts[0]
        on_its_side = turns and laying.base % 2 == 1
        outline = rectangle(along, across) if on_its_side else rectangle(across, along)
        cloth = piece(unit.fabrics[start.fabric], outline, bench.rules.seam)
        bench.table = bench.table.with_pile(name, Pile(((cloth, start.count),)))
    steps = method.written(Making(sizes, names, "unit", seam_of(workroom), laying=laying))
    sewn = NOTHING_SEWN
    for step in steps:
        bench.do(step)
        sewn = sewn.after(step, bench)
    pile = bench.pile("unit")
    if pile.count != method.makes:
        raise Refused(Problem(f"{method.name} was to make {method.makes}, {pile.count} came off"))
    smallest = [measured(cloth, method.landmark) for cloth, _ in pile.kinds]
    size = (min(w for w, _ in smallest), min(h for _, h in smallest))
    if method.landmark == "edges" and unit.width < unit.height:
        size = size[::-1]  # Edges tell only which side is the longer one.
    return Trial(bench, size, steps, "unit", sewn)


def solve(method: Method, unit: Unit, workroom: Workroom, extra: float = 0.0) -> tuple[float, ...]:
    """The exact start sizes (inches) from which the unit comes out at its unfinished size, plus `extra`.

    Raises Refused where no start size makes it.

    >>> from piecewright.methods import hst_two
    >>> unit = Unit("hst", ("sea", "sail"), inches(2), inches(2))
    >>> round(solve(hst_two.METHOD, unit, Workroom())[0], 6)
    2.853553
    """
    unit.refuse_nonsense()
    take_up = float(workroom.take_up)
    if method.derived:
        return method.derived(unit, take_up, extra)
    plain = replace(unit, fabrics=tuple(f"fabric {k}" for k in range(len(unit.fabrics))))
    finished = _finished(method, unit, take_up)
    wanted = finished + 2 * take_up + extra

    def made(at: np.ndarray) -> np.ndarray:
        trial = try_out(method, plain, tuple(map(float, at)), workroom)
        found = method.features(trial.kinds[0]) if method.features else trial.size
        return np.array(found[: method.unknowns])

    sizes = finished + np.array(FIRST_GUESS[: len(finished)]) * take_up
    now, little = made(sizes), take_up / 4
    slopes = np.column_stack([made(sizes + step) - now for step in np.eye(len(sizes)) * little]) / little
    for _ in range(4):
        if np.abs(now - wanted).max() < WELD / 10_000:
            return tuple(map(float, sizes))
        sizes = sizes + _moved(slopes, wanted - now, method)
        now = made(sizes)
    raise Refused(_unsolved(method))


def _finished(method: Method, unit: Unit, take_up: float) -> np.ndarray:
    """What the features should measure, less two take-ups."""
    if method.wanted:
        return np.array(method.wanted(unit, take_up)[: method.unknowns]) - 2 * take_up
    return np.array([float(unit.width), float(unit.height)][: method.unknowns])


def _moved(slopes: np.ndarray, off: np.ndarray, method: Method) -> np.ndarray:
    try:
        return np.linalg.solve(slopes, off)
    except np.linalg.LinAlgError as singular:
        raise Refused(_unsolved(method)) from singular


def _unsolved(method: Method) -> Problem:
    return Problem(f"{method.name}: no start size makes this unit", do="Choose another way.")
