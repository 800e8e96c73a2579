"""Squares-in-a-square from cut triangles: a square, and two squares cut once on the diagonal around it.

The square in the middle must have its size, or the points come to lie elsewhere; the corners may be larger
where all is trimmed, one seam allowance beyond the points.
"""

from __future__ import annotations

from functools import lru_cache
from math import sqrt

from piecewright.bench.steps import AnyStep, CutApart, Lay, Ruled, Stack
from piecewright.geometry.point import Point, add, middle, scale, sub, unit
from piecewright.geometry.polygon import edges, grown, rectangle
from piecewright.measure.rounding import round_up
from piecewright.methods.lines import press_all, rising
from piecewright.methods.method import Family, Making, Method, Start, Unit
from piecewright.workroom.workroom import Workroom

QUARTER, EIGHTH = 90.0, 45.0


def steps(making: Making) -> tuple[AnyStep, ...]:
    """Triangles on opposite edges, opened; then on the other two, and the ears of the first trimmed."""
    (square, corner), (below, corners) = making.sizes, making.pieces
    triangles = f"{corners} triangles"
    written: list[AnyStep] = [
        CutApart(takes=corners, cut=(rising(corner),), gives=(triangles,), times=2 * making.times)
    ]
    # Triangles that reach beyond the square's middle by so much would be caught in each other's seams.
    apart = corner / sqrt(2) + making.seam.take_up <= square
    for edges_sewn in ((0, 2), (1, 3)) if apart else ((0,), (2,), (1,), (3,)):
        last = edges_sewn[-1] == 3
        made = making.gives if last else f"{making.gives} edge {edges_sewn[-1] + 1}"
        written += [
            Stack(
                base=below,
                tops=tuple(_laid(triangles, square, corner, k) for k in edges_sewn),
                sew=tuple(_along(square, corner, k, sewn=True) for k in edges_sewn),
                cut=tuple(_along(square, corner, k, sewn=False) for k in edges_sewn if k in (1, 3)),
                gives=(made,),
                times=making.times,
            ),
            press_all(made, *(f"{made}.{k}" for k in range(len(edges_sewn)))),
        ]
        below = made
    return tuple(written)


def _long_side(square: float, corner: float, edge: int) -> tuple[Point, Point]:
    """Where the long side of a triangle lies along an edge of the square, their middles together."""
    a, b = edges(rectangle(square, square))[edge]
    half = scale(unit(sub(b, a)), corner / sqrt(2))
    return sub(middle(a, b), half), add(middle(a, b), half)


def _laid(triangles: str, square: float, corner: float, edge: int) -> Lay:
    """A triangle face down on the square: its own long side rises by an eighth turn, so it turns by more."""
    start, _ = _long_side(square, corner, edge)
    return Lay(triangles, (QUARTER * edge + EIGHTH) % 360, *start)


def _along(square: float, corner: float, edge: int, sewn: bool) -> Ruled:
    start, end = _long_side(square, corner, edge)
    return Ruled(*start, *end, "needle left" if sewn else "on")


def exact(unit: Unit, take_up: float, extra: float) -> tuple[float, ...]:
    """The square, and the squares for the corners, by the grown-patch rule; `extra` goes to the corners."""
    side = float(unit.width)
    low = grown(((0.0, 0.0), (side / 2, 0.0), (0.0, side / 2)), take_up)
    return side / sqrt(2) + 2 * take_up, max(x for x, _ in low) - min(x for x, _ in low) + extra


SAYS = (
    "Cut the squares for the corners once from corner to corner.",
    "Fold square and triangles in half, and lay two triangles on opposite edges, right sides together, "
    "the folds on each other.",
    "Sew along both edges with the usual seam: the long side of a triangle is bias. Press to the triangles.",
    "Trim the ears flush with the square, and sew the other two triangles on in the same way.",
)

METHOD = Method(
    name="from cut triangles",
    kind="insquare",
    makes=1,
    starts=(Start(0, 1, 0, 0), Start(1, 2, 1, 1)),
    steps=steps,
    landmark="square",
    reason="little cloth is lost, but the square in the middle seldom falls on a mark of the ruler",
    says=SAYS,
    unknowns=2,
    may_round=False,
    derived=exact,
    pressed_as_written=True,
)

TRIMMED = Method(
    name="from cut triangles, trimmed",
    kind="insquare",
    makes=1,
    starts=METHOD.starts,
    steps=steps,
    landmark="square",
    reason="larger corners, trimmed beyond the points, make up for a seam that is a little off",
    says=(*SAYS, "Lay the ruler so that all four points lie one seam allowance inside its edges, and trim."),
    unknowns=2,
    oversize=True,
    derived=exact,
    pressed_as_written=True,
)


def as_solved(unit: Unit, workroom: Workroom) -> tuple[Method, ...]:
    """The way from pieces of their exact size, for any unit."""
    return (METHOD,)


@lru_cache(maxsize=1024)
def trimmed(unit: Unit, workroom: Workroom) -> tuple[Method, ...]:
    """The trimmed way, where the square's size is so near a mark of the ruler that ease takes the rest.

    Where it is not, no trimming brings the points to their places.
    """
    square, _ = exact(unit, float(workroom.take_up), 0.0)
    off = (float(round_up(square, workroom.ruler)) - square) * sqrt(2)
    raw, _ = unit.raw(workroom.take_up)
    return (TRIMMED,) if off * float(raw) / float(unit.width) <= float(workroom.ease) else ()


FAMILY = Family(METHOD.name, ("insquare",), as_solved)
FAMILY_TRIMMED = Family(TRIMMED.name, ("insquare",), trimmed)
