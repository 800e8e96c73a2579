"""What to do about a verdict, in a plain line; each line keeps one rule of the craft."""

from __future__ import annotations

from piecewright.measure.length import Unit
from piecewright.measure.showing import show
from piecewright.sewing.stations import Station
from piecewright.tolerance.verdicts import Verdict
from piecewright.workroom.strip_sums import reading_of


def do_about(verdict: Verdict, station: Station, off: float, few: str, unit: Unit) -> str:
    """What to do about things of one kind that come out so much off (inches); `few` are out by more."""
    if verdict == "fine":
        return "Go on."
    if verdict == "ease":
        return "Leave it; pin the ends and work the difference in."
    if station is Station.TOP:
        return "See the edges that do not go together."
    if verdict == "sew again":
        return f"{few} out by more than can be eased in: sew those again."
    by = read_as(abs(off), unit)
    if off > 0:
        return f"All come out {by} large: trim all alike, to the size on the sheet."
    # Never to the smallest: then every other part would be too large for them.
    return f"All come out {by} small: keep them alike, and let what joins them follow that size."


def do_about_edges(verdict: Verdict, longer: str, shorter: str, few: str, ease: str) -> str:
    """What to do where two edges of different length are to be joined."""
    if verdict == "fine":
        return "Go on."
    if verdict == "ease":
        return "Pin the ends and work the difference in."
    if verdict == "sew again":
        return f"{few} out by more than {ease}: sew those again."
    return f"Measure some of {shorter}, and true all of {longer} up alike to that."


def few_of(share: float, count: int) -> str:
    """How many of so many, in words.

    >>> few_of(0.2, 60), few_of(0.2, 1)
    ('12 of 60 may be', 'It may be')
    """
    if count == 1:
        return "It may be"
    return f"{max(round(share * count), 1)} of {count:,} may be"


def read_as(size: float, unit: Unit) -> str:
    """A computed size (inches) as one would read it: to the nearest 1/32 in or half millimetre.

    >>> read_as(8.4011, "in"), read_as(0.001, "in")
    ('8 13/32 in', '0 in')
    """
    mark = reading_of(unit)
    return show(mark * round(size / float(mark)), unit)
