"""The sheet for a stack: its cloths' edges with the lines to sew and to cut, to trace or to stitch through.

Terms:
- *stack*: cloths laid on one another; here as the step tells it, seen from above, those on top face down;
- *lines*: the *sewing* lines, drawn where the needle goes, the *cutting* lines, or both.

Stitching on a drawn line loses only the fold, so sewing lines are drawn exactly the needle's distance from
where the cut goes, and never a whole take-up.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from typing import Literal

from piecewright.bench.cloth import SeamSize
from piecewright.bench.doing import where
from piecewright.bench.steps import Ruled, Stack
from piecewright.drawing.inside import across, parts_off, parts_within
from piecewright.drawing.true_scale import SheetLine, TrueShape, TrueSheet, closed
from piecewright.drawing.writing import length_of, measured_size
from piecewright.geometry.point import side_of
from piecewright.geometry.polygon import Line, Polygon, area, bounds, edges, placed, same_polygon
from piecewright.measure.length import Unit
from piecewright.measure.showing import show
from piecewright.measure.tolerance import AS_DRAWN
from piecewright.problems import Problem, Refused

Lines = Literal["sewing", "cutting", "both"]

USE = "Lay it on the stack and stitch through the paper, or trace its lines onto the cloth."


def stack_sheet(
    step: Stack,
    outlines: Mapping[str, Polygon],
    seam: SeamSize,
    lines: Lines = "both",
    *,
    title: str,
    count: int = 1,
    unit: Unit = "in",
) -> TrueSheet:
    """The sheet for a stack whose cloths have these raw outlines (by pile name, inches).

    `count` is how many stacks there are. Raises Refused for a cloth without an outline, and where the stack
    has no line of the kind that is asked for.
    """
    drawn = stack_shape(step, outlines, seam, lines, title=title, count=count, unit=unit)
    return TrueSheet(title, USE, _notes(lines, seam, unit), (drawn,))


def is_marked(step: Stack, outlines: Mapping[str, Polygon]) -> bool:
    """Whether a line that stitching follows is none of the raw edges, so that one has to draw it."""
    tops = [placed(_outline(lay.name, outlines), lay.place) for lay in step.tops]
    raw = [edge for outline in (_outline(step.base, outlines), *tops) for edge in edges(outline)]
    told = [((ruled.x, ruled.y), (ruled.to_x, ruled.to_y)) for ruled in step.sew]
    return not all(any(_same_line(line, edge) for edge in raw) for line in told)


def _same_line(line: Line, edge: Line) -> bool:
    return all(abs(side_of(end, *edge)) <= AS_DRAWN for end in line)


def stack_shape(
    step: Stack,
    outlines: Mapping[str, Polygon],
    seam: SeamSize,
    lines: Lines = "both",
    *,
    title: str,
    count: int = 1,
    unit: Unit = "in",
) -> TrueShape:
    """The stack itself; see `stack_sheet`."""
    base = _outline(step.base, outlines)
    tops = [placed(_outline(lay.name, outlines), lay.place) for lay in step.tops]
    sewing = [line for ruled in step.sew for line in _sewn(ruled, seam, base, tops)]
    cutting = [line for ruled in step.cut for line in _cut(ruled, seam, [base, *tops])]
    drawn = (sewing if lines != "cutting" else []) + (cutting if lines != "sewing" else [])
    if not drawn:
        raise Refused(Problem(f"{title}: this stack has no {lines} line.", do="Ask for the other lines."))
    outer = [closed("edge", base), *(line for top in _distinct(tops) for line in _laid(top, base))]
    return TrueShape(title, (*outer, *drawn), base, (), None, count, _caption(step, outlines, unit))


def _outline(name: str, outlines: Mapping[str, Polygon]) -> Polygon:
    if name not in outlines:
        raise Refused(Problem(f"the outline of {name!r} was expected, there is none"))
    return outlines[name]


def _sewn(ruled: Ruled, seam: SeamSize, base: Polygon, tops: list[Polygon]) -> list[SheetLine]:
    """Where the needle goes through the base and a cloth on top."""
    line = where(ruled, seam)
    found: list[SheetLine] = []
    for top in tops:
        for part in parts_within(line, [base, top]):
            # Cloths on top that overlap share a stretch of stitching, which is drawn once.
            if found and _runs_on(found[-1].points[-1], part[0], line):
                found[-1] = SheetLine("sew", (found[-1].points[0], part[-1]))
            else:
                found.append(SheetLine("sew", part))
    return found


def _runs_on(
    end: tuple[float, float], start: tuple[float, float], line: tuple[tuple[float, float], ...]
) -> bool:
    (ax, ay), (bx, by) = line
    return (start[0] - end[0]) * (bx - ax) + (start[1] - end[1]) * (by - ay) <= AS_DRAWN


def _cut(ruled: Ruled, seam: SeamSize, cloths: list[Polygon]) -> list[SheetLine]:
    """Where the stack is cut apart: from edge to edge of all its cloths."""
    line = across(where(ruled, seam), cloths)
    return [SheetLine("apart", line)] if line else []


def _laid(top: Polygon, base: Polygon) -> list[SheetLine]:
    """The edge of a cloth on top, but for where it lies on the edge of the base."""
    return [SheetLine("lay", part) for part in parts_off(closed("lay", top).points, base)]


def _distinct(outlines: list[Polygon]) -> list[Polygon]:
    """The outlines without those that lie on one drawn already."""
    kept: list[Polygon] = []
    for outline in outlines:
        if not any(same_polygon(outline, other, AS_DRAWN) for other in kept):
            kept.append(outline)
    return kept


def _caption(step: Stack, outlines: Mapping[str, Polygon], unit: Unit) -> str:
    tops = Counter(_piece_words(outlines[lay.name], unit) for lay in step.tops)
    base = _piece_words(outlines[step.base], unit)
    if list(tops.items()) == [(base, 1)]:
        return f"2 {_several(base)}, face to face"
    on_top = ", ".join(
        f"{number} {_several(piece) if number > 1 else piece}" for piece, number in tops.items()
    )
    return f"{on_top}, face down on 1 {base}"


def _piece_words(outline: Polygon, unit: Unit) -> str:
    """A piece and its size: `square 5 3/4 in`."""
    x0, y0, x1, y1 = bounds(outline)
    shape = "square" if abs((x1 - x0) - (y1 - y0)) <= AS_DRAWN else "rectangle"
    if abs((x1 - x0) * (y1 - y0) - area(outline)) > AS_DRAWN:
        shape = "piece"
    return f"{shape} {measured_size((x1 - x0, y1 - y0), unit).replace(' × ', ' x ')}"


def _several(piece: str) -> str:
    shape, size = piece.split(" ", 1)
    return f"{shape}s {size}"


def _notes(lines: Lines, seam: SeamSize, unit: Unit) -> tuple[str, ...]:
    needle = show(length_of(seam.needle), unit)
    if lines == "cutting":
        beside = f"Sew beside the line, the needle's distance from it: {needle}."
    else:
        beside = f"Sew exactly on the dashed lines: they lie the needle's distance, {needle}, from the cut."
    paper = (
        "Through paper, sew with short stitches, and tear it away before you press: a hot iron lifts the ink."
    )
    return (beside, paper) if lines != "cutting" else (beside,)
