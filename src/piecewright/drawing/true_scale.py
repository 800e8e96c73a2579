"""A true-scale sheet as plain data: shapes at full size with their lines, wherever they come from.

Terms:
- *sheet line*: a line of a *kind*, in inches: the **edge** of the lowest cloth; where another is to **lay**
  on it; a line to **cut** now; a line on which a stack is cut **apart** once it is sewn; a line to **sew**
  on, to **mark**, or to **fold** on;
- *true shape*: one thing drawn at full size: its outline, lines, the words on it, its arrow of the grain;
- *true sheet*: shapes that are printed together, and what to know about them;
- *layer*: what a machine does with a line: the blade cuts it, a pen draws it.

Places are float inches, y upwards. Nothing here knows of pages, see `tiles`; or of machines, see
`machine_lines`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from piecewright.drawing.look import CUT, GREY, INK, MARKED, SEWN, Style
from piecewright.geometry.isometry import Isometry
from piecewright.geometry.point import Point, add, distance, left_of, near, scale, sub, unit
from piecewright.geometry.polygon import Line, Polygon, bounds, placed

LineKind = Literal["edge", "lay", "cut", "apart", "sew", "mark", "fold"]
Points = tuple[Point, ...]
Box = tuple[float, float, float, float]

EDGE = Style("edge", INK, 0.6)
LAY = Style("lay", GREY, 0.6)
FOLD = Style("fold", GREY, 0.7, dashes=(6.0, 2.0, 1.0, 2.0))
GRAIN = Style("grain", INK, 0.6)
STYLES: dict[LineKind, Style] = {
    "edge": EDGE,
    "lay": LAY,
    "cut": CUT,
    "apart": CUT,
    "sew": SEWN,
    "mark": MARKED,
    "fold": FOLD,
}
"""How each kind of line looks on paper."""

MEANING: dict[LineKind, str] = {
    "edge": "edge of the cloth",
    "lay": "edge of the cloth on top",
    "cut": "cut",
    "apart": "cut when it is sewn",
    "sew": "sew on this line",
    "mark": "line to mark",
    "fold": "fold",
}
"""What each kind of line says in the key, unless the line has a label of its own."""

HEAD = 0.1
"""The length of the head of a grain arrow, in inches."""


@dataclass(frozen=True)
class SheetLine:
    """A line; it is closed where its last point is its first. `label` is what it is, in the key."""

    kind: LineKind
    points: Points
    label: str = ""

    @property
    def closed(self) -> bool:
        """Whether the line ends where it began."""
        return len(self.points) > 2 and near(self.points[0], self.points[-1])

    @property
    def meaning(self) -> str:
        """What the line is."""
        return self.label or MEANING[self.kind]

    def placed(self, place: Isometry) -> SheetLine:
        """The line turned and moved."""
        return replace(self, points=tuple(map(place.at, self.points)))


@dataclass(frozen=True)
class SheetWords:
    """Words that are centred on a place; `size` is their height in inches, `turn` in degrees to the left."""

    at: Point
    text: str
    size: float
    strong: bool = False
    turn: float = 0.0

    def placed(self, place: Isometry) -> SheetWords:
        """The words elsewhere, turned with what they stand on; a mirroring leaves them readable."""
        turn = 0.0 if place.mirrored else place.degrees
        return replace(self, at=place.at(self.at), turn=(self.turn + turn) % 360)


@dataclass(frozen=True)
class TrueShape:
    """One thing at full size. `count` is how many are needed; `grain` where its arrow runs, from end to end.

    `caption` stands under the shape, or at the head of its page.
    """

    name: str
    lines: tuple[SheetLine, ...]
    outline: Polygon
    words: tuple[SheetWords, ...] = ()
    grain: Line | None = None
    count: int = 1
    caption: str = ""

    @property
    def box(self) -> Box:
        """The bounds of everything that is drawn, in inches."""
        return bounds([*self.outline, *(point for line in self.lines for point in line.points)])

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of the bounds."""
        x0, y0, x1, y1 = self.box
        return x1 - x0, y1 - y0

    def placed(self, place: Isometry) -> TrueShape:
        """The shape turned and moved."""
        return replace(
            self,
            lines=tuple(line.placed(place) for line in self.lines),
            outline=placed(self.outline, place),
            words=tuple(words.placed(place) for words in self.words),
            grain=(place.at(self.grain[0]), place.at(self.grain[1])) if self.grain else None,
        )


@dataclass(frozen=True)
class TrueSheet:
    """Shapes that are printed together; `use` says in a line what the sheet is for, `notes` what to mind."""

    title: str
    use: str
    notes: tuple[str, ...]
    shapes: tuple[TrueShape, ...]


def closed(kind: LineKind, outline: Sequence[Point], label: str = "") -> SheetLine:
    """An outline as a line that ends where it began."""
    return SheetLine(kind, (*outline, outline[0]), label)


def arrow_strokes(arrow: Line) -> tuple[Line, ...]:
    """The strokes of a grain arrow with a head at either end: the straight of grain has no up or down."""
    a, b = arrow
    along = scale(unit(sub(b, a)), min(HEAD, distance(a, b) / 3))
    aside = scale(left_of(along), 0.45)
    heads = [
        (add(add(end, back), scale(aside, side)), end)
        for end, back in ((a, along), (b, scale(along, -1)))
        for side in (1, -1)
    ]
    return (arrow, *heads)
