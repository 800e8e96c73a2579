"""Hourglasses from cut triangles: squares cut twice on the diagonal, four quarters joined."""

from __future__ import annotations

from piecewright.bench.steps import AnyStep
from piecewright.methods.cut_squares import cut_twice, halves_joined, quarters_joined, square_cut_twice
from piecewright.methods.lines import press_all
from piecewright.methods.method import Making, Method, Sizes, Start, Unit


def steps(making: Making) -> tuple[AnyStep, ...]:
    """Quarters in pairs, always the same one on the left; then two pairs, turned half round."""
    (size,) = making.sizes
    quarters = [f"{piece} quarters" for piece in making.pieces]
    pairs = f"{making.gives} pairs"
    return (
        *(
            cut_twice(piece, size, quarter, making.times)
            for piece, quarter in zip(making.pieces, quarters, strict=True)
        ),
        quarters_joined(quarters[0], quarters[1], pairs, 4 * making.times),
        press_all(pairs, f"{pairs}.0"),
        halves_joined(pairs, pairs, making.gives, 2 * making.times, nests=1),
        press_all(making.gives, f"{making.gives}.0"),
    )


def _sizes(unit: Unit, take_up: float, extra: float) -> Sizes:
    return (square_cut_twice(float(unit.width) + extra, take_up),)


METHOD = Method(
    name="from cut triangles",
    kind="hourglass",
    makes=2,
    starts=(Start(0, 1), Start(1, 1)),
    steps=steps,
    landmark="centre",
    reason="nothing to mark, any prints may meet, but short bias seams must not be stretched",
    says=(
        "Cut every square twice from corner to corner: four triangles.",
        "Lay a light and a dark triangle right sides together and sew a short side, always the same one.",
        "Press towards the darker cloth.",
        "Lay two pairs right sides together, colours opposite, so that the seams lock.",
        "Sew the long side without pulling, press, and clip the dog ears.",
    ),
    derived=_sizes,
    pressed_as_written=True,
)
