"""Joining cloths along sides of their net outlines, in whole, in part, round corners; closing.

Only raw edges, ends and seams decide where a cloth comes to lie. Sides that differ by more than
`EDGE_MATCH` are refused, so that a short unit cannot land in the right place; where one goes on beyond the
other, a `Stretch` says so.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

from piecewright.bench.cloth import Cloth, Part, Seam, SeamEnd, SeamSize
from piecewright.bench.outline import overlap, raw_of, rest_of
from piecewright.bench.stretches import Stretch, laid, length_of, reach_on, stretch_on
from piecewright.geometry.isometry import STILL, Isometry
from piecewright.geometry.point import Point, distance, near
from piecewright.geometry.polygon import Polygon, clean, placed
from piecewright.measure.tolerance import EDGE_MATCH, WELD
from piecewright.problems import Problem, Refused

Sides = tuple[int, ...]
Meet = tuple[SeamEnd, SeamEnd]

NEAR = 10 * EDGE_MATCH  # Seams that come out within this of each other meet.


@dataclass(frozen=True)
class Joining:
    """One cloth in a row of joins: the sides sewn to the one before and to the next.

    `name` is what messages call it.
    """

    cloth: Cloth
    entry: Sides
    exit: Sides
    name: str = ""


def join(parts: Sequence[Joining], name: str, seam: SeamSize, stretch: Stretch | None = None) -> Cloth:
    """The cloths joined one after another; the result lies as the first lies.

    Seams are named `name.0`, `name.1` and so on. Raises Refused where sides do not match.
    """
    if any(part.cloth.lies_double for part in parts):
        raise Refused(
            Problem("two pieces of cloth lie over one another", do="Open one before the next is sewn on.")
        )
    net = parts[0].cloth.net
    places = [STILL]
    seams: list[Seam] = []
    for k, (one, two) in enumerate(itertools.pairwise(parts)):
        before = _path(one.cloth, one.exit, places[-1])
        after = _path(two.cloth, two.entry, STILL)
        place = laid(after, before, stretch)
        lying = placed(two.cloth.net, place)
        after = [place.at(p) for p in after]
        if stretch is None:
            _refuse_mismatch(before, after, _named(one, two))
        sewn = before if stretch is None else stretch_on(before, after, stretch, _named(one, two))
        net = _glued(net, before, lying, after, sewn)
        seams.append(Seam(f"{name}.{k}", tuple(sewn)))
        places.append(place)
    joined = tuple(Part(p.cloth, place) for p, place in zip(parts, places, strict=True))
    return Cloth(raw_of(net, seam.take_up), net, (), joined, tuple(seams))


def close(cloth: Cloth, sides: tuple[int, int], name: str, seam: SeamSize) -> Cloth:
    """The cloth with two neighbouring sides sewn to each other; they must lie together already."""
    count = len(cloth.net)
    first, second = sides
    if second == (first - 1) % count:
        first, second = second, first
    if second != (first + 1) % count or first == second:
        raise Refused(
            Problem(f"sides {sides[0]} and {sides[1]} are not neighbours", do="Close from a corner.")
        )
    start, corner = cloth.sides[first]
    end = cloth.sides[second][1]
    if not near(start, end, EDGE_MATCH):
        raise Refused(
            Problem(
                f"the two sides to be closed end {distance(start, end):.4f} in apart",
                do="They must lie together before they are sewn.",
            )
        )
    points = [p for k, p in enumerate(cloth.net) if k not in (second, (second + 1) % count)]
    net = clean(points, straight=EDGE_MATCH)
    seams = (*cloth.own_seams, Seam(name, (start, corner)))
    return Cloth(raw_of(net, seam.take_up), net, cloth.own_faces, cloth.parts, seams)


def _path(cloth: Cloth, sides: Sides, place: Isometry) -> list[Point]:
    """The corners along consecutive sides, from start to end."""
    net = cloth.net
    if not sides or any(not 0 <= k < len(net) for k in sides):
        raise Refused(Problem(f"expected sides 0 to {len(net) - 1}, got {sides}"))
    if any((k + 1) % len(net) != after for k, after in itertools.pairwise(sides)):
        raise Refused(Problem(f"sides {sides} do not follow one another"))
    return [place.at(net[k]) for k in (*sides, (sides[-1] + 1) % len(net))]


def _named(one: Joining, two: Joining) -> str:
    return f" of {one.name!r} and {two.name!r}" if one.name and two.name else ""


def _refuse_mismatch(before: list[Point], after: list[Point], of_both: str) -> None:
    lengths = [distance(p, q) for p, q in itertools.pairwise(before)]
    others = [distance(p, q) for p, q in itertools.pairwise(after)][::-1]
    for length, other in zip(lengths, others, strict=False):
        if abs(length - other) > EDGE_MATCH:
            off = f"{abs(length - other):.4f} in ({length:.4f} against {other:.4f})"
            what = f"the edges{of_both} differ by {off}"
            raise Refused(Problem(what, do="Check both sizes before they are joined."))
    if len(before) != len(after) or not all(
        near(p, q, EDGE_MATCH) for p, q in zip(before, after[::-1], strict=True)
    ):
        raise Refused(Problem(f"the corners of the two edges{of_both} do not come together"))


def _glued(
    net: Polygon, before: list[Point], lying: Polygon, after: list[Point], sewn: list[Point]
) -> Polygon:
    """The outline of both cloths together; an unsewn rest of a seam stays as a slit in it."""
    rest, others = rest_of(net, before), rest_of(lying, after)
    if not (_is_convex(net) and _is_convex(lying)) and overlap(net, lying) > EDGE_MATCH * (
        1 + length_of(before)
    ):
        raise Refused(Problem("the two cloths would lie over one another"))
    if sewn is before:
        # The dots of the first cloth hold where the second's lie a hair beside them.
        return clean([*rest, *others[1:-1]], straight=EDGE_MATCH)
    return clean([sewn[-1], *rest, sewn[0], *others], straight=EDGE_MATCH)


def _is_convex(net: Polygon) -> bool:
    for (ax, ay), (bx, by), (cx, cy) in zip(net[-1:] + net[:-1], net, net[1:] + net[:1], strict=True):
        bend = (bx - ax) * (cy - by) - (by - ay) * (cx - bx)
        ahead = (bx - ax) * (cx - bx) + (by - ay) * (cy - by)
        # A slit turns back on itself.
        if bend < -WELD or (ahead < 0 and bend <= EDGE_MATCH * distance((ax, ay), (bx, by))):
            return False
    return True


def meetings(before: list[SeamEnd], after: list[SeamEnd], length: float) -> list[Meet]:
    """The pairs of seam ends that meet where two sides of this length are joined; O(n), both in order.

    Seams pair when they come out at the same place with the same slant; the second side runs the other way.
    Seams that are pressed either way do not count.
    """
    pairs: list[Meet] = []
    others = [end for end in reversed(after) if end.pressed != "either"]
    taken = [False] * len(others)
    first = 0
    for end in (end for end in before if end.pressed != "either"):
        while first < len(others) and length - others[first].at < end.at - NEAR:
            first += 1
        for k in range(first, len(others)):
            if length - others[k].at > end.at + NEAR:
                break
            if not taken[k] and abs(end.slant - others[k].slant) < EDGE_MATCH:
                pairs.append((end, others[k]))
                taken[k] = True
                break
    return pairs


def meetings_of(parts: Sequence[Joining], stretch: Stretch | None = None) -> list[tuple[Meet, ...]]:
    """For each join of a row the seam ends that meet on it; joins of equal cloths share one answer.

    Of a seam that is not sewn on the whole of both sides, those that meet where it is sewn.
    """
    known: dict[tuple[object, ...], tuple[Meet, ...]] = {}
    found = []
    for one, two in itertools.pairwise(parts):
        key = (id(one.cloth), one.exit, id(two.cloth), two.entry)
        if key not in known:
            known[key] = tuple(_met(one, two, stretch))
        found.append(known[key])
    return found


def _met(one: Joining, two: Joining, stretch: Stretch | None) -> list[Meet]:
    """The seam ends that meet on one join, side by side; a meeting in a corner of the path counts once."""
    lengths = [distance(*one.cloth.sides[side]) for side in one.exit]
    others = [distance(*two.cloth.sides[side]) for side in two.entry[::-1]]
    start, stop = (stretch.start, stretch.stop) if stretch else (0.0, sum(lengths))
    found: list[Meet] = []
    so_far = 0.0
    for k, (side, other) in enumerate(zip(one.exit, two.entry[::-1], strict=True)):
        reach = reach_on(lengths, others, k, stretch)
        for pair in meetings(one.cloth.ends_on(side), two.cloth.ends_on(other), reach):
            at = so_far + pair[0].at
            in_corner = k > 0 and pair[0].at <= NEAR
            if start - NEAR <= at <= stop + NEAR and not (in_corner and _is_among(pair, found)):
                found.append(pair)
        so_far += lengths[k]
    return found


def _is_among(pair: Meet, found: list[Meet]) -> bool:
    return any(pair[0].name == one.name and pair[1].name == two.name for one, two in found)


def meetings_closed(cloth: Cloth, sides: tuple[int, int]) -> tuple[Meet, ...]:
    """The seam ends that meet where two neighbouring sides of a cloth are sewn to each other."""
    length = distance(*cloth.sides[sides[0]])
    return tuple(meetings(cloth.ends_on(sides[0]), cloth.ends_on(sides[1]), length))


def tallied(met: Sequence[tuple[Meet, ...]]) -> list[tuple[tuple[Meet, ...], int]]:
    """The answers of `meetings_of`, each with how many joins share it."""
    times: dict[int, int] = {}
    answers = {id(pairs): pairs for pairs in met}
    for pairs in met:
        times[id(pairs)] = times.get(id(pairs), 0) + 1
    return [(answers[key], count) for key, count in times.items()]


def nests(pair: tuple[SeamEnd, SeamEnd]) -> bool:
    """Whether two meeting seams are pressed in opposite directions, so that they lock together.

    The sides run in opposite directions, so equal leanings lie opposite.
    """
    one, two = pair
    return one.leans * two.leans == 1
