"""Stretches: seams that are not sewn on the whole of both sides, in part or as far as a dot.

Terms:
- *dot*: where a seam begins or ends, one take-up inside the raw edges;
- *path*: the points of the sides that are sewn, those of the first cloth in the order of its outline.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from piecewright.geometry.isometry import Isometry, laying
from piecewright.geometry.point import Point, add, distance, dot, near, scale, sub, unit
from piecewright.measure.tolerance import EDGE_MATCH
from piecewright.problems import Problem, Refused


@dataclass(frozen=True)
class Stretch:
    """A seam that is not sewn on the whole of both sides: from `start` to `stop` along the first cloth's.

    Inches from the start dot of its first side. Which ends lie together: those at the start, or at the end,
    of the first cloth's side; `beyond` tells how far the second cloth goes on beyond that dot (less than
    nothing: how far inside it ends, at a mark). Round a corner it is the corners that lie together.
    """

    start: float
    stop: float
    flush_at_start: bool = True
    at_corner: bool = False
    beyond: float = 0.0


def laid(after: list[Point], before: list[Point], stretch: Stretch | None) -> Isometry:
    """The place of the second cloth: its path lies on the first's, the other way round."""
    if stretch is None:
        return laying(after[-1], after[-2], before[0], before[1])
    if len(before) > 2 < len(after):
        return laying(after[-2], after[-3], before[1], before[2])
    out = scale(unit(sub(before[1], before[0])), stretch.beyond)
    if stretch.flush_at_start:
        return laying(after[-1], after[-2], sub(before[0], out), sub(before[1], out))
    return laying(after[0], after[1], add(before[-1], out), add(before[-2], out))


def stretch_on(before: list[Point], after: list[Point], stretch: Stretch, of_both: str = "") -> list[Point]:
    """The points of a seam that is not sewn on the whole of both sides; it must lie on both cloths."""
    other = after[::-1]
    if len(before) != len(other) or stretch.at_corner != (len(before) > 2):
        raise Refused(
            Problem(
                f"the edges{of_both} have {len(before) - 2} and {len(other) - 2} corners",
                do="Those of both must lie together, and the step must say so.",
            )
        )
    if stretch.at_corner:
        _refuse_other_corners(before, other, of_both)
    first, last = _together(before, other)
    if not first - EDGE_MATCH <= stretch.start < stretch.stop <= last + EDGE_MATCH:
        raise Refused(
            Problem(
                f"a seam cannot be sewn from {stretch.start:g} to {stretch.stop:g} in here; "
                f"the two sides lie together from {first:g} to {last:g} in"
            )
        )
    (a, b), (c, d) = before[:2], before[-2:]
    to_last = length_of(before) - distance(c, d)
    if stretch.at_corner and not (stretch.start < distance(a, b) and stretch.stop > to_last):
        raise Refused(Problem(f"the seam{of_both} must go round all corners of its edges"))
    start = add(a, scale(unit(sub(b, a)), stretch.start))
    stop = add(c, scale(unit(sub(d, c)), stretch.stop - to_last))
    return [start, *before[1:-1], stop]


def _together(before: list[Point], other: list[Point]) -> tuple[float, float]:
    """From where to where two paths that run the same way lie together, inches along the first."""
    (a, b), (c, d) = before[:2], before[-2:]
    length = length_of(before)
    starts = dot(unit(sub(b, a)), sub(other[0], a))
    ends = length - distance(c, d) + dot(unit(sub(d, c)), sub(other[-1], c))
    return max(starts, 0.0), min(ends, length)


def _refuse_other_corners(before: list[Point], other: list[Point], of_both: str) -> None:
    """Raises Refused where corners of two paths that run the same way, or the ways to them, lie apart."""
    pairs = list(zip(before[1:-1], other[1:-1], strict=True))
    for (a, b), (c, d) in ((before[:2], other[:2]), (before[:-3:-1], other[:-3:-1])):
        shorter = min(distance(a, b), distance(c, d))
        pairs.append((add(b, scale(unit(sub(a, b)), shorter)), add(d, scale(unit(sub(c, d)), shorter))))
    if not all(near(p, q, EDGE_MATCH) for p, q in pairs):
        raise Refused(Problem(f"the corners of the two edges{of_both} do not come together"))


def length_of(path: Sequence[Point]) -> float:
    """How long a path is; inches."""
    return sum(distance(p, q) for p, q in pairwise(path))


def reach_on(lengths: list[float], others: list[float], k: int, stretch: Stretch | None) -> float:
    """How far along side k of the first cloth the start dot of the second cloth's side lies."""
    if stretch is None or 0 < k < len(lengths) - 1:
        return lengths[k]
    if len(lengths) > 1:
        return lengths[k] if k == 0 else others[k]
    return others[k] - stretch.beyond if stretch.flush_at_start else lengths[k] + stretch.beyond
