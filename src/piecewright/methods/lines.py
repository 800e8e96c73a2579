"""Lines and layings that several methods share: squares with a corner at the origin."""

from __future__ import annotations

from piecewright.bench.cloth import Towards
from piecewright.bench.steps import Beside, Lay, Press, Pressing, Ruled
from piecewright.geometry.point import Point


def rising(size: float, beside: Beside = "on") -> Ruled:
    """The diagonal of a square from its lower left to its upper right corner."""
    return Ruled(0.0, 0.0, size, size, beside)


def falling(size: float, beside: Beside = "on") -> Ruled:
    """The diagonal of a square from its upper left to its lower right corner."""
    return Ruled(0.0, size, size, 0.0, beside)


def ruled(a: Point, b: Point, beside: Beside = "on") -> Ruled:
    """A line between two points."""
    return Ruled(*a, *b, beside)


def both_sides(line: Ruled) -> tuple[Ruled, Ruled]:
    """Sewing lines at the needle's distance on both sides of a marked line."""
    return (
        Ruled(line.x, line.y, line.to_x, line.to_y, "needle left"),
        Ruled(line.x, line.y, line.to_x, line.to_y, "needle right"),
    )


def face_down(name: str, height: float, at: Point = (0.0, 0.0)) -> Lay:
    """A rectangle laid face down with its lower left corner at a point."""
    return Lay(name, 0.0, at[0], at[1] + height)


def press_all(pile: str, *seams: str, towards: Towards = "second") -> Press:
    """Pressing seams of a pile one way: towards the cloth that was laid on, unless told otherwise."""
    return Press(pile=pile, seams=tuple(Pressing(seam, (towards,)) for seam in seams))
