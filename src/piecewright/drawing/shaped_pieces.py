"""Pictures of shaped pieces: the rectangle they are cut from, and one of them."""

from __future__ import annotations

from dataclasses import replace

from piecewright.bench.bench import seam_of
from piecewright.bench.cloth import Cloth
from piecewright.bench.steps import CutOut
from piecewright.drawing.cloths import draw_faces
from piecewright.drawing.cutting_frames import SEAM_LINE, cut_apart_item, cut_out_item
from piecewright.drawing.frames import Frame, Item, draw_rows
from piecewright.drawing.look import PAGE_WIDTH, Style
from piecewright.drawing.method_frames import exact_measured, exact_size
from piecewright.drawing.palette import Palette
from piecewright.drawing.pen import Pen, View
from piecewright.drawing.svg_pen import SvgPen
from piecewright.geometry.polygon import bounds
from piecewright.planning.motif import CutDown
from piecewright.planning.shape_steps import shape_step
from piecewright.planning.things import Cut, Shaped
from piecewright.workroom.workroom import Workroom

ON_CLOTH = replace(SEAM_LINE, name="seam line on cloth", halo=True)

ROOM = Style("room")
"""Nothing is seen of it: it keeps a narrow picture as wide as the page, so that its writing stays small."""


def shaped_frames(thing: Shaped, start: Cut, workroom: Workroom, palette: Palette) -> tuple[Frame, ...]:
    """Cutting one rectangle, and what a piece of it looks like, with its seam line."""
    step, unit = shape_step(thing, thing.each, workroom), workroom.unit
    size = (exact_size(start.width, start.height, unit),)
    if isinstance(step, CutOut):
        item = cut_out_item(start.cloth, step, float(workroom.take_up), palette, size)
        by_ruler = isinstance(thing, CutDown) and thing.is_trimmed
        caption = "Trim around the motif" if by_ruler else "Cut round the template"
    else:
        item = cut_apart_item(start.cloth, step, seam_of(workroom), palette, size)
        caption = "Cut apart"
    _, _, width, height = bounds(thing.cloth.raw)
    told = (f"{thing.each} from each", exact_measured((width, height), unit))
    return Frame(caption, (item,)), Frame("One of them", (_piece(thing.cloth, palette, told),))


def _piece(cloth: Cloth, palette: Palette, labels: tuple[str, ...]) -> Item:
    def draw(pen: Pen, view: View) -> None:
        draw_faces(pen, cloth.faces, palette, view)
        pen.polyline(view.points([*cloth.net, cloth.net[0]]), ON_CLOTH)

    return Item(bounds(cloth.raw), draw, labels)


def shaped_svg(
    thing: Shaped, start: Cut, workroom: Workroom, palette: Palette, width: float = PAGE_WIDTH
) -> str:
    """The picture as SVG."""
    frames = shaped_frames(thing, start, workroom, palette)
    told = " ".join(f"{number} {frame.in_words}." for number, frame in enumerate(frames, 1))
    pen = SvgPen(f"Cutting {thing.name}", told)
    pen.polyline(((0.0, 0.0), (width, 0.0)), ROOM)
    draw_rows(pen, [frames], width)
    return pen.svg()
