"""Which sets of a block's parts are alike: in shape, or in look.

Terms:
- *alike in shape*: equal up to quarter turns and mirroring, whatever the fabrics: their orders cost the same;
- *alike in look*: equal up to a turn by any angle, fabrics and all (never mirrored): one thing, made twice.

Keys hold for one block only. Places are counted in steps as in `looks`.
"""

from __future__ import annotations

from collections.abc import Hashable
from math import atan2, degrees
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from piecewright.design.drawing import Placed
from piecewright.geometry.dividing import members
from piecewright.geometry.isometry import STILL, Isometry, folded, turned
from piecewright.geometry.point import Point, sub
from piecewright.geometry.polygon import centroid, placed
from piecewright.piecing.looks import OFF_STEP, STEP, far_ways, looks_lying
from piecewright.piecing.patchwork import Patchwork

FLIP = folded((0.0, 0.0), (0.0, 1.0))
FRAMES = tuple(turned(angle).after(first) for angle in (0, 90, 180, 270) for first in (STILL, FLIP))

# A place takes 20 bits of a key with its sign, an angle 13, whatever comes before them the rest.
PLACE_BITS, ANGLE_BITS = 20, 13
FAR = 1 << (PLACE_BITS - 1)
ANGLE_STEP = 0.0777  # Degrees; like `STEP`, so odd that no angle of the trade falls between two of them.


Places = npt.NDArray[np.float64]
Numbers = npt.NDArray[np.int64]


class Seen(NamedTuple):
    """A key, and the numbers of the parts in the order in which the key tells of them."""

    key: bytes
    order: tuple[int, ...]


class Alike:
    """The keys of a block's sets; `looks` numbers the parts so that those alike in look have one number."""

    def __init__(self, work: Patchwork) -> None:
        self._shape_of: dict[int, Seen] = {}
        self._look_of: dict[int, Seen] = {}
        self._bytes = (len(work.parts) + 7) // 8
        middles = [centroid(outline) for outline in work.outlines]
        shapes: dict[Hashable, int] = {}
        self._shapes = np.array(
            [
                [shapes.setdefault(_shape(part, at, frame), len(shapes)) for frame in FRAMES]
                for part, at in zip(work.parts, middles, strict=True)
            ]
        ).T
        self._middles = np.array(middles)
        self._framed = np.array([[frame.at(at) for at in middles] for frame in FRAMES])
        looks: dict[Hashable, int] = {}
        seen = [looks_lying(patch.placed(p.place) for patch in p.drawing.patches) for p in work.parts]
        least = [min(look for look, _ in ways) for ways in seen]
        self.looks = [looks.setdefault(look, len(looks)) for look in least]
        turns = [[turn for look, turn in ways if look == one] for ways, one in zip(seen, least, strict=True)]
        self._numbers = np.array(self.looks)
        self._turn = np.array([own[0] for own in turns])
        self._every = np.array([360.0 / len(own) for own in turns])

    def shape(self, parts: int) -> Seen:
        """The key that is equal for sets alike in shape, and the parts in the order of its entries."""
        if parts not in self._shape_of:
            own = self._members(parts)
            places = self._framed[:, own]
            places = _steps(places - places.min(axis=1, keepdims=True))
            seen = (_seen(own, keys) for keys in _packed(self._shapes[:, own], places))
            self._shape_of[parts] = min(seen, key=lambda one: one.key)
        return self._shape_of[parts]

    def look(self, parts: int) -> Seen:
        """The key that is equal for sets alike in look, and the parts in the order of its entries."""
        if parts not in self._look_of:
            own = self._members(parts)
            middles = self._middles[own]
            middles = middles - middles.mean(axis=0)
            seen = (self._lying(own, middles, way) for way in far_ways(middles))
            self._look_of[parts] = min(seen, key=lambda one: one.key)
        return self._look_of[parts]

    def _lying(self, own: Numbers, middles: Places, way: Point) -> Seen:
        """The look with a direction laid to the right."""
        cos, sin = way
        places = _steps(middles @ np.array([[cos, -sin], [sin, cos]]))
        turns = self._turn[own] - degrees(atan2(sin, cos)) + OFF_STEP * ANGLE_STEP
        angles = np.floor(turns % self._every[own] / ANGLE_STEP).astype(np.int64)
        return _seen(own, _packed(self._numbers[own] << ANGLE_BITS | angles, places))

    def _members(self, parts: int) -> Numbers:
        octets = np.frombuffer(parts.to_bytes(self._bytes, "little"), np.uint8)
        return np.flatnonzero(np.unpackbits(octets, bitorder="little"))


def carried(parts: int, seen: Seen, onto: Seen) -> int:
    """The set that lies in one set as `parts` lie in another that is alike."""
    to = dict(zip(seen.order, onto.order, strict=True))
    return sum(1 << to[k] for k in members(parts))


def _seen(own: Numbers, keys: Numbers) -> Seen:
    order = np.argsort(keys)
    return Seen(keys[order].tobytes(), tuple(own[order].tolist()))


def _steps(places: Places) -> Numbers:
    return np.floor(places / STEP + OFF_STEP).astype(np.int64)


def _packed(first: Numbers, places: Numbers) -> Numbers:
    """A number and a place in one number each."""
    return (first << PLACE_BITS | places[..., 0] + FAR) << PLACE_BITS | places[..., 1] + FAR


def _shape(part: Placed, middle: Point, frame: Isometry) -> Hashable:
    """What a part shows in a frame but for its fabrics, about its own middle: seams inside it count."""
    at, place = frame.at(middle), frame.after(part.place)
    return tuple(
        sorted(
            tuple(sorted(tuple(_step(x) for x in sub(p, at)) for p in placed(patch.outline, place)))
            for patch in part.drawing.patches
        )
    )


def _step(size: float) -> int:
    return int((size / STEP + OFF_STEP) // 1)
