"""Random tilings of a square, most of which no full seam takes apart, as outlines of patches (inches).

- *rectangles*: a square split again and again, in two or by a pinwheel of either hand, in random places;
- *cells*: what lies nearer to one of some scattered sites than to all others; nearly every point is a Y;
- *merged*: neighbours of such tilings made one patch, with inner corners.
"""

from __future__ import annotations

from hypothesis import strategies as st

from piecewright.design.drawing import Patch, Placed
from piecewright.geometry.point import Point, add, distance, left_of, middle, sub
from piecewright.geometry.polygon import (
    Polygon,
    area,
    clean,
    clip,
    edges,
    grown,
    joined_outline,
    same_polygon,
)
from piecewright.piecing.patchwork import Patchwork, patchwork

SIDE = 24.0

SHORTEST = 0.25
"""No edge of a cell is shorter (inches): a shorter one is no patch that anyone would cut."""

Tiling = tuple[Polygon, ...]
Box = tuple[int, int, int, int]


def block_of(tiling: Tiling) -> Patchwork:
    """The tiling as a block: every patch of a fabric of its own, so that none can be taken for another."""
    return patchwork("block", [Placed(Patch(f"cloth {k}", outline)) for k, outline in enumerate(tiling)])


@st.composite
def rectangles(draw: st.DrawFn, most: int = 24) -> Tiling:
    """Splits and pinwheels within one another; at least one pinwheel."""
    boxes = draw(_pinwheel((0, 0, int(SIDE), int(SIDE))))
    for _ in range(draw(st.integers(0, 8))):
        k = draw(st.integers(0, len(boxes) - 1))
        if len(boxes) >= most - 4:
            break
        boxes[k : k + 1] = draw(st.one_of(_in_two(boxes[k]), _pinwheel(boxes[k])))
    return tuple(map(_corners, boxes))


@st.composite
def _in_two(draw: st.DrawFn, box: Box) -> list[Box]:
    left, low, right, high = box
    if draw(st.booleans()) and right - left > 1:
        at = draw(st.integers(left + 1, right - 1))
        return [(left, low, at, high), (at, low, right, high)]
    if high - low > 1:
        at = draw(st.integers(low + 1, high - 1))
        return [(left, low, right, at), (left, at, right, high)]
    return [box]


@st.composite
def _pinwheel(draw: st.DrawFn, box: Box) -> list[Box]:
    left, low, right, high = box
    if min(right - left, high - low) < 3:
        return [box]
    a = draw(st.integers(left + 1, right - 2))
    b = draw(st.integers(a + 1, right - 1))
    c = draw(st.integers(low + 1, high - 2))
    d = draw(st.integers(c + 1, high - 1))
    if draw(st.booleans()):
        return [(a, c, b, d), (left, low, b, c), (b, low, right, d), (a, d, right, high), (left, c, a, high)]
    return [(a, c, b, d), (a, low, right, c), (b, c, right, high), (left, d, b, high), (left, low, a, d)]


def _corners(box: Box) -> Polygon:
    left, low, right, high = map(float, box)
    return ((left, low), (right, low), (right, high), (left, high))


@st.composite
def cells(draw: st.DrawFn, most: int = 4) -> Tiling:
    """Sites scattered over a grid of squares; only tilings without very short edges."""
    across, up = draw(st.integers(2, most)), draw(st.integers(2, most))
    share = st.integers(1, 63)
    sites = [
        ((i + draw(share) / 64) * SIDE / across, (j + draw(share) / 64) * SIDE / up)
        for i in range(across)
        for j in range(up)
    ]
    tiling = cells_of(tuple(sites))
    return tiling if _is_sound(tiling) else cells_of(REGULAR)


def cells_of(sites: tuple[Point, ...]) -> Tiling:
    """For each site what lies nearer to it than to the others."""
    found = []
    for site in sites:
        cell: Polygon = ((0.0, 0.0), (SIDE, 0.0), (SIDE, SIDE), (0.0, SIDE))
        for other in sites:
            if other != site:
                half = middle(site, other)
                cell = clip(cell, half, add(half, left_of(sub(other, site))))
        found.append(cell)
    return tuple(found)


REGULAR = ((5.0, 4.0), (13.0, 5.0), (20.0, 6.0), (4.0, 13.0), (12.0, 12.0), (19.0, 15.0), (10.0, 20.0))
"""Sites of a tiling that is sound in any case."""


def _is_sound(tiling: Tiling) -> bool:
    return all(cell and min(distance(*edge) for edge in edges(cell)) >= SHORTEST for cell in tiling)


@st.composite
def merged(draw: st.DrawFn, tilings: st.SearchStrategy[Tiling]) -> Tiling:
    """Some neighbours of a tiling as one patch each, where a seam allowance fits round that."""
    tiling = list(draw(tilings))
    for _ in range(draw(st.integers(1, 6))):
        k, j = draw(st.integers(0, len(tiling) - 1)), draw(st.integers(0, len(tiling) - 1))
        both = as_one(tiling[k], tiling[j]) if k != j and len(tiling) > 3 else ()
        if both:
            tiling[k] = both
            tiling.pop(j)
    return tuple(tiling)


def as_one(one: Polygon, other: Polygon) -> Polygon:
    """Two neighbours as one patch; () where they do not make one that can be cut."""
    try:
        outline = clean(joined_outline([one, other]), 1e-4, straight=1e-4)
    except ValueError:
        return ()
    whole = abs(area(outline) - area(one) - area(other)) < 1e-3
    return outline if whole and same_polygon(grown(grown(outline, 0.25), -0.25), outline, 1e-4) else ()
