"""Piles: things that are alike, counted. Whether two cloths are alike is decided here.

Two cloths are made alike when, up to a turn, the same fabrics show in the same places with the same
grain (by quarter turns; by whole turns for a one-way print), with the same seams pressed the same way.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from piecewright.bench.cloth import Cloth, Pressed, Seam, clipped_seams
from piecewright.geometry.isometry import Isometry
from piecewright.geometry.matching import turns_onto
from piecewright.geometry.point import Point, left_of, middle, near, sub, unit
from piecewright.measure.tolerance import AS_DRAWN
from piecewright.problems import Problem, Refused

Marks = list[tuple[Point, Point]]


@dataclass(frozen=True)
class Pile:
    """Kinds of cloth under one name, each with its count; more than one kind only until trued up."""

    kinds: tuple[tuple[Cloth, int], ...] = ()

    @property
    def count(self) -> int:
        """How many things lie in the pile."""
        return sum(count for _, count in self.kinds)

    def only(self, name: str) -> Cloth:
        """The cloth that the whole pile is made of; raises Refused when they are not all alike."""
        if not self.kinds:
            raise Refused(Problem(f"there is no {name!r}"))
        if len(self.kinds) > 1:
            raise Refused(
                Problem(
                    f"the pile {name!r} holds {len(self.kinds)} kinds that are not alike",
                    do="Sort them first.",
                )
            )
        return self.kinds[0][0]

    def put(self, cloth: Cloth, count: int, one_way: frozenset[str]) -> Pile:
        """The pile with more of a cloth; what is alike is counted together."""
        for k, (kind, number) in enumerate(self.kinds):
            if kind is cloth or made_alike(cloth, kind, one_way):
                return Pile((*self.kinds[:k], (kind, number + count), *self.kinds[k + 1 :]))
        return Pile((*(kind for kind in self.kinds if kind[1]), (cloth, count)))

    def take(self, name: str, count: int) -> Pile:
        """The pile with fewer things in it; raises Refused when there are not enough."""
        self.only(name)
        if count > self.count:
            raise Refused(Problem(f"{count} {name!r} are wanted, {self.count} are there"))
        kind, number = self.kinds[0]
        return Pile(((kind, number - count),))

    def gathered(self, name: str, one_way: frozenset[str]) -> Pile:
        """The pile as one kind; raises Refused unless all its kinds look alike and are pressed."""
        if len(self.kinds) < 2:
            raise Refused(
                Problem(f"the pile {name!r} holds {len(self.kinds)} kinds", do="There is nothing to gather.")
            )
        (kind, _), *others = self.kinds
        if kind.unpressed or any(look_turn(cloth, kind, one_way) is None for cloth, _ in others):
            raise Refused(Problem(f"the things in {name!r} do not look alike", do="Keep them apart."))
        seams = tuple(_pressed_either(seam) for seam in kind.own_seams)
        return Pile(((replace(kind, own_seams=seams, _ends={}), self.count),))


def made_alike(cloth: Cloth, other: Cloth, one_way: frozenset[str] = frozenset()) -> bool:
    """Whether two cloths are the same thing, up to a turn."""
    if cloth.cloth_of.keys() != other.cloth_of.keys() or len(cloth.seams) != len(other.seams):
        return False
    places = turns_onto(cloth.picture(one_way), other.picture(one_way), AS_DRAWN)
    marks = _seam_marks(other.seams if other.parts else clipped_seams(other.seams, other.net))
    own = cloth.seams if cloth.parts else clipped_seams(cloth.seams, cloth.net)
    return any(_same_marks(_seam_marks(tuple(s.placed(place) for s in own)), marks) for place in places)


def _pressed_either(seam: Seam) -> Seam:
    either: Pressed = "either"
    return replace(seam, pressed=(either,) * len(seam.segments))


def look_turn(cloth: Cloth, other: Cloth, one_way: frozenset[str] = frozenset()) -> Isometry | None:
    """The turn that lays one cloth on another that looks the same, or None."""
    return next(turns_onto(cloth.picture(one_way), other.picture(one_way), AS_DRAWN), None)


def _seam_marks(seams: tuple[Seam, ...]) -> Marks:
    """For each segment of a seam its middle, and the direction it is pressed in (0, 0 where it is open)."""
    marks = []
    for seam in seams:
        for k, (a, b) in enumerate(seam.segments):
            across = left_of(unit(sub(b, a)))
            towards = seam.pressed[k] if seam.pressed else "open"
            factor = {"first": 1, "second": -1}.get(towards, 0)
            marks.append((middle(a, b), (across[0] * factor, across[1] * factor)))
    return marks


def _same_marks(marks: Marks, others: Marks) -> bool:
    left = list(others)
    for point, towards in marks:
        like = [o for o in left if near(point, o[0], AS_DRAWN) and near(towards, o[1], AS_DRAWN)]
        if not like:
            return False
        left.remove(like[0])
    return not left
