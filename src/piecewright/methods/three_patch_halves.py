"""Three-patches from half-square triangles: each stacked with a plain square, sewn across its seam.

Every stack gives one left-handed and one right-handed unit. The half-square triangles are made a little
large and cut to the size of the plain squares, for two sizes that nearly match would not lie edge to edge.
"""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from math import sqrt

from piecewright.bench.steps import AnyStep, CutOut, Stack
from piecewright.geometry.isometry import moved
from piecewright.geometry.polygon import placed, rectangle
from piecewright.methods.cut_squares import square_cut_once, square_cut_twice
from piecewright.methods.lines import both_sides, face_down, press_all, rising, ruled
from piecewright.methods.method import Besides, Family, Making, Method, Sizes, Start, Unit
from piecewright.workroom.workroom import Workroom

NAME = "from half-square triangles"


def other_hand(unit: Unit) -> Unit:
    """The same unit of the other hand."""
    return replace(unit, hand="right" if unit.hand == "left" else "left")


OTHERS = Besides("other hand", 2, "as many of the other hand: keep them apart", other_hand)


def steps(making: Making, hand: str) -> tuple[AnyStep, ...]:
    """Half-square triangles of the small fabrics, cut to size; a plain square on each, sewn across."""
    (size, plain), (first, other, large), made = making.sizes, making.pieces, making.gives
    halves, cut = f"{made} halves", f"{made} halves cut"
    # The half-square triangle lies in the lower right corner of the squares that it was sewn from.
    inset = sqrt(2) * making.seam.take_up
    left, low = inset + (size - inset - plain) / 2, (size - inset - plain) / 2
    across = ruled((left, low + plain), (left + plain, low))
    hands = (made, OTHERS.name(made))
    return (
        Stack(
            base=first,
            tops=(face_down(other, size),),
            sew=both_sides(rising(size)),
            cut=(rising(size),),
            gives=(halves,),
            times=making.times,
        ),
        press_all(halves, f"{halves}.0"),
        CutOut(
            takes=halves,
            outline=placed(rectangle(plain, plain), moved(left, low)),
            gives=cut,
            times=2 * making.times,
        ),
        Stack(
            base=cut,
            tops=(face_down(large, plain, (left, low)),),
            sew=both_sides(across),
            cut=(across,),
            # Of the two, the lower one has the first small triangle on its left.
            gives=hands if hand == "left" else hands[::-1],
            times=2 * making.times,
        ),
        *(press_all(pile, f"{(hands if hand == 'left' else hands[::-1])[0]}.0") for pile in hands),
    )


@lru_cache(maxsize=256)
def members(unit: Unit, workroom: Workroom) -> tuple[Method, ...]:
    """The way for a hand; how much is cut off the half-square triangles is for the workroom to say."""
    # What is cut off must be enough to cut well, whichever of the two sizes is rounded up more.
    more = float(workroom.trim + workroom.ruler.mark)
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
            makes=2,
            starts=(Start(1, 1, 0, 0), Start(2, 1, 0, 0), Start(0, 2, 1, 1)),
            steps=written,
            landmark="centre",
            reason="no bias edge to sew, the seams meet in the middle, but half of what comes off is "
            "of the other hand",
            says=(
                "Draw a line from corner to corner on the wrong side of a square of one small fabric.",
                "Lay it on a square of the other, face to face; sew on both sides, cut on the line, press.",
                "Cut the half-square triangles to the size of the plain squares, the seam corner to corner.",
                "Lay a plain square on each, right sides together; draw the diagonal that crosses the seam.",
                "Sew on both sides of it, cut on it, and press to the large triangle.",
                "One left-handed and one right-handed unit come of each: keep them apart.",
            ),
            unknowns=2,
            derived=sizes,
            besides=(OTHERS,),
        ),
    )


FAMILY = Family(NAME, ("threepatch",), members)
