"""The picture of a block that does not fit together: patches in outline, faulty places ringed and numbered.

What lies open, overlaps or is too narrow is hatched. The rings are told apart by their numbers, not by
colour, so that the picture says the same in black and white; its description says it in words.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from piecewright.design.misfit_words import FaultyBlock, MisfitProblem
from piecewright.drawing.look import CAPTION, INK, PAPER, QUIET_WORDS, RUST, STRONG_WORDS, WORDS, Style
from piecewright.drawing.pen import Pen, View, fitting
from piecewright.drawing.svg_pen import SvgPen
from piecewright.drawing.writing import counted, text_width
from piecewright.geometry.point import Point, add, distance, scale
from piecewright.geometry.polygon import bounds, centroid
from piecewright.measure.showing import show_float
from piecewright.problems import Problem

BLOCK_SIDE = 300.0
"""How large a block is drawn, in points; and how far blocks stand apart, how large the numbers are."""

APART = 46.0
NUMBER = 11.0

LEAST_RING = 9.0
MOST_RING = 60.0

PATCH = Style("drawn patch", INK, 0.6, fill=PAPER)
FAULT = Style("fault", INK, 0.5, fill=PAPER, hatched=True)
EDGE = Style("edge of the block", INK, 1.2)
RING = Style("ring", RUST, 1.8, halo=True)
POINTER = Style("pointer", RUST, 0.9, halo=True)
PLATE = Style("number plate", RUST, 0.9, fill=PAPER)

# Where a number may stand about its ring, in the order in which the places are tried.
_SIDES = ((1, 1), (-1, 1), (1, -1), (-1, -1), (0, 1.4), (0, -1.4), (1.4, 0), (-1.4, 0))


@dataclass(frozen=True)
class _Mark:
    """A ring on the picture, its number, and where the number stands."""

    number: int
    at: Point
    radius: float
    plate: Point


def marked(problems: Iterable[Problem]) -> list[MisfitProblem]:
    """The problems that a picture can mark, in their order; the first has the number 1."""
    return [
        p for p in problems if isinstance(p, MisfitProblem) and p.block is not None and p.misfit is not None
    ]


def misfits_svg(problems: Sequence[MisfitProblem]) -> str:
    """The picture of all blocks with such problems, one below the other, as SVG; needs at least one."""
    blocks = _by_block(problems)
    names = ", ".join(block.name for block, _ in blocks)
    pen = SvgPen(f"Where it does not fit: {names}", " ".join(_in_words(blocks)))
    low = 0.0
    for block, own in blocks:
        low -= draw_misfits(pen, block, own, low) + APART
    return pen.svg()


def draw_misfits(
    pen: Pen, block: FaultyBlock, problems: Sequence[tuple[int, MisfitProblem]], top: float = 0.0
) -> float:
    """A block with its faulty places ringed, its upper edge at `top`; gives its height in points."""
    view = fitting((0.0, 0.0, block.width, block.height), BLOCK_SIDE, BLOCK_SIDE)
    height = view.scale * block.height
    view = View(view.scale, view.x, top - height)
    pen.group(block.name)
    for outline in block.outlines:
        pen.polygon(view.points(outline), PATCH)
    for outline, label in zip(block.outlines, block.labels, strict=True):
        _put_label(pen, view.points(outline), label)
    for _, problem in problems:
        if problem.misfit and len(problem.misfit.region) > 2:
            pen.polygon(view.points(problem.misfit.region), FAULT)
    frame = ((0.0, 0.0), (block.width, 0.0), (block.width, block.height), (0.0, block.height))
    pen.polygon(view.points(frame), EDGE)
    for mark in _marks(problems, view):
        _put_mark(pen, mark)
    size = f"{show_float(block.width, block.unit)} x {show_float(block.height, block.unit)} finished"
    below = add(view.at((block.width / 2, 0.0)), (0.0, -2.6 * NUMBER))
    pen.text(below, f"{block.name}, {size}", CAPTION, "middle", WORDS)
    pen.end_group()
    return height


def _put_label(pen: Pen, outline: tuple[Point, ...], label: str) -> None:
    """What the problems call a patch, where there is room for it."""
    left, low, right, high = bounds(outline)
    if right - left > text_width(label, CAPTION) + 2 and high - low > 1.5 * CAPTION:
        pen.text(centroid(outline), label, CAPTION, "middle", QUIET_WORDS)


def _by_block(
    problems: Sequence[MisfitProblem],
) -> list[tuple[FaultyBlock, list[tuple[int, MisfitProblem]]]]:
    """Each block with its problems, numbered through."""
    blocks: dict[FaultyBlock, list[tuple[int, MisfitProblem]]] = {}
    for number, problem in enumerate(problems, 1):
        if problem.block is not None:
            blocks.setdefault(problem.block, []).append((number, problem))
    return list(blocks.items())


def _in_words(blocks: Sequence[tuple[FaultyBlock, list[tuple[int, MisfitProblem]]]]) -> Iterator[str]:
    for block, own in blocks:
        sides = f"{show_float(block.width, block.unit)} wide and {show_float(block.height, block.unit)} high"
        patches = counted(len(block.outlines), "patch").replace("patchs", "patches")
        yield f"The block {block.name}, {sides}, {patches} in outline, with rings around faulty places."
        for number, problem in own:
            yield f"{number}: {problem.what}"


def _marks(problems: Sequence[tuple[int, MisfitProblem]], view: View) -> Iterator[_Mark]:
    """A ring for each place; numbers stand beside their rings and clear of one another."""
    taken: list[Point] = []
    rings = [(number, *_ring(problem, view)) for number, problem in problems]
    for number, at, radius in rings:
        reach = 0.72 * radius + NUMBER
        spots = [add(at, scale(side, reach * more)) for more in (1.0, 1.6, 2.4, 3.4) for side in _SIDES]
        clear = (
            spot for spot in spots if _is_clear(spot, taken, [(a, r) for n, a, r in rings if n != number])
        )
        plate = next(clear, spots[0])
        taken.append(plate)
        yield _Mark(number, at, radius, plate)


def _ring(problem: MisfitProblem, view: View) -> tuple[Point, float]:
    """Where the ring of a problem lies on paper, and its radius."""
    misfit = problem.misfit
    assert misfit is not None
    if len(misfit.region) < 3:
        return view.at(misfit.place), LEAST_RING
    left, low, right, high = bounds(view.points(misfit.region))
    radius = distance((left, low), (right, high)) / 2 + 4
    if radius > MOST_RING:
        return view.at(misfit.place), LEAST_RING
    return ((left + right) / 2, (low + high) / 2), max(radius, LEAST_RING)


def _is_clear(spot: Point, taken: Sequence[Point], rings: Sequence[tuple[Point, float]]) -> bool:
    plates = all(distance(spot, other) > 1.7 * NUMBER for other in taken)
    return plates and all(
        distance(spot, at) > radius + NUMBER or distance(spot, at) < radius - NUMBER for at, radius in rings
    )


def _put_mark(pen: Pen, mark: _Mark) -> None:
    pen.circle(mark.at, mark.radius, RING)
    away = distance(mark.at, mark.plate)
    edge = add(mark.at, scale((mark.plate[0] - mark.at[0], mark.plate[1] - mark.at[1]), mark.radius / away))
    pen.polyline((edge, mark.plate), POINTER)
    words = str(mark.number)
    pen.circle(mark.plate, max(0.62 * NUMBER, 0.62 * text_width(words, NUMBER) + 2), PLATE)
    pen.text(mark.plate, words, NUMBER, "middle", STRONG_WORDS)
