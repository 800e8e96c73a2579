"""The picture of a choice: how much cloth to buy against how much cutting, for several layouts of one cloth.

From a line in the middle a plain bar reaches to the left for the cloth, and a hatched one to the right for
the ruler settings, with a narrow one below it for the cuts. Each kind of bar is to its own scale.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from piecewright.cutting.layout import Layout
from piecewright.cutting.wishes import AIMS
from piecewright.drawing.look import (
    CAPTION,
    INK,
    LABEL,
    OFFCUT,
    OUTLINE,
    QUIET_WORDS,
    STRONG_WORDS,
    WORDS,
    Style,
)
from piecewright.drawing.pen import Pen
from piecewright.drawing.svg_pen import SvgPen
from piecewright.drawing.writing import counted
from piecewright.geometry.polygon import Polygon
from piecewright.measure.length import Unit
from piecewright.measure.showing import show_cloth

CHOICE_WIDTH = 190.0
ROW = 36.0
WORDS_ROOM = 48.0
"""In points: how wide the picture is, from row to row, and the room for figures at both ends of the bars."""

CLOTH_BAR = Style("cloth bar", INK, 0.6, fill="#d9dcdf")
CUTS_BAR = Style("cuts bar", INK, 0.6, fill=INK)


@dataclass(frozen=True)
class NamedChoice:
    """A layout that may be chosen, by its name; `chosen` is the one that is told on the sheet."""

    name: str
    layout: Layout
    chosen: bool = False


def named_choices(choices: Sequence[Layout], chosen: Layout | None = None) -> tuple[NamedChoice, ...]:
    """The layouts, from the least cloth to the least cutting, by what each aims at."""
    names = [*AIMS, *(f"choice {number}" for number in range(len(AIMS) + 1, len(choices) + 1))]
    return tuple(
        NamedChoice(name, layout, layout == chosen) for name, layout in zip(names, choices, strict=False)
    )


def choices_svg(
    choices: Sequence[NamedChoice], unit: Unit = "in", layers: int = 2, width: float = CHOICE_WIDTH
) -> str:
    """The picture as SVG; cuts are counted with so many layers on each other."""
    pen = SvgPen("Cloth against cutting", _in_words(choices, unit, layers))
    draw_choices(pen, choices, unit, layers, width)
    return pen.svg()


def draw_choices(
    pen: Pen,
    choices: Sequence[NamedChoice],
    unit: Unit = "in",
    layers: int = 2,
    width: float = CHOICE_WIDTH,
) -> None:
    """The bars of each choice in a row of its own, the first on top."""
    middle, most = width / 2, width / 2 - WORDS_ROOM
    cloth = max(float(one.layout.buy) for one in choices)
    settings = max(one.layout.ruler_changes for one in choices)
    cuts = max(one.layout.operations(layers) for one in choices)
    pen.text((middle - 6, 6), "cloth to buy", LABEL, "end", QUIET_WORDS)
    pen.text((middle + 6, 6), "settings and cuts", LABEL, "start", QUIET_WORDS)
    for k, one in enumerate(choices):
        top, layout = -ROW * k - 12, one.layout
        name = f"{one.name} (cut here)" if one.chosen else one.name
        pen.group(name)
        pen.text((middle, top), name, CAPTION, "middle", STRONG_WORDS if one.chosen else WORDS)
        x = middle - most * float(layout.buy) / cloth if cloth else middle
        pen.polygon(_box(x, top - 22, middle, top - 7), CLOTH_BAR)
        pen.text((x - 3, top - 14.5), show_cloth(layout.buy, unit), LABEL, "end", WORDS)
        work = layout.operations(layers)
        for share, low, high, style, told in (
            (layout.ruler_changes / max(settings, 1), 15.0, 7.0, OFFCUT, f"{layout.ruler_changes} settings"),
            (work / max(cuts, 1), 22.0, 17.5, CUTS_BAR, f"{work:,} cuts"),
        ):
            right = middle + most * share
            pen.polygon(_box(middle, top - low, right, top - high), style)
            pen.text((right + 3, top - (low + high) / 2), told, LABEL, "start", WORDS)
        pen.polyline([(middle, top - 24), (middle, top - 5)], OUTLINE)
        pen.end_group()


def _box(x0: float, y0: float, x1: float, y1: float) -> Polygon:
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def _in_words(choices: Sequence[NamedChoice], unit: Unit, layers: int) -> str:
    told = "; ".join(
        f"{one.name}{' (chosen)' if one.chosen else ''}: {show_cloth(one.layout.buy, unit)}, "
        f"{counted(one.layout.ruler_changes, 'ruler setting')}, "
        f"{counted(one.layout.operations(layers), 'cut')}"
        for one in choices
    )
    return f"How much cloth to buy against how much cutting. {told[:1].upper()}{told[1:]}."
