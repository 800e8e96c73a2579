"""The eight-pointed star with squares and triangles set in, each with one seam round an inner corner."""

from __future__ import annotations

from functools import lru_cache

from piecewright.bench.steps import AnyStep, CutApart
from piecewright.design.kinds.diamonds import diamond
from piecewright.design.kinds.star_eight import side_of_diamond
from piecewright.geometry.isometry import turned
from piecewright.geometry.polygon import placed
from piecewright.methods.assembly import Assembly, Lying
from piecewright.methods.lines import falling, rising
from piecewright.methods.method import Making, Method, Start, Unit
from piecewright.methods.star_pieces import (
    STRIPS,
    cut_points,
    quarter_square,
    side_in,
    square_in_corner,
    strip_sizes,
    triangle_at_side,
)

STARTS = (*STRIPS, Start(2, 4, 2, 2), Start(2, 1, 3, 3))


@lru_cache(maxsize=64)
def steps(making: Making) -> tuple[AnyStep, ...]:
    """Pairs, halves, the whole star; then every triangle and every square is set in."""
    work = Assembly(making, STARTS)
    square, large, triangles = making.pieces[2], making.pieces[3], f"{making.gives} triangles"
    points = cut_points(work)
    size = making.sizes[3]
    work.do(CutApart(takes=large, cut=(rising(size), falling(size)), gives=(triangles,), times=making.times))

    side = side_in(making)
    star = _star(work, points, side)
    # Triangles before squares, so that every corner that is left has room for its allowances.
    set_in = [(triangles, placed(triangle_at_side(side), turned(90.0 * k))) for k in range(4)]
    set_in += [(square, placed(square_in_corner(side), turned(90.0 * k))) for k in range(4)]
    for number, (pile, outline) in enumerate(set_in, 1):
        gives = making.gives if number == len(set_in) else f"{making.gives} star and {number}"
        star = work.join(star, work.lay(pile, outline), gives)
    return tuple(work.steps)


def _star(work: Assembly, points: tuple[str, str], side: float) -> Lying:
    """Eight diamonds about the middle."""
    gives, one = work.making.gives, diamond(side, 45)
    lying = [work.lay(pile, placed(one, turned(45.0 * k))) for k, pile in enumerate(points)]
    pair = work.join(lying[0], lying[1], f"{gives} pair", times=4)
    half = work.join(pair, pair.moved(turned(90)), f"{gives} half", times=2)
    return work.join(half, half.moved(turned(180)), f"{gives} star", towards="open")


def derived(unit: Unit, take_up: float, extra: float) -> tuple[float, ...]:
    """Strip length and height, corner square, and the square that the four side triangles come from."""
    side = side_of_diamond(float(unit.width))
    return (*strip_sizes(float(unit.width), take_up), side + 2 * take_up, quarter_square(side, take_up))


METHOD = Method(
    name="set in",
    kind="star8",
    makes=1,
    starts=STARTS,
    steps=steps,
    landmark="edges",
    reason="whole squares and triangles in the background, but eight seams to set in from dot to dot",
    says=(
        "Cut diamonds at 45 degrees from a strip of each fabric: its height must be exact, not its length.",
        "Cut the large background square on both diagonals: triangles for the sides.",
        "Mark the dots where seams cross, a seam allowance in from each corner.",
        "Join the diamonds in pairs, pairs to halves, from the middle to the outer dot and no farther.",
        "Join the halves in one seam through the middle, matching the points there, and press it open.",
        "Set the triangles in, long side outside: sew from the inner dot outwards, turn, sew the other side.",
        "Set the squares into the corners likewise.",
    ),
    unknowns=4,
    may_round=False,
    derived=derived,
    pressed_as_written=True,
)
