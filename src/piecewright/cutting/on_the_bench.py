"""A pattern as the bench cuts it: one subcut of its strips."""

from __future__ import annotations

from piecewright.bench.steps import Section, Subcut
from piecewright.cutting.patterns import Pattern


def subcut_of(strip: str, pattern: Pattern, times: int) -> Subcut:
    """The step that cuts so many strips of a pile into the sections of a pattern."""
    sections = tuple(
        Section(
            gives=section.name,
            width=section.width,
            height=section.height,
            count=section.count,
            stack=section.stack,
            turned=section.turned,
        )
        for section in pattern.sections
    )
    return Subcut(takes=strip, sections=sections, times=times)
