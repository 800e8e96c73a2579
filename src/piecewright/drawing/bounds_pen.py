"""The pen that draws nothing and finds how much paper a picture takes."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable
from math import cos, radians, sin

from piecewright.drawing.look import WORDS, Style
from piecewright.drawing.pen import Anchor, Pen, Points
from piecewright.drawing.writing import text_width
from piecewright.geometry.isometry import Isometry
from piecewright.geometry.point import Point, add, distance, left_of, scale, sub
from piecewright.geometry.polygon import bounds

TICK = 2.2
"""The half length of a stroke across the end of a cut, in points."""

HEAD, WINGS, SHAFT = 4.0, 6.0, 2.0
"""The length and the width of an arrow's head, and the width of its shaft, in points."""


class BoundsPen:
    """Keeps the bounds of what is drawn on it.

    >>> pen = BoundsPen()
    >>> pen.polyline([(1.0, 2.0), (4.0, 2.0)], Style("line", "#000000", 0.0))
    >>> pen.box
    (1.0, 2.0, 4.0, 2.0)
    """

    def __init__(self) -> None:
        self._box: tuple[float, float, float, float] | None = None
        self._stamps: dict[Hashable, BoundsPen] = {}

    @property
    def box(self) -> tuple[float, float, float, float]:
        """The least x and y and the greatest x and y; all 0 when nothing was drawn."""
        return self._box or (0.0, 0.0, 0.0, 0.0)

    @property
    def size(self) -> tuple[float, float]:
        """The width and height of the bounds."""
        x0, y0, x1, y1 = self.box
        return x1 - x0, y1 - y0

    def polygon(self, points: Points, style: Style) -> None:
        """A closed shape."""
        self._reach(points, style.weight / 2)

    def polyline(self, points: Points, style: Style) -> None:
        """An open line."""
        self._reach(points, (TICK if style.ticks else 0.0) + style.weight / 2)

    def arrow(self, a: Point, b: Point, style: Style) -> None:
        """An arrow."""
        self._reach(arrow_outline(a, b), style.weight / 2)

    def circle(self, centre: Point, radius: float, style: Style) -> None:
        """A circle."""
        self._reach([centre], radius + style.weight / 2)

    def text(
        self,
        at: Point,
        words: str,
        size: float,
        anchor: Anchor = "middle",
        style: Style = WORDS,
        turn: float = 0.0,
    ) -> None:
        """Words: as wide as they are thought to come out."""
        long = text_width(words, size)
        start = {"start": 0.0, "middle": -long / 2, "end": -long}[anchor]
        c, s, half = cos(radians(turn)), sin(radians(turn)), size * 0.6
        corners = [(x, y) for x in (start, start + long) for y in (-half, half)]
        self._reach([(at[0] + c * x - s * y, at[1] + s * x + c * y) for x, y in corners], 0.0)

    def group(self, name: str) -> None:
        """Takes no paper."""

    def end_group(self) -> None:
        """Takes no paper."""

    def stamp(self, key: Hashable, draw: Callable[[Pen], None], place: Isometry) -> None:
        """The bounds of a stamp are found once; in other places they are turned with it."""
        if key not in self._stamps:
            self._stamps[key] = BoundsPen()
            draw(self._stamps[key])
        x0, y0, x1, y1 = self._stamps[key].box
        self._reach([place.at(p) for p in ((x0, y0), (x1, y0), (x1, y1), (x0, y1))], 0.0)

    def _reach(self, points: Iterable[Point], beyond: float) -> None:
        x0, y0, x1, y1 = bounds(list(points))
        x0, y0, x1, y1 = x0 - beyond, y0 - beyond, x1 + beyond, y1 + beyond
        if self._box:
            a, b, c, d = self._box
            x0, y0, x1, y1 = min(a, x0), min(b, y0), max(c, x1), max(d, y1)
        self._box = (x0, y0, x1, y1)


def arrow_outline(a: Point, b: Point) -> tuple[Point, ...]:
    """The outline of an arrow from a to b: a shaft and a head."""
    long = distance(a, b)
    u, v = scale(sub(b, a), 1 / long), scale(left_of(sub(b, a)), 1 / long)
    neck = sub(b, scale(u, min(HEAD, long * 0.6)))
    shaft, wing = scale(v, SHAFT / 2), scale(v, WINGS / 2)
    return (
        sub(a, shaft),
        sub(neck, shaft),
        sub(neck, wing),
        b,
        add(neck, wing),
        add(neck, shaft),
        add(a, shaft),
    )
