"""Flying geese by stitch-and-flip: a square sewn over each upper corner of a rectangle."""

from __future__ import annotations

from piecewright.bench.steps import AnyStep, Stack
from piecewright.methods.lines import face_down, press_all, ruled
from piecewright.methods.method import Making, Method, Start


def steps(making: Making) -> tuple[AnyStep, ...]:
    """A square on the right upper corner, sewn, trimmed, opened; then one on the left."""
    (width, height), (goose, sky) = making.sizes, making.pieces
    one_wing = f"{making.gives} one wing"
    right = ((width, 0.0), (width - height, height))
    left = ((height, height), (0.0, 0.0))
    return (
        Stack(
            base=goose,
            tops=(face_down(sky, height, (width - height, 0.0)),),
            sew=(ruled(*right, "hair right"),),
            cut=(ruled(*right, "seam right"),),
            gives=(one_wing,),
            times=making.times,
        ),
        press_all(one_wing, f"{one_wing}.0"),
        Stack(
            base=one_wing,
            tops=(face_down(sky, height),),
            sew=(ruled(*left, "hair right"),),
            cut=(ruled(*left, "seam right"),),
            gives=(making.gives,),
            times=making.times,
        ),
        press_all(making.gives, f"{making.gives}.0"),
    )


METHOD = Method(
    name="stitch and flip",
    kind="geese",
    makes=1,
    starts=(Start(0, 1, 0, 1), Start(1, 2, 1, 1)),
    steps=steps,
    landmark="point",
    reason="whole sizes and no bias edge to handle, but two corners are lost for each goose",
    says=(
        "Draw a line from corner to corner on the wrong side of the small squares.",
        "Lay a square on the right end of a rectangle, right sides together, its line running down and out.",
        "Sew a thread beside the line, on the side of the corner that goes.",
        "Trim that corner, leaving a seam allowance, and press to the corner.",
        "Do the same on the left end; the two squares cross at the point by a seam allowance.",
    ),
    unknowns=2,
    may_round=False,
    upright=True,
)
