"""A target that is too small for a design: which figure, by how much, and the nearest thing that works."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from piecewright.design.model import Design, finished_size
from piecewright.measure.length import ZERO, Length
from piecewright.measure.showing import show
from piecewright.problems import Problem, Refused
from piecewright.sizing.answer import Answer, Target, size_words
from piecewright.sizing.parity import CountWish
from piecewright.sizing.resizing import with_counts


def refuse_too_small(
    design: Design, target: Target, wishes: Sequence[CountWish], nearest: Sequence[Answer]
) -> None:
    """Raises Refused with all that is too small about a target; does nothing where it is large enough."""
    found = list(_too_small(design, target, wishes))
    if not found:
        return
    do = ""
    if nearest:
        changed = ", ".join(nearest[0].changes) or "the quilt as it is"
        do = f"The nearest that works is {size_words(nearest[0].size, design.unit)}: {changed}."
    raise Refused(*(Problem(what, do=do if what is found[-1] else "") for what in found))


def border_that_fits(design: Design, target: Target) -> Length:
    """How wide the outermost border must be for the width that is wanted, when all else stays.

    Raises Refused where there is no room for one, or the design has none.
    """
    unit = design.unit
    if not design.borders:
        raise Refused(Problem("expected a border to change, got none.", do="Add a [[borders]] section."))
    inside = finished_size(replace(design, borders=design.borders[:-1]))
    room = target.width - inside[0]
    if room <= ZERO:
        what = (
            f"a border cannot fit: what it goes round is {show(inside[0], unit)} wide, "
            f"the quilt wanted {show(target.width, unit)}, {show(-room, unit)} too little."
        )
        do = f"Make the quilt wider than {show(inside[0], unit)}, or leave out a column of blocks."
        raise Refused(Problem(what, do=do))
    return room / 2


def _too_small(design: Design, target: Target, wishes: Sequence[CountWish]) -> Iterator[str]:
    """One sentence for each direction in which the quilt cannot be so small."""
    unit = design.unit
    bare = replace(design, borders=())
    one, few = (finished_size(with_counts(bare, *counts)) for counts in ((1, 1), _least(wishes)))
    edge = sum((border.width for border in design.borders), ZERO) * 2
    blocks = (design.block_width, design.block_height)
    for i, (name, words) in enumerate((("width", "across"), ("height", "down"))):
        wanted, most = target.size[i], target.size[i] + target.tolerance
        got = f"got a {name} of {show(wanted, unit)}"
        if most < one[i]:
            short, block = show(one[i] - wanted, unit), show(blocks[i], unit)
            sashed = f" with its sashing ({show(one[i], unit)})" if one[i] != blocks[i] else ""
            yield f"expected room for one block of {block}{sashed}, {got}, {short} less."
        elif most < few[i]:
            need = f"at least {wishes[i].least} blocks {words} ({show(few[i], unit)})"
            short = show(few[i] - wanted, unit)
            yield f"expected {need}, as {wishes[i].why}; {got}, {short} less."
        elif most < few[i] + edge:
            least, short = show(few[i] + edge, unit), show(few[i] + edge - wanted, unit)
            border = f"borders that take {show(edge, unit)}"
            yield f"expected at least {least} for the blocks and {border}, {got}, {short} less."


def _least(wishes: Sequence[CountWish]) -> tuple[int, int]:
    return wishes[0].least, wishes[1].least
