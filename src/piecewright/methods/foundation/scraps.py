"""Scraps for a foundation: how big a piece of cloth each patch needs, and how it is laid.

Terms:
- *scrap*: a rectangle of cloth, its width laid along the seam line that it is sewn on;
- *margin*: so much more on every side than the patch and its allowances need, since a scrap is laid by eye.

The rule: a scrap covers all that its patch shows in the sewn section, the allowance at the edge included,
with the take-up behind every seam line around it, and the margin on every side; then it is rounded up to
the ruler.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from piecewright.bench.cloth import shifted
from piecewright.bench.grain import OFF_GRAIN
from piecewright.geometry.isometry import Isometry, cos_of, folded, sin_of
from piecewright.geometry.point import Point, cross, distance, dot, side_of, sub, unit
from piecewright.geometry.polygon import Line, Polygon, clip, edges, placed, rectangle
from piecewright.measure.length import Length, inches
from piecewright.measure.rounding import Ruler, round_up
from piecewright.measure.tolerance import EDGE_MATCH

MARGIN = inches("1/4")
"""Common practice, no source: a scrap is cut at least so much too large on every side."""

QUARTERS = Ruler("in", Fraction(1, 4))
"""Scraps are measured roughly: in quarters of an inch, unless the workroom says otherwise."""

Grain = Literal["seam", "edge"]
"""What the sides of a scrap run along: its seam line, or the edge of the block where the patch has one."""


@dataclass(frozen=True, slots=True)
class ScrapRule:
    """How scraps are sized: the take-up of a seam (inches), margin, ruler, and the grain that is wished."""

    take_up: float
    margin: Length = MARGIN
    ruler: Ruler = QUARTERS
    grain: Grain = "seam"


@dataclass(frozen=True, slots=True)
class Scrap:
    """A rectangle of cloth: `width` along its lower side, `height` across, as needed (inches) and as cut.

    `place` is where it lies once it is opened, from its own frame (lower left corner at the origin,
    lengthwise grain and print running up) into that of the drawing. `bias_outside`: its patch has an edge
    at the outside of the drawing that is off the straight grain.
    """

    width: float
    height: float
    cut_width: Length
    cut_height: Length
    place: Isometry
    bias_outside: bool = False

    @property
    def outline(self) -> Polygon:
        """The scrap as cut, where it lies once it is opened."""
        return placed(rectangle(float(self.cut_width), float(self.cut_height)), self.place)

    @property
    def grain(self) -> float:
        """The direction of the lengthwise grain in the drawing, in degrees from 0 up to 180."""
        return (self.place.degrees + 90) % 180

    def larger(self, by: Length) -> Scrap:
        """The scrap with so much more on every side."""
        more, off = float(by), self.place.along((-float(by), -float(by)))
        return replace(
            self,
            width=self.width + 2 * more,
            height=self.height + 2 * more,
            cut_width=self.cut_width + by * 2,
            cut_height=self.cut_height + by * 2,
            place=replace(self.place, x=self.place.x + off[0], y=self.place.y + off[1]),
        )

    def face_down(self, seam: Line) -> Isometry:
        """How it lies face down before it is sewn: opening it about the seam brings it to its place."""
        return folded(*seam).after(self.place)


def shown_of(raw: Polygon, seams: Sequence[Line | None]) -> list[Polygon]:
    """What each patch shows of a section with its allowances.

    `seams` in order, each with what came before on its left; the first is None.
    """
    shown: list[Polygon] = []
    for seam in seams[:0:-1]:
        assert seam is not None
        shown.append(clip(raw, *seam, -1))
        raw = clip(raw, *seam)
    return [raw, *shown[::-1]]


def scrap_for(
    patch: Polygon, shown: Polygon, raw: Polygon, along: Point, outer: Sequence[Line], rule: ScrapRule
) -> Scrap:
    """The scrap for a patch that shows `shown` of a section with the raw outline `raw`.

    `along` is the direction of its lower side, `outer` the edges of the patch at the outside of the drawing.
    """
    points = _behind_seams(shown, raw, rule.take_up)
    left, right = _reach([dot(along, p) for p in points], [dot(along, p) for p in patch], rule.take_up)
    low, high = _reach([cross(along, p) for p in points], [cross(along, p) for p in patch], rule.take_up)
    margin = float(rule.margin)
    width, height = right - left + 2 * margin, high - low + 2 * margin
    cut_width, cut_height = round_up(width, rule.ruler), round_up(height, rule.ruler)
    # What rounding adds is shared out to both sides.
    u, v = (left + right - float(cut_width)) / 2, (low + high - float(cut_height)) / 2
    corner = (u * along[0] - v * along[1], u * along[1] + v * along[0])
    place = Isometry(*along, *corner)
    bias = any(_off_grain(edge, along) for edge in outer)
    return Scrap(width, height, cut_width, cut_height, place, bias)


def _behind_seams(shown: Polygon, raw: Polygon, take_up: float) -> list[Point]:
    """The corners of what a patch shows, and those of the allowances behind its seams."""
    seams = [edge for edge in edges(shown) if not lies_on(edge, raw)]
    return [*shown, *(p for seam in seams for p in shifted(seam, -take_up))]


def _reach(points: Sequence[float], patch: Sequence[float], take_up: float) -> tuple[float, float]:
    """From where to where a scrap must reach: over all points, and a take-up beyond the patch."""
    return min(*points, min(patch) - take_up), max(*points, max(patch) + take_up)


def lies_on(edge: Line, outline: Polygon) -> bool:
    """Whether an edge of a patch lies along a side of an outline."""
    return any(all(abs(side_of(p, *side)) <= EDGE_MATCH for p in edge) for side in edges(outline))


def lower_side(
    patch: Polygon, seam: Line | None, way: float | None, outer: Sequence[Line], grain: Grain
) -> Point:
    """The direction of the lower side of a scrap once it is opened.

    A one-way print stands upright. Otherwise it is the seam line, with the scrap on its left; or the longest
    edge at the outside, where that is wished or nothing is sewn yet; or the longest edge of all.
    """
    if way is not None:
        return (cos_of(way - 90), sin_of(way - 90))
    if seam is not None and (grain == "seam" or not outer):
        return unit(sub(seam[0], seam[1]))
    longest = max(outer or edges(patch), key=lambda e: (round(distance(*e), 4), -e[0][1], -e[0][0]))
    return unit(sub(longest[1], longest[0]))


def outer_edges(patch: Polygon, outline: Polygon) -> tuple[Line, ...]:
    """The edges of a patch at the outside of the drawing."""
    return tuple(edge for edge in edges(patch) if lies_on(edge, outline))


def _off_grain(edge: Line, along: Point) -> bool:
    direction = unit(sub(edge[1], edge[0]))
    off = min(abs(dot(direction, along)), abs(cross(direction, along)))
    return off > sin_of(OFF_GRAIN)
