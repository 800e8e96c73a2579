"""The map of layers: how many layers of cloth lie where, in greys that read in black and white.

A seam pressed to a side is 3 layers thick beside it; where seams cross there are more, and the thickest place
is ringed. The map is seen from the front.
"""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.bench.cloth import Cloth
from piecewright.drawing.look import INK, LABEL, MEASURE, OUTLINE, Style, filled
from piecewright.drawing.pen import Pen, fitting
from piecewright.drawing.pressing import PRESSED_WIDTH, RING, draw_rings
from piecewright.drawing.svg_pen import SvgPen
from piecewright.drawing.writing import text_width
from piecewright.geometry.point import Point
from piecewright.geometry.polygon import area, bounds
from piecewright.pressing.bulk import Layers, layers_of

GREYS = ("#ffffff", "#e9e9e9", "#cfcfcf", "#ababab", "#848484", "#5b5b5b", "#262626")
STEPS = (1, 2, 3, 4, 5, 7, 9)
"""The least number of layers of each grey."""

LAYER = Style("layer", INK, 0.25)
FEW_THICKEST = 8
"""So many thickest places at most are ringed; where there are more, the words tell."""

FIELD = 9.0
"""The side of a square in the legend, in points."""


def grey_of(layers: int) -> str:
    """The grey of so many layers.

    >>> grey_of(1), grey_of(12)
    ('#ffffff', '#262626')
    """
    return GREYS[max(k for k, least in enumerate(STEPS) if least <= layers)]


def draw_layers(pen: Pen, cloth: Cloth, width: float = PRESSED_WIDTH) -> None:
    """The map of a sewn thing in a box of so many points, its allowances all round, with a legend below."""
    view = fitting(bounds(cloth.raw), width, width)
    layers = layers_of(cloth)
    # What lies in a hole of a place is smaller than the place, and is drawn over it.
    for place in sorted(layers.places, key=lambda place: -area(place.outline)):
        pen.polygon(view.points(place.outline), filled(LAYER, grey_of(place.layers)))
    pen.polygon(view.points(cloth.net), MEASURE)
    pen.polygon(view.points(cloth.raw), OUTLINE)
    if layers.most > 1 and len(layers.thickest) <= FEW_THICKEST:
        draw_rings(pen, [view.at(point) for point in layers.thickest])
    lowest = min(y for place in layers.places for _, y in view.points(place.outline))
    rings = [view.at(point)[1] - RING for point in layers.thickest]
    _draw_legend(pen, layers, (0.0, min(lowest, *rings) - FIELD - 5.0), width)


def _draw_legend(pen: Pen, layers: Layers, at: Point, width: float) -> None:
    x, y = at
    for colour, words in legend(layers):
        wide = FIELD + 3.0 + text_width(words, LABEL) + 8.0
        if x and x + wide > width:
            x, y = at[0], y - FIELD - 4.0
        pen.polygon([(x, y), (x + FIELD, y), (x + FIELD, y + FIELD), (x, y + FIELD)], filled(LAYER, colour))
        pen.text((x + FIELD + 3.0, y + FIELD / 2), words, LABEL, "start")
        x += wide


def legend(layers: Layers) -> list[tuple[str, str]]:
    """Each grey that is used with the numbers of layers it stands for; the last says what they are."""
    found: dict[str, list[int]] = {}
    for count in sorted({place.layers for place in layers.places}):
        found.setdefault(grey_of(count), []).append(count)
    told = [(colour, _numbers(counts)) for colour, counts in found.items()]
    colour, words = told[-1]
    return [*told[:-1], (colour, f"{words} layers")]


def _numbers(counts: Sequence[int]) -> str:
    return str(counts[0]) if len(counts) == 1 else f"{counts[0]} to {counts[-1]}"


def layers_svg(cloth: Cloth, name: str, width: float = PRESSED_WIDTH) -> str:
    """The map of layers of a thing of this name as SVG."""
    layers = layers_of(cloth)
    where = f"at {len(layers.thickest)} {'place' if len(layers.thickest) == 1 else 'places'}"
    ringed = " (ringed)" if len(layers.thickest) <= FEW_THICKEST else ""
    pen = SvgPen(
        f"Layers: {name}",
        f"How many layers of cloth lie where in {name}, seen from the front: {layers.most} at most, "
        f"{where}{ringed}. The darker, the more.",
    )
    draw_layers(pen, cloth, width)
    return pen.svg()
