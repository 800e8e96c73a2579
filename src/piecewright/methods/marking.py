"""Lines to draw on the cloth for a way: the cutting lines, or the sewing lines; the maker may choose.

Terms:
- *cutting line*: drawn where the cut goes, sewn beside, the needle's distance from it;
- *sewing line*: drawn where the needle goes, sewn upon. Stitching on a line loses only the fold, so it lies
  the needle's distance from the cut, and not a whole take-up;
- *corner line*: of a square sewn to a corner: from corner to corner, sewn a thread beside.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from piecewright.bench.bench import Bench, seam_of
from piecewright.bench.doing import where
from piecewright.bench.steps import Ruled, Stack
from piecewright.geometry.point import near, side_of
from piecewright.geometry.polygon import Line, Polygon, clip_segment, edges, placed
from piecewright.measure.length import ZERO, Length, Unit
from piecewright.measure.showing import show
from piecewright.measure.tolerance import EDGE_MATCH
from piecewright.methods.recipe import Recipe
from piecewright.methods.trial import try_out
from piecewright.workroom.workroom import Workroom

Drawn = Literal["cutting", "sewing"]


@dataclass(frozen=True)
class DrawnLine:
    """A line on the wrong side of a cloth of a stack.

    `cloth` is its pile in the recipe ("start 1"), `line` its ends in the frame of the stack's base; inches.
    """

    cloth: str
    line: Line


@dataclass(frozen=True)
class Marking:
    """What is drawn for one stack of a recipe, and how it is sewn; `stack` counts the stacks from 0.

    `off` is how far beside a drawn line the needle goes (0 where it is sewn upon). `says` tells it in a
    sentence or two. Without `lines` nothing need be drawn.
    """

    stack: int
    drawn: Drawn
    lines: tuple[DrawnLine, ...]
    off: Length
    says: tuple[str, ...]


def markings(
    recipe: Recipe, drawn: Drawn, workroom: Workroom, unit: Unit | None = None
) -> tuple[Marking, ...]:
    """The lines for each stack of a recipe, drawn one way or the other; lengths are told in `unit`."""
    sizes = tuple(map(float, recipe.sizing.cut))
    bench = try_out(recipe.method, recipe.unit, sizes, workroom, laying=recipe.laying).bench
    stacks = [step for step in recipe.steps if isinstance(step, Stack)]
    shown = unit or workroom.unit
    return tuple(_marking(k, step, drawn, bench, workroom, shown) for k, step in enumerate(stacks))


def _marking(number: int, step: Stack, drawn: Drawn, bench: Bench, workroom: Workroom, unit: Unit) -> Marking:
    base = bench.pile(step.base).kinds[0][0].raw
    sewn = [ruled for ruled in step.sew if not _follows_edge(ruled, base)]
    if not sewn:
        return Marking(number, drawn, (), ZERO, ("Nothing is drawn: the edge is the guide.",))
    ways = [_as_drawn(ruled) if drawn == "cutting" else where(ruled, seam_of(workroom)) for ruled in sewn]
    lines = _on_cloth(step, ways, bench)
    if drawn == "sewing":
        return Marking(number, drawn, lines, ZERO, _sewing_words(sewn, workroom, unit))
    hair = any(ruled.beside.startswith("hair") for ruled in sewn)
    off = workroom.fold if hair else workroom.needle
    return Marking(number, drawn, lines, off, _cutting_words(sewn, workroom, unit))


def _follows_edge(ruled: Ruled, base: Polygon) -> bool:
    """Whether the edge of the base is guide enough."""
    ends = _as_drawn(ruled)
    return any(all(abs(side_of(end, *edge)) <= EDGE_MATCH for end in ends) for edge in edges(base))


def _as_drawn(ruled: Ruled) -> Line:
    return (ruled.x, ruled.y), (ruled.to_x, ruled.to_y)


def _on_cloth(step: Stack, ways: list[Line], bench: Bench) -> tuple[DrawnLine, ...]:
    """The lines as far as they run over each of the cloths that lie face down, each once."""
    found: list[DrawnLine] = []
    for lay in step.tops:
        outline = placed(bench.pile(lay.name).kinds[0][0].raw, lay.place)
        for way in ways:
            line = clip_segment(way, outline)
            if line and not any(one.cloth == lay.name and _same(one.line, line) for one in found):
                found.append(DrawnLine(lay.name, line))
    return tuple(found)


def _same(one: Line, other: Line) -> bool:
    return all(near(p, q, EDGE_MATCH) for p, q in zip(one, other, strict=True))


def _cutting_words(sewn: list[Ruled], workroom: Workroom, unit: Unit) -> tuple[str, ...]:
    needle = show(workroom.needle, unit)
    if not any(ruled.beside.startswith("hair") for ruled in sewn):
        return (
            "Draw the cutting lines on the wrong side of the upper cloth.",
            f"Sew on both sides of each, the needle's distance from it: {needle}.",
        )
    told = (
        "Draw a line from corner to corner, and sew a thread beside it, on the side of the corner that goes.",
    )
    if all(ruled.beside.startswith("hair") for ruled in sewn):
        return told
    return (*told, "Draw the second sewing line as well, and sew on it; cut midway between the two seams.")


def _sewing_words(sewn: list[Ruled], workroom: Workroom, unit: Unit) -> tuple[str, ...]:
    upon = "Stitching on a line loses only the fold"
    if any(ruled.beside.startswith("hair") for ruled in sewn):
        fold = show(workroom.fold, unit)
        return (
            "Draw the sewing line beside the diagonal, on the side of the corner that goes, and sew on it.",
            f"{upon}: {fold} beside the diagonal is enough.",
        )
    needle, apart = show(workroom.needle, unit), show(workroom.needle * 2, unit)
    return (
        f"Draw sewing lines in pairs, {apart} apart, on the wrong side of the upper cloth, and sew on them.",
        f"Cut midway between. {upon}: so they lie {needle} from the cut, and not a whole seam.",
    )
