"""Half-square triangles one at a time: two squares of the unfinished size, sewn corner to corner."""

from __future__ import annotations

from piecewright.bench.steps import AnyStep, Stack
from piecewright.methods.lines import face_down, press_all, rising
from piecewright.methods.method import Making, Method, Start


def steps(making: Making) -> tuple[AnyStep, ...]:
    """One square on another, one seam a hair above the diagonal, the upper corner trimmed away."""
    (size,), (first, second) = making.sizes, making.pieces
    return (
        Stack(
            base=first,
            tops=(face_down(second, size),),
            sew=(rising(size, "hair left"),),
            cut=(rising(size, "seam left"),),
            gives=(making.gives,),
            times=making.times,
        ),
        press_all(making.gives, f"{making.gives}.0"),
    )


METHOD = Method(
    name="one at a time",
    kind="hst",
    makes=1,
    starts=(Start(0, 1), Start(1, 1)),
    steps=steps,
    landmark="diagonal",
    reason="whole sizes and nothing to true up, but a corner of each pair of squares is lost",
    says=(
        "Draw a line from corner to corner on the wrong side of the lighter squares.",
        "Lay a light and a dark square right sides together.",
        "Sew a thread beside the line, on the side of the corner that goes.",
        "Trim that corner off, leaving a seam allowance.",
        "Set the seam, open the upper square, and press.",
    ),
    may_round=False,
    upright=True,
)
