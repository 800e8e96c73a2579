"""Cloth on the bench: a flat piece, or pieces sewn together.

Terms:
- *raw*: the outline of the cloth with its seam allowances, as it lies on the mat, pressed open;
- *net*: the same outline moved in by the take-up: the line along which it will be sewn to others;
- *side*: a straight side of the net outline, counted counter-clockwise from the lowest corner
  (of the lowest, the left-most), so that side 0 of a rectangle is its lower one;
- *face*: what one piece of cloth shows (`seen`) and the whole flat piece behind it (`flat`).

All are in the cloth's own frame, in inches. A sewn cloth may be turned, never turned over.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property
from itertools import combinations
from typing import Literal

from piecewright.bench.margins import beside, lie_on
from piecewright.geometry.isometry import STILL, Isometry
from piecewright.geometry.matching import Marked, Picture
from piecewright.geometry.point import (
    Point,
    add,
    cross,
    distance,
    dot,
    left_of,
    scale,
    sub,
    unit,
)
from piecewright.geometry.polygon import (
    Line,
    Polygon,
    area,
    bounds,
    clip_segment,
    clip_to,
    edges,
    extent,
    grown,
    is_convex,
    overlap_area,
    placed,
)
from piecewright.measure.tolerance import AS_DRAWN, EDGE_MATCH

LENGTHWISE = 90.0  # In a piece's own frame the lengthwise grain, and a one-way print, run up.

ALONG = 1e-4  # A seam within this angle (radians) of a side runs along it.

Towards = Literal["first", "second", "open"]
Pressed = Towards | Literal["either"]


@dataclass(frozen=True, slots=True)
class SeamSize:
    """What a seam takes: `needle` from raw edge to needle, `fold` lost in the pressed fold; inches."""

    needle: float
    fold: float

    @property
    def take_up(self) -> float:
        """What the seam takes from each cloth."""
        return self.needle + self.fold


@dataclass(frozen=True, slots=True)
class Face:
    """One piece of cloth in a sewn one: `grain` is the angle of its lengthwise grain in degrees."""

    fabric: str
    seen: Polygon
    flat: Polygon
    grain: float = LENGTHWISE

    def placed(self, place: Isometry) -> Face:
        """The face after a turn and a move (or after folding over twice)."""
        return Face(
            self.fabric, placed(self.seen, place), placed(self.flat, place), self.grain + place.degrees
        )


@dataclass(frozen=True, slots=True)
class Seam:
    """A seam on its fold line; the cloth it was sewn from first lies on the left of the path.

    `pressed` has one entry for each straight segment of the path, towards the first or the second
    cloth, or open; it is empty until the seam has been pressed, and "either" once things pressed both
    ways have been put on one pile.
    """

    name: str
    path: tuple[Point, ...]
    pressed: tuple[Pressed, ...] = ()

    def placed(self, place: Isometry) -> Seam:
        """The seam after a turn and a move."""
        return Seam(self.name, tuple(map(place.at, self.path)), self.pressed)

    @property
    def segments(self) -> list[Line]:
        """The straight segments of the path."""
        return list(zip(self.path, self.path[1:], strict=False))


@dataclass(frozen=True, slots=True)
class SeamEnd:
    """Where a seam runs out on a side of a cloth.

    `at` is the distance along the side from its start; `slant` is 0 where the seam meets the side squarely
    and near 1 where it is flat to it; `first_is_ahead` tells whether the seam's first cloth lies towards
    the end of the side; `pressed` as in `Seam`, None when unpressed.
    """

    at: float
    slant: float
    first_is_ahead: bool
    name: str
    pressed: Pressed | None

    @property
    def leans(self) -> int:
        """1 when pressed towards the end of the side, -1 towards its start, 0 when open or unpressed."""
        if self.pressed not in ("first", "second"):
            return 0
        return 1 if (self.pressed == "first") == self.first_is_ahead else -1


@dataclass(frozen=True, slots=True)
class Part:
    """A cloth and where it lies in the cloth that it was joined into."""

    cloth: Cloth
    place: Isometry = STILL


@dataclass(frozen=True, eq=False)
class Cloth:
    """A piece (one face, no seam) or a sewn cloth (faces of its own, or parts joined along their sides).

    `caught` tells the area of each fabric that is caught in the allowance of an own seam and shows nowhere.
    """

    raw: Polygon
    net: Polygon
    own_faces: tuple[Face, ...] = ()
    parts: tuple[Part, ...] = ()
    own_seams: tuple[Seam, ...] = ()
    caught: tuple[tuple[str, float], ...] = ()
    _ends: dict[int, list[SeamEnd]] = field(default_factory=dict, repr=False)

    @property
    def sides(self) -> list[Line]:
        """The straight sides of the net outline."""
        return edges(self.net)

    @property
    def size(self) -> tuple[float, float]:
        """The raw size along the longest side, and across it."""
        return extent(self.raw)

    @cached_property
    def area(self) -> float:
        """The area of all flat pieces in it, allowances included; square inches."""
        own = sum(area(face.flat) for face in self.own_faces) + sum(more for _, more in self.caught)
        return own + sum(part.cloth.area for part in self.parts)

    @cached_property
    def cloth_of(self) -> dict[str, float]:
        """The same area, fabric by fabric."""
        found: dict[str, float] = {}
        for fabric, more in (*((face.fabric, area(face.flat)) for face in self.own_faces), *self.caught):
            found[fabric] = found.get(fabric, 0.0) + more
        for part in self.parts:
            for fabric, more in part.cloth.cloth_of.items():
                found[fabric] = found.get(fabric, 0.0) + more
        return found

    @cached_property
    def all_caught(self) -> tuple[tuple[str, float], ...]:
        """What is caught in the seams, those of the parts included."""
        return (*self.caught, *(more for part in self.parts for more in part.cloth.all_caught))

    @cached_property
    def faces(self) -> tuple[Face, ...]:
        """Every face with its raw margins: of a joined part, what lies on its side of its seams.

        Where the side of a face is sewn only in part, its margin is kept until the rest is sewn as well.
        """
        return tuple(face for face, _ in self._shown) if self.parts else self.own_faces

    @cached_property
    def _shown(self) -> tuple[tuple[Face, Polygon], ...]:
        """The faces, each with what of it is inside the net outline of its own cloth."""
        found = [(face, self._inside_net(face)) for face in self.own_faces]
        for part in self.parts:
            sewn = self._sewn_along(part)
            for face, inside in part.cloth._shown:
                lying, inner = face.placed(part.place), placed(inside, part.place)
                # What is cut out round a curve keeps its allowance, which lies under the other cloth.
                seen = beside(sewn, lying.seen, inner) if is_convex(lying.seen) else lying.seen
                if seen:
                    found.append((Face(lying.fabric, seen, lying.flat, lying.grain), inner))
        return tuple(found)

    def _sewn_along(self, part: Part) -> list[tuple[Line, Line]]:
        """The stretches of a part's sides that are sewn, the part on their left; each with its whole side."""
        corners = [part.place.at(p) for p in part.cloth.net]
        left, low, right, high = bounds(corners)
        near = [
            ((ax, ay), (bx, by))
            for (ax, ay), (bx, by) in self._own_segments
            if min(ax, bx) <= right + EDGE_MATCH
            and max(ax, bx) >= left - EDGE_MATCH
            and min(ay, by) <= high + EDGE_MATCH
            and max(ay, by) >= low - EDGE_MATCH
        ]
        return [
            (segment if dot(sub(segment[1], segment[0]), sub(side[1], side[0])) > 0 else segment[::-1], side)
            for side in zip(corners, corners[1:] + corners[:1], strict=True)
            for segment in near
            if lie_on(segment, side)
        ]

    @cached_property
    def _own_segments(self) -> list[Line]:
        return [segment for seam in self.own_seams for segment in seam.segments]

    @cached_property
    def finished(self) -> tuple[Face, ...]:
        """Every face as it will show once the cloth is sewn in: its seen part inside the net outline."""
        own = (
            Face(face.fabric, seen, face.flat, face.grain)
            for face in self.own_faces
            if (seen := self._inside_net(face))
        )
        parts = (face.placed(part.place) for part in self.parts for face in part.cloth.finished)
        return (*own, *parts)

    def _inside_net(self, face: Face) -> Polygon:
        """The part of a face inside the net outline; a piece of one face, of any shape, shows all of that."""
        return self.net if face.seen == self.raw else clip_to(face.seen, self.net)

    @cached_property
    def lies_double(self) -> bool:
        """Whether two faces of its own lie over one another other than in an allowance."""
        own = [seen for face in self.own_faces if (seen := self._inside_net(face))]
        boxed = [(seen, bounds(seen)) for seen in own]
        return any(
            overlap_area(p, q) > AS_DRAWN
            for (p, one), (q, two) in combinations(boxed, 2)
            if one[0] < two[2] and two[0] < one[2] and one[1] < two[3] and two[1] < one[3]
        )

    @cached_property
    def seams(self) -> tuple[Seam, ...]:
        """Every seam, those of the parts included."""
        return (*self.own_seams, *(s.placed(part.place) for part in self.parts for s in part.cloth.seams))

    @cached_property
    def unpressed(self) -> tuple[str, ...]:
        """The names of the seams that have not been pressed, each once."""
        own = [seam.name for seam in self.own_seams if not seam.pressed]
        distinct = {id(part.cloth): part.cloth for part in self.parts}.values()
        return tuple(dict.fromkeys(own + [name for cloth in distinct for name in cloth.unpressed]))

    def ends_on(self, side: int) -> list[SeamEnd]:
        """The seam ends on a side, from its start to its end."""
        if side not in self._ends:
            self._ends[side] = self._find_ends(self.sides[side])
        return self._ends[side]

    def _find_ends(self, side: Line) -> list[SeamEnd]:
        (x, y), along, length = side[0], unit(sub(side[1], side[0])), _length(side)
        found = []
        own = self.own_seams if self.parts else clipped_seams(self.own_seams, self.net)
        for seam in own:
            for point, (a, b), pressed in _running_out(seam):
                off = (point[0] - x, point[1] - y)
                at = dot(off, along)
                # What runs along the side, or lies beyond a slit in the cloth, does not run out on it.
                inwards = sub(b, a) if point == a else sub(a, b)
                if cross(along, unit(inwards)) <= ALONG:
                    continue
                if abs(cross(along, off)) <= EDGE_MATCH and -EDGE_MATCH <= at <= length + EDGE_MATCH:
                    ahead = dot(left_of(sub(b, a)), along) > 0
                    slant = abs(dot(unit(sub(b, a)), along))
                    found.append(SeamEnd(at, slant, ahead, seam.name, pressed))
        for part in self.parts:
            for k, offset in _sides_along(part, side):
                for inner in part.cloth.ends_on(k):
                    if -EDGE_MATCH <= offset + inner.at <= length + EDGE_MATCH:
                        at, name = offset + inner.at, inner.name
                        found.append(SeamEnd(at, inner.slant, inner.first_is_ahead, name, inner.pressed))
        return sorted(found, key=lambda e: e.at)

    def placed(self, place: Isometry) -> Cloth:
        """The same cloth, turned and moved on the table."""
        return Cloth(
            placed(self.raw, place),
            placed(self.net, place),
            tuple(face.placed(place) for face in self.own_faces),
            tuple(Part(part.cloth, place.after(part.place)) for part in self.parts),
            tuple(seam.placed(place) for seam in self.own_seams),
        )

    def picture(self, one_way: frozenset[str] = frozenset()) -> Picture:
        """What the finished cloth looks like; grain matters by quarter turns, by whole turns if one-way."""
        return Picture(
            self.net,
            tuple(
                Marked(f.fabric, f.seen, f.grain, 360.0 if f.fabric in one_way else 90.0)
                for f in self.finished
            ),
        )


