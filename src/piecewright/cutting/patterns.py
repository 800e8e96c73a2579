"""Sections and patterns: how one strip is cut, in the words of the cutting table."""

from __future__ import annotations

from dataclasses import dataclass

from piecewright.measure.length import ZERO, Length


@dataclass(frozen=True, slots=True)
class Section:
    """`count` crosscuts, each `width` across, each subcut into a `stack` of pieces of `height`.

    `width` and `height` are as the piece lies on the cloth; `turned` says that it lies on its side.
    """

    name: str
    width: Length
    height: Length
    count: int
    stack: int = 1
    turned: bool = False

    @property
    def pieces(self) -> int:
        """How many pieces come out of one strip."""
        return self.count * self.stack

    @property
    def across(self) -> Length:
        """What the crosscuts take of the width of the strip."""
        return self.width * self.count

    @property
    def stack_height(self) -> Length:
        """What the stack takes of the height of the strip; the rest is trimmed off."""
        return self.height * self.stack


@dataclass(frozen=True, slots=True)
class Pattern:
    """`times` strips of one height, each cut into the same sections, from the left; the rest is offcut."""

    strip_height: Length
    sections: tuple[Section, ...]
    times: int = 1
    reserve: bool = False

    @property
    def across(self) -> Length:
        """What the sections take of the width of a strip."""
        return sum((section.across for section in self.sections), ZERO)

    @property
    def length(self) -> Length:
        """What the strips take of the length of the cloth."""
        return self.strip_height * self.times

    @property
    def cuts(self) -> int:
        """How many cuts are made: strips, crosscuts, subcuts and trims."""
        in_a_strip = sum(section.count * (1 + _subcuts(self, section)) for section in self.sections)
        return self.times * (1 + in_a_strip)

    def operations(self, layers: int) -> int:
        """The cuts that are made where so many equal strips are cut together."""
        return -(-self.times // layers) * (self.cuts // self.times)

    @property
    def settings(self) -> frozenset[Length]:
        """The measures to which the ruler is set while these strips are cut."""
        measures = {self.strip_height}
        for section in self.sections:
            measures.add(section.width)
            if section.stack_height != self.strip_height or section.stack > 1:
                measures.add(section.height)
        return frozenset(measures)


def _subcuts(pattern: Pattern, section: Section) -> int:
    trim = section.stack_height < pattern.strip_height
    return section.stack - 1 + trim
