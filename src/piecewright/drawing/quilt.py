"""The picture of a whole top, and of one block or unit, as it will look when it is finished."""

from __future__ import annotations

from collections import Counter

from piecewright.design.drawing import Drawing, Group, Placed, QuiltDrawing
from piecewright.drawing.look import BINDING, CAPTION, CLOTH, OUTLINE, PAGE_WIDTH, WORDS, filled
from piecewright.drawing.palette import Palette, mixed_way
from piecewright.drawing.pen import Pen, View, fitting
from piecewright.drawing.svg_pen import SvgPen
from piecewright.drawing.writing import counted, length_of, size_of
from piecewright.geometry.polygon import bounds, grown
from piecewright.measure.length import Unit
from piecewright.measure.showing import show_float

QUILT_HEIGHT = 560.0
BOUND_EDGE = 2.4
"""How wide the edge of the binding is drawn, in points."""

BLOCK_WIDTH = 140.0


def draw_quilt_picture(
    pen: Pen,
    quilt: QuiltDrawing,
    palette: Palette,
    binding: str | None = None,
    width: float = PAGE_WIDTH,
    height: float = QUILT_HEIGHT,
) -> None:
    """The top in a box of so many points; `binding` is the key of the cloth whose edge is drawn around it.

    Blocks that are alike are one stamp. A block of assorted prints is stamped in several colourings.
    """
    top = quilt.top
    edge = BOUND_EDGE if binding else 0.0
    view = fitting(bounds(top.outline), width - 2 * edge, height - 2 * edge)
    outline = view.points(top.outline)
    if binding:
        pen.polygon(grown(outline, edge), filled(BINDING, palette.colour(binding)))
    for number, child in enumerate(top.children):
        _put_child(pen, child, number, view, palette)
    pen.polygon(outline, OUTLINE)


def _put_child(pen: Pen, child: Placed, number: int, view: View, palette: Palette) -> None:
    drawing = child.drawing
    roles = [patch.role for patch in drawing.patches]
    way = mixed_way(number, palette.ways(roles))
    if not isinstance(drawing, Group):
        place = view.points(child.outline)
        pen.polygon(place, filled(CLOTH, palette.colour(drawing.role, number if len(roles) else 0)))
        return
    own = View(view.scale)
    pen.stamp(
        (id(drawing), way), lambda p: draw_patches(p, drawing, palette, own, way), view.place(child.place)
    )


def draw_patches(pen: Pen, drawing: Drawing, palette: Palette, view: View, way: int = 0) -> None:
    """Every patch of a drawing in its colour, in one of the ways of its assortments."""
    patches = drawing.patches
    colours = palette.scattered([patch.role for patch in patches], way)
    for patch, colour in zip(patches, colours, strict=True):
        pen.polygon(view.points(patch.outline), filled(CLOTH, colour))


def quilt_svg(
    quilt: QuiltDrawing,
    palette: Palette,
    binding: str | None = None,
    unit: Unit = "in",
    width: float = PAGE_WIDTH,
    height: float = QUILT_HEIGHT,
) -> str:
    """The picture of a whole top as SVG; sizes on paper in points."""
    pen = SvgPen(quilt.top.name, _quilt_in_words(quilt, palette, binding, unit))
    draw_quilt_picture(pen, quilt, palette, binding, width, height)
    return pen.svg()


def _quilt_in_words(quilt: QuiltDrawing, palette: Palette, binding: str | None, unit: Unit) -> str:
    groups = Counter(child.drawing.name for child in quilt.top.children if isinstance(child.drawing, Group))
    blocks = ", ".join(f"{count} of {name}" for name, count in groups.items())
    roles = dict.fromkeys(patch.role for child in quilt.top.children for patch in child.drawing.patches)
    cloths = "; ".join(palette.name(role) for role in roles)
    edge = f" Bound with {palette.name(binding)}." if binding else ""
    return (
        f"The quilt top as it will look, {_size_in_words(quilt.top, unit)} finished, "
        f"{quilt.top.patch_count} patches. Blocks: {blocks or 'none'}. Cloths: {cloths}.{edge}"
    )


def _size_in_words(drawing: Drawing, unit: Unit) -> str:
    x0, y0, x1, y1 = bounds(drawing.outline)
    return f"{show_float(x1 - x0, unit)} wide and {show_float(y1 - y0, unit)} high"


def draw_block_picture(
    pen: Pen,
    drawing: Drawing,
    palette: Palette,
    unit: Unit | None = None,
    width: float = BLOCK_WIDTH,
    height: float = BLOCK_WIDTH,
) -> None:
    """A block or a unit in a box of so many points; its finished size below where a `unit` is given."""
    view = fitting(bounds(drawing.outline), width, height)
    draw_patches(pen, drawing, palette, view)
    outline = view.points(drawing.outline)
    pen.polygon(outline, OUTLINE)
    if unit:
        x0, y0, x1, y1 = bounds(drawing.outline)
        size = f"{size_of(length_of(x1 - x0), length_of(y1 - y0), unit)} {unit} finished"
        left, low, right, _ = bounds(outline)
        pen.text(((left + right) / 2, low - CAPTION), size, CAPTION, "middle", WORDS)


def block_svg(
    drawing: Drawing,
    palette: Palette,
    unit: Unit = "in",
    width: float = BLOCK_WIDTH,
    height: float = BLOCK_WIDTH,
    labelled: bool = False,
) -> str:
    """The picture of a block or a unit as SVG."""
    name = drawing.name if isinstance(drawing, Group) else palette.name(drawing.role)
    counts = Counter(palette.name(patch.role) for patch in drawing.patches)
    patches = ", ".join(
        f"{counted(count, 'patch').replace('patchs', 'patches')} of {cloth}"
        for cloth, count in counts.items()
    )
    pen = SvgPen(name, f"{name}, {_size_in_words(drawing, unit)} finished: {patches}.")
    draw_block_picture(pen, drawing, palette, unit if labelled else None, width, height)
    return pen.svg()
