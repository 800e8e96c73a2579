"""Three-patches from cut triangles: two quarters joined, cut to fit, and joined to a half; one hand only."""

from __future__ import annotations

from functools import lru_cache
from math import sqrt

from piecewright.bench.steps import AnyStep, CutApart
from piecewright.methods.cut_squares import (
    cut_once,
    cut_twice,
    halves_joined,
    quarters_joined,
    square_cut_once,
    square_cut_twice,
)
from piecewright.methods.lines import press_all, ruled
from piecewright.methods.method import Family, Making, Method, Sizes, Start, Unit
from piecewright.workroom.workroom import Workroom

NAME = "from cut triangles"


def steps(making: Making, hand: str) -> tuple[AnyStep, ...]:
    """Quarters in pairs, the pieced long side cut parallel to itself, then pieced and plain halves."""
    (size, plain), (first, other, large), made = making.sizes, making.pieces, making.gives
    small, half = (f"{made} small {first}", f"{made} small {other} 2"), f"{made} large"
    pairs, cut = f"{made} pairs", f"{made} pairs cut"
    # The pair's right angle lies on the lower right, so far from where the first square's corner was.
    corner = size - sqrt(2) * making.seam.take_up
    # With the large half below, the second of a pair lies on the left.
    right, left = small if hand == "right" else small[::-1]
    return (
        cut_twice(first, size, small[0], making.times),
        cut_twice(other, size, small[1], making.times),
        cut_once(large, plain, half, 2 * making.times),
        quarters_joined(right, left, pairs, 4 * making.times),
        press_all(pairs, f"{pairs}.0"),
        CutApart(
            takes=pairs,
            cut=(ruled((corner - plain, 0.0), (corner, plain)),),
            gives=(cut, ""),
            times=4 * making.times,
        ),
        halves_joined(cut, half, made, 4 * making.times),
        press_all(made, f"{made}.0"),
    )


@lru_cache(maxsize=256)
def members(unit: Unit, workroom: Workroom) -> tuple[Method, ...]:
    """The way for a hand; how much is cut off the pieced halves is for the workroom to say."""
    # The pieced half is cut along its long side only, at 45 degrees to the sides that are rounded.
    more = sqrt(2) * float(workroom.trim) + float(workroom.ruler.mark)
    hand = unit.form.hand

    def sizes(unit: Unit, take_up: float, extra: float) -> Sizes:
        finished = float(unit.width) + extra
        return square_cut_twice(finished, take_up) + more, square_cut_once(finished, take_up)

    def written(making: Making) -> tuple[AnyStep, ...]:
        return steps(making, hand)

    return (
        Method(
            name=NAME,
            kind="threepatch",
            makes=4,
            starts=(Start(1, 1, 0, 0), Start(2, 1, 0, 0), Start(0, 2, 1, 1)),
            steps=written,
            landmark="centre",
            reason="all of one hand and nothing to mark, but bias seams must not be stretched",
            says=(
                "Cut the small fabrics' squares twice from corner to corner, the large fabric's once.",
                "Lay the three triangles of a square in order on the table, for left and right are easily "
                "confused.",
                "Sew the two small ones on the short side where they meet, without pulling, and press.",
                "Lay a large triangle on the pair, right angles together, and cut the pair's long side even "
                "with it.",
                "Sew the long sides, press to the large triangle, and clip the dog ears.",
            ),
            unknowns=2,
            derived=sizes,
            pressed_as_written=True,
        ),
    )


FAMILY = Family(NAME, ("threepatch",), members)
