"""The eight-pointed star of eight wedges: straight seams only, for its squares and triangles are divided."""

from __future__ import annotations

from functools import lru_cache
from math import sqrt

from piecewright.bench.steps import AnyStep
from piecewright.design.kinds.diamonds import diamond
from piecewright.design.kinds.star_eight import side_of_diamond
from piecewright.geometry.isometry import turned
from piecewright.geometry.polygon import Polygon, placed
from piecewright.methods.assembly import Assembly, Lying
from piecewright.methods.method import Making, Method, Start, Unit
from piecewright.methods.star_pieces import STRIPS, cut_halves, cut_points, half_square, side_in, strip_sizes

STARTS = (*STRIPS, Start(2, 4, 2, 2), Start(2, 4, 3, 3))


@lru_cache(maxsize=64)
def steps(making: Making) -> tuple[AnyStep, ...]:
    """Each diamond with a triangle on both outer sides; wedges to quarters, halves, and the whole."""
    work = Assembly(making, STARTS)
    low, high = f"{making.gives} small triangles", f"{making.gives} large triangles"
    points = cut_points(work)
    cut_halves(work, making.pieces[2], low, making.sizes[2], 4)
    cut_halves(work, making.pieces[3], high, making.sizes[3], 4)

    side = side_in(making)
    wedges = [_wedge(work, pile, (low, high), side, k) for k, pile in enumerate(points)]
    quarter = work.join(wedges[0], wedges[1], f"{making.gives} quarter", times=4)
    half = work.join(quarter, quarter.moved(turned(90)), f"{making.gives} half", times=2)
    work.join(half, half.moved(turned(180)), making.gives, towards="open")
    return tuple(work.steps)


def _wedge(work: Assembly, point: str, triangles: tuple[str, str], side: float, number: int) -> Lying:
    """Wedge 0 stands on the line to the right, wedge 1 is its mirror image beside it."""
    shapes = halves(side)
    outlines = [shape if number == 0 else tuple((y, x) for x, y in shape[::-1]) for shape in shapes]
    lying = work.lay(point, placed(diamond(side, 45), turned(45.0 * number)))
    started = work.join(lying, work.lay(triangles[0], outlines[0]), f"{point} begun", times=4)
    return work.join(started, work.lay(triangles[1], outlines[1]), f"{point} wedge", times=4)


def halves(side: float) -> tuple[Polygon, Polygon]:
    """Half a side triangle, and half a corner square, beside the diamond to the right of the middle."""
    across = side / sqrt(2)
    tip, inner, corner = (side + across, across), (across, across), (side + across, side + across)
    return ((side, 0.0), (side + across, 0.0), tip), (inner, tip, corner)


def derived(unit: Unit, take_up: float, extra: float) -> tuple[float, ...]:
    """Strip length and height, and the squares that small and large triangles come from."""
    block = float(unit.width)
    side = side_of_diamond(block)
    legs = (side / sqrt(2), side)
    return (*strip_sizes(block, take_up), *(half_square(leg, take_up) for leg in legs))


METHOD = Method(
    name="in wedges",
    kind="star8-wedges",
    makes=1,
    starts=STARTS,
    steps=steps,
    landmark="edges",
    reason="straight seams only, nothing is set in, but a seam crosses every square and triangle",
    says=(
        "Cut diamonds at 45 degrees from a strip of each fabric: its height must be exact, not its length.",
        "Cut the background squares once from corner to corner.",
        "Sew a small triangle, then a large one, to the outer sides of each diamond: four wedges a hand.",
        "Join wedges of both hands in pairs to squares, squares to halves, halves through the middle.",
        "Press the last seam open; the middle is thick.",
    ),
    unknowns=4,
    may_round=False,
    derived=derived,
    pressed_as_written=True,
)
