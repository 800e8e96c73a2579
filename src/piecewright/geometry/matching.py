"""Whether two pictures made of patches are the same, up to a turn: never up to a mirroring.

A *picture* is an outline and the patches in it. A patch has a label (its fabric, say) and perhaps a
*way*: the angle of the print or grain, in degrees, which repeats every `period` degrees.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from piecewright.geometry.isometry import Isometry, laying
from piecewright.geometry.point import Point, distance, near
from piecewright.geometry.polygon import Polygon, bounds, edges, placed, same_polygon


@dataclass(frozen=True, slots=True)
class Marked:
    """A patch of a picture: label, polygon, and the way it runs (None where that does not matter)."""

    label: str
    polygon: Polygon
    way: float | None = None
    period: float = 360.0

    def placed(self, place: Isometry) -> Marked:
        """The patch after a turn and a move."""
        way = None if self.way is None else self.way + place.degrees
        return Marked(self.label, placed(self.polygon, place), way, self.period)

    def like(self, other: Marked, tolerance: float) -> bool:
        """Whether both show the same: label, polygon, and way where both have one."""
        return (
            self.label == other.label
            and _same_way(self, other)
            and same_polygon(self.polygon, other.polygon, tolerance)
        )


@dataclass(frozen=True, slots=True)
class Picture:
    """An outline and the patches in it."""

    outline: Polygon
    patches: tuple[Marked, ...]


def _same_way(p: Marked, q: Marked) -> bool:
    if p.way is None or q.way is None:
        return True
    period = min(p.period, q.period)
    off = (p.way - q.way) % period
    return min(off, period - off) < 1e-3


def outline_turns(outline: Polygon, onto: Polygon, tolerance: float) -> Iterator[Isometry]:
    """Each turn and move that lays one outline on the other."""
    if not outline or len(outline) != len(onto):
        return
    a, b = outline[0], outline[1]
    for c, d in edges(onto):
        if abs(distance(a, b) - distance(c, d)) <= tolerance:
            place = laying(a, b, c, d)
            if same_polygon(placed(outline, place), onto, tolerance):
                yield place


def unmatched(
    patches: tuple[Marked, ...], onto: tuple[Marked, ...], tolerance: float
) -> tuple[list[Marked], list[Marked]]:
    """The patches of either side that have no like on the other; O(n) for patches spread out."""
    left = _Shelves(onto, tolerance)
    lonely = [patch for patch in patches if not left.take_like(patch)]
    return lonely, left.rest()


class _Shelves:
    """Patches kept by where they lie, so that a like one is found at once."""

    def __init__(self, patches: tuple[Marked, ...], tolerance: float) -> None:
        self.tolerance = tolerance
        self.cell = max(100 * tolerance, 1e-3)
        self.cells: dict[tuple[int, int], list[Marked]] = {}
        for patch in patches:
            self.cells.setdefault(self._cell(_corner(patch)), []).append(patch)

    def _cell(self, p: Point) -> tuple[int, int]:
        return int(p[0] // self.cell), int(p[1] // self.cell)

    def take_like(self, patch: Marked) -> bool:
        corner, t = _corner(patch), self.tolerance
        around = {self._cell((corner[0] + dx, corner[1] + dy)) for dx in (-t, t) for dy in (-t, t)}
        for cell in around:
            for candidate in self.cells.get(cell, ()):
                if near(corner, _corner(candidate), t) and patch.like(candidate, t):
                    self.cells[cell].remove(candidate)
                    return True
        return False

    def rest(self) -> list[Marked]:
        return [patch for patches in self.cells.values() for patch in patches]


def _corner(patch: Marked) -> Point:
    x, y, *_ = bounds(patch.polygon)
    return x, y


def turns_onto(picture: Picture, onto: Picture, tolerance: float) -> Iterator[Isometry]:
    """Each turn and move that lays one picture on another exactly."""
    if len(picture.patches) != len(onto.patches):
        return
    for place in outline_turns(picture.outline, onto.outline, tolerance):
        turned = tuple(patch.placed(place) for patch in picture.patches)
        if unmatched(turned, onto.patches, tolerance) == ([], []):
            yield place


def turn_onto(picture: Picture, onto: Picture, tolerance: float) -> Isometry | None:
    """The first turn and move that lays one picture on another exactly, or None where there is none."""
    return next(turns_onto(picture, onto, tolerance), None)
