"""The SVG file for a cutting machine, also to print: real size in millimetres, one group for each layer."""

from __future__ import annotations

import re
from xml.sax.saxutils import escape

from piecewright.drawing.look import GREY, INK, RUST, THREAD
from piecewright.drawing.machine_lines import LAYERS, LayerName, MachineLine, MachineSheet, MachineWords
from piecewright.geometry.point import Point

INKS: dict[LayerName, str] = {"cut": RUST, "sew": THREAD, "mark": INK, "text": INK}
HAIR = 0.2
"""The width of all lines."""

MARGIN = 5.0
"""Room round everything. Both in millimetres."""

BASELINE = 0.33


def machine_svg(sheet: MachineSheet) -> str:
    """The file as text; groups have the ids cut, sew, mark, text, and check (the squares to measure)."""
    width, height = sheet.size[0] + 2 * MARGIN, sheet.size[1] + 2 * MARGIN
    # y runs downwards in SVG: all is turned over on its way out.
    top = height - MARGIN
    groups = [line for layer in LAYERS for line in _group(sheet, layer, top)]
    check = [f"    {_path(line, top)}" for line in sheet.check]
    return "\n".join(
        [
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{_n(width)}mm" height="{_n(height)}mm"'
            f' viewBox="0 0 {_n(width)} {_n(height)}" fill="none" stroke-width="{HAIR}"'
            ' stroke-linejoin="round">',
            f"  <title>{_text(sheet.title)}</title>",
            f"  <desc>{_text(' '.join(sheet.notes))}</desc>",
            *groups,
            f'  <g id="check" stroke="{GREY}">',
            *check,
            "  </g>",
            "</svg>",
            "",
        ]
    )


def _group(sheet: MachineSheet, layer: LayerName, top: float) -> list[str]:
    if layer == "text":
        written = [f"    {_words(one, top)}" for one in sheet.words]
        font = 'font-family="Libertinus Serif, Georgia, serif" text-anchor="middle"'
        return [f'  <g id="text" fill="{INKS[layer]}" stroke="none" {font}>', *written, "  </g>"]
    lines = [f"    {_path(line, top)}" for line in sheet.lines if line.layer == layer]
    return [f'  <g id="{layer}" stroke="{INKS[layer]}">', *lines, "  </g>"]


def _path(line: MachineLine, top: float) -> str:
    points = line.points[:-1] if line.closed else line.points
    tag = "polygon" if line.closed else "polyline"
    return f'<{tag} points="{" ".join(_point(point, top) for point in points)}"/>'


def _words(one: MachineWords, top: float) -> str:
    x, y = _point(one.at, top).split(",")
    turn = f' transform="rotate({_n(-one.turn)} {x} {y})"' if one.turn else ""
    size = f'font-size="{_n(one.height)}" dy="{_n(BASELINE * one.height)}"'
    return f'<text x="{x}" y="{y}" {size}{turn}>{_text(one.text)}</text>'


def _point(point: Point, top: float) -> str:
    return f"{_n(point[0] + MARGIN)},{_n(top - point[1])}"


def _n(number: float) -> str:
    """The number to a thousandth of a millimetre and a digit more, written in one way only."""
    written = f"{number:.4f}".rstrip("0").rstrip(".")
    return "0" if written in ("-0", "") else written


def _text(words: str) -> str:
    """The words as XML, without signs that XML forbids."""
    return escape(re.sub(r"[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]", "", words))
