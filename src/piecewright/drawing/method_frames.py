"""The frames that tell one step: what to take, how it lies, where to sew and cut, what comes of it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from piecewright.bench.cloth import Cloth, Seam, SeamSize
from piecewright.bench.doing import Table
from piecewright.bench.steps import AnyStep, CutApart, CutOut, Join, Stack, TrueUp
from piecewright.drawing.cloths import draw_pressing, draw_sewn
from piecewright.drawing.cutting_frames import cut_apart_item, cut_out_item
from piecewright.drawing.frames import Box, Frame, Item
from piecewright.drawing.joining import draw_apart, laid_apart
from piecewright.drawing.on_cloth import pulled_apart, sides_of
from piecewright.drawing.palette import Palette
from piecewright.drawing.pen import Pen, View
from piecewright.drawing.shortened import is_long, shortened
from piecewright.drawing.stack_scene import (
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
from piecewright.drawing.writing import counted, short_name
from piecewright.geometry.isometry import STILL, Isometry
from piecewright.geometry.polygon import Line, bounds, edges, placed
from piecewright.measure.length import Length, Unit
from piecewright.measure.showing import figure, figure_float, show_exact

PRESS_ARROW = 6.5
JOIN_GAP = 0.34
MOST_TAKEN = 5
"""So many things are shown in one frame of what to take."""

MOST_MARKED = 6
"""With more seams in a cloth than this its pressing marks would hide it."""

FEW_SIDES = 4
"""A path of more sides than this is a curve."""


@dataclass(frozen=True)
class Taken:
    """A thing that is taken: its pile, one of it, how many each of so many times; of a scrap its number."""

    name: str
    cloth: Cloth
    count: int
    times: int = 1
    number: str = ""


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

    def take(self, things: Sequence[Taken]) -> tuple[Frame, ...]:
        """What one needs: each thing once, with how many; a few in each frame."""
        items = [shortened(self.whole(taken.cloth, self._labels(taken))) for taken in things]
        groups = [items[k : k + MOST_TAKEN] for k in range(0, len(items), MOST_TAKEN)]
        return tuple(Frame("and" if k else "Take", tuple(group)) for k, group in enumerate(groups))

    def whole(self, cloth: Cloth, labels: tuple[str, ...], place: Isometry = STILL) -> Item:
        """A cloth as it lies."""

        def draw(pen: Pen, view: View) -> None:
            draw_sewn(pen, cloth, self.palette, view, place)

        return Item(bounds(placed(cloth.raw, place)), draw, labels)

    def _labels(self, taken: Taken) -> tuple[str, ...]:
        if taken.name not in self.starts:
            if taken.times > 1 and taken.count == 1:
                return (f"each of the {taken.times}",)
            return (f"{taken.count} of these",)
        width, height = self.starts[taken.name]
        long = is_long(float(width), float(height))
        shape = "square" if width == height else "strip" if long else "rectangle"
        size = exact_size(width, height, self.unit)
        what = taken.number or counted(taken.count, shape)
        return what, size, short_name(self.palette.name(taken.cloth.faces[0].fabric))

    def stack(self, moment: Moment, step: Stack) -> tuple[Frame, ...]:
        """Laying, sewing and cutting."""
        scene = stack_scene(step, moment.before, self.seam)
        cut = (self._cut(scene),) if scene.cuts else ()
        return (self._lay(scene), self._sew(scene, step), *cut)

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

        moves = [pulled_apart(sides_of(o.centre, scene.cuts), scene.cuts, scene.gap) for o in scene.opened]
        around = max(abs(x) for move in moves for x in move) + OVERHANG
        kept = sum(region.cloth is not None for region in scene.opened)
        caption = "Cut apart" if kept == len(scene.opened) else "Trim"
        return Frame(caption, (shortened(Item(scene.box, draw, (), around), scene.near),))

    def cut_apart(self, moment: Moment, step: CutApart, labels: tuple[str, ...] = ()) -> Item:
        """A piece, or what has been sewn, cut along lines."""
        return cut_apart_item(moment.before.only(step.takes), step, self.seam, self.palette, labels)

    def cut_out(self, moment: Moment, step: CutOut, labels: tuple[str, ...] = ()) -> Item:
        """A piece with a template on it, or what has been sewn, cut round an outline."""
        cloth = moment.before.only(step.takes)
        return cut_out_item(cloth, step, self.seam.take_up, self.palette, labels, not cloth.seams)

    def join(self, moment: Moment, step: Join, place: Isometry) -> Frame:
        """The parts laid apart with the seam between."""
        cloth = moment.after.piles[step.gives].kinds[0][0]
        gap = JOIN_GAP * min(cloth.size) / max(1, len(cloth.parts) - 1)
        apart = laid_apart(cloth, gap, 1).moved(place, (0.0, 0.0))

        def draw(pen: Pen, view: View) -> None:
            draw_apart(pen, apart, self.palette, view, raw=True)

        box = bounds([p for part, at in apart.parts for p in placed(part.raw, at)])
        return Frame(joining_words(step), (shortened(Item(box, draw)),))

    def opened(self, cloth: Cloth, place: Isometry, labels: tuple[str, ...]) -> Item:
        """What came of it, opened and pressed; arrows at the seams sewn last."""
        own = Cloth(cloth.raw, cloth.net, cloth.faces, (), _marked_seams(cloth), cloth.all_caught)

        def draw(pen: Pen, view: View) -> None:
            draw_sewn(pen, cloth, self.palette, view, place)
            draw_pressing(pen, own, view, place, net=False, arrow=PRESS_ARROW)

        return shortened(Item(bounds(placed(cloth.raw, place)), draw, labels))

    def true_up(self, cloth: Cloth, step: TrueUp, place: Isometry) -> Frame:
        """The ruler on the unit."""
        box: Box = truing_box(cloth, place)

        def draw(pen: Pen, view: View) -> None:
            draw_truing_at(pen, cloth, step, place, self.palette, view, self.unit)

        label = f"to {exact_size(step.width, step.height, self.unit)}"
        return Frame("True up", (Item(box, draw, (label,), 3.0),))


def _over(scene: StackScene, draw: Callable[[Pen, View], None]) -> Item:
    return shortened(Item(scene.box, draw, (), LIFT[0]), scene.near)


def _marked_seams(cloth: Cloth) -> tuple[Seam, ...]:
    """The seams marked for pressing: those sewn last, of a curve its middle; none where there are many."""
    seams = tuple(_middle(seam) for seam in cloth.own_seams if seam.pressed)
    return seams if len(seams) <= MOST_MARKED else ()


def _middle(seam: Seam) -> Seam:
    count = len(seam.segments)
    if count <= FEW_SIDES:
        return seam
    return replace(seam, path=seam.segments[count // 2], pressed=(seam.pressed[count // 2],))


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


def joining_words(step: Join) -> str:
    """How two things are joined, in a few words."""
    most = max(len(sides) for part in step.parts for sides in (part.entry, part.exit))
    if most > FEW_SIDES:
        return "Pin and sew round the curve"
    return "Set in, from dot to dot" if most > 1 else "Lay face to face, sew"


def exact_size(width: Length, height: Length, unit: Unit) -> str:
    """A size as it is cut: on the ruler's marks, or in decimals where the ruler has none.

    >>> from piecewright.measure.length import inches, mm
    >>> exact_size(inches("2 7/8"), inches("2 7/8"), "in"), exact_size(mm(67), inches(4), "in")
    ('2 7/8 in', '2.6378 × 4 in')
    """
    return _size([_decimal(figure(side, unit), float(side), unit) for side in (width, height)], unit)


def exact_measured(size: tuple[float, float], unit: Unit) -> str:
    """The same for a computed size in inches.

    >>> exact_measured((2.5, 2.5), "in"), exact_measured((4.2678, 2.0), "in")
    ('2 1/2 in', '4.2678 × 2 in')
    """
    return _size([_decimal(figure_float(side, unit), side, unit) for side in size], unit)


def _decimal(shown: str, side: float, unit: Unit) -> str:
    if not shown.startswith("about"):
        return shown
    return show_exact(side, unit).removesuffix(f" {unit}").rstrip("0").rstrip(".")


def _size(sides: list[str], unit: Unit) -> str:
    return f"{' × '.join(dict.fromkeys(sides))} {unit}"
