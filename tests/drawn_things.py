"""Things to draw in tests: recipes, a sawtooth star sewn on the bench, layouts."""

from __future__ import annotations

from dataclasses import replace

import msgspec

from piecewright.bench.bench import Bench
from piecewright.bench.cloth import Cloth, Towards
from piecewright.bench.plan import Have, Supply
from piecewright.bench.steps import Join, JoinPart, Press, Pressing
from piecewright.cutting.laying import lay_out
from piecewright.cutting.layout import Layout
from piecewright.cutting.wanted import Demand
from piecewright.cutting.wanted import Supply as Bolt
from piecewright.drawing.palette import Palette
from piecewright.measure.length import ZERO, inches
from piecewright.methods import ways_for
from piecewright.methods.method import Unit
from piecewright.methods.recipe import Recipe, make_recipe, written_for
from piecewright.workroom.workroom import Workroom
from promises import unit_of

WORKROOM = Workroom()
COARSE = Workroom(rounding=inches("1/2"))
PALETTE = Palette(
    {"navy": ("#1f3350",), "fog": ("#e4e6e1",), "lantern": ("#d9922e",), "tide": ("#7a9e9f",)},
    {"navy": "navy solid", "fog": "fog, a pale grey solid", "lantern": "lantern amber", "tide": "tide"},
)
FABRICS = {"hourglass": ("lantern", "navy"), "geese": ("fog", "navy")}


def coloured(unit: Unit) -> Unit:
    """The unit in the fabrics of the palette."""
    own = list(dict.fromkeys(unit.fabrics))
    names = FABRICS.get(unit.kind, tuple(PALETTE.colours))
    return replace(unit, fabrics=tuple(names[own.index(fabric)] for fabric in unit.fabrics))


def recipe(kind: str, way: str, height: str = "2", workroom: Workroom = WORKROOM) -> Recipe:
    """`recipe("hst", "two at a time")`: a unit of this finished height."""
    unit = coloured(unit_of(kind, inches(height)))
    return make_recipe(next(m for m in ways_for(unit, workroom) if m.name == way), unit, workroom)


def star(rows: Towards = "open") -> Cloth:
    """A sawtooth star, 12 in finished, from stitch-and-flip geese; its long seams pressed as told."""
    goose = recipe("geese", "stitch and flip", "3")
    corner, centre = inches("3 1/2"), inches("6 1/2")
    base, sky = goose.start_sizes()
    fabrics = [Supply(fabric=fabric, width=inches(40), length=ZERO) for fabric in PALETTE.colours]
    bench = Bench(
        WORKROOM,
        fabrics,
        [
            Have(name="base", count=4, fabric="fog", width=base[0], height=base[1]),
            Have(name="sky", count=8, fabric="navy", width=sky[0], height=sky[1]),
            Have(name="corner", count=4, fabric="fog", width=corner, height=corner),
            Have(name="centre", count=1, fabric="lantern", width=centre, height=centre),
        ],
    )
    for step in written_for(goose, ("base", "sky"), "goose", 4, WORKROOM):
        bench.do(step)
    first, last = JoinPart(name="corner", exit=(1,)), JoinPart(name="corner", entry=(3,))
    goose_up = JoinPart(name="goose", entry=(3,), exit=(1,))
    _join(bench, Join(parts=(first, goose_up, last), gives="side row", times=2), ("first", "second"))
    left, right = JoinPart(name="goose", exit=(2,)), JoinPart(name="goose", entry=(2,))
    middle = JoinPart(name="centre", entry=(3,), exit=(1,))
    _join(bench, Join(parts=(left, middle, right), gives="middle row", times=1), ("second", "first"))
    low, high = JoinPart(name="side row", exit=(2,)), JoinPart(name="side row", entry=(2,))
    across = JoinPart(name="middle row", entry=(3,), exit=(1,))
    _join(bench, Join(parts=(low, across, high), gives="star", times=1), (rows, rows))
    return bench.cloth("star")


def _join(bench: Bench, step: Join, towards: tuple[Towards, Towards]) -> None:
    meetings = [(n, c) for n in range(9) for c in range(9)]
    told = (msgspec.structs.replace(step, nests=n, clashes=c) for n, c in meetings)
    bench.do(next(step for step in told if not bench.problems(step)))
    seams = tuple(Pressing(f"{step.gives}.{k}", (way,)) for k, way in enumerate(towards))
    bench.do(Press(pile=step.gives, seams=seams))


def small_layout() -> Layout:
    """Squares, rectangles and a binding from navy cloth 40 in wide."""
    wanted = [
        Demand("sky squares", inches("2 1/2"), inches("2 1/2"), 40),
        Demand("rails", inches("2 1/2"), inches("6 1/2"), 12),
        Demand("binding", inches(40), inches("2 1/4"), 5, whole_strip=True),
    ]
    return lay_out(wanted, Bolt("navy", inches(40), inches("4 1/2")))
