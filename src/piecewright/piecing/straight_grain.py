"""The straight grain of a patch: along which of its edges the threads of its cloth run.

Terms:
- *on the grain*: of an edge along the threads of either direction, which does not stretch;
- *outside*: of an edge on the outside of the block, which nothing holds while the block is handled;
- *strip shape*: one with a side on the lower edge of a strip, and a side or a point on the upper one.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from math import atan2, degrees

from piecewright.bench.grain import OFF_GRAIN
from piecewright.geometry.isometry import turned
from piecewright.geometry.offset import angles_of
from piecewright.geometry.point import Point, distance, dot, side_of, sub, unit
from piecewright.geometry.polygon import Line, Polygon, bounds, edges, placed
from piecewright.measure.tolerance import AS_DRAWN, WELD

QUARTER = 90.0

SHORT = 0.5
"""An outside edge that is less than this share of the longest one is held well enough by its neighbours."""

# Equal shapes must agree on their grain wherever they lie: figures are compared in steps no shape lies on.
STEP, OFF_STEP = 0.01, 0.00137


def outside_edges(outline: Polygon, outside: Iterable[Line]) -> frozenset[int]:
    """The numbers of the edges that run along one of the lines on the outside of a block."""
    lines = tuple(outside)
    return frozenset(
        k for k, edge in enumerate(edges(outline)) if any(_runs_along(edge, line) for line in lines)
    )


def _runs_along(edge: Line, line: Line) -> bool:
    if any(abs(side_of(p, *line)) > AS_DRAWN for p in edge):
        return False
    along = unit(sub(line[1], line[0]))
    low, high = sorted(dot(along, sub(p, line[0])) for p in edge)
    return min(high, distance(*line)) - max(low, 0.0) > AS_DRAWN


def grain_of(outline: Polygon, outside: Collection[int] = ()) -> float:
    """The angle of the threads in the frame of a finished outline, in degrees, below 90.

    `outside` are the numbers of its outside edges. Shapes that are equal up to a turn, in what is outside
    too, have the same grain up to that turn.

    >>> grain_of(((0, 0), (3, 0), (0, 3))), round(grain_of(((0, 0), (3, 0), (0, 3)), {1}), 6)
    (0.0, 45.0)
    """
    sides = edges(outline)
    longest = max(distance(*side) for side in sides)
    held = {k for k in outside if distance(*sides[k]) < SHORT * longest - AS_DRAWN}
    best = max(range(len(sides)), key=lambda k: _merit(outline, sides, {*outside} - held, k))
    return _angle(sides[best])


def _merit(
    outline: Polygon, sides: Sequence[Line], outside: Collection[int], number: int
) -> tuple[object, ...]:
    """How good it is to lay the threads along an edge; what counts most comes first."""
    grain = _angle(sides[number])
    on = [k for k, side in enumerate(sides) if is_on_grain(side, grain)]
    return (
        # Edges on the outside of the block lie on the straight grain.
        _step(sum(distance(*sides[k]) for k in on if k in outside)),
        # What can be cut with a ruler from a strip needs no template.
        any(is_strip_shape(placed(outline, turned(q * QUARTER - grain)), AS_DRAWN) for q in range(4)),
        # As many edges as can be lie on the grain: both legs of a right triangle, and not its long side.
        len(on),
        # Two equal sides of a triangle stretch alike when the third is on the grain.
        any(_is_base(sides, k) for k in on),
        _step(sum(distance(*sides[k]) for k in on)),
        max(_walk(outline, sides, k) for k in on),
    )


def _angle(edge: Line) -> float:
    (x, y) = sub(edge[1], edge[0])
    angle = degrees(atan2(y, x)) % QUARTER
    return 0.0 if QUARTER - angle < WELD else angle


def is_on_grain(edge: Line, grain: float) -> bool:
    """Whether an edge runs along the threads; those of the other direction lie at a right angle."""
    off = (_angle(edge) - grain) % QUARTER
    return min(off, QUARTER - off) < OFF_GRAIN


def _is_base(sides: Sequence[Line], number: int) -> bool:
    if len(sides) != 3:
        return False
    one, other = (distance(*side) for k, side in enumerate(sides) if k != number)
    return abs(one - other) <= AS_DRAWN


def _walk(outline: Polygon, sides: Sequence[Line], first: int) -> tuple[int, ...]:
    """What one meets walking round a shape from an edge: lengths and angles in turn."""
    angles = angles_of(outline)
    order = [*range(first, len(sides)), *range(first)]
    return tuple(n for k in order for n in (_step(distance(*sides[k])), _step(angles[k] / QUARTER)))


def _step(size: float) -> int:
    return int((size + OFF_STEP) // STEP)


def is_strip_shape(lying: Polygon, tolerance: float = WELD) -> bool:
    """Whether a shape, as it lies, has a level side below, and above it a level side or a point.

    >>> is_strip_shape(((0, 0), (4, 0), (3, 1), (1, 1))), is_strip_shape(((0, 1), (1, 0), (2, 1), (1, 2)))
    (True, False)
    """
    _, low, _, high = bounds(lying)
    below: list[Point] = [p for p in lying if p[1] <= low + tolerance]
    above = [p for p in lying if p[1] >= high - tolerance]
    return len(below) == 2 and len(above) in (1, 2) and len(below) + len(above) == len(lying)
