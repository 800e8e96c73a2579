"""The log cabin: logs round and round a centre, light on two neighbouring sides, dark on the other two.

Its hand is the way the logs go, seen from the front: "right" is clockwise, "left" counter-clockwise. Each
round begins with the two light logs.
"""

from __future__ import annotations

from piecewright.design.kinds.boxes import outlined
from piecewright.design.kinds.kind import Form, Kind, Shapes
from piecewright.design.kinds.rounds import MEASURES, centre_box, fits, log_boxes, wanted

SIDES = {"right": ("n", "e", "s", "w"), "left": ("n", "w", "s", "e")}
"""The side of each log of a round, by hand."""


def shapes(form: Form) -> Shapes:
    """The centre, then every log in the order in which it is sewn on."""
    sides = SIDES[form.hand or "right"]
    logs = log_boxes(form, sides)
    return (
        (0, outlined(centre_box(form))),
        *((1 if k % 4 < 2 else 2, outlined(box)) for k, box in enumerate(logs)),
    )


KIND = Kind(
    key="logcabin",
    name="log cabin",
    fabrics=("centre", "light side", "dark side"),
    shapes=shapes,
    patches=0,
    wanted=wanted,
    hands=("right", "left"),
    measures=MEASURES,
    fits=fits,
)
