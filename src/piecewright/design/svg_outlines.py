"""The outlines of SVG's shapes as loops of lines and curves.

A *piece* of a loop is where it goes on to: one point for a line, three for a curve (its two control points
and its end, a cubic Bezier). The first piece of a loop is the point where it starts.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from itertools import chain, pairwise
from math import ceil, sqrt

from fontTools.misc.bezierTools import calcCubicBounds
from fontTools.misc.transform import Transform
from fontTools.svgLib.path.parser import parse_path

from piecewright.design.svg_file import Node, Unreadable
from piecewright.design.svg_places import FARTHEST, read_length, read_numbers
from piecewright.geometry.point import Point, add, distance, scale, sub
from piecewright.measure.number import shortened

Piece = tuple[Point, ...]
SHAPES = ("rect", "circle", "ellipse", "polygon", "polyline", "path")
MOST_CORNERS = 20_000
MOST_CHORDS = 400

_STRANGE = re.compile(r"[^MmZzLlHhVvCcSsQqTtAa0-9.eE+\-\s,]")
_BARE_DOT = re.compile(r"(?<=\d)\.(?!\d)")


@dataclass(frozen=True)
class Loop:
    """One outline; `closed` says whether the drawing closes it, not whether its ends meet."""

    pieces: tuple[Piece, ...]
    closed: bool

    @property
    def points(self) -> tuple[Point, ...]:
        """All its points, the control points of curves as well."""
        return tuple(chain.from_iterable(self.pieces))

    @property
    def is_curved(self) -> bool:
        """Whether a piece of it is a curve."""
        return any(len(piece) == 3 for piece in self.pieces)

    @property
    def is_open(self) -> bool:
        """Whether it is neither closed nor ends where it starts."""
        first, last = self.pieces[0][-1], self.pieces[-1][-1]
        size = max((distance(first, point) for point in self.points), default=0.0)
        return not self.closed and distance(first, last) > 1e-6 * size

    def placed(self, place: Transform) -> Loop:
        """The loop after a transform; raises Unreadable where it leads too far off."""
        pieces = tuple(tuple(place.transformPoints(piece)) for piece in self.pieces)
        if not all(abs(part) <= FARTHEST for piece in pieces for point in piece for part in point):
            raise Unreadable(
                "expected shapes near the middle of the drawing, got one too far off to measure."
            )
        return Loop(pieces, self.closed)


def chords(loop: Loop, off: float) -> tuple[list[Point], list[Point]]:
    """The corners of a loop whose curves are flattened to chords, and those corners that lie in curves.

    No chord lies farther off its curve than `off`: the second derivative of a cubic is at most six times the
    largest second difference of its points, and n equal steps are off by an eighth of it over n squared.
    Raises Unreadable where that takes too many corners.
    """
    corners, in_curves = [loop.pieces[0][0]], []
    for before, piece in pairwise(loop.pieces):
        if len(piece) == 3:
            points = (before[-1], *piece)
            bend = max(_second_difference(points[k : k + 3]) for k in (0, 1))
            count = min(max(ceil(sqrt(0.75 * bend / off)), 1), MOST_CHORDS)
            between = [_at(points, k / count) for k in range(1, count)]
            corners += between
            in_curves += between
        corners.append(piece[-1])
        if len(corners) > MOST_CORNERS:
            what = f"expected at most {MOST_CORNERS:,} corners in a drawing, got more."
            raise Unreadable(what, "Simplify its outlines.")
    return corners, in_curves


def extent(loop: Loop) -> list[Point]:
    """Points that reach as far as the loop does in every direction."""
    reached = [piece[-1] for piece in loop.pieces]
    for before, piece in pairwise(loop.pieces):
        if len(piece) == 3:
            left, low, right, high = calcCubicBounds(before[-1], *piece)
            reached += [(left, low), (right, high)]
    return reached


def _second_difference(points: Piece) -> float:
    a, b, c = points
    return distance(add(a, c), scale(b, 2))


def _at(points: Piece, share: float) -> Point:
    while len(points) > 1:
        points = tuple(add(p, scale(sub(q, p), share)) for p, q in pairwise(points))
    return points[0]


def outlines_of(node: Node, width: float, height: float) -> list[Loop]:
    """The loops of one of `SHAPES` in a window of a size; raises Unreadable."""
    if node.tag in ("polygon", "polyline"):
        return _through(node.attributes.get("points", ""), node.tag == "polygon")
    if node.tag == "path":
        return _along(node.attributes.get("d", ""))
    if node.tag == "rect":
        return _rectangle(node, width, height)
    return _round(node, width, height)


def _through(points: str, closed: bool) -> list[Loop]:
    numbers = read_numbers(points)
    corners = list(zip(numbers[::2], numbers[1::2], strict=False))
    return [Loop(tuple((corner,) for corner in corners), closed)] if len(corners) > 1 else []


def _rectangle(node: Node, width: float, height: float) -> list[Loop]:
    said = node.attributes
    x, wide = read_length(said.get("x"), width), read_length(said.get("width"), width)
    y, high = read_length(said.get("y"), height), read_length(said.get("height"), height)
    if not (wide > 0 and high > 0):
        return []
    rx, ry = read_length(said.get("rx"), width, -1), read_length(said.get("ry"), height, -1)
    rx, ry = (ry if rx < 0 else rx), (rx if ry < 0 else ry)
    rx, ry = min(max(rx, 0.0), wide / 2), min(max(ry, 0.0), high / 2)
    if not (rx and ry):
        corners = ((x, y), (x + wide, y), (x + wide, y + high), (x, y + high))
        return [Loop(tuple((corner,) for corner in corners), True)]
    bend = f"a{rx},{ry} 0 0 1"
    return _along(
        f"M{x + rx},{y} h{wide - 2 * rx} {bend} {rx},{ry} v{high - 2 * ry} {bend} {-rx},{ry}"
        f" h{2 * rx - wide} {bend} {-rx},{-ry} v{2 * ry - high} {bend} {rx},{-ry} z"
    )


def _round(node: Node, width: float, height: float) -> list[Loop]:
    said, mean = node.attributes, sqrt((width**2 + height**2) / 2)
    x, y = read_length(said.get("cx"), width), read_length(said.get("cy"), height)
    if node.tag == "circle":
        rx = ry = read_length(said.get("r"), mean)
    else:
        rx, ry = read_length(said.get("rx"), width, -1), read_length(said.get("ry"), height, -1)
        rx, ry = (ry if rx < 0 else rx), (rx if ry < 0 else ry)
    if not (rx > 0 and ry > 0):
        return []
    half = f"a{rx},{ry} 0 0 1"
    return _along(f"M{x - rx},{y} {half} {2 * rx},0 {half} {-2 * rx},0 z")


def _along(path: str) -> list[Loop]:
    wanted = f"expected a path such as M 0 0 L 4 0 L 4 4 Z in the drawing, got {shortened(path.strip())}."
    strange = _STRANGE.search(path)
    if strange is not None:
        raise Unreadable(wanted)
    pen = _LoopPen()
    try:
        parse_path(" ".join(_BARE_DOT.sub("", path).split()), pen)
    except (ValueError, ArithmeticError, IndexError) as error:
        raise Unreadable(wanted) from error
    return [loop for loop in pen.loops if len(loop.pieces) > 1]


class _LoopPen:
    """Collects loops; its methods have the names by which fontTools calls a pen."""

    def __init__(self) -> None:
        self.loops: list[Loop] = []
        self.pieces: list[Piece] = []

    def moveTo(self, point: Point) -> None:  # noqa: N802
        self.pieces = [(point,)]

    def lineTo(self, point: Point) -> None:  # noqa: N802
        self.pieces.append((point,))

    def curveTo(self, first: Point, second: Point, end: Point) -> None:  # noqa: N802
        self.pieces.append((first, second, end))

    def qCurveTo(self, control: Point, end: Point) -> None:  # noqa: N802
        start = self.pieces[-1][-1]
        first, second = (add(p, scale(sub(control, p), 2 / 3)) for p in (start, end))
        self.pieces.append((first, second, end))

    def closePath(self) -> None:  # noqa: N802
        self.loops.append(Loop(tuple(self.pieces), True))

    def endPath(self) -> None:  # noqa: N802
        self.loops.append(Loop(tuple(self.pieces), False))
