"""Squares of four quarters from cut triangles: squares cut twice on the diagonal, joined in order."""

from __future__ import annotations

from piecewright.bench.steps import AnyStep
from piecewright.methods.cut_squares import cut_twice, halves_joined, quarters_joined, square_cut_twice
from piecewright.methods.lines import press_all
from piecewright.methods.method import Making, Method, Sizes, Start, Unit


def steps(making: Making) -> tuple[AnyStep, ...]:
    """The lower and right quarters, the upper and left ones; then both pairs."""
    (size,) = making.sizes
    quarters = tuple(f"{piece} quarters {k}" for k, piece in enumerate(making.pieces))
    one, two = f"{making.gives} lower pairs", f"{making.gives} upper pairs"
    return (
        *(
            cut_twice(piece, size, quarter, making.times)
            for piece, quarter in zip(making.pieces, quarters, strict=True)
        ),
        quarters_joined(quarters[0], quarters[1], one, 4 * making.times),
        press_all(one, f"{one}.0"),
        quarters_joined(quarters[2], quarters[3], two, 4 * making.times),
        press_all(two, f"{two}.0"),
        halves_joined(one, two, making.gives, 4 * making.times, nests=1),
        press_all(making.gives, f"{making.gives}.0"),
    )


def _sizes(unit: Unit, take_up: float, extra: float) -> Sizes:
    return (square_cut_twice(float(unit.width) + extra, take_up),)


METHOD = Method(
    name="from cut triangles",
    kind="quarters",
    makes=4,
    starts=tuple(Start(fabric, 1) for fabric in range(4)),
    steps=steps,
    landmark="centre",
    reason="all four alike and of one hand, nothing to mark, but short bias seams must not be stretched",
    says=(
        "Cut every square twice from corner to corner: four triangles.",
        "Lay the four triangles of a square in order on the table.",
        "Sew the lower to the right one, the upper to the left one, on the short sides where they meet.",
        "Press both seams the same way round, so that they lock.",
        "Sew the two halves along the long side without pulling, press, and clip the dog ears.",
    ),
    derived=_sizes,
    pressed_as_written=True,
)
