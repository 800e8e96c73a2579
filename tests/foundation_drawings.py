"""Things to sew on foundations, drawn by their corners; each patch has a role of its own unless told."""

from __future__ import annotations

from itertools import pairwise
from math import pi, radians, tan
from random import Random

from piecewright.design.drawing import Group, Patch, Placed
from piecewright.geometry.point import Point, distance, side_of
from piecewright.geometry.polygon import Polygon, area, bounds, clip, edges, rectangle


def drawn(name: str, outline: Polygon, *patches: Polygon) -> Group:
    """Patches with the roles "1", "2" and so on."""
    return Group(name, tuple(Placed(Patch(str(k), p)) for k, p in enumerate(patches, start=1)), outline)


def square(x: float, y: float, size: float) -> Polygon:
    return ((x, y), (x + size, y), (x + size, y + size), (x, y + size))


def log_cabin(rounds: int, hearth: float = 2.0, log: float = 1.0) -> Group:
    """A hearth and logs around it, right, top, left, bottom, drawn in the order in which they are sewn."""
    x0, y0, x1, y1 = 0.0, 0.0, hearth, hearth
    patches = [rectangle(hearth, hearth)]
    for _ in range(rounds):
        patches.append(((x1, y0), (x1 + log, y0), (x1 + log, y1), (x1, y1)))
        x1 += log
        patches.append(((x0, y1), (x1, y1), (x1, y1 + log), (x0, y1 + log)))
        y1 += log
        patches.append(((x0 - log, y0), (x0, y0), (x0, y1), (x0 - log, y1)))
        x0 -= log
        patches.append(((x0, y0 - log), (x1, y0 - log), (x1, y0), (x0, y0)))
        y0 -= log
    return drawn("log cabin", ((x0, y0), (x1, y0), (x1, y1), (x0, y1)), *patches)


def square_in_a_square() -> Group:
    centre = ((2.0, 0.0), (4.0, 2.0), (2.0, 4.0), (0.0, 2.0))
    corners = (
        ((0.0, 0.0), (2.0, 0.0), (0.0, 2.0)),
        ((4.0, 0.0), (4.0, 2.0), (2.0, 0.0)),
        ((4.0, 4.0), (2.0, 4.0), (4.0, 2.0)),
        ((0.0, 4.0), (0.0, 2.0), (2.0, 4.0)),
    )
    return drawn("square in a square", rectangle(4, 4), centre, *corners)


def half_rectangles() -> Group:
    return drawn(
        "half-rectangle triangles",
        rectangle(2, 4),
        ((0.0, 0.0), (2.0, 0.0), (0.0, 4.0)),
        ((2.0, 0.0), (2.0, 4.0), (0.0, 4.0)),
    )


def kite() -> Group:
    """A corner of a star: a kite between two triangles."""
    return drawn(
        "kite",
        rectangle(4, 4),
        ((0.0, 0.0), (4.0, 0.0), (4.0, 1.5)),
        ((0.0, 0.0), (4.0, 1.5), (4.0, 4.0), (1.5, 4.0)),
        ((0.0, 0.0), (1.5, 4.0), (0.0, 4.0)),
    )


def fan(*degrees: float, size: float = 6.0) -> Group:
    """Blades that meet in the lower left corner, at odd angles."""

    def end(angle: float) -> Point:
        if angle <= pi / 4:
            return (size, size * tan(angle))
        return (size * tan(pi / 2 - angle), size)

    rays = [radians(d) for d in (0, *degrees, 90)]
    blades = []
    for low, high in pairwise(rays):
        tip = [(size, size)] if low < pi / 4 < high else []
        blades.append(((0.0, 0.0), end(low), *tip, end(high)))
    return drawn("fan", rectangle(size, size), *blades)


def grid(across: int, up: int, size: float = 2.0) -> Group:
    """Plain squares: a four-patch, a nine-patch."""
    squares = [square(size * i, size * j, size) for j in range(up) for i in range(across)]
    return drawn("squares", rectangle(across * size, up * size), *squares)


def whirl() -> Group:
    """A square with four rectangles around it, which needs a partial seam."""
    return drawn(
        "whirl",
        rectangle(6, 6),
        square(2, 2, 2),
        ((0.0, 0.0), (4.0, 0.0), (4.0, 2.0), (0.0, 2.0)),
        ((4.0, 0.0), (6.0, 0.0), (6.0, 4.0), (4.0, 4.0)),
        ((2.0, 4.0), (6.0, 4.0), (6.0, 6.0), (2.0, 6.0)),
        ((0.0, 2.0), (2.0, 2.0), (2.0, 6.0), (0.0, 6.0)),
    )


def slabs(random: Random, count: int, size: float = 6.0) -> Group:
    """A square from which straight lines cut patches one after another: read backwards, that is an order."""
    return _cut_up(random, count, size, only_the_rest=True)


def shards(random: Random, count: int, size: float = 12.0) -> Group:
    """A square that straight lines cut up again and again, any patch at any time."""
    return _cut_up(random, count, size, only_the_rest=False)


def _cut_up(random: Random, count: int, size: float, only_the_rest: bool) -> Group:
    while True:
        patches = [rectangle(size, size)]
        for _ in range(40 * count):
            if len(patches) == count:
                break
            k = 0 if only_the_rest else random.randrange(len(patches))
            halves = _halves(random, patches[k])
            if min(map(_narrowest, halves), default=0.0) > size / 20:
                patches[k : k + 1] = sorted(halves, key=area, reverse=True)
        # Corners that nearly coincide are for the reader of design files to weld.
        if len(patches) == count and min(distance(*e) for p in patches for e in edges(p)) > 0.1:
            random.shuffle(patches)
            return drawn("tiling", rectangle(size, size), *patches)


def _halves(random: Random, patch: Polygon) -> list[Polygon]:
    x0, y0, x1, y1 = bounds(patch)
    a, b = ((random.uniform(x0, x1), random.uniform(y0, y1)) for _ in range(2))
    return [half for keep in (1, -1) if (half := clip(patch, a, b, keep))]


def _narrowest(patch: Polygon) -> float:
    return min(max(abs(side_of(p, a, b)) for p in patch) for a, b in edges(patch))
