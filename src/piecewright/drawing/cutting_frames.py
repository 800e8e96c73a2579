"""The frames of cutting: pieces cut apart along lines, pieces cut out round a template."""

from __future__ import annotations

from dataclasses import replace

from piecewright.bench.cloth import Cloth, SeamSize
from piecewright.bench.doing import where
from piecewright.bench.stacking import slice_apart
from piecewright.bench.steps import CutApart, CutOut
from piecewright.drawing.cloths import draw_faces, draw_sewn, seam_lines
from piecewright.drawing.frames import Item
from piecewright.drawing.look import CUT, INK, PAPER, SEAM, Style, offcut
from piecewright.drawing.on_cloth import across_cloth, longer, pulled_apart, sides_of
from piecewright.drawing.palette import Palette
from piecewright.drawing.pen import Pen, View
from piecewright.drawing.shortened import is_long, shortened
from piecewright.drawing.stack_scene import GAP, OVERHANG
from piecewright.geometry.polygon import Line, Polygon, bounds, centroid, clip, grown

FEW_CUTS = 4
"""With more cuts than this the parts are left where they lie, else they would spread too far."""

SHOWN_CUTS = 4
"""So many cuts are shown at the near end of a long piece."""

SEAM_LINE = Style("template seam line", INK, 0.5, dashes=(3.0, 1.5))
TEMPLATE = Style("template", INK, 0.9, fill=PAPER, opacity=0.3)
"""A see-through sheet with a firm edge, and its seam line."""

CUT_ROUND = replace(CUT, ticks=False)


def cut_apart_item(
    cloth: Cloth, step: CutApart, seam: SeamSize, palette: Palette, labels: tuple[str, ...] = ()
) -> Item:
    """A cloth cut along endless lines; what is an offcut is hatched."""
    cuts = [where(ruled, seam) for ruled in step.cut]
    parts = slice_apart(cloth, cuts, seam)
    names = step.gives * len(parts) if len(step.gives) == 1 else step.gives
    box = bounds(cloth.raw)
    width, height = box[2] - box[0], box[3] - box[1]
    gap = 0.0 if len(cuts) > FEW_CUTS or is_long(width, height) else GAP

    def draw(pen: Pen, view: View) -> None:
        for name, part in zip(names, parts, strict=True):
            by = pulled_apart(sides_of(centroid(part.raw), cuts), cuts, gap)
            own = view.moved(by)
            if name:
                draw_faces(pen, part.faces, palette, own)
            else:
                _draw_offcut(pen, part, palette, own)
            for line, _ in seam_lines(part):
                pen.polyline(own.points(line), SEAM)
        for line in cuts:
            across = across_cloth(line, [face.seen for face in cloth.faces])
            if across:
                a, b = view.points(across)
                pen.polyline(longer((a, b), OVERHANG), CUT)

    moves = [pulled_apart(sides_of(centroid(part.raw), cuts), cuts, gap) for part in parts]
    around = max(abs(x) for move in moves for x in move) + OVERHANG
    return shortened(Item(box, draw, labels, around), _near(cuts, box))


def _near(cuts: list[Line], box: tuple[float, float, float, float]) -> float:
    """How much of a long cloth shows its first cuts whole."""
    axis = 0 if box[2] - box[0] > box[3] - box[1] else 1
    reach = sorted(max(a[axis], b[axis]) - box[axis] for a, b in cuts)
    if len(reach) < 2 or reach[0] <= 0:
        return 0.0
    shown = reach[: SHOWN_CUTS if reach[0] < 0.3 * reach[1] else SHOWN_CUTS - 1]
    return shown[-1] + 0.3 * (shown[-1] - shown[-2])


def _draw_offcut(pen: Pen, cloth: Cloth, palette: Palette, view: View) -> None:
    for face in cloth.faces:
        pen.polygon(view.points(face.seen), offcut(palette.colour(face.fabric)))


def cut_out_item(
    cloth: Cloth,
    step: CutOut,
    take_up: float,
    palette: Palette,
    labels: tuple[str, ...] = (),
    template: bool = True,
) -> Item:
    """A cloth with an outline that is cut out of it, by a template; what is left is hatched."""

    def draw(pen: Pen, view: View) -> None:
        if cloth.seams:
            draw_sewn(pen, cloth, palette, view)
            for piece in _outside(cloth, step.outline):
                pen.polygon(view.points(piece), offcut(PAPER))
        else:
            for face in cloth.faces:
                pen.polygon(view.points(face.seen), offcut(palette.colour(face.fabric)))
            faces = [replace(face, seen=step.outline) for face in cloth.faces]
            draw_faces(pen, faces, palette, view)
        corners = view.points(step.outline)
        net = grown(step.outline, -take_up)
        if template and net:
            pen.polygon(corners, TEMPLATE)
            pen.polyline(view.points([*net, net[0]]), SEAM_LINE)
        pen.polyline([*corners, corners[0]], CUT_ROUND)

    return Item(bounds(cloth.raw), draw, labels, OVERHANG)


def _outside(cloth: Cloth, outline: Polygon) -> list[Polygon]:
    """What is left of a sewn cloth outside a convex outline."""
    pieces: list[Polygon] = []
    rest = [face.seen for face in cloth.faces]
    for a, b in zip(outline, (*outline[1:], outline[0]), strict=True):
        pieces += [piece for face in rest if (piece := clip(face, a, b, -1))]
        rest = [piece for face in rest if (piece := clip(face, a, b))]
    return pieces
