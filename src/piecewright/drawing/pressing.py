"""The picture of pressing: a block seen from the front, with a mark on every seam."""

from __future__ import annotations

from collections import Counter

from piecewright.bench.cloth import Cloth
from piecewright.drawing.cloths import draw_finished, draw_pressing, seam_lines
from piecewright.drawing.palette import Palette
from piecewright.drawing.pen import Pen, fitting
from piecewright.drawing.svg_pen import SvgPen
from piecewright.drawing.writing import counted
from piecewright.geometry.polygon import bounds

PRESSED_WIDTH = 190.0


def draw_pressing_picture(pen: Pen, cloth: Cloth, palette: Palette, width: float = PRESSED_WIDTH) -> None:
    """The cloth as it shows, in a box of so many points; arrows point to where each allowance lies."""
    view = fitting(bounds(cloth.net), width, width)
    draw_finished(pen, cloth, palette, view)
    draw_pressing(pen, cloth, view)


def pressing_svg(cloth: Cloth, palette: Palette, name: str, width: float = PRESSED_WIDTH) -> str:
    """The picture of how a thing of this name is pressed, as SVG."""
    ways = Counter(pressed for _, pressed in seam_lines(cloth, net=True) if pressed)
    to_a_side = ways["first"] + ways["second"]
    told = [
        f"{counted(to_a_side, 'seam')} to a side, as the arrows point" if to_a_side else "",
        f"{counted(ways['open'], 'seam')} open (diamonds)" if ways["open"] else "",
        f"{counted(ways['either'], 'seam')} either way (rings)" if ways["either"] else "",
    ]
    words = "; ".join(part for part in told if part) or "nothing is pressed yet"
    pen = SvgPen(f"Pressing: {name}", f"{name} seen from the front. Pressed: {words}.")
    draw_pressing_picture(pen, cloth, palette, width)
    return pen.svg()
