"""Whether a sewn top is the quilt that was drawn.

Cloth and drawing are both trees, but not the same tree: rows are joined, blocks are drawn. The cloth is
walked from the top; where a sewn part lies exactly on a drawn block, the two are compared once, and the
answer holds for every like pair. So the work grows with what is distinct.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from shapely import Polygon as ShapelyPolygon

from piecewright.bench.cloth import Cloth, Face
from piecewright.design.drawing import Group, Patch, Placed
from piecewright.geometry.isometry import Isometry
from piecewright.geometry.matching import Marked, outline_turns, unmatched
from piecewright.geometry.point import Point, distance
from piecewright.geometry.polygon import (
    Polygon,
    area,
    bounds,
    centroid,
    contains,
    overlap_area,
    placed,
    same_polygon,
)
from piecewright.measure.tolerance import AS_DRAWN

CELL = 0.05


@dataclass(frozen=True)
class Comparison:
    """What differs from the drawing, each in a sentence; `tilted` counts one-way patches not upright."""

    differences: tuple[str, ...]
    tilted: int = 0


def compare(top: Cloth, drawing: Group, fabric_of: Mapping[str, str], allowance: float = 0.0) -> Comparison:
    """The top against the drawing; `fabric_of` tells the fabric of each role.

    Every patch must have so much cloth (inches) around what is seen of it, dog ears excepted.
    """
    found: Comparison | None = None
    for place in outline_turns(top.net, drawing.outline, AS_DRAWN):
        comparison = _Walk(drawing, fabric_of, allowance).compare(top, place)
        if not comparison.differences:
            return comparison
        if found is None or len(comparison.differences) < len(found.differences):
            found = comparison
    if found is None:
        x0, y0, x1, y1 = bounds(drawing.outline)
        width, height = top.size
        wanted = f"{x1 - x0:.4f} x {y1 - y0:.4f} in finished"
        return Comparison(
            (
                f"the top does not have the outline that was drawn: {wanted} was drawn, "
                f"{width:.4f} x {height:.4f} in raw came out",
            )
        )
    return found


class _Walk:
    """One walk through the cloth, with what has been compared already."""

    def __init__(self, drawing: Group, fabric_of: Mapping[str, str], allowance: float) -> None:
        self.fabric_of = fabric_of
        self.allowance = allowance
        self.known: dict[tuple[object, ...], Comparison] = {}
        self.children = drawing.children
        self.missing: dict[int, Placed] = dict(enumerate(drawing.children))
        self.cells: dict[tuple[int, int], tuple[int, ...]] = {}
        self.centres: dict[int, Point] = {}
        self.middles: dict[int, Point] = {}
        drawn = {id(child.drawing): child.drawing for child in drawing.children}
        middles = {key: centroid(distinct.outline) for key, distinct in drawn.items()}
        for k, child in self.missing.items():
            centre = self.centres[k] = child.place.at(middles[id(child.drawing)])
            cell = _cell(centre)
            self.cells[cell] = (*self.cells.get(cell, ()), k)
        self.differences: list[str] = []
        self.tilted = 0
        self.strays: list[Face] = []
        self.done: list[int] = []
        self.outcomes: dict[int, Comparison] = {}
        self.rows: dict[tuple[object, ...], tuple[Isometry, list[int]]] = {}

    def compare(self, top: Cloth, place: Isometry) -> Comparison:
        self._walk(top, place)
        rest = [patch.placed(c.place) for c in self.missing.values() for patch in c.drawing.patches]
        self._add(self._compared(self.strays, rest), (0.0, 0.0))
        return Comparison(tuple(self.differences), self.tilted)

    def _walk(self, cloth: Cloth, place: Isometry) -> None:
        if self._found(cloth, place):
            return
        if not cloth.parts:
            self.strays += [face.placed(place) for face in cloth.finished]
            return
        key = (id(cloth), place.cos, place.sin)
        if key in self.rows and self._found_again(*self.rows[key], place):
            return
        strays, found = len(self.strays), len(self.done)
        for part in cloth.parts:
            self._walk(part.cloth, place.after(part.place))
        if len(self.strays) == strays:
            self.rows[key] = (place, self.done[found:])

    def _found_again(self, first: Isometry, row: list[int], place: Isometry) -> bool:
        """Whether all that was found in a row is drawn again where the same row lies now."""
        dx, dy = place.x - first.x, place.y - first.y
        again: list[int] = []
        for known in row:
            child, (x, y) = self.children[known], self.centres[known]
            for k in self.cells.get(_cell((x + dx, y + dy)), ()):
                if k in self.missing and _lies_like(self.children[k], child, dx, dy):
                    again.append(k)
                    break
            else:
                return False
        for known, k in zip(row, again, strict=True):
            self._done(k, self.outcomes[known])
        return True

    def _done(self, k: int, comparison: Comparison) -> None:
        """Notes what came of a drawn child."""
        child = self.missing.pop(k)
        self._add(comparison, (child.place.x, child.place.y))
        self.outcomes[k] = comparison
        self.done.append(k)

    def _found(self, cloth: Cloth, place: Isometry) -> bool:
        """Whether something drawn has the same outline in the same place; then the two are compared."""
        x, y = place.at(self._middle(cloth))
        for k in self._near(x, y):
            child = self.missing.get(k)
            if child is None or distance(self.centres[k], (x, y)) > AS_DRAWN:
                continue
            key = (id(cloth), id(child.drawing), _seen_from(child.place, place))
            if key not in self.known:
                relative = child.place.back().after(place)
                if not same_polygon(placed(cloth.net, relative), child.drawing.outline, AS_DRAWN):
                    continue
                faces = [face.placed(relative) for face in cloth.finished]
                self.known[key] = self._compared(faces, child.drawing.patches)
            self._done(k, self.known[key])
            return True
        return False

    def _middle(self, cloth: Cloth) -> Point:
        if id(cloth) not in self.middles:
            self.middles[id(cloth)] = centroid(cloth.net)
        return self.middles[id(cloth)]

    def _near(self, x: float, y: float) -> Iterable[int]:
        """The drawn children whose centres may be here."""
        low, high = _cell((x - AS_DRAWN, y - AS_DRAWN)), _cell((x + AS_DRAWN, y + AS_DRAWN))
        if low == high:
            return self.cells.get(low, ())
        cells = {(i, j) for i in (low[0], high[0]) for j in (low[1], high[1])}
        return [k for cell in cells for k in self.cells.get(cell, ())]

    def _compared(self, faces: list[Face], drawn: Iterable[Patch]) -> Comparison:
        found = compare_faces(faces, drawn, self.fabric_of)
        narrow = [told for face in faces if (told := _narrow(face, self.allowance))]
        return Comparison((*found.differences, *narrow), found.tilted)

    def _add(self, comparison: Comparison, at: Point) -> None:
        if not (comparison.differences or comparison.tilted):
            return
        corner = f" (block corner at {at[0]:g}, {at[1]:g})" if at != (0.0, 0.0) else ""
        self.differences += [f"{difference}{corner}" for difference in comparison.differences]
        self.tilted += comparison.tilted


def compare_faces(faces: Iterable[Face], drawn: Iterable[Patch], fabric_of: Mapping[str, str]) -> Comparison:
    """Faces against drawn patches in the same frame, one to one; long patches may be pieced."""
    shown = tuple(Marked(f.fabric, f.seen, f.grain) for f in faces)
    drawn = tuple(drawn)
    wanted = tuple(Marked(fabric_of.get(p.role, p.role), p.outline, p.way) for p in drawn)
    strict, _ = unmatched(wanted, shown, AS_DRAWN)
    if not strict and len(wanted) == len(shown):
        return Comparison(())
    loose = tuple(Marked(w.label, w.polygon) for w in wanted)
    missing, extra = unmatched(loose, shown, AS_DRAWN)
    tilted = len(strict) - len(missing)
    ways = {p.outline: p.way for p in drawn if p.may_piece}
    missing, extra, leaning = _pieced(missing, extra, ways)
    return Comparison(tuple(_told(missing, extra)), tilted + leaning)


def _narrow(face: Face, allowance: float) -> str:
    """What is wrong with the seam allowance of a patch.

    It is measured with round corners: what a pointed corner has beyond that are dog ears, which are cut off.
    """
    seen, flat = ShapelyPolygon(face.seen), ShapelyPolygon(face.flat)
    if not allowance or flat.covers(seen.buffer(allowance - 2 * AS_DRAWN)):
        return ""
    x, y = centroid(face.seen)
    found = flat.boundary.distance(seen)
    return f"at {x:.2f}, {y:.2f} the patch of {face.fabric!r} has a seam allowance of {found:.3f} in"


def _pieced(
    missing: list[Marked], extra: list[Marked], ways: Mapping[Polygon, float | None]
) -> tuple[list[Marked], list[Marked], int]:
    """What is left once long patches are made up of several pieces of their fabric.

    `ways` are the ways of the patches that may be; the third answer counts those whose print lies otherwise.
    """
    still_missing, leaning = [], 0
    for patch in missing:
        inside = [e for e in extra if e.label == patch.label and _inside(e, patch)]
        covered = sum(area(e.polygon) for e in inside)
        if patch.polygon in ways and abs(covered - area(patch.polygon)) <= AS_DRAWN * len(patch.polygon):
            extra = [e for e in extra if e not in inside]
            way = ways[patch.polygon]
            leaning += way is not None and any(_off(e.way, way) for e in inside)
        else:
            still_missing.append(patch)
    return still_missing, extra, leaning


def _off(way: float | None, drawn: float) -> bool:
    """Whether a print does not stand the way it was drawn."""
    turn = ((way or 0.0) - drawn) % 360
    return min(turn, 360 - turn) > 1.0


def _inside(face: Marked, patch: Marked) -> bool:
    return all(contains(patch.polygon, p, AS_DRAWN) for p in face.polygon)


def _told(missing: list[Marked], extra: list[Marked]) -> Iterable[str]:
    """One sentence for each patch that is not there as drawn."""
    for patch in missing:
        x, y = centroid(patch.polygon)
        there = [e for e in extra if overlap_area(e.polygon, patch.polygon) > area(patch.polygon) / 2]
        if there and there[0].label != patch.label:
            yield f"at {x:.2f}, {y:.2f} {patch.label!r} was drawn, {there[0].label!r} is sewn"
        elif there:
            yield f"at {x:.2f}, {y:.2f} the patch of {patch.label!r} has another shape than was drawn"
        else:
            yield f"at {x:.2f}, {y:.2f} a patch of {patch.label!r} was drawn, none is there"
    if not missing:
        for face in extra:
            x, y = centroid(face.polygon)
            yield f"at {x:.2f}, {y:.2f} a patch of {face.label!r} is sewn that was not drawn"


def _seen_from(child: Isometry, place: Isometry) -> tuple[float | bool, ...]:
    """What tells how a cloth lies on a drawn child: equal for equal turns and moves of both."""
    turns = (round(place.cos, 6), round(place.sin, 6), round(child.cos, 6), round(child.sin, 6))
    return (*turns, child.mirrored, round(place.x - child.x, 4), round(place.y - child.y, 4))


def _lies_like(child: Placed, other: Placed, dx: float, dy: float) -> bool:
    """Whether a drawn child is the same drawing as another, moved by so much."""
    one, two = child.place, other.place
    return (
        child.drawing is other.drawing
        and one.cos == two.cos
        and one.sin == two.sin
        and one.mirrored == two.mirrored
        and abs(one.x - two.x - dx) <= AS_DRAWN / 10
        and abs(one.y - two.y - dy) <= AS_DRAWN / 10
    )


def _cell(p: Point) -> tuple[int, int]:
    return int(p[0] // CELL), int(p[1] // CELL)
