"""Half-square triangles two at a time: a seam on each side of the diagonal of two squares."""

from __future__ import annotations

from piecewright.bench.steps import AnyStep, Stack
from piecewright.methods.lines import both_sides, face_down, press_all, rising
from piecewright.methods.method import Making, Method, Start


def steps(making: Making) -> tuple[AnyStep, ...]:
    """Two squares face to face, sewn on both sides of a diagonal, cut apart on it."""
    (size,), (first, second) = making.sizes, making.pieces
    return (
        Stack(
            base=first,
            tops=(face_down(second, size),),
            sew=both_sides(rising(size)),
            cut=(rising(size),),
            gives=(making.gives,),
            times=making.times,
        ),
        press_all(making.gives, f"{making.gives}.0"),
    )


METHOD = Method(
    name="two at a time",
    kind="hst",
    makes=2,
    starts=(Start(0, 1), Start(1, 1)),
    steps=steps,
    landmark="diagonal",
    reason="little cloth, no bias edge outside, and every pair may be of other prints",
    says=(
        "Draw a line from corner to corner on the wrong side of the lighter squares.",
        "Lay a light and a dark square right sides together.",
        "Sew on both sides of the line, the needle's distance from it.",
        "Cut on the line: each pair of squares gives two units.",
        "Set the seams, open, and press.",
    ),
)
