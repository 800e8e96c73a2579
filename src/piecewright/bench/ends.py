"""Joining strips end to end with slanted seams, as for a binding."""

from __future__ import annotations

from piecewright.bench.cloth import Cloth, Face, Seam, SeamSize
from piecewright.bench.stacking import stack
from piecewright.geometry.isometry import Isometry, moved
from piecewright.geometry.point import Point
from piecewright.geometry.polygon import Polygon, clip, grown, placed, rectangle
from piecewright.problems import Problem, Refused


def joined_ends(strip: Cloth, count: int, name: str, seam: SeamSize) -> Cloth:
    """A long strip made of `count` like ones; each seam runs at 45 degrees.

    Two strips are laid at right angles on the bench, sewn from corner to corner, trimmed and opened; what
    that seam costs in length is found there and holds for all others.
    """
    if len(strip.faces) != 1 or len(strip.raw) != 4:
        raise Refused(Problem("only flat strips are joined end to end"))
    length, height = strip.raw[2]
    pitch = length if count == 1 else _pair_length(strip, length, height, seam) - length
    whole = length + (count - 1) * pitch
    raw = rectangle(whole, height)
    faces, seams = [], []
    for k in range(count):
        left = pitch * k
        seen = placed(rectangle(length, height), moved(left, 0.0))
        flat: Polygon = seen
        if k:
            a, b = _slant(left, height)
            seen, flat = clip(seen, a, b), clip(flat, *_beyond((a, b), -seam.take_up))
        if k < count - 1:
            a, b = _slant(pitch * (k + 1), height)
            seen, flat = clip(seen, a, b, -1), clip(flat, *_beyond((a, b), seam.take_up), -1)
            seams.append(Seam(f"{name}.0", (b, a)))
        faces.append(Face(strip.faces[0].fabric, seen, flat, strip.faces[0].grain))
    return Cloth(raw, grown(raw, -seam.take_up), tuple(faces), (), tuple(seams))


def _slant(left: float, height: float) -> tuple[Point, Point]:
    """The seam between two strips, the later one on its left: from the upper left, down to the right."""
    return (left, height), (left + height, 0.0)


def _beyond(line: tuple[Point, Point], by: float) -> tuple[Point, Point]:
    """The slanted line moved along the strip so that an allowance of `by` lies beyond it."""
    along = by * 2**0.5
    (ax, ay), (bx, by_) = line
    return (ax + along, ay), (bx + along, by_)


def _pair_length(strip: Cloth, length: float, height: float, seam: SeamSize) -> float:
    """How long two strips are once they are sewn at right angles and opened."""
    hanging = Isometry(0.0, -1.0, length, height, True)
    corner_line = ((length - height + 0.0, height), (length, 0.0))
    off = 2**-0.5
    needle = tuple((x + seam.fold * off, y + seam.fold * off) for x, y in corner_line)
    trim = tuple((x + seam.take_up * off, y + seam.take_up * off) for x, y in corner_line)
    opened = stack(strip, [(strip, hanging)], [(needle[0], needle[1])], [(trim[0], trim[1])], "pair", seam)
    pairs = [region.cloth for region in opened if region.cloth]
    if len(pairs) != 1:
        raise Refused(Problem("the strips cannot be joined end to end: they are too short for their width"))
    return max(pairs[0].size)
