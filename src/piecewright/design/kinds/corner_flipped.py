"""Corner-flipped units: a square or rectangle with triangles of another fabric in one to four of its corners.

Which corners is told by the kind: one, two on a side, two opposite, three, or all four (a snowball); how far
each reaches along the sides by the measure "corner". On a rectangle, one, two opposite and three corners have
a *hand*, which does not change when the unit is turned: stood on a short side, the first corner named in
`FLIPPED` is an upper right one in a right-handed unit and an upper left one in a left-handed unit.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from math import inf

from piecewright.design.kinds.kind import Form, Kind, Shapes
from piecewright.design.kinds.sides import AROUND, SIDES, corners_of
from piecewright.geometry.point import add, scale, sub, unit
from piecewright.geometry.polygon import Polygon, bounds, clean
from piecewright.measure.tolerance import AS_DRAWN, WELD

FLIPPED: dict[str, tuple[str, ...]] = {
    "corner1": ("ne",),
    "corners2": ("ne", "nw"),
    "opposite2": ("ne", "sw"),
    "corners3": ("ne", "sw", "se"),
    "snowball": ("ne", "nw", "sw", "se"),
}
"""The corners of each kind as a right-handed unit stands upright."""

OTHER_HAND = {"ne": "nw", "nw": "ne", "sw": "se", "se": "sw"}
HANDS = ("left", "right")


def flipped(key: str, form: Form) -> tuple[str, ...]:
    """Which corners of a form are flipped, as it lies."""
    corners = FLIPPED[key]
    if form.hand and (form.hand == "left") == (form.height >= form.width):
        return tuple(OTHER_HAND[corner] for corner in corners)
    return corners


def triangle(form: Form, corner: str) -> Polygon:
    """The triangle in a corner."""
    at, k = corners_of(form), AROUND.index(corner)
    here, (size,) = at[corner], form.measures
    before, after = (unit(sub(at[AROUND[(k + step) % 4]], here)) for step in (-1, 1))
    return add(here, scale(before, size)), here, add(here, scale(after, size))


def room_left(key: str, form: Form, least: int = 1) -> float:
    """What is left of the side with least room; only sides with so many flipped corners count."""
    (size,), corners = form.measures, flipped(key, form)
    found = [inf]
    for k, side in enumerate(SIDES):
        count = sum(corner in corners for corner in (AROUND[k], AROUND[(k + 1) % 4]))
        if count >= least:
            found.append((form.width if side in "sn" else form.height) - count * size)
    return min(found)


def _shapes(key: str) -> Callable[[Form], Shapes]:
    def shapes(form: Form) -> Shapes:
        """What is left of the base, then the corners."""
        corners = flipped(key, form)
        base = []
        for corner, at in corners_of(form).items():
            if corner in corners:
                start, _, end = triangle(form, corner)
                base += [start, end]
            else:
                base.append(at)
        return (0, clean(base)), *((1, triangle(form, corner)) for corner in corners)

    return shapes


def _wanted(key: str) -> Callable[[Form], str]:
    def wanted(form: Form) -> str:
        """Corners do not overlap, and what would be a unit of a simpler kind is left to that."""
        (size,) = form.measures
        if room_left(key, form) < -WELD:
            return "with corners that do not reach over one another"
        if key == "snowball" and abs(form.width - form.height) <= WELD and 2 * size > form.width - WELD:
            return "with corners that do not meet (those that do make a square-in-a-square, kind insquare)"
        if key == "corners2" and 2 * size > form.width - WELD and size > form.height - WELD:
            return "with something left of its base (such corners make a flying goose, kind geese)"
        if key in ("corner1", "opposite2") and size > max(form.width, form.height) - WELD:
            return "with something left of its base (such a corner makes a half-square triangle, kind hst)"
        return ""

    return wanted


def _fits(upright: bool) -> Callable[[Sequence[Polygon], float, float], Iterable[tuple[float, ...]]]:
    def fits(patches: Sequence[Polygon], width: float, height: float) -> Iterable[tuple[float, ...]]:
        """The legs of the triangles drawn; one that lies as well as it stands is told standing."""
        if upright and width > height + AS_DRAWN:
            return
        found: list[float] = []
        for patch in (patch for patch in patches if len(patch) == 3):
            x0, y0, x1, y1 = bounds(patch)
            leg = x1 - x0
            if abs(leg - (y1 - y0)) <= AS_DRAWN and all(abs(leg - other) > AS_DRAWN for other in found):
                found.append(leg)
                yield (leg,)

    return fits


def _kind(key: str, name: str, has_hand: bool, upright: bool = True) -> Kind:
    return Kind(
        key=key,
        name=name,
        fabrics=("base", "corners"),
        shapes=_shapes(key),
        patches=1 + len(FLIPPED[key]),
        wanted=_wanted(key),
        hands=HANDS if has_hand else ("",),
        measures=("corner",),
        fits=_fits(upright),
        outwards=True,
    )


ONE = _kind("corner1", "one-corner unit", has_hand=True)
TWO = _kind("corners2", "two-corner unit", has_hand=False, upright=False)
OPPOSITE = _kind("opposite2", "opposite-corner unit", has_hand=True)
THREE = _kind("corners3", "three-corner unit", has_hand=True)
FOUR = _kind("snowball", "snowball", has_hand=False)
KINDS = (ONE, TWO, OPPOSITE, THREE, FOUR)


def octagon_corner(side: float) -> float:
    """The corner that makes a snowball of a side (finished) a regular octagon; plane geometry.

    Cut off at F(1 - 1/sqrt 2), all eight sides are alike, F(sqrt 2 - 1).

    >>> round(octagon_corner(12), 6)
    3.514719
    """
    return side * (1 - 1 / 2**0.5)
