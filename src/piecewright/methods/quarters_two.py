"""Squares of four quarters from two kinds of half-square triangles, stacked seam on seam.

Each stack gives one unit and its mirror image, for the upper half opens to one side and to the other.
"""

from __future__ import annotations

from dataclasses import replace
from math import sqrt

from piecewright.bench.steps import AnyStep, Lay, Stack
from piecewright.geometry.isometry import folded
from piecewright.methods.lines import both_sides, face_down, press_all, rising, ruled
from piecewright.methods.method import Besides, Making, Method, Start, Unit


def mirrored(unit: Unit) -> Unit:
    """The same four quarters the other way round."""
    return replace(unit, fabrics=unit.fabrics[::-1])


OTHERS = Besides("mirrored", 2, "as many squares with the quarters the other way round", mirrored)


def steps(making: Making) -> tuple[AnyStep, ...]:
    """Lower with left, right with upper; then one of each, face to face, sewn beside the other diagonal."""
    (size,), (lower, right, upper, left) = making.sizes, making.pieces
    one, two = f"{making.gives} halves", f"{making.gives} other halves"
    inset = sqrt(2) * making.seam.take_up
    low, high = (inset, 0.0), (size, size - inset)
    over = folded(low, high)
    other = ruled((inset, size - inset), (size, 0.0))
    made = making.gives
    return (
        *_halves(lower, left, one, size, making.times),
        *_halves(upper, right, two, size, making.times),
        Stack(
            base=one,
            tops=(Lay(two, over.degrees, over.x, over.y),),
            sew=both_sides(other),
            cut=(other,),
            gives=(made, OTHERS.name(made)),
            times=2 * making.times,
        ),
        press_all(made, f"{made}.0"),
        press_all(OTHERS.name(made), f"{made}.0"),
    )


def _halves(first: str, second: str, gives: str, size: float, times: int) -> tuple[AnyStep, ...]:
    return (
        Stack(
            base=first,
            tops=(face_down(second, size),),
            sew=both_sides(rising(size)),
            cut=(rising(size),),
            gives=(gives,),
            times=times,
        ),
        press_all(gives, f"{gives}.0"),
    )


METHOD = Method(
    name="two and their mirror images",
    kind="quarters",
    makes=2,
    starts=tuple(Start(fabric, 1) for fabric in range(4)),
    steps=steps,
    landmark="centre",
    reason="no bias edge to sew, the seams lock, but half of what comes off is the mirror image",
    says=(
        "Lay the lower and the left square right sides together, a diagonal drawn on one; the upper and the "
        "right one likewise.",
        "Sew on both sides of the line, cut on it, and press all seams towards the same side of the square.",
        "Lay one of each kind right sides together, seam on seam, the upper cloth on the left one.",
        "Draw the other diagonal across the seam, sew on both sides of it, and cut on it.",
        "Open and press: one square, and one with the quarters the other way round. Keep them apart.",
    ),
    besides=(OTHERS,),
)
