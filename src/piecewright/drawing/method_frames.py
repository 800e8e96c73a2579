"""The frames that tell one step: what to take, how it lies, where to sew and cut, what comes of it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from piecewright.bench.cloth import Cloth, SeamSize
from piecewright.bench.doing import Table, where
from piecewright.bench.stacking import slice_apart
from piecewright.bench.steps import AnyStep, CutApart, Join, Stack, TrueUp
from piecewright.drawing.cloths import draw_faces, draw_pressing, draw_sewn
from piecewright.drawing.frames import Box, Frame, Item
from piecewright.drawing.joining import draw_apart, laid_apart
from piecewright.drawing.look import CUT
from piecewright.drawing.on_cloth import across_cloth, longer, pulled_apart, sides_of
from piecewright.drawing.palette import Palette
from piecewright.drawing.pen import Pen, View
from piecewright.drawing.stack_scene import (
    GAP,
    LIFT,
    OVERHANG,
    StackScene,
    draw_cut_apart,
    draw_laid,
    draw_marks,
    draw_stitches,
    stack_scene,
)
from piecewright.drawing.truing import draw_truing_at, truing_box
from piecewright.drawing.writing import counted, short_name, size_of
from piecewright.geometry.isometry import Isometry
from piecewright.geometry.polygon import Line, bounds, centroid, edges, placed
from piecewright.measure.length import Length, Unit

PRESS_ARROW = 6.5
JOIN_GAP = 0.34


@dataclass(frozen=True)
class Moment:
    """A step with the table before it, and after it once what it made has been pressed."""

    step: AnyStep
    before: Table
    after: Table


@dataclass(frozen=True)
class Telling:
    """What all frames of a picture share: seam, colours, unit, and the sizes and fabrics of the starts."""

    seam: SeamSize
    palette: Palette
    unit: Unit
    starts: dict[str, tuple[Length, Length]]

    def take(self, names: Sequence[str], moment: Moment, times: int) -> Frame:
        """What one needs for a step: each thing once, with how many."""
        items = []
        for name, count in Counter(names).items():
            cloth = moment.before.only(name)
            items.append(self._laid_out(cloth, self._labels(name, cloth, count, times)))
        return Frame("Take", tuple(items))

    def _laid_out(self, cloth: Cloth, labels: tuple[str, ...]) -> Item:
        def draw(pen: Pen, view: View) -> None:
            draw_sewn(pen, cloth, self.palette, view)

        return Item(bounds(cloth.raw), draw, labels)

    def _labels(self, name: str, cloth: Cloth, count: int, times: int) -> tuple[str, ...]:
        if name not in self.starts:
            return (f"each of the {times}" if times > 1 and count == 1 else f"{count} of these",)
        width, height = self.starts[name]
        shape = "square" if width == height else "rectangle"
        size = f"{size_of(width, height, self.unit)} {self.unit}"
        return counted(count, shape), size, short_name(self.palette.name(cloth.faces[0].fabric))

    def stack(self, moment: Moment, step: Stack) -> tuple[Frame, ...]:
        """Taking, laying, sewing and cutting."""
        scene = stack_scene(step, moment.before, self.seam)
        names = (step.base, *(lay.name for lay in step.tops))
        return (
            self.take(names, moment, step.times),
            self._lay(scene),
            self._sew(scene, step),
            self._cut(scene),
        )

    def _lay(self, scene: StackScene) -> Frame:
        def draw(pen: Pen, view: View) -> None:
            draw_laid(pen, scene, self.palette, view)
            draw_marks(pen, scene, view)

        return Frame("Lay face to face, mark" if scene.marked else "Lay face to face", (_over(scene, draw),))

    def _sew(self, scene: StackScene, step: Stack) -> Frame:
        def draw(pen: Pen, view: View) -> None:
            draw_laid(pen, scene, self.palette, view)
            draw_stitches(pen, scene, view)

        return Frame(sewing_words(scene, step), (_over(scene, draw),))

    def _cut(self, scene: StackScene) -> Frame:
        def draw(pen: Pen, view: View) -> None:
            draw_cut_apart(pen, scene, self.palette, view)

        moves = [pulled_apart(sides_of(o.centre, scene.cuts), scene.cuts, GAP) for o in scene.opened]
        around = max(abs(x) for move in moves for x in move) + OVERHANG
        kept = sum(region.cloth is not None for region in scene.opened)
        caption = "Cut apart" if kept == len(scene.opened) else "Trim"
        return Frame(caption, (Item(scene.box, draw, (), around),))

    def cut_apart(self, moments: Sequence[tuple[Moment, CutApart]]) -> tuple[Frame, Frame]:
        """Several pieces, each cut apart: taking and cutting."""
        names = [step.takes for _, step in moments]
        first = moments[0][0]
        items = tuple(self._sliced(moment.before.only(step.takes), step) for moment, step in moments)
        return self.take(names, first, moments[0][1].times), Frame("Cut apart", items)

    def _sliced(self, cloth: Cloth, step: CutApart) -> Item:
        cuts = [where(ruled, self.seam) for ruled in step.cut]
        parts = slice_apart(cloth, cuts, self.seam)

        def draw(pen: Pen, view: View) -> None:
            for part in parts:
                by = pulled_apart(sides_of(centroid(part.raw), cuts), cuts, GAP)
                draw_faces(pen, part.faces, self.palette, view.moved(by))
            for line in cuts:
                across = across_cloth(line, [face.seen for face in cloth.faces])
                if across:
                    pen.polyline(longer(_on_paper(view, across), OVERHANG), CUT)

        return Item(bounds(cloth.raw), draw, (), GAP / 2 + OVERHANG)

    def join(self, moment: Moment, step: Join, place: Isometry) -> Frame:
        """The parts laid apart with the seam between."""
        cloth = moment.after.only(step.gives)
        apart = laid_apart(cloth, JOIN_GAP * min(cloth.size), 1).moved(place, (0.0, 0.0))

        def draw(pen: Pen, view: View) -> None:
            draw_apart(pen, apart, self.palette, view, raw=True)

        box = bounds([p for part, at in apart.parts for p in placed(part.raw, at)])
        return Frame("Lay face to face, sew", (Item(box, draw),))

    def opened(self, cloth: Cloth, place: Isometry, labels: tuple[str, ...]) -> Frame:
        """What came of it, opened and pressed."""

        def draw(pen: Pen, view: View) -> None:
            draw_sewn(pen, cloth, self.palette, view, place)
            draw_pressing(pen, cloth, view, place, net=False, arrow=PRESS_ARROW)

        return Frame("Open and press", (Item(bounds(placed(cloth.raw, place)), draw, labels),))

    def true_up(self, cloth: Cloth, step: TrueUp, place: Isometry) -> Frame:
        """The ruler on the unit."""
        box: Box = truing_box(cloth, place)

        def draw(pen: Pen, view: View) -> None:
            draw_truing_at(pen, cloth, step, place, self.palette, view, self.unit)

        label = f"to {size_of(step.width, step.height, self.unit)} {self.unit}"
        return Frame("True up", (Item(box, draw, (label,), 3.0),))


def _over(scene: StackScene, draw: Callable[[Pen, View], None]) -> Item:
    return Item(scene.box, draw, (), LIFT[0])


def _on_paper(view: View, line: Line) -> Line:
    return view.at(line[0]), view.at(line[1])


def sewing_words(scene: StackScene, step: Stack) -> str:
    """Where the stitching goes, in a few words."""
    if not scene.marked:
        return "Sew round the edge" if len(step.sew) >= len(edges_of(scene)) else "Sew along the edge"
    lines = "line" if len(scene.marked) == 1 else "lines"
    if all(ruled.beside.startswith("hair") for ruled in step.sew):
        return f"Sew a hair beside the {lines}"
    if all(ruled.beside == "on" for ruled in step.sew):
        return f"Sew on the {lines}"
    return f"Sew on both sides of the {lines}"


def edges_of(scene: StackScene) -> list[Line]:
    """The edges of the base."""
    return [edge for polygon in scene.layers[0].polygons for edge in edges(polygon)]
