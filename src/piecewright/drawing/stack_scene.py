"""A stack on the mat, drawn: laid face to face, marked, sewn, cut apart. All from the step and its cloths."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from piecewright.bench.cloth import Cloth, Face, SeamSize
from piecewright.bench.doing import Table, where
from piecewright.bench.stacking import Opened, stack
from piecewright.bench.steps import Ruled, Stack
from piecewright.drawing.cloths import draw_faces, seam_lines
from piecewright.drawing.frames import Box
from piecewright.drawing.look import CUT, MARKED, SEAM, SEWN, offcut
from piecewright.drawing.on_cloth import (
    across_cloth,
    common,
    longer,
    on_line,
    pulled_apart,
    sides_of,
    stretches,
)
from piecewright.drawing.palette import Palette
from piecewright.drawing.pen import Pen, View
from piecewright.geometry.isometry import Isometry
from piecewright.geometry.point import Point, distance, side_of
from piecewright.geometry.polygon import Line, Polygon, bounds, clip, edges
from piecewright.measure.tolerance import AS_DRAWN

LIFT = (2.2, 2.2)
"""How far the cloths on top are drawn away from the base, in points, so that both are seen."""

GAP = 7.0
OVERHANG = 4.0
TOO_NEAR = 5.0
"""A gap along a cut, how far a cut runs beyond the cloth, when a mark hides behind stitching; points."""

MANY_CUTS = 4
"""With more cuts than this the gaps along them are narrower."""


@dataclass(frozen=True)
class Layer:
    """A cloth in the stack as it lies: its faces, and which side of it is up."""

    faces: tuple[Face, ...]
    wrong: bool
    seams: tuple[Line, ...] = ()

    @property
    def polygons(self) -> list[Polygon]:
        """The outlines of its faces."""
        return [face.seen for face in self.faces]


@dataclass(frozen=True)
class StackScene:
    """One stack: its layers, what is marked, sewn and cut, and what each region becomes."""

    layers: tuple[Layer, ...]
    marked: tuple[Line, ...]
    sewn: tuple[Line, ...]
    cuts: tuple[Line, ...]
    opened: tuple[Opened, ...]

    @cached_property
    def box(self) -> Box:
        """The bounds of all layers, in inches."""
        return bounds([p for layer in self.layers for polygon in layer.polygons for p in polygon])

    @cached_property
    def near(self) -> float:
        """How much of the left end of a long stack shows its first cuts, in inches."""
        x0, _, x1, _ = self.box
        reach = sorted(x for line in self.cuts for x in (max(line[0][0], line[1][0]) - x0,))
        return reach[min(2, len(reach) - 1)] if reach and reach[0] < (x1 - x0) / 2 else 0.0

    @cached_property
    def gap(self) -> float:
        """How far parts are pulled apart along each cut, in points: less the more cuts there are."""
        return GAP if len(self.cuts) <= MANY_CUTS else GAP * MANY_CUTS / len(self.cuts)

    @cached_property
    def marks(self) -> list[Line]:
        """The marked lines, as far as they run on the cloths on top, or else on the base."""
        found = []
        for line in self.marked:
            tops = [polygon for layer in self.layers[1:] for polygon in layer.polygons]
            on_top = stretches(line, tops) or stretches(line, self.layers[0].polygons)
            found += [on_line(line, stretch) for stretch in on_top]
        return found

    @cached_property
    def stitches(self) -> list[Line]:
        """The stitching, as far as it goes through the base and a cloth on top."""
        base = self.layers[0].polygons
        tops = [polygon for layer in self.layers[1:] for polygon in layer.polygons]
        return [
            on_line(line, stretch)
            for line in self.sewn
            for stretch in common(stretches(line, base), stretches(line, tops))
        ]


def stack_scene(step: Stack, table: Table, seam: SeamSize) -> StackScene:
    """The scene of a step, with the cloths as they lie on the table before it."""
    base = table.only(step.base)
    tops = [(table.only(lay.name), lay.place) for lay in step.tops]
    sew = tuple(where(ruled, seam) for ruled in step.sew)
    cut = tuple(where(ruled, seam) for ruled in step.cut)
    opened = tuple(stack(base, tops, sew, cut, step.gives[0], seam))
    return StackScene(
        (_layer(base), *(_layer(cloth, place) for cloth, place in tops)),
        tuple(_marked(step, base, [(cloth, place) for cloth, place in tops])),
        sew,
        cut,
        opened,
    )


def _layer(cloth: Cloth, place: Isometry | None = None) -> Layer:
    seams = tuple(line for line, _ in seam_lines(cloth))
    if place is None:
        return Layer(cloth.faces, False, seams)
    turned = tuple((place.at(a), place.at(b)) for a, b in seams)
    return Layer(tuple(face.placed(place) for face in cloth.faces), True, turned)


def _marked(step: Stack, base: Cloth, tops: Sequence[tuple[Cloth, Isometry]]) -> list[Line]:
    """The lines that one draws before sewing: those that stitching follows, unless they are raw edges."""
    raw = edges(base.raw) + [(place.at(a), place.at(b)) for cloth, place in tops for a, b in edges(cloth.raw)]
    found: list[Line] = []
    for ruled in step.sew:
        line = _told(ruled)
        if not any(_same_line(line, other) for other in (*raw, *found)):
            found.append(line)
    return found


def _told(ruled: Ruled) -> Line:
    return (ruled.x, ruled.y), (ruled.to_x, ruled.to_y)


def _same_line(line: Line, other: Line) -> bool:
    return all(abs(side_of(p, *other)) <= AS_DRAWN for p in line)


def draw_laid(pen: Pen, scene: StackScene, palette: Palette, view: View) -> None:
    """The cloths face to face, those on top wrong side up and drawn a little aside."""
    for layer in scene.layers:
        own = view.moved(LIFT) if layer.wrong else view
        draw_faces(pen, layer.faces, palette, own, layer.wrong)
        for line in layer.seams:
            pen.polyline(own.points(line), SEAM)


def draw_marks(pen: Pen, scene: StackScene, view: View) -> None:
    """The marked lines."""
    for line in scene.marks:
        pen.polyline(view.moved(LIFT).points(line), MARKED)


def draw_stitches(pen: Pen, scene: StackScene, view: View) -> None:
    """The stitching; a marked line that is hardly to be told from it is left out."""
    own = view.moved(LIFT)
    for mark in scene.marks:
        if not any(_hides(line, mark, view.scale) for line in scene.stitches):
            pen.polyline(own.points(mark), MARKED)
    for line in scene.stitches:
        pen.polyline(own.points(line), SEWN)


def _hides(line: Line, mark: Line, scale: float) -> bool:
    return all(abs(side_of(p, *line)) * scale < TOO_NEAR for p in mark)


def draw_cut_apart(pen: Pen, scene: StackScene, palette: Palette, view: View) -> None:
    """The regions drawn apart along the cuts; what is not held by stitching is hatched."""
    for region in scene.opened:
        sides = sides_of(region.centre, scene.cuts)
        own = view.moved(pulled_apart(sides, scene.cuts, scene.gap))
        for layer in scene.layers:
            lying = own.moved(LIFT) if layer.wrong else own
            _draw_part(pen, layer, sides, scene.cuts, palette, lying, region.cloth is None)
        for line in scene.stitches:
            inside = _within(line, sides, scene.cuts)
            if inside:
                pen.polyline(own.moved(LIFT).points(inside), SEWN)
    for line in scene.cuts:
        across = across_cloth(line, [polygon for layer in scene.layers for polygon in layer.polygons])
        if across:
            half_way = view.moved((LIFT[0] / 2, LIFT[1] / 2))
            pen.polyline(longer((half_way.at(across[0]), half_way.at(across[1])), OVERHANG), CUT)


def _draw_part(
    pen: Pen,
    layer: Layer,
    sides: Sequence[int],
    cuts: Sequence[Line],
    palette: Palette,
    view: View,
    loose: bool,
) -> None:
    """What a layer has in a region."""
    parts = []
    for face in layer.faces:
        seen = face.seen
        for side, (a, b) in zip(sides, cuts, strict=True):
            seen = clip(seen, a, b, side)
        if seen:
            parts.append(Face(face.fabric, seen, seen, face.grain))
    if not loose:
        draw_faces(pen, parts, palette, view, layer.wrong)
        return
    for part in parts:
        pen.polygon(view.points(part.seen), offcut(palette.colour(part.fabric)))


def _within(line: Line, sides: Sequence[int], cuts: Sequence[Line]) -> Line | None:
    """The part of a line on these sides of the cuts."""
    a, b = line
    for side, cut in zip(sides, cuts, strict=True):
        d, e = side * side_of(a, *cut), side * side_of(b, *cut)
        if d <= 0 and e <= 0:
            return None
        if d < 0 < e:
            a = _between(a, b, d / (d - e))
        elif e < 0 < d:
            b = _between(a, b, d / (d - e))
    return (a, b) if distance(a, b) > AS_DRAWN else None


def _between(a: Point, b: Point, share: float) -> Point:
    return (a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]))
