"""Half-square triangles from cut triangles: squares cut once on the diagonal, joined on the long side."""

from __future__ import annotations

from piecewright.bench.steps import AnyStep, CutApart, Join, JoinPart
from piecewright.methods.lines import press_all, rising
from piecewright.methods.method import Making, Method, Start

LONG_SIDE = 2


def steps(making: Making) -> tuple[AnyStep, ...]:
    """Each square cut on its diagonal; the triangles joined along it."""
    (size,) = making.sizes
    triangles = tuple(f"{piece} triangles" for piece in making.pieces)
    return (
        *(
            CutApart(takes=piece, cut=(rising(size),), gives=(triangle,), times=making.times)
            for piece, triangle in zip(making.pieces, triangles, strict=True)
        ),
        Join(
            parts=(
                JoinPart(name=triangles[0], exit=(LONG_SIDE,)),
                JoinPart(name=triangles[1], entry=(LONG_SIDE,)),
            ),
            gives=making.gives,
            times=2 * making.times,
        ),
        press_all(making.gives, f"{making.gives}.0"),
    )


METHOD = Method(
    name="from cut triangles",
    kind="hst",
    makes=2,
    starts=(Start(0, 1), Start(1, 1)),
    steps=steps,
    landmark="diagonal",
    reason="nothing to mark, any two prints may meet, but the long bias edge must not be stretched",
    says=(
        "Cut every square once from corner to corner.",
        "Lay a light and a dark triangle right sides together, long sides matching.",
        "Sew along the long side with the usual seam, without pulling: it is bias.",
        "Set the seam, open, press, and clip the dog ears.",
    ),
)
