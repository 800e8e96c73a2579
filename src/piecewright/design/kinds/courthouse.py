"""Courthouse steps: logs about a centre in pairs, opposite sides alike; each round begins above and below."""

from __future__ import annotations

from piecewright.design.kinds.boxes import outlined
from piecewright.design.kinds.kind import Form, Kind, Shapes
from piecewright.design.kinds.rounds import MEASURES, centre_box, fits, log_boxes, wanted

SIDES = ("s", "n", "w", "e")
"""The side of each log of a round."""


def shapes(form: Form) -> Shapes:
    """The centre, then every log in the order in which it is sewn on."""
    return (
        (0, outlined(centre_box(form))),
        *((1 if k % 4 < 2 else 2, outlined(box)) for k, box in enumerate(log_boxes(form, SIDES))),
    )


KIND = Kind(
    key="courthouse",
    name="courthouse steps block",
    fabrics=("centre", "first two sides", "other two sides"),
    shapes=shapes,
    patches=0,
    wanted=wanted,
    measures=MEASURES,
    fits=fits,
)
