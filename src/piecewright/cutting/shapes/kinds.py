"""The shapes that can be wanted by name, as data: their measures, and the outline these make.

A new one is one entry of `KINDS`. The angle of a shape stands in its name ("60 degree diamond").

`h` is how high the strip is (and so the shape that lies in it), `w` its longer side along the strip.

| name | measures | what it is |
|---|---|---|
| square cut once | w | two triangles from a square, short sides on the grain |
| square cut twice | w | four triangles from a square, long sides on the grain |
| rectangle cut once | w, h, hand | two right triangles from a rectangle |
| triangle (with its point's angle) | h | two equal sides, the third along the strip |
| half-square triangle | h | short sides on the grain, from strips |
| quarter-square triangle | h | the long side on the grain, from strips |
| diamond (with its sharp angle) | h | four equal sides |
| parallelogram (angle) | w, h, hand | it leans to its hand |
| hexagon | h | six equal sides; h from flat to flat |
| trapezoid (angle) | w, h | both ends slanted alike |
| right trapezoid (angle) | w, h, hand | one end square, the other, to its hand, slanted |
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from math import radians, sin

from piecewright.cutting.shapes.outlines import (
    UPRIGHT,
    cot,
    four_sided,
    mirrored,
    point_up,
    six_sided,
    square_corner,
)
from piecewright.cutting.shapes.wanted import CutAs
from piecewright.geometry.polygon import Polygon

HANDS = ("left", "right")


@dataclass(frozen=True, slots=True)
class Measured:
    """What a person said of a shape: measures in inches by name, its angle in degrees, its hand."""

    sizes: Mapping[str, float]
    angle: float
    hand: str = "right"

    @property
    def strip(self) -> float:
        """How high the strip is."""
        return self.sizes["h"]

    @property
    def lean(self) -> float:
        """How far a slant leans over for each inch that it rises."""
        return cot(self.angle)


@dataclass(frozen=True, slots=True)
class Kind:
    """One shape. `angles` are the least and greatest angle; None where its name holds none.

    `outline` gives the shape, right-handed where it has a hand, or nothing where the measures make none.
    """

    name: str
    noun: str
    measures: tuple[str, ...]
    outline: Callable[[Measured], Polygon | None]
    angles: tuple[float, float] | None = None
    has_hand: bool = False
    has_point: bool = False
    cut_as: CutAs = "in strips"


def _half(m: Measured) -> Polygon:
    return square_corner(m.sizes["w"], m.sizes["w"])


def _quarter(m: Measured) -> Polygon:
    return point_up(m.sizes["w"] / 2, 90.0)


def _half_rectangle(m: Measured) -> Polygon:
    """Stood on a short side, the cut of a right-handed one rises to the right."""
    outline = square_corner(m.sizes["w"], m.sizes["h"])
    rises = (m.hand == "right") == (m.sizes["h"] > m.sizes["w"])
    return mirrored(outline) if rises else outline


def _leaning(m: Measured) -> Polygon:
    outline = four_sided(m.strip, m.sizes["w"], m.angle, 180 - m.angle)
    return mirrored(outline) if m.hand == "left" else outline


def _trapezoid(m: Measured) -> Polygon | None:
    top = m.sizes["w"] - 2 * m.strip * m.lean
    return four_sided(m.strip, m.sizes["w"], m.angle, m.angle) if top > LEAST_TOP else None


def _right_trapezoid(m: Measured) -> Polygon | None:
    if m.sizes["w"] - m.strip * m.lean <= LEAST_TOP:
        return None
    outline = four_sided(m.strip, m.sizes["w"], UPRIGHT, m.angle)
    return mirrored(outline) if m.hand == "left" else outline


def _diamond(m: Measured) -> Polygon:
    return four_sided(m.strip, m.strip / sin(radians(m.angle)), m.angle, 180 - m.angle)


LEAST_TOP = 1 / 64
SLANTS = (15.0, 89.0)
"""What is slanted less, or all but upright, is hardly meant, and hardly cut true."""

KINDS = (
    Kind("square cut once", "triangle", ("w",), _half, cut_as="once"),
    Kind("square cut twice", "triangle", ("w",), _quarter, cut_as="twice"),
    Kind("rectangle cut once", "triangle", ("w", "h"), _half_rectangle, has_hand=True, cut_as="once"),
    Kind(
        "triangle",
        "triangle",
        ("h",),
        lambda m: point_up(m.strip, m.angle),
        angles=(10.0, 150.0),
        has_point=True,
    ),
    Kind(
        "half-square triangle",
        "triangle",
        ("h",),
        lambda m: square_corner(m.strip, m.strip),
        has_point=True,
    ),
    Kind("quarter-square triangle", "triangle", ("h",), lambda m: point_up(m.strip, 90.0), has_point=True),
    Kind("diamond", "diamond", ("h",), _diamond, angles=SLANTS),
    Kind("parallelogram", "parallelogram", ("w", "h"), _leaning, angles=SLANTS, has_hand=True),
    Kind("hexagon", "hexagon", ("h",), lambda m: six_sided(m.strip)),
    Kind("trapezoid", "trapezoid", ("w", "h"), _trapezoid, angles=SLANTS),
    Kind("right trapezoid", "trapezoid", ("w", "h"), _right_trapezoid, angles=SLANTS, has_hand=True),
)
