"""True-scale lines for a cutting machine: all shapes beside each other, in millimetres, in layers.

Terms:
- *layer*: what the machine does with a line: **cut** is for the blade; **sew** and **mark** are for a pen, or
  for slots in a stencil; **text** is what is written on;
- *stencil*: a sheet of plastic or card with its edge cut and its lines as slots, to mark through.

The lines on which a stack is cut apart are marks here: they are cut after it has been sewn, by hand. A check
square of 1 in and one of 5 cm are written beside the shapes, since files are often read in the wrong unit.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from piecewright.drawing.paging import in_rows
from piecewright.drawing.sheet_page import CAPTION, CHECK_CM, CHECK_INCH, GAP, caption_of
from piecewright.drawing.true_scale import LineKind, Points, TrueShape, TrueSheet, arrow_strokes
from piecewright.geometry.isometry import moved
from piecewright.geometry.point import Point, near
from piecewright.geometry.polygon import Polygon, bounds, rectangle
from piecewright.measure.length import MM_PER_INCH, inches

LayerName = Literal["cut", "sew", "mark", "text"]
LAYERS: tuple[LayerName, ...] = ("cut", "sew", "mark", "text")
LAYER_OF: dict[LineKind, LayerName] = {
    "edge": "cut",
    "lay": "mark",
    "cut": "cut",
    "apart": "mark",
    "sew": "sew",
    "mark": "mark",
    "fold": "mark",
}
MM = float(MM_PER_INCH)
ROW = (float(inches(12)), float(inches(10**6)))
"""How wide the rows are; they go down without end."""

CHECK_NOTE = "measure: 1 in and 5 cm"


@dataclass(frozen=True)
class MachineLine:
    """A line in millimetres in a layer; it is closed where its last point is its first."""

    layer: LayerName
    points: Points

    @property
    def closed(self) -> bool:
        """Whether it ends where it began."""
        return len(self.points) > 2 and near(self.points[0], self.points[-1])


@dataclass(frozen=True)
class MachineWords:
    """Words centred on a place, turned by degrees to the left; place and height in millimetres."""

    at: Point
    text: str
    height: float
    turn: float = 0.0


@dataclass(frozen=True)
class MachineSheet:
    """Everything for a machine, its lower left corner at the origin; millimetres, y upwards."""

    title: str
    notes: tuple[str, ...]
    lines: tuple[MachineLine, ...]
    words: tuple[MachineWords, ...]
    check: tuple[MachineLine, ...]
    size: tuple[float, float]


def machine_sheet(sheets: Sequence[TrueSheet]) -> MachineSheet:
    """All shapes of several sheets, each once, in rows, with the check squares under them."""
    shapes = in_rows([shape for sheet in sheets for shape in sheet.shapes], ROW)[0]
    x0, y0, _, _ = bounds([corner for shape in shapes for corner in _corners(shape)])
    shapes = [shape.placed(moved(-x0, _check_height() - y0)) for shape in shapes]
    lines = tuple(line for shape in shapes for line in _lines(shape))
    words = [one for shape in shapes for one in (*shape.words, *caption_of(shape))]
    written = [MachineWords(_in_mm(one.at), one.text, one.size * MM, one.turn) for one in words]
    beside = (float(CHECK_CM) + GAP, float(CHECK_CM) / 2)
    note = MachineWords(_in_mm((beside[0] + 1, beside[1])), CHECK_NOTE, CAPTION * MM)
    check = tuple(_outline("text", rectangle(float(side), float(side))) for side in (CHECK_INCH, CHECK_CM))
    every = [point for line in (*lines, *check) for point in line.points]
    _, _, width, height = bounds(every)
    notes = tuple(dict.fromkeys(words for sheet in sheets for words in (sheet.use, *sheet.notes)))
    return MachineSheet(sheets[0].title, notes, lines, (*written, note), check, (width, height))


def _check_height() -> float:
    return float(CHECK_CM) + GAP


def _corners(shape: TrueShape) -> Polygon:
    """The bounds of a shape with its caption."""
    x0, y0, x1, y1 = shape.box
    low = min([y0, *(one.at[1] - one.size for one in caption_of(shape))])
    return ((x0, low), (x1, y1))


def _lines(shape: TrueShape) -> list[MachineLine]:
    arrow = arrow_strokes(shape.grain) if shape.grain else ()
    return [
        *(MachineLine(LAYER_OF[line.kind], tuple(map(_in_mm, line.points))) for line in shape.lines),
        *(MachineLine("mark", tuple(map(_in_mm, stroke))) for stroke in arrow),
    ]


def _outline(layer: LayerName, corners: Polygon) -> MachineLine:
    return MachineLine(layer, tuple(map(_in_mm, (*corners, corners[0]))))


def _in_mm(point: Point) -> Point:
    return point[0] * MM, point[1] * MM
