"""The order of cuts: what a person cuts first, second and third, number by number.

Terms:
- *numbered cut*: equal cuts that are made one after the other with one setting of the ruler;
- *place*: where its cuts lie: in the strips of a pattern, or in one section of them;
- *on top*: straightening the end of the cloth, and the end of each strip, is not among the counted cuts.

Strips of one ruler setting are cut together, reserved ones first, then the tallest. Each of these strips is
crosscut before the next strips are cut: first with the ruler as it is, then with one setting after another,
the widest first. A stack is subcut as soon as its setting comes, so that as a rule the ruler is set to each
measure once.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby
from typing import Literal

from piecewright.cutting.given.layout import CutGiven
from piecewright.cutting.layout import Layout
from piecewright.cutting.patterns import Pattern, Section
from piecewright.measure.length import ZERO, Length

CutKind = Literal["straighten", "strips", "crosscuts", "subcuts"]


@dataclass(frozen=True, slots=True)
class CutPlace:
    """Where cuts lie: in the pattern with this index, and there in the section with this index."""

    pattern: int
    section: int = -1


@dataclass(frozen=True, slots=True)
class CutPieces:
    """So many finished pieces, of the size that was wanted."""

    name: str
    width: Length
    height: Length
    count: int


@dataclass(frozen=True, slots=True)
class NumberedCut:
    """`cuts` equal cuts with the ruler at `setting`; `gives` are the pieces that are finished by them.

    *Subcuts* part a stack into equal pieces, or trim what is lower than its strip. `set_anew` is False where
    the ruler stays as it was. Straightening has no setting, and its cut comes on top of those counted.
    """

    number: int
    kind: CutKind
    setting: Length | None
    cuts: int
    places: tuple[CutPlace, ...]
    gives: tuple[CutPieces, ...] = ()
    set_anew: bool = True

    @property
    def on_top(self) -> bool:
        """Whether its cuts come on top of those that a layout counts."""
        return self.kind == "straighten"


def order_of_cuts(layout: Layout) -> tuple[NumberedCut, ...]:
    """The cuts of a layout in their order, from 1; all but the straightening add up to `layout.cuts`.

    >>> from piecewright.cutting.laying import lay_out
    >>> from piecewright.cutting.wanted import Demand, Supply
    >>> from piecewright.measure.length import inches
    >>> size, cloth = inches("2 7/8"), Supply("sail", inches(40), buying_step=inches("4 1/2"))
    >>> for cut in order_of_cuts(lay_out([Demand("squares", size, size, 76)], cloth)):
    ...     print(cut.number, cut.kind, cut.setting, cut.cuts)
    1 straighten None 1
    2 strips 2 7/8 in 6
    3 crosscuts 2 7/8 in 76
    """
    if not layout.patterns:
        return ()
    straighten = NumberedCut(1, "straighten", None, 1, (CutPlace(0),), set_anew=False)
    return (straighten, *_numbered(_cuts(layout.patterns), 2))


def order_of_given_cuts(cut: CutGiven) -> tuple[NumberedCut, ...]:
    """The same for given cloth, all its equal pieces together; adds up to `cut.cuts`.

    Its sizes are what can be used, so nothing is straightened. A last strip that fills the cloth to its edge
    is counted as a cut though the edge is there.
    """
    return tuple(_numbered(_cuts(cut.patterns, cut.times, cut.along), 1))


def own_size(section: Section, along: bool = False) -> tuple[Length, Length]:
    """The width and height that were wanted, whichever way the pieces and their strips lie."""
    sides = (section.width, section.height)
    return sides if section.turned == along else sides[::-1]


def in_order_of_cutting(
    pattern: Pattern, index: int, cuts: Sequence[NumberedCut]
) -> tuple[tuple[int, Section], ...]:
    """The sections of a pattern with their own indices, as they are crosscut one after the other."""
    numbers = {
        place.section: cut.number
        for cut in cuts
        if cut.kind == "crosscuts"
        for place in cut.places
        if place.pattern == index
    }
    return tuple(sorted(enumerate(pattern.sections), key=lambda pair: numbers[pair[0]]))


def _numbered(cuts: Iterator[NumberedCut], first: int) -> Iterator[NumberedCut]:
    before: Length | None = None
    for number, cut in enumerate(cuts, first):
        # Figures for ruler settings count each height of strips for itself.
        anew = cut.kind == "strips" or cut.setting != before
        yield replace(cut, number=number, set_anew=anew)
        before = cut.setting


@dataclass(frozen=True, slots=True)
class _Part:
    """A section in its place, with how many strips it is cut from."""

    place: CutPlace
    section: Section
    strips: int
    strip_height: Length
    along: bool

    @property
    def crosscuts(self) -> int:
        return self.section.count * self.strips

    @property
    def subcuts(self) -> int:
        trim = self.section.stack_height < self.strip_height
        return (self.section.stack - 1 + trim) * self.crosscuts

    @property
    def pieces(self) -> CutPieces:
        one = self.section
        return CutPieces(one.name, *own_size(one, self.along), one.pieces * self.strips)


def _cuts(patterns: Sequence[Pattern], times: int = 1, along: bool = False) -> Iterator[NumberedCut]:
    """Of all patterns, those of one strip height together; not numbered yet."""
    told = groupby(enumerate(patterns), key=lambda one: (one[1].reserve, one[1].strip_height))
    for (_, height), group in told:
        alike = list(group)
        strips = sum(pattern.times for _, pattern in alike) * times
        yield NumberedCut(0, "strips", height, strips, tuple(CutPlace(index) for index, _ in alike))
        parts = [
            _Part(CutPlace(index, number), section, pattern.times * times, height, along)
            for index, pattern in alike
            for number, section in enumerate(pattern.sections)
        ]
        yield from _across(parts, height)


def _across(parts: Sequence[_Part], height: Length) -> Iterator[NumberedCut]:
    """Crosscuts and subcuts of strips of one height, one setting of the ruler after another."""
    uncut, unparted = list(parts), [part for part in parts if part.subcuts]
    setting = height
    while uncut or unparted:
        crosscut = [part for part in uncut if part.section.width == setting]
        uncut = [part for part in uncut if part.section.width != setting]
        if crosscut:
            finished = [part for part in crosscut if not part.subcuts]
            yield _together(
                "crosscuts", setting, crosscut, finished, sum(part.crosscuts for part in crosscut)
            )
        ready = [part for part in unparted if part.section.height == setting and part not in uncut]
        unparted = [part for part in unparted if part not in ready]
        if ready:
            yield _together("subcuts", setting, ready, ready, sum(part.subcuts for part in ready))
        setting = _next_setting(uncut, unparted)


def _next_setting(uncut: Sequence[_Part], unparted: Sequence[_Part]) -> Length:
    """The widest setting that need not be set again later, or the widest of the crosscuts."""
    settings = {part.section.width for part in uncut} | {part.section.height for part in unparted}
    again = {
        part.section.height
        for part in unparted
        if part in uncut and part.section.width != part.section.height
    }
    return max(settings - again or {part.section.width for part in uncut}, default=ZERO)


def _together(
    kind: CutKind, setting: Length, parts: Sequence[_Part], finished: Sequence[_Part], cuts: int
) -> NumberedCut:
    gives: dict[str, CutPieces] = {}
    for pieces in (part.pieces for part in finished):
        known = gives.get(pieces.name)
        gives[pieces.name] = replace(pieces, count=pieces.count + (known.count if known else 0))
    return NumberedCut(0, kind, setting, cuts, tuple(part.place for part in parts), tuple(gives.values()))
