"""Blocks for the tests of piecing, drawn patch by patch: which patches belong together is not told."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from piecewright.design.drawing import Group, Patch, Placed
from piecewright.design.kinds import kind_of
from piecewright.design.units import draw_unit
from piecewright.geometry.isometry import moved
from piecewright.geometry.polygon import Polygon, bounds, rectangle


def block_of(shapes: Iterable[tuple[str, Polygon]], name: str = "Slipway") -> Group:
    """A rectangular block of patches, told by role and corners."""
    patches = tuple(Placed(Patch(role, outline)) for role, outline in shapes)
    _, _, width, height = bounds([p for patch in patches for p in patch.outline])
    return Group(name, patches, rectangle(width, height))


def unit(
    kind: str,
    roles: str,
    box: Sequence[float],
    facing: str = "",
    measures: tuple[float, ...] = (),
    hand: str = "",
) -> list[tuple[str, Polygon]]:
    """The patches of a unit (a role for each letter) in a box: left, low, width, height."""
    left, low, width, height = box
    facing = facing or (kind_of(kind).facings[0] if kind != "plain" else "")
    ways = (None,) * len(roles)
    drawn = draw_unit(kind, tuple(roles), facing, width, height, ways, measures, hand)
    there = moved(left, low)
    return [(patch.role, patch.placed(there).outline) for patch in drawn.patches]


def squares(picture: str, size: float = 1.0) -> list[tuple[str, Polygon]]:
    """Squares, a letter for the role of each, row under row."""
    rows = picture.split()
    return [
        shape
        for down, row in enumerate(rows)
        for across, role in enumerate(row)
        for shape in unit("plain", role, (across * size, (len(rows) - 1 - down) * size, size, size))
    ]


def sawtooth_star() -> Group:
    """Four corners, a goose on each side, a square in the middle; on a grid of four."""
    corners = [s for x in (0, 6) for y in (0, 6) for s in unit("plain", "b", (x, y, 2, 2))]
    sides = (("s", (2, 6, 4, 2)), ("n", (2, 0, 4, 2)), ("e", (0, 2, 2, 4)), ("w", (6, 2, 2, 4)))
    geese = [s for facing, box in sides for s in unit("geese", "ba", box, facing)]
    return block_of([*corners, *geese, *unit("plain", "a", (2, 2, 4, 4))])


def ohio_star() -> Group:
    """An hourglass on each side of a square, plain corners; on a grid of three."""
    plain = [
        s
        for x in (0, 2, 4)
        for y in (0, 2, 4)
        if x == y or x + y == 4
        for s in unit("plain", "b", (x, y, 2, 2))
    ]
    facing = {(0, 2): "ew", (4, 2): "ew", (2, 0): "ns", (2, 4): "ns"}
    return block_of(
        plain + [s for at, way in facing.items() for s in unit("hourglass", "ba", (*at, 2, 2), way)]
    )


def churn_dash() -> Group:
    """Half-square triangles in the corners, a pair of bars on each side, a square in the middle."""
    corners = (("nw", (0, 8)), ("ne", (8, 8)), ("sw", (0, 0)), ("se", (8, 0)))
    triangles = [s for facing, at in corners for s in unit("hst", "ba", (*at, 4, 4), facing)]
    level = [
        s for role, y in zip("abba", (10, 8, 2, 0), strict=True) for s in unit("plain", role, (4, y, 4, 2))
    ]
    upright = [
        s for role, x in zip("abba", (0, 2, 8, 10), strict=True) for s in unit("plain", role, (x, 4, 2, 4))
    ]
    return block_of([*triangles, *level, *upright, *unit("plain", "b", (4, 4, 4, 4))])


def bears_paw() -> Group:
    """Four paws of a large square, four claws and a corner each, and a cross of sashes."""
    shapes = [*unit("plain", "c", (3, 3, 1, 1))]
    for box in ((3, 0, 1, 3), (3, 4, 1, 3), (0, 3, 3, 1), (4, 3, 3, 1)):
        shapes += unit("plain", "b", box)
    for right, up in ((0, 0), (1, 0), (0, 1), (1, 1)):
        shapes += _paw(right, up)
    return block_of(shapes)


def _paw(right: int, up: int) -> list[tuple[str, Polygon]]:
    x, y = 4 * right, 4 * up
    out_x, out_y = x + 2 * right, y + 2 * up
    side, end = "we"[right], "sn"[up]
    shapes = [
        *unit("plain", "a", (x + 1 - right, y + 1 - up, 2, 2)),
        *unit("plain", "b", (out_x, out_y, 1, 1)),
    ]
    for k in range(2):
        beside = (out_x, y + 1 - up + k, 1, 1)
        above = (x + 1 - right + k, out_y, 1, 1)
        shapes += unit("hst", "ab", beside, {"s": "n", "n": "s"}[end] + {"w": "e", "e": "w"}[side])
        shapes += unit("hst", "ab", above, {"s": "n", "n": "s"}[end] + {"w": "e", "e": "w"}[side])
    return shapes