def piece(fabric: str, raw: Polygon, seam: SeamSize, grain: float = LENGTHWISE) -> Cloth:
    """A flat piece of cloth, right side up, not sewn to anything."""
    return Cloth(raw, grown(raw, -seam.take_up), (Face(fabric, raw, raw, grain),))


def clipped_seams(seams: tuple[Seam, ...], window: Polygon) -> tuple[Seam, ...]:
    """The seams inside a convex window; what is cut off is gone."""
    kept = []
    for seam in seams:
        for k, segment in enumerate(seam.segments):
            inside = clip_segment(segment, window)
            if inside:
                kept.append(Seam(seam.name, inside, seam.pressed[k : k + 1]))
    return tuple(kept)


def _running_out(seam: Seam) -> list[tuple[Point, Line, Pressed | None]]:
    segments = seam.segments
    return [
        (seam.path[0], segments[0], seam.pressed[0] if seam.pressed else None),
        (seam.path[-1], segments[-1], seam.pressed[-1] if seam.pressed else None),
    ]


def _sides_along(part: Part, side: Line) -> list[tuple[int, float]]:
    """The sides of a part that run along a side, each with where it starts there."""
    (x, y), (ux, uy) = side[0], unit(sub(side[1], side[0]))
    corners = [(px - x, py - y) for px, py in map(part.place.at, part.cloth.net)]
    off = [ux * py - uy * px for px, py in corners]
    at = [ux * px + uy * py for px, py in corners]
    length = _length(side)
    found = []
    for k in range(len(corners)):
        after = (k + 1) % len(corners)
        if abs(off[k]) > EDGE_MATCH or abs(off[after]) > EDGE_MATCH:
            continue
        # Beyond a slit in the cloth sides run the other way.
        if min(at[after], length) - max(at[k], 0.0) > EDGE_MATCH:
            found.append((k, at[k]))
    return found


def _length(side: Line) -> float:
    return distance(*side)


def shifted(line: Line, by: float) -> Line:
    """A line moved to its left by a distance (to its right when negative)."""
    off = scale(left_of(unit(sub(line[1], line[0]))), by)
    return add(line[0], off), add(line[1], off)
