"""Long cloth in a small picture: laid on its side where it stands upright, and broken in the middle.

Terms:
- *broken*: of a long thing, only its two ends are shown, with a torn edge at each;
- *near*, *far*: how much of it is shown at the left end and at the right one, in inches.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable
from dataclasses import dataclass, replace
from itertools import pairwise
from math import ceil

from piecewright.drawing.frames import Item
from piecewright.drawing.look import INK, PAPER, WORDS, Style
from piecewright.drawing.pen import Anchor, Pen, PlacedPen, Points, View
from piecewright.geometry.isometry import Isometry, turned
from piecewright.geometry.point import Point
from piecewright.geometry.polygon import bounds, clip, clip_segment, placed
from piecewright.measure.length import inches

LONG = float(inches(18))
SLIM = 2.6
"""Cloth is shortened when it is longer than this and so many times as long as it is wide."""

NEAR, FAR = 0.9, 0.45
LEAST_NEAR, LEAST_FAR = float(inches(4)), float(inches(2))
"""What is shown at either end, as shares of the width, and at least."""

GAP = 7.0
TOOTH = 5.0
"""The gap where it is broken, and the height of a tooth of the torn edge, in points."""

TORN = Style("torn edge", INK, 0.45)
BLANK = Style("torn edge", fill=PAPER)

FAR_OFF = 1e6


@dataclass(frozen=True)
class ClippedPen:
    """A pen that draws only between two places of the paper, left and right."""

    pen: Pen
    left: float = -FAR_OFF
    right: float = FAR_OFF

    def polygon(self, points: Points, style: Style) -> None:
        """What lies between of a closed shape."""
        inside = clip(tuple(points), (self.left, 0.0), (self.left, -1.0))
        inside = clip(inside, (self.right, 0.0), (self.right, 1.0)) if inside else ()
        if inside:
            self.pen.polygon(inside, style)

    def polyline(self, points: Points, style: Style) -> None:
        """The same of an open line."""
        window = (
            (self.left, -FAR_OFF),
            (self.right, -FAR_OFF),
            (self.right, FAR_OFF),
            (self.left, FAR_OFF),
        )
        for a, b in pairwise(points):
            inside = clip_segment((a, b), window)
            if inside:
                self.pen.polyline(inside, style)

    def arrow(self, a: Point, b: Point, style: Style) -> None:
        """An arrow whose middle lies between."""
        if self._has(((a[0] + b[0]) / 2, 0.0)):
            self.pen.arrow(a, b, style)

    def circle(self, centre: Point, radius: float, style: Style) -> None:
        """A circle whose middle lies between."""
        if self._has(centre):
            self.pen.circle(centre, radius, style)

    def text(
        self,
        at: Point,
        words: str,
        size: float,
        anchor: Anchor = "middle",
        style: Style = WORDS,
        turn: float = 0.0,
    ) -> None:
        """Words at a place that lies between."""
        if self._has(at):
            self.pen.text(at, words, size, anchor, style, turn)

    def group(self, name: str) -> None:
        """Begins a part."""
        self.pen.group(name)

    def end_group(self) -> None:
        """Ends it."""
        self.pen.end_group()

    def stamp(self, key: Hashable, draw: Callable[[Pen], None], place: Isometry) -> None:
        """A stamp drawn out, so that it can be cut."""
        draw(PlacedPen(self, place))

    def _has(self, p: Point) -> bool:
        return self.left <= p[0] <= self.right


def turned_item(item: Item, degrees: float) -> Item:
    """The same turned to the left."""
    turn = turned(degrees)
    x0, y0, x1, y1 = item.box

    def draw(pen: Pen, view: View) -> None:
        item.draw(PlacedPen(pen, replace(turn, x=view.x, y=view.y)), View(view.scale))

    return replace(item, box=bounds(placed(((x0, y0), (x1, y0), (x1, y1), (x0, y1)), turn)), draw=draw)


def is_long(width: float, height: float) -> bool:
    """Whether cloth of a size (inches) is too long and slim to be shown whole.

    >>> is_long(40.0, 2.5), is_long(6.5, 1.5), is_long(40.0, 20.0)
    (True, False, False)
    """
    long, short = max(width, height), min(width, height)
    return long > LONG and long > SLIM * short


def shortened(item: Item, near: float = 0.0) -> Item:
    """An item that is long laid on its side and broken; others as they are.

    `near` is how much is needed of its left end at least, from its lower end where it stood upright.
    """
    x0, y0, x1, y1 = item.box
    if not is_long(x1 - x0, y1 - y0):
        return item
    if y1 - y0 > x1 - x0:
        return shortened(turned_item(item, -90.0), near)
    wide = y1 - y0
    near = max(near, NEAR * wide, LEAST_NEAR)
    far = max(FAR * wide, LEAST_FAR)
    if near + far > 0.8 * (x1 - x0):
        return item

    def draw(pen: Pen, view: View) -> None:
        # The gap is so many points, whatever the scale: it lies in what is kept free around.
        view = view.moved((-GAP / 2, 0.0))
        left = view.at((x0 + near, y0))[0]
        gone = view.scale * (x1 - x0 - near - far)
        moved = view.moved((GAP - gone, 0.0))
        right = left + GAP
        item.draw(ClippedPen(pen, right=left), view)
        item.draw(ClippedPen(pen, left=right), moved)
        low, high = view.at((x0, y0))[1] - item.around - 1.0, view.at((x0, y1))[1] + item.around + 1.0
        _tear(pen, left, low, high, -1.0)
        _tear(pen, right, low, high, 1.0)

    return replace(item, box=(x0, y0, x0 + near + far, y1), draw=draw, around=item.around + GAP / 2)


def _tear(pen: Pen, x: float, low: float, high: float, into: float) -> None:
    """Teeth torn into cloth that ends at x, to the left (-1) or to the right (1)."""
    count = 2 * max(1, ceil((high - low) / (2 * TOOTH)))
    step = (high - low) / count
    teeth = [(x + into * (2.4 if k % 2 else 0.2), low + step * k) for k in range(count + 1)]
    beyond = x - into * (GAP / 2 - 0.2)
    pen.polygon([(beyond, low), *teeth, (beyond, high)], BLANK)
    pen.polyline(teeth, TORN)
