"""Squares-in-a-square by stitch-and-flip: a square sewn over each corner of a larger one, points meeting."""

from __future__ import annotations

from piecewright.bench.steps import AnyStep
from piecewright.methods.corner_lines import flips
from piecewright.methods.method import Making, Method, Start, Unit

ALL_FOUR = ("ne", "sw", "nw", "se")


def steps(making: Making) -> tuple[AnyStep, ...]:
    """Two opposite corners, sewn, trimmed and opened; then the other two."""
    base, corner = making.sizes
    return flips(making, ALL_FOUR, (base, base), corner)


def exact(unit: Unit, take_up: float, extra: float) -> tuple[float, ...]:
    """The base, and the corner squares, half as large: squares, which grow by a seam on each side."""
    side = float(unit.width) + extra
    return side + 2 * take_up, side / 2 + 2 * take_up


METHOD = Method(
    name="stitch and flip",
    kind="insquare",
    makes=1,
    starts=(Start(0, 1, 0, 0), Start(1, 4, 1, 1)),
    steps=steps,
    landmark="square",
    reason="whole sizes and no bias edge to handle, but four corners are lost twice over",
    says=(
        "Draw a line from corner to corner on the wrong side of the small squares.",
        "Lay two of them in opposite corners of the large square, right sides together, "
        "their lines across the corners.",
        "Sew a thread beside each line, on the side of the corner that goes.",
        "Trim those corners, leaving a seam allowance, and press to the corners.",
        "Do the same in the other two corners: the lines meet a seam allowance inside each edge.",
    ),
    unknowns=2,
    may_round=False,
    derived=exact,
    pressed_as_written=True,
)
