"""The pen that writes SVG: self-contained, with a title and a description, byte for byte the same.

The unit is the point on paper, so that a picture placed at its own size has lines and writing as meant. y
runs downwards in SVG: every point is turned over on its way out.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Hashable, Iterator
from xml.sax.saxutils import escape

from piecewright.drawing.bounds_pen import TICK, BoundsPen, arrow_outline
from piecewright.drawing.hatch import hatching
from piecewright.drawing.look import GREY, PAPER, WORDS, Style
from piecewright.drawing.pen import Anchor, Pen, Points
from piecewright.geometry.isometry import Isometry
from piecewright.geometry.point import Point, add, left_of, scale, sub, unit
from piecewright.geometry.polygon import Line

FACE = "Libertinus Serif, Georgia, serif"
MARGIN = 3.0
HALO = 1.6
_BASELINE = 0.33


class SvgPen:
    """Draws SVG; `svg` gives the whole file as text."""

    def __init__(self, title: str, description: str) -> None:
        self.title = title
        self.description = description
        self._out: list[str] = []
        self._bounds = BoundsPen()
        self._styles: dict[str, Style] = {}
        self._stamps: dict[Hashable, str] = {}
        self._stamped: list[str] = []
        self._depth = 1

    def svg(self) -> str:
        """The file: as large as what was drawn, and a small margin."""
        x0, y0, x1, y1 = self._bounds.box
        width, height = x1 - x0 + 2 * MARGIN, y1 - y0 + 2 * MARGIN
        box = f"{_n(x0 - MARGIN)} {_n(-y1 - MARGIN)} {_n(width)} {_n(height)}"
        head = [
            f'<svg xmlns="http://www.w3.org/2000/svg" class="piecewright" role="img" width="{_n(width)}pt"'
            f' height="{_n(height)}pt" viewBox="{box}" fill="none" font-family="{FACE}">',
            f"  <title>{_text(self.title)}</title>",
            f"  <desc>{_text(self.description)}</desc>",
            "  <style>",
            *(f"    {rule}" for style in self._styles.values() for rule in _rules(style)),
            "  </style>",
        ]
        stamps = ["  <defs>", *self._stamped, "  </defs>"] if self._stamped else []
        return "\n".join([*head, *stamps, *self._out, "</svg>", ""])

    def polygon(self, points: Points, style: Style) -> None:
        """A closed shape; hatched where the style says so."""
        self._bounds.polygon(points, style)
        fill = f' fill="{style.fill}"' if style.fill else ""
        self._put(f'<polygon class="{self._class(style)}"{fill} points="{_points(points)}"/>')
        if style.hatched:
            self._styles.setdefault("hatch", Style("hatch", GREY, 0.4))
            strokes = "".join(_stroke(line) for line in hatching(points))
            if strokes:
                self._put(f'<path class="hatch" d="{strokes}"/>')

    def polyline(self, points: Points, style: Style) -> None:
        """An open line; with small strokes across its ends where the style says so."""
        self._bounds.polyline(points, style)
        name = self._class(style)
        if style.halo:
            self._put(f'<polyline class="{name} halo" points="{_points(points)}"/>')
        self._put(f'<polyline class="{name}" points="{_points(points)}"/>')
        if style.ticks:
            ticks = "".join(_stroke(line) for line in _ticks(points))
            self._put(f'<path class="{name}" d="{ticks}"/>')

    def arrow(self, a: Point, b: Point, style: Style) -> None:
        """An arrow, as a closed outline."""
        self.polygon(arrow_outline(a, b), style)

    def circle(self, centre: Point, radius: float, style: Style) -> None:
        """A circle."""
        self._bounds.circle(centre, radius, style)
        (x, y), fill = centre, f' fill="{style.fill}"' if style.fill else ""
        name = self._class(style)
        self._put(f'<circle class="{name}"{fill} cx="{_n(x)}" cy="{_n(-y)}" r="{_n(radius)}"/>')

    def text(
        self,
        at: Point,
        words: str,
        size: float,
        anchor: Anchor = "middle",
        style: Style = WORDS,
        turn: float = 0.0,
    ) -> None:
        """Words, level unless turned."""
        self._bounds.text(at, words, size, anchor, style, turn)
        x, y = at
        turned = f' transform="rotate({_n(-turn)} {_n(x)} {_n(-y)})"' if turn else ""
        down = f'x="{_n(x)}" y="{_n(-y + _BASELINE * size)}" font-size="{_n(size)}"'
        name = self._class(style)
        self._put(f'<text class="{name}" {down} text-anchor="{anchor}"{turned}>{_text(words)}</text>')

    def group(self, name: str) -> None:
        """Begins a part; a reader of screens hears its name."""
        self._put(f'<g aria-label="{_quoted(name)}">')
        self._depth += 1

    def end_group(self) -> None:
        """Ends it."""
        self._depth -= 1
        self._put("</g>")

    def stamp(self, key: Hashable, draw: Callable[[Pen], None], place: Isometry) -> None:
        """Drawn once, then used again in each place."""
        self._bounds.stamp(key, draw, place)
        if key not in self._stamps:
            self._stamps[key] = f"{_slug(self.title)}-{len(self._stamps) + 1}"
            self._draw_stamp(self._stamps[key], draw)
        flip = -1.0 if place.mirrored else 1.0
        turn = (place.cos, -place.sin, place.sin * flip, place.cos * flip)
        still = turn == (1.0, 0.0, 0.0, 1.0)
        where = f'x="{_n(place.x)}" y="{_n(-place.y)}"'
        if not still:
            numbers = [f"{part:.6g}" for part in turn] + [_n(place.x), _n(-place.y)]
            where = f'transform="matrix({" ".join(numbers)})"'
        self._put(f'<use href="#{self._stamps[key]}" {where}/>')

    def _draw_stamp(self, name: str, draw: Callable[[Pen], None]) -> None:
        outside, depth = self._out, self._depth
        self._out, self._depth = [], 3
        bounds, self._bounds = self._bounds, BoundsPen()
        draw(self)
        self._stamped += [f'    <g id="{name}">', *self._out, "    </g>"]
        self._out, self._depth, self._bounds = outside, depth, bounds

    def _class(self, style: Style) -> str:
        name = _slug(style.name)
        self._styles.setdefault(name, style)
        return name

    def _put(self, element: str) -> None:
        self._out.append("  " * self._depth + element)


def _rules(style: Style) -> Iterator[str]:
    """The style sheet's lines for a style; fills stand at each element."""
    name = f".piecewright .{_slug(style.name)}"
    if style.ink:
        dashes = f";stroke-dasharray:{' '.join(map(_n, style.dashes))}" if style.dashes else ""
        cap = ";stroke-linecap:round" if style.halo and not style.ticks else ""
        veil = f";fill-opacity:{_n(style.opacity)}" if style.opacity < 1 else ""
        line = f"stroke:{style.ink};stroke-width:{_n(style.weight)};stroke-linejoin:round"
        yield f"{name}{{{line}{dashes}{cap}{veil}}}"
        if style.halo:
            halo = f"stroke:{PAPER};stroke-width:{_n(style.weight + HALO)};stroke-dasharray:none"
            yield f"{name}.halo{{{halo};stroke-opacity:0.8}}"
    else:
        strong = ";font-weight:bold" if style.strong else ""
        yield f"{name}{{fill:{style.fill}{strong}}}"


def _ticks(points: Points) -> Iterator[Line]:
    for end, inner in ((points[0], points[1]), (points[-1], points[-2])):
        across = scale(left_of(unit(sub(inner, end))), TICK)
        yield sub(end, across), add(end, across)


def _stroke(line: Line) -> str:
    return f"M{_points(line)}"


def _points(points: Points) -> str:
    return " ".join(f"{_n(x)},{_n(-y)}" for x, y in points)


def _n(number: float) -> str:
    """The number with at most two decimals, written in one way only."""
    written = f"{number:.2f}".rstrip("0").rstrip(".")
    return "0" if written in ("-0", "") else written


def _text(words: str) -> str:
    """The words as XML, without signs that XML forbids."""
    return escape(re.sub(r"[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]", "", words))


def _quoted(words: str) -> str:
    return _text(words).replace('"', "&quot;")


def _slug(words: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", words.lower()).strip("-") or "picture"
