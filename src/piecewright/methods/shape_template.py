"""Shapes cut round a template, one from each rectangle that just holds it."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache, partial

from piecewright.bench.steps import AnyStep, CutOut
from piecewright.geometry.offset import cut_shape
from piecewright.geometry.polygon import Polygon, bounds
from piecewright.methods.method import Family, Making, Method, Start, Unit
from piecewright.methods.shape_words import measured_words
from piecewright.methods.strip_rows import homed
from piecewright.workroom.workroom import Workroom

KINDS = (
    "diamond45",
    "diamond60",
    "triangle60",
    "hexagon",
    "kite",
    "trapezoid",
    "trapezoid-upright",
)


def steps(making: Making, raw: Polygon) -> tuple[AnyStep, ...]:
    """The rectangle cut down to the shape."""
    (takes,) = making.pieces
    return (CutOut(takes=takes, outline=raw, gives=making.gives, times=making.times),)


def members(unit: Unit, workroom: Workroom) -> tuple[Method, ...]:
    """The way for this unit; raises Refused for no such unit."""
    unit.refuse_nonsense()
    return _members(replace(unit, fabrics=("patch",)), workroom)


@lru_cache(maxsize=512)
def _members(unit: Unit, workroom: Workroom) -> tuple[Method, ...]:
    shape = cut_shape(unit.drawing.outline, float(workroom.take_up))
    raw = homed(shape.raw)
    _, _, width, height = bounds(raw)
    edges = ", ".join(measured_words(edge.cut, workroom) for edge in shape.edges)
    return (
        Method(
            name="by template",
            kind=unit.kind,
            makes=1,
            starts=(Start(0, 1, 0, 1),),
            steps=partial(steps, raw=raw),
            landmark="edges",
            reason="any part of a print may be picked for it, but every piece is cut for itself",
            says=(
                f"Make a template of the shape as it is cut; round it its edges measure {edges}.",
                "Cut rectangles that just hold it, its arrow along the straight of grain.",
                "Lay the template on, right sides up, and cut round it.",
                "Edges off the grain stretch: handle the pieces little, and sew them without pulling.",
            ),
            unknowns=2,
            may_round=False,
            derived=lambda unit, take_up, extra: (width, height),
        ),
    )


FAMILY = Family("by template", KINDS, members)
