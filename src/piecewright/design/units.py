"""Units drawn: what each kind looks like, whichever way it faces.

A unit's own frame has its lower left corner at the origin. The same unit is drawn once and shared.
"""

from __future__ import annotations

from functools import lru_cache

from piecewright.design.drawing import Group, Patch, Placed
from piecewright.design.kinds import Form, kind_of
from piecewright.geometry.polygon import rectangle

PLAIN = "plain"


@lru_cache(maxsize=8192)
def draw_unit(
    kind: str,
    roles: tuple[str, ...],
    facing: str,
    width: float,
    height: float,
    ways: tuple[float | None, ...],
    measures: tuple[float, ...] = (),
    hand: str = "",
) -> Patch | Group:
    """The drawing of a unit; `ways` has, for each role, the way of its print in the unit's frame or None."""
    if kind == PLAIN:
        return Patch(roles[0], rectangle(width, height), ways[0])
    known = kind_of(kind)
    form = Form(width, height, facing or known.facings[0], hand or known.hands[0], measures, len(roles))
    patches = [Patch(roles[number], corners, ways[number]) for number, corners in known.shapes(form)]
    return Group(known.name, tuple(map(Placed, patches)), known.outline(form))
