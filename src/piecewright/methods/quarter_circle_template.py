"""Quarter circles from a pair of templates: the quarter itself, and the rest of the square round it."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache, partial

from piecewright.bench.steps import AnyStep, CutOut
from piecewright.geometry.offset import cut_shape
from piecewright.geometry.polygon import Polygon, bounds
from piecewright.methods.assembly import Assembly
from piecewright.methods.method import Family, Making, Method, Start, Unit
from piecewright.methods.shape_words import measured_words
from piecewright.methods.strip_rows import homed
from piecewright.problems import Problem, Refused
from piecewright.workroom.workroom import Workroom

STARTS = (Start(0, 1), Start(1, 1, 1, 1))
Outlines = tuple[Polygon, ...]


def steps(making: Making, nets: Outlines, raws: Outlines) -> tuple[AnyStep, ...]:
    """Both cut out of squares, joined along the curve, pressed towards the rest."""
    work = Assembly(making, STARTS)
    names = (f"{making.gives} quarter", f"{making.gives} rest")
    for takes, raw, name in zip(making.pieces, raws, names, strict=True):
        work.do(CutOut(takes=takes, outline=raw, gives=name, times=making.times))
    quarter, rest = (work.lay(name, net) for name, net in zip(names, nets, strict=True))
    work.join(rest, quarter, making.gives, towards="first")
    return tuple(work.steps)


def members(unit: Unit, workroom: Workroom) -> tuple[Method, ...]:
    """The way for this unit; none where the curve is tighter than the seam is wide."""
    unit.refuse_nonsense()
    return _members(replace(unit, fabrics=("quarter", "rest")), workroom)


@lru_cache(maxsize=512)
def _members(unit: Unit, workroom: Workroom) -> tuple[Method, ...]:
    take_up, (radius,) = float(workroom.take_up), unit.measures
    if radius <= workroom.take_up:
        raise Refused(
            Problem(
                f"a quarter circle of radius {radius} has no allowance inside it at a seam of "
                f"{workroom.take_up}",
                do="Choose a larger radius.",
            )
        )
    shapes = [cut_shape(patch.outline, take_up) for patch in unit.drawing.patches]
    raws = tuple(homed(shape.raw) for shape in shapes)
    sides = tuple(bounds(raw)[2] for raw in raws)
    told = [measured_words(side, workroom) for side in sides]
    return (
        Method(
            name="by template",
            kind=unit.kind,
            makes=1,
            starts=STARTS,
            steps=partial(steps, nets=tuple(shape.net for shape in shapes), raws=raws),
            landmark="edges",
            reason="two templates and one curved seam; the outer edges lie on the straight grain",
            says=(
                "Make a template of each patch as it is cut, with marks at the middle of its curve.",
                f"Cut squares of {told[0]} for the quarters and of {told[1]} for the rest; cut round the "
                "templates, their arrows along the grain.",
                "Clip the inner curve of the rest, half as deep as the allowance, every half inch or so.",
                "Pin both curves right sides together at the marks; sew with the rest on top, easing.",
                "Press towards the rest.",
            ),
            unknowns=2,
            may_round=False,
            derived=lambda unit, take_up, extra: sides,
            pressed_as_written=True,
        ),
    )


FAMILY = Family("by template", ("quarter-circle",), members)
