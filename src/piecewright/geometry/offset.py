"""The general offset rule: how large to cut a straight-sided patch so that it finishes as drawn.

Terms:
- *net*: the outline as it shows in the quilt, *raw*: as it is cut, every edge moved out by the take-up s;
- *angle*: the inner angle of a corner in degrees; above 180 the corner is reflex, it points inwards.

An edge between angles a and b grows by s(cot a/2 + cot b/2) (plane geometry); beside a reflex corner the
cotangent is negative, so that an edge may grow little, or shrink.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, degrees, radians, tan

from piecewright.geometry.point import cross, distance, dot, sub
from piecewright.geometry.polygon import Polygon, area, clean, edges, grown
from piecewright.measure.length import Unit
from piecewright.measure.showing import show_exact
from piecewright.measure.tolerance import WELD
from piecewright.problems import Problem, Refused


@dataclass(frozen=True)
class CutEdge:
    """One edge of a patch: its length finished and cut (inches), and the angles at its start and end."""

    finished: float
    cut: float
    start: float
    end: float
    take_up: float

    @property
    def growth(self) -> float:
        """Cut minus finished length, in inches."""
        return self.take_up * (half_cot(self.start) + half_cot(self.end))

    def sum_in(self, unit: Unit) -> str:
        """The sum as one would write it down.

        >>> cut_shape(((0, 0), (3, 0), (0, 3)), 0.25).edges[0].sum_in("in")
        '3.0000 in + 0.2500 in x (cot 45 + cot 22.5) = 3.0000 in + 0.2500 in x (1.0000 + 2.4142) = 3.8536 in'
        """
        take_up, finished = show_exact(self.take_up, unit), show_exact(self.finished, unit)
        halves = [f"cot {angle / 2:.4g}" for angle in (self.start, self.end)]
        figures = [f"{half_cot(angle):.4f}" for angle in (self.start, self.end)]
        return (
            f"{finished} + {take_up} x ({' + '.join(halves)}) = "
            f"{finished} + {take_up} x ({' + '.join(figures)}) = {show_exact(self.cut, unit)}"
        )


@dataclass(frozen=True)
class CutShape:
    """A patch as it shows and as it is cut, with what each edge grows by, in the order of the edges."""

    net: Polygon
    raw: Polygon
    edges: tuple[CutEdge, ...]


def half_cot(angle: float) -> float:
    """The cotangent of half an angle given in degrees: 1 at a right angle, 0 on a straight side."""
    return 1 / tan(radians(angle) / 2)


def angles_of(polygon: Polygon) -> tuple[float, ...]:
    """The inner angle at each corner of a simple polygon, counter-clockwise, in degrees.

    >>> [round(angle) for angle in angles_of(((0, 0), (4, 0), (1, 1), (0, 4)))]
    [90, 18, 233, 18]
    """
    before, after = polygon[-1:] + polygon[:-1], polygon[1:] + polygon[:1]
    return tuple(_angle(sub(a, b), sub(c, b)) for a, b, c in zip(before, polygon, after, strict=True))


def _angle(back: tuple[float, float], ahead: tuple[float, float]) -> float:
    return degrees(atan2(cross(ahead, back), dot(ahead, back))) % 360


def cut_shape(net: Polygon, take_up: float) -> CutShape:
    """The shape to cut for a patch that is to finish as `net`; inches, counter-clockwise.

    Corners in the middle of a straight side are left out. Raises Refused for an outline that is none, and
    where an edge is so short, between corners that point inwards, that its raw edge would vanish.

    >>> shape = cut_shape(((0, 0), (4, 0), (4, 2), (0, 2)), 0.25)
    >>> shape.raw[2], shape.edges[0].cut
    ((4.25, 2.25), 4.5)
    """
    outline = clean(net)
    if len(outline) < 3 or area(outline) <= WELD or take_up < 0:
        raise Refused(Problem("a patch with an inside, its corners counter-clockwise, was expected"))
    angles = angles_of(outline)
    ends = zip(angles, angles[1:] + angles[:1], strict=True)
    found = []
    for (a, b), (start, end) in zip(edges(outline), ends, strict=True):
        finished = distance(a, b)
        growth = take_up * (half_cot(start) + half_cot(end))
        if finished + growth <= WELD:
            raise Refused(
                Problem(
                    f"an edge finished {finished:.4f} in would be cut {finished + growth:.4f} in long: "
                    "the allowances beside it meet before it",
                    do="Draw that edge longer, or divide the patch there.",
                )
            )
        found.append(CutEdge(finished, finished + growth, start, end, take_up))
    return CutShape(outline, grown(outline, take_up), tuple(found))
