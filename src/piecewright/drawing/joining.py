"""The picture of joining: the parts of a sewn cloth laid apart in their order, with the seams between."""

from __future__ import annotations

from dataclasses import dataclass

from piecewright.bench.cloth import Cloth, Seam
from piecewright.drawing.cloths import draw_finished, draw_sewn
from piecewright.drawing.frames import Box
from piecewright.drawing.look import SEWN, THREAD, Style
from piecewright.drawing.palette import Palette
from piecewright.drawing.pen import Pen, View, fitting
from piecewright.drawing.svg_pen import SvgPen
from piecewright.drawing.writing import counted
from piecewright.geometry.isometry import STILL, Isometry
from piecewright.geometry.point import Point, add, left_of, scale, sub, unit
from piecewright.geometry.polygon import Line, bounds, placed

GAP = 0.1
"""The gap between two parts at the innermost level, as a share of the whole."""

JOINED_WIDTH = 220.0

SEAM_TO_SEW = Style("seam to sew", THREAD, 1.3, halo=True)
"""A solid line in thread blue, in the middle of a gap."""


@dataclass(frozen=True)
class Apart:
    """Each part where it lies once all is laid apart, and the seams, each in the middle of its gap."""

    parts: tuple[tuple[Cloth, Isometry], ...]
    seams: tuple[Line, ...]

    @property
    def box(self) -> Box:
        """The bounds of all parts in inches."""
        return bounds([p for cloth, place in self.parts for p in placed(cloth.net, place)])

    def moved(self, place: Isometry, by: Point) -> Apart:
        """The whole turned into a place and moved."""
        to = Isometry(place.cos, place.sin, place.x + by[0], place.y + by[1], place.mirrored)
        return Apart(
            tuple((cloth, to.after(own)) for cloth, own in self.parts),
            tuple((to.at(a), to.at(b)) for a, b in self.seams),
        )


def laid_apart(cloth: Cloth, gap: float, levels: int = 2) -> Apart:
    """The parts of a joined cloth with gaps (inches) between them.

    Parts that are joined themselves are laid apart too, `levels` deep, with gaps half as wide each time.
    """
    if not cloth.parts or levels < 1:
        return Apart(((cloth, STILL),), ())
    moves: list[Point] = [(0.0, 0.0)]
    crossings: list[Point] = []
    for seam in cloth.own_seams[: len(cloth.parts) - 1]:
        out = scale(onwards(seam), gap)
        crossings.append(add(moves[-1], scale(out, 0.5)))
        moves.append(add(moves[-1], out))
    mean = scale(_sum(moves), 1 / len(moves))
    inner = [laid_apart(part.cloth, gap / 2, levels - 1) for part in cloth.parts]
    lying = [
        apart.moved(part.place, sub(move, mean))
        for apart, part, move in zip(inner, cloth.parts, moves, strict=False)
    ]
    seams = [
        (add(a, sub(move, mean)), add(b, sub(move, mean)))
        for seam, move in zip(cloth.own_seams, crossings, strict=False)
        for a, b in seam.segments
    ]
    return Apart(
        tuple(pair for apart in lying for pair in apart.parts),
        (*seams, *(line for apart in lying for line in apart.seams)),
    )


def onwards(seam: Seam) -> Point:
    """The direction from the first cloth of a seam to the second, which lies on the right of the path."""
    ways = [unit(left_of(sub(a, b))) for a, b in seam.segments]
    whole = _sum(ways)
    return unit(whole) if abs(whole[0]) + abs(whole[1]) > 1e-6 else ways[0]


def _sum(points: list[Point]) -> Point:
    return sum(p[0] for p in points), sum(p[1] for p in points)


def draw_apart(
    pen: Pen, apart: Apart, palette: Palette, view: View, raw: bool = False, seam: Style = SEWN
) -> None:
    """Every part as it will show (or, if `raw`, with its allowances), and the seams between them."""
    for cloth, place in apart.parts:
        if raw:
            draw_sewn(pen, cloth, palette, view, place)
        else:
            draw_finished(pen, cloth, palette, view, place)
    for line in apart.seams:
        pen.polyline(view.points(line), seam)


def draw_joining(
    pen: Pen, cloth: Cloth, palette: Palette, levels: int = 2, width: float = JOINED_WIDTH
) -> None:
    """A joined cloth laid apart in a box of so many points."""
    x0, y0, x1, y1 = bounds(cloth.net)
    apart = laid_apart(cloth, GAP * min(x1 - x0, y1 - y0), levels)
    draw_apart(pen, apart, palette, fitting(apart.box, width, width), seam=SEAM_TO_SEW)


def joining_svg(
    cloth: Cloth, palette: Palette, name: str, levels: int = 2, width: float = JOINED_WIDTH
) -> str:
    """The picture of joining a thing of this name as SVG."""
    pen = SvgPen(f"Joining: {name}", _in_words(cloth, name))
    draw_joining(pen, cloth, palette, levels, width)
    return pen.svg()


def _in_words(cloth: Cloth, name: str) -> str:
    inner = sum(len(part.cloth.parts) or 1 for part in cloth.parts)
    parts = counted(len(cloth.parts), "part")
    within = f", made of {counted(inner, 'piece')} in all" if inner > len(cloth.parts) else ""
    return f"{name} laid apart as it is joined: {parts} in order{within}; lines show the seams."
