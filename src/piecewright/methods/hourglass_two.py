"""Hourglasses two at a time: two half-square triangles stacked seam on seam, sewn and cut once more."""

from __future__ import annotations

from math import sqrt

from piecewright.bench.steps import AnyStep, Lay, Stack
from piecewright.geometry.isometry import folded
from piecewright.methods.lines import both_sides, face_down, press_all, rising, ruled
from piecewright.methods.method import Making, Method, Start


def steps(making: Making) -> tuple[AnyStep, ...]:
    """Half-square triangles first; then two of them, colours opposite, sewn beside the other diagonal."""
    (size,), (first, second) = making.sizes, making.pieces
    halves = f"{making.gives} halves"
    inset = sqrt(2) * making.seam.take_up
    low, high = (inset, 0.0), (size, size - inset)
    over = folded(low, high)
    other = ruled((inset, size - inset), (size, 0.0))
    return (
        Stack(
            base=first,
            tops=(face_down(second, size),),
            sew=both_sides(rising(size)),
            cut=(rising(size),),
            gives=(halves,),
            times=making.times,
        ),
        press_all(halves, f"{halves}.0"),
        Stack(
            base=halves,
            tops=(Lay(halves, over.degrees, over.x, over.y),),
            sew=both_sides(other),
            cut=(other,),
            gives=(making.gives,),
            times=making.times,
        ),
        press_all(making.gives, f"{making.gives}.0"),
    )


METHOD = Method(
    name="two at a time",
    kind="hourglass",
    makes=2,
    starts=(Start(0, 1), Start(1, 1)),
    steps=steps,
    landmark="centre",
    reason="the seams lock in the middle, and the outer edges lie on the straight grain",
    says=(
        "Draw a line from corner to corner on the wrong side of the lighter squares.",
        "Lay a light and a dark square right sides together, and sew on both sides of the line.",
        "Cut on the line, open, and press towards the darker cloth: half-square triangles.",
        "Lay two of them right sides together, colours opposite, so that the seams lock.",
        "Draw the other diagonal across the seam, sew on both sides of it, and cut on it.",
        "Open and press.",
    ),
)
