"""A seam under the iron: pressed to a side, and where it may change side.

A seam may change side where seams of both its cloths come out at one place, and all are pressed the same way
round: a *spun* centre. The few stitches of theirs that lie in its allowance are picked out.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import accumulate, pairwise

from piecewright.bench.cloth import Cloth, Seam, SeamEnd, Towards
from piecewright.bench.joining import NEAR
from piecewright.geometry.point import Point, add, distance, dot, near, scale, side_of, sub, unit
from piecewright.measure.tolerance import EDGE_MATCH
from piecewright.problems import Problem, Refused


def pressed(
    cloth: Cloth, how: Mapping[str, tuple[Towards, ...]], changes: Mapping[str, Sequence[float]]
) -> Cloth:
    """The cloth with its unpressed seams pressed; each may change side so many inches from its start.

    Raises Refused where a seam has another number of stretches, or cannot change side.
    """
    seams = tuple(
        seam if seam.pressed else _pressed(cloth, seam, how[seam.name], changes.get(seam.name, ()))
        for seam in cloth.own_seams
    )
    return replace(cloth, own_seams=seams, _ends={})


def _pressed(cloth: Cloth, seam: Seam, towards: tuple[Towards, ...], changes: Sequence[float]) -> Seam:
    divided = seam
    for at in changes:
        divided = replace(divided, path=_divided(divided, at))
    segments = len(divided.path) - 1
    if len(towards) not in ((segments,) if changes else (1, segments)):
        raise Refused(Problem(f"the seam {seam.name} has {segments} segments, {len(towards)} are pressed"))
    divided = replace(divided, pressed=towards * segments if len(towards) == 1 else towards)
    for at in changes:
        _refuse_change(cloth, divided, at)
    return divided


def _divided(seam: Seam, at: float) -> tuple[Point, ...]:
    """The path with one more point, so many inches from its start."""
    so_far = 0.0
    for k, (start, end) in enumerate(seam.segments, 1):
        length = distance(start, end)
        if so_far + EDGE_MATCH < at < so_far + length - EDGE_MATCH:
            point = add(start, scale(unit(sub(end, start)), at - so_far))
            return (*seam.path[:k], point, *seam.path[k:])
        so_far += length
    raise Refused(
        Problem(
            f"the seam {seam.name} cannot change side {at:g} in from its start",
            do=f"It is {so_far:g} in long; name a place between its ends, and each place once.",
        )
    )


def _refuse_change(cloth: Cloth, seam: Seam, at: float) -> None:
    """Raises Refused where a seam changes side and not all that meet there go round one way with it."""
    reached = list(accumulate(distance(*segment) for segment in seam.segments))
    k = next(k for k, so_far in enumerate(reached) if abs(so_far - at) <= EDGE_MATCH)
    where = f"the seam {seam.name} cannot change side {at:g} in from its start"
    before, after = seam.pressed[k : k + 2]
    if {before, after} != {"first", "second"}:
        raise Refused(Problem(where, do=f"It is pressed {before} before and {after} after that place."))
    ends = ends_at(cloth, seam, seam.path[k + 1])
    if not all(ends):
        raise Refused(Problem(where, do="It may only where seams of both cloths meet it."))
    # Seen from the front a first side on the left goes round clockwise; so does an end that leans ahead.
    way = 1 if before == "first" else -1
    if any(found.leans != way for side in ends for found in side):
        raise Refused(Problem(where, do="Press all seams that meet there the same way round."))


def ends_at(cloth: Cloth, seam: Seam, point: Point) -> tuple[list[SeamEnd], list[SeamEnd]]:
    """The seams that come out at a point of a cloth's own seam: of cloths on its left, and on its right."""
    along = next(
        unit(sub(end, start)) for start, end in pairwise(seam.path) if near(end, point) or near(start, point)
    )
    left: list[SeamEnd] = []
    right: list[SeamEnd] = []
    for part in cloth.parts:
        for k, side in enumerate(part.cloth.sides):
            start, end = part.place.at(side[0]), part.place.at(side[1])
            ahead = dot(unit(sub(end, start)), along)
            if abs(side_of(point, start, end)) <= NEAR and abs(ahead) > 1 - EDGE_MATCH:
                at = dot(unit(sub(end, start)), sub(point, start))
                found = [one for one in part.cloth.ends_on(k) if abs(one.at - at) <= NEAR]
                (left if ahead > 0 else right).extend(found)
    return left, right
