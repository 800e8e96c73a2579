"""Joining the sections of a foundation: ordinary full seams, the smallest parts first."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from piecewright.bench.cloth import Cloth, Seam, SeamSize, Towards
from piecewright.bench.joining import Joining, join, meetings_of, nests
from piecewright.bench.steps import AnyStep, Join, JoinPart, Press, Pressing
from piecewright.geometry.isometry import Isometry
from piecewright.geometry.point import middle, near
from piecewright.geometry.polygon import Line
from piecewright.measure.tolerance import EDGE_MATCH
from piecewright.methods.foundation.plan import Foundation, FoundationJoin
from piecewright.methods.foundation.steps import frame_of
from piecewright.problems import Problem, Refused


@dataclass(frozen=True)
class _Sewn:
    """A thing on its pile: its cloth, and from the drawing's frame into the cloth's."""

    pile: str
    cloth: Cloth
    home: Isometry


def joining_steps(
    foundation: Foundation,
    sections: Mapping[str, tuple[str, Cloth]],
    gives: str,
    times: int,
    seam: SeamSize,
    towards: Towards = "open",
) -> tuple[AnyStep, ...]:
    """The steps that join the sections so many times; none where there is one section.

    `sections` has for each letter the pile and the finished cloth of that section. Every seam is pressed as
    told, open unless told otherwise, since allowances pile up where sections meet (common practice, no
    source).
    """
    if foundation.joins is None:
        return ()
    frames = {section.letter: frame_of(section) for section in foundation.sections}
    laid = {letter: _Sewn(pile, cloth, frames[letter]) for letter, (pile, cloth) in sections.items()}
    work = _Joins(foundation.joins, laid, gives, times, seam, towards, [])
    work.sewn(foundation.joins)
    return tuple(work.steps)


@dataclass(frozen=True)
class _Joins:
    """The joins of one foundation, written one after another into `steps`."""

    whole: FoundationJoin
    laid: Mapping[str, _Sewn]
    gives: str
    times: int
    seam: SeamSize
    towards: Towards
    steps: list[AnyStep]

    def sewn(self, part: FoundationJoin | str) -> _Sewn:
        """A part with all that is in it joined."""
        if isinstance(part, str):
            return self.laid[part]
        name = self.gives if part is self.whole else f"{self.gives} {part.name}"
        return self._joined(self.sewn(part.first), self.sewn(part.second), part.seam, name)

    def _joined(self, first: _Sewn, second: _Sewn, line: Line, name: str) -> _Sewn:
        one, two = _side(first, line), _side(second, line)
        parts = [Joining(first.cloth, (), (one,), first.pile), Joining(second.cloth, (two,), (), second.pile)]
        met = [pair for pairs in meetings_of(parts) for pair in pairs]
        nested = sum(map(nests, met))
        cloth = join(parts, name, self.seam)
        self.steps.append(
            Join(
                parts=(JoinPart(name=first.pile, exit=(one,)), JoinPart(name=second.pile, entry=(two,))),
                gives=name,
                times=self.times,
                expect=cloth.size,
                nests=nested,
                clashes=len(met) - nested,
            )
        )
        self.steps.append(Press(pile=name, seams=(Pressing(f"{name}.0", (self.towards,)),)))
        pressed = tuple(_pressed(own, self.towards) for own in cloth.own_seams)
        return _Sewn(name, replace(cloth, own_seams=pressed, _ends={}), first.home)


def _pressed(seam: Seam, towards: Towards) -> Seam:
    return replace(seam, pressed=(towards,) * len(seam.segments))


def _side(sewn: _Sewn, seam: Line) -> int:
    """The number of the side of a cloth that lies along a seam of the drawing."""
    wanted = sewn.home.at(middle(*seam))
    for k, side in enumerate(sewn.cloth.sides):
        if near(middle(*side), wanted, EDGE_MATCH):
            return k
    raise Refused(
        Problem(f"{sewn.pile!r} has no whole side along its seam", do="Check the sections it is made of.")
    )
