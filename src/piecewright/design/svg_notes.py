"""What was done to a drawing to make it a block, told in a line each."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from piecewright.design.svg_shapes import DrawnBlock
from piecewright.measure.length import Unit
from piecewright.measure.showing import show_exact


def notes_on(drawn: DrawnBlock, left_out: Mapping[str, int], written: str, unit: Unit) -> Iterator[str]:
    """The notes; `left_out` counts what was no patch, by its kind; `written` is the drawing's name."""
    if left_out:
        things = ", ".join(counted(count, thing) for thing, count in left_out.items())
        yield f"left out of {written}, since it is no patch: {things}."
    if drawn.covered:
        yield f"{counted(drawn.covered, 'shape')} of {written} cannot be seen under others."
    if drawn.opened:
        yield f"{counted(drawn.opened, 'filled outline')} of {written} had open ends; a line joins them."
    if drawn.curves:
        outlines = counted(drawn.curves, "curved outline")
        straight = "curves are made of straight pieces, which lie 1/64 in (0.4 mm) off at most"
        yield f"{outlines} of {written}: {straight}."
    if drawn.moved:
        how_far = show_exact(drawn.farthest, unit)
        yield f"{counted(drawn.moved, 'corner')} of {written} nearly met others: moved by {how_far} at most."
    if drawn.slivers:
        yield f"{counted(drawn.slivers, 'sliver')} of {written} went to the patches beside."


def counted(count: int, thing: str) -> str:
    """A number of things: `1 text`, `3 copies`.

    >>> counted(1, "text"), counted(3, "picture"), counted(2, "shape without a fill")
    ('1 text', '3 pictures', '2 shapes without a fill')
    """
    if count == 1:
        return f"1 {thing}"
    first, space, others = thing.partition(" without ") if " without " in thing else thing.partition(" of ")
    words = f"{first[:-1]}ies" if first.endswith("y") else f"{first}s"
    return f"{count} {words}{space}{others}"
