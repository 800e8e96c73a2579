"""Joining cloths along sides of their net outlines, in whole, in part, round corners; closing.

Only raw edges, ends and seams decide where a cloth comes to lie. Sides that differ by more than
`EDGE_MATCH` are refused, so that a short unit cannot land in the right place.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

from piecewright.bench.cloth import Cloth, Part, Seam, SeamEnd, SeamSize
from piecewright.bench.outline import overlap, raw_of, rest_of
from piecewright.geometry.isometry import STILL, Isometry, laying
from piecewright.geometry.point import Point, add, distance, near, scale, sub, unit
from piecewright.geometry.polygon import Polygon, clean, placed
from piecewright.measure.tolerance import EDGE_MATCH, WELD
from piecewright.problems import Problem, Refused

Sides = tuple[int, ...]
Meet = tuple[SeamEnd, SeamEnd]

NEAR = 10 * EDGE_MATCH  # Seams that come out within this of each other meet.


@dataclass(frozen=True)
class Stretch:
    """A seam sewn in part: from `start` to `stop` along the first cloth's side; which ends are flush."""

    start: float
    stop: float
    flush_at_start: bool


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
        place = _laid(after, before, stretch)
        lying = placed(two.cloth.net, place)
        after = [place.at(p) for p in after]
        if stretch is None:
            _refuse_mismatch(before, after, _named(one, two))
        sewn = before if stretch is None else _stretch_of(before, after, stretch)
        net = _glued(net, before, lying, after, sewn)
        seams.append(Seam(f"{name}.{k}", tuple(sewn)))
        places.append(place)
    laid = tuple(Part(p.cloth, place) for p, place in zip(parts, places, strict=True))
    return Cloth(raw_of(net, seam.take_up), net, (), laid, tuple(seams))


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
    net = clean(points)
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


def _laid(after: list[Point], before: list[Point], stretch: Stretch | None) -> Isometry:
    """The place of the second cloth: its path lies on the first's, the other way round."""
    if stretch is not None and not stretch.flush_at_start:
        return laying(after[0], after[1], before[-1], before[-2])
    return laying(after[-1], after[-2], before[0], before[1])


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


def _stretch_of(before: list[Point], after: list[Point], stretch: Stretch) -> list[Point]:
    """The two ends of a seam sewn in part; it must lie on the sides of both cloths."""
    length, other = distance(before[0], before[1]), distance(after[0], after[1])
    first, last = (0.0, other) if stretch.flush_at_start else (length - other, length)
    first, last = max(first, 0.0), min(last, length)
    if (
        len(before) > 2
        or len(after) > 2
        or not first - EDGE_MATCH <= stretch.start < stretch.stop <= last + EDGE_MATCH
    ):
        raise Refused(
            Problem(
                f"a seam cannot be sewn from {stretch.start:g} to {stretch.stop:g} in here; "
                f"the two sides lie together from {first:g} to {last:g} in"
            )
        )
    along = unit(sub(before[1], before[0]))
    return [add(before[0], scale(along, stretch.start)), add(before[0], scale(along, stretch.stop))]


def _glued(
    net: Polygon, before: list[Point], lying: Polygon, after: list[Point], sewn: list[Point]
) -> Polygon:
    """The outline of both cloths together; an unsewn rest of a seam stays as a slit in it."""
    rest, others = rest_of(net, before), rest_of(lying, after)
    reach = sum(distance(p, q) for p, q in itertools.pairwise(before))
    if not (_is_convex(net) and _is_convex(lying)) and overlap(net, lying) > EDGE_MATCH * (1 + reach):
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


def meetings_of(parts: Sequence[Joining]) -> list[tuple[Meet, ...]]:
    """For each join of a row the seam ends that meet on it; joins of equal cloths share one answer."""
    known: dict[tuple[object, ...], tuple[Meet, ...]] = {}
    found = []
    for one, two in itertools.pairwise(parts):
        key = (id(one.cloth), one.exit, id(two.cloth), two.entry)
        if key not in known:
            known[key] = tuple(
                pair
                for side, other in zip(one.exit, two.entry[::-1], strict=True)
                for pair in meetings(
                    one.cloth.ends_on(side), two.cloth.ends_on(other), distance(*one.cloth.sides[side])
                )
            )
        found.append(known[key])
    return found


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
