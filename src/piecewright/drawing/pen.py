"""What a pen can do. Pictures are drawn onto any pen: to SVG, to find their bounds, to record them in tests.

All is in points on paper (72 to the inch), x to the right and **y upwards**. Sizes of cloth are brought to
paper by a `View`.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass
from typing import Literal, Protocol

from piecewright.drawing.look import WORDS, Style
from piecewright.geometry.isometry import STILL, Isometry
from piecewright.geometry.point import Point

Anchor = Literal["start", "middle", "end"]
Points = Sequence[Point]


class Pen(Protocol):
    """Draws shapes and words in named styles."""

    def polygon(self, points: Points, style: Style) -> None:
        """A closed shape."""

    def polyline(self, points: Points, style: Style) -> None:
        """An open line of two or more points."""

    def arrow(self, a: Point, b: Point, style: Style) -> None:
        """An arrow from a with its head at b."""

    def circle(self, centre: Point, radius: float, style: Style) -> None:
        """A circle."""

    def text(
        self,
        at: Point,
        words: str,
        size: float,
        anchor: Anchor = "middle",
        style: Style = WORDS,
        turn: float = 0.0,
    ) -> None:
        """Words beside or about a point at half their height; `turn` in degrees to the left."""

    def group(self, name: str) -> None:
        """Begins a part of the picture that has a name."""

    def end_group(self) -> None:
        """Ends it."""

    def stamp(self, key: Hashable, draw: Callable[[Pen], None], place: Isometry) -> None:
        """Something that is drawn in many places; pens that can draw it once and use it again."""


@dataclass(frozen=True)
class View:
    """Brings places in inches onto paper: `scale` points to the inch, then moved by (x, y) points."""

    scale: float
    x: float = 0.0
    y: float = 0.0

    def at(self, p: Point) -> Point:
        """Where a place comes to lie on paper."""
        return (self.scale * p[0] + self.x, self.scale * p[1] + self.y)

    def points(self, places: Points) -> tuple[Point, ...]:
        """Where several places come to lie."""
        return tuple(map(self.at, places))

    def place(self, place: Isometry) -> Isometry:
        """The isometry on paper that does what this one does to cloth drawn at the scale and not moved."""
        x, y = self.at((place.x, place.y))
        return Isometry(place.cos, place.sin, x, y, place.mirrored)

    def moved(self, by: Point) -> View:
        """The view moved by so many points."""
        return View(self.scale, self.x + by[0], self.y + by[1])


def fitting(box: tuple[float, float, float, float], width: float, height: float) -> View:
    """The view that brings a box in inches (least x, y; greatest x, y) to the origin, as large as fits."""
    x0, y0, x1, y1 = box
    scale = min(width / (x1 - x0), height / (y1 - y0))
    return View(scale, -scale * x0, -scale * y0)


@dataclass(frozen=True)
class PlacedPen:
    """A pen whose paper has been turned and moved: for pens that draw a stamp anew in each place."""

    pen: Pen
    place: Isometry = STILL

    def polygon(self, points: Points, style: Style) -> None:
        """A closed shape."""
        self.pen.polygon([self.place.at(p) for p in points], style)

    def polyline(self, points: Points, style: Style) -> None:
        """An open line."""
        self.pen.polyline([self.place.at(p) for p in points], style)

    def arrow(self, a: Point, b: Point, style: Style) -> None:
        """An arrow."""
        self.pen.arrow(self.place.at(a), self.place.at(b), style)

    def circle(self, centre: Point, radius: float, style: Style) -> None:
        """A circle."""
        self.pen.circle(self.place.at(centre), radius, style)

    def text(
        self,
        at: Point,
        words: str,
        size: float,
        anchor: Anchor = "middle",
        style: Style = WORDS,
        turn: float = 0.0,
    ) -> None:
        """Words, turned with the paper."""
        self.pen.text(self.place.at(at), words, size, anchor, style, turn + self.place.degrees)

    def group(self, name: str) -> None:
        """Begins a part."""
        self.pen.group(name)

    def end_group(self) -> None:
        """Ends it."""
        self.pen.end_group()

    def stamp(self, key: Hashable, draw: Callable[[Pen], None], place: Isometry) -> None:
        """A stamp in a stamp."""
        draw(PlacedPen(self.pen, self.place.after(place)))
