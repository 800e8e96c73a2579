"""Where seams come together in a pressed thing: centres pressed one way round, and places that do not nest.

Terms:
- *ray*: a seam as it leaves a point; it goes round to the left when its allowance lies on its left;
- *centre*: a point that four seams leave all going round one way (a spun centre), or six and more of which at
  most one that runs through does not.

All is read off the cloth, so that units and things of any piecing have it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from piecewright.bench.cloth import Cloth, Pressed, Seam, SeamEnd, clipped_seams
from piecewright.bench.joining import NEAR
from piecewright.geometry.isometry import STILL, Isometry
from piecewright.geometry.point import Point, add, cross, distance, dot, near, scale, side_of, sub, unit
from piecewright.geometry.polygon import Line
from piecewright.measure.tolerance import EDGE_MATCH


@dataclass(frozen=True)
class Centre:
    """Seams that go round one way about a point; `seams` of them leave it. As seen from the front."""

    at: Point
    seams: int
    clockwise: bool


@dataclass(frozen=True)
class _Ray:
    way: Point
    round: int  # 1 to the left (against the clock), -1 to the right, 0 open or either


def shown_seams(cloth: Cloth) -> Iterator[Seam]:
    """The seams of a thing as far as they show once it is sewn in, each where it lies."""
    yield from cloth.own_seams if cloth.parts else clipped_seams(cloth.own_seams, cloth.net)
    for part in cloth.parts:
        for seam in shown_seams(part.cloth):
            yield seam.placed(part.place)


def centres_of(cloth: Cloth) -> tuple[Centre, ...]:
    """The centres in a pressed thing, from below upwards."""
    lines = [
        (line, seam.pressed[k] if seam.pressed else None)
        for seam in shown_seams(cloth)
        for k, line in enumerate(seam.segments)
    ]
    ends: list[Point] = []
    for line, _ in lines:
        ends += [p for p in line if not any(near(p, q, NEAR) for q in ends)]
    found = [centre for p in ends if (centre := _centre(p, _rays(p, lines)))]
    return tuple(sorted(found, key=lambda centre: (round(centre.at[1], 3), round(centre.at[0], 3))))


def _rays(point: Point, lines: list[tuple[Line, Pressed | None]]) -> list[_Ray]:
    rays = []
    for (a, b), pressed in lines:
        ahead = unit(sub(b, a))
        at = dot(ahead, sub(point, a))
        if abs(side_of(point, a, b)) > NEAR or not -NEAR <= at <= distance(a, b) + NEAR:
            continue
        way = {"first": 1, "second": -1}.get(pressed or "", 0)
        if at < distance(a, b) - NEAR:
            rays.append(_Ray(ahead, way))
        if at > NEAR:
            rays.append(_Ray(scale(ahead, -1.0), -way))
    return rays


def _centre(point: Point, rays: list[_Ray]) -> Centre | None:
    for way in (1, -1):
        others = [ray for ray in rays if ray.round != way]
        through = len(others) == 2 and abs(cross(others[0].way, others[1].way)) < EDGE_MATCH
        if len(rays) >= 4 and (not others or (len(rays) >= 6 and (through or len(others) == 1))):
            return Centre(point, len(rays), way < 0)
    return None


def not_nesting(cloth: Cloth, place: Isometry = STILL) -> tuple[Point, ...]:
    """Where seams that meet on a seam do not lie opposite, in a pressed thing and in all its parts."""
    own = [place.at(p) for seam in cloth.own_seams for p in _clashes(cloth, seam)] if cloth.parts else []
    inner = [p for part in cloth.parts for p in not_nesting(part.cloth, place.after(part.place))]
    return (*own, *inner)


def _clashes(cloth: Cloth, seam: Seam) -> Iterator[Point]:
    for start, end in seam.segments:
        ahead = unit(sub(end, start))
        left, right = _ends_beside(cloth, (start, end))
        for at, one in left:
            for other_at, other in right:
                if abs(at - other_at) <= NEAR and abs(one.slant - other.slant) < EDGE_MATCH:
                    # The sides run in opposite directions, so that equal leanings lie opposite.
                    if one.leans * other.leans != 1:
                        yield add(start, scale(ahead, at))
                    break


Ends = list[tuple[float, SeamEnd]]


def _ends_beside(cloth: Cloth, line: Line) -> tuple[Ends, Ends]:
    """The seams that come out on a stretch of a seam: of the cloths on its left, and on its right."""
    start, end = line
    ahead, length = unit(sub(end, start)), distance(start, end)
    both: tuple[Ends, Ends] = [], []
    for part in cloth.parts:
        for k, side in enumerate(part.cloth.sides):
            a, b = part.place.at(side[0]), part.place.at(side[1])
            along = dot(unit(sub(b, a)), ahead)
            if abs(side_of(a, start, end)) > NEAR or abs(along) < 1 - EDGE_MATCH:
                continue
            at = dot(ahead, sub(a, start))
            found = [(at + along * one.at, one) for one in part.cloth.ends_on(k) if one.pressed != "either"]
            both[along < 0].extend((p, one) for p, one in found if -NEAR <= p <= length + NEAR)
    return both
