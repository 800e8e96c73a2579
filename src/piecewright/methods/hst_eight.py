"""Half-square triangles eight at a time: both diagonals marked, sewn on both sides, cut in eight."""

from __future__ import annotations

from piecewright.bench.steps import AnyStep, Ruled, Stack
from piecewright.methods.lines import both_sides, face_down, falling, press_all, rising
from piecewright.methods.method import Making, Method, Start


def steps(making: Making) -> tuple[AnyStep, ...]:
    """Two squares face to face, sewn beside both diagonals, cut through the middle and on the diagonals."""
    (size,), (first, second) = making.sizes, making.pieces
    half = size / 2
    return (
        Stack(
            base=first,
            tops=(face_down(second, size),),
            sew=(*both_sides(rising(size)), *both_sides(falling(size))),
            cut=(Ruled(half, 0.0, half, size), Ruled(0.0, half, size, half), rising(size), falling(size)),
            gives=(making.gives,),
            times=making.times,
        ),
        press_all(making.gives, f"{making.gives}.0"),
    )


METHOD = Method(
    name="eight at a time",
    kind="hst",
    makes=8,
    starts=(Start(0, 1), Start(1, 1)),
    steps=steps,
    landmark="diagonal",
    reason="the quickest for many alike: two lines marked make eight, on the straight grain",
    says=(
        "Draw both diagonals on the wrong side of the lighter squares.",
        "Lay a light and a dark square right sides together.",
        "Sew on both sides of both lines, the needle's distance from them.",
        "Cut through the middle, both ways, then on both lines: each pair of squares gives eight units.",
        "Set the seams, open, and press.",
    ),
)
