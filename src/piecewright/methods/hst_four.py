"""Half-square triangles four at a time: two squares sewn round the edge, cut on both diagonals."""

from __future__ import annotations

from piecewright.bench.steps import AnyStep, Ruled, Stack
from piecewright.methods.lines import face_down, falling, press_all, rising
from piecewright.methods.method import Making, Method, Start


def steps(making: Making) -> tuple[AnyStep, ...]:
    """Two squares face to face, sewn along all four edges, cut from corner to corner twice."""
    (size,), (first, second) = making.sizes, making.pieces
    corners = ((0.0, 0.0), (size, 0.0), (size, size), (0.0, size))
    return (
        Stack(
            base=first,
            tops=(face_down(second, size),),
            sew=tuple(
                Ruled(*a, *b, "needle left") for a, b in zip(corners, corners[1:] + corners[:1], strict=True)
            ),
            cut=(rising(size), falling(size)),
            gives=(making.gives,),
            times=making.times,
        ),
        press_all(making.gives, f"{making.gives}.0"),
    )


METHOD = Method(
    name="four at a time",
    kind="hst",
    makes=4,
    starts=(Start(0, 1), Start(1, 1)),
    steps=steps,
    landmark="diagonal",
    reason="nothing to mark before sewing, but all four outer edges are bias: starch, and handle with care",
    says=(
        "Lay a light and a dark square right sides together; nothing is marked.",
        "Sew all round, the needle's distance from every edge.",
        "Cut from corner to corner, both ways: each pair of squares gives four units.",
        "All outer edges are bias now: starch, lift the iron, do not pull.",
        "Set the seams, open, and press.",
    ),
)
