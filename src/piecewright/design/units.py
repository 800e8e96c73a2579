"""The units of a block on a grid, drawn: what each kind looks like, whichever way it faces.

A unit's own frame has its lower left corner at the origin. The same unit is drawn once and shared.
"""

from __future__ import annotations

from functools import lru_cache

from piecewright.design.drawing import Group, Patch, Placed
from piecewright.design.model import UnitKind
from piecewright.geometry.isometry import STILL
from piecewright.geometry.point import Point
from piecewright.geometry.polygon import Polygon, rectangle

NAME_OF: dict[UnitKind, str] = {
    "plain": "patch",
    "hst": "half-square triangle",
    "hourglass": "hourglass",
    "geese": "flying goose",
}


@lru_cache(maxsize=8192)
def draw_unit(
    kind: UnitKind,
    roles: tuple[str, ...],
    facing: str,
    width: float,
    height: float,
    ways: tuple[float | None, ...],
) -> Patch | Group:
    """The drawing of a unit; `ways` has, for each role, the way of its print in the unit's frame or None."""
    way_of = dict(zip(roles, ways, strict=True))
    if kind == "plain":
        return Patch(roles[0], rectangle(width, height), ways[0])
    patches = [
        Patch(role, corners, way_of[role]) for role, corners in _shapes(kind, roles, facing, width, height)
    ]
    return Group(NAME_OF[kind], tuple(Placed(patch, STILL) for patch in patches), rectangle(width, height))


def _shapes(
    kind: UnitKind, roles: tuple[str, ...], facing: str, width: float, height: float
) -> list[tuple[str, Polygon]]:
    corner: dict[str, Point] = {
        "sw": (0.0, 0.0),
        "se": (width, 0.0),
        "ne": (width, height),
        "nw": (0.0, height),
    }
    around = ["sw", "se", "ne", "nw"]
    first, second = roles[0], roles[-1]
    if kind == "hst":
        at = around.index(facing)
        before, after, opposite = (corner[around[(at + k) % 4]] for k in (-1, 1, 2))
        return [(first, (before, corner[facing], after)), (second, (after, opposite, before))]
    if kind == "hourglass":
        middle = (width / 2, height / 2)
        return [
            (
                first if _SIDE[k] in facing else second,
                (corner[around[k]], corner[around[(k + 1) % 4]], middle),
            )
            for k in range(4)
        ]
    base = (_SIDE.index(facing) + 2) % 4
    point = {
        "n": (width / 2, height),
        "s": (width / 2, 0.0),
        "e": (width, height / 2),
        "w": (0.0, height / 2),
    }[facing]
    a, b, c, d = (corner[around[(base + k) % 4]] for k in range(4))
    return [(first, (a, b, point)), (second, (b, c, point)), (second, (d, a, point))]


# The side that starts at each corner, counter-clockwise from the lower left.
_SIDE = ["s", "e", "n", "w"]
