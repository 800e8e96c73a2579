"""The pen that writes down what is drawn on it, for tests and for those who want to look closely."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from dataclasses import dataclass

from piecewright.drawing.look import WORDS, Style
from piecewright.drawing.pen import Anchor, Pen, PlacedPen, Points
from piecewright.geometry.isometry import Isometry
from piecewright.geometry.point import Point


@dataclass(frozen=True)
class Stroke:
    """One thing that was drawn: what ("polygon", "text" and so on), where, in which style, in which group."""

    what: str
    points: tuple[Point, ...]
    style: Style
    words: str = ""
    group: str = ""


class RecorderPen:
    """Keeps every stroke in order; stamps are drawn out in each place."""

    def __init__(self) -> None:
        self.strokes: list[Stroke] = []
        self._groups: list[str] = []

    def of_style(self, name: str) -> list[Stroke]:
        """The strokes in a style."""
        return [stroke for stroke in self.strokes if stroke.style.name == name]

    @property
    def words(self) -> list[str]:
        """All words, in the order in which they were written."""
        return [stroke.words for stroke in self.strokes if stroke.what == "text"]

    def polygon(self, points: Points, style: Style) -> None:
        """A closed shape."""
        self._write("polygon", points, style)

    def polyline(self, points: Points, style: Style) -> None:
        """An open line."""
        self._write("polyline", points, style)

    def arrow(self, a: Point, b: Point, style: Style) -> None:
        """An arrow."""
        self._write("arrow", (a, b), style)

    def circle(self, centre: Point, radius: float, style: Style) -> None:
        """A circle, as its left-most and right-most points."""
        x, y = centre
        self._write("circle", ((x - radius, y), (x + radius, y)), style)

    def text(
        self,
        at: Point,
        words: str,
        size: float,
        anchor: Anchor = "middle",
        style: Style = WORDS,
        turn: float = 0.0,
    ) -> None:
        """Words."""
        self._write("text", (at,), style, words)

    def group(self, name: str) -> None:
        """Begins a part."""
        self._groups.append(name)

    def end_group(self) -> None:
        """Ends it."""
        self._groups.pop()

    def stamp(self, key: Hashable, draw: Callable[[Pen], None], place: Isometry) -> None:
        """Drawn out."""
        draw(PlacedPen(self, place))

    def _write(self, what: str, points: Points, style: Style, words: str = "") -> None:
        group = self._groups[-1] if self._groups else ""
        self.strokes.append(Stroke(what, tuple(points), style, words, group))
