"""`piecewright redraft`: the same quilt in sensible sizes of the other system."""

from __future__ import annotations

from pathlib import Path

from piecewright.cli.changed_quilt import write_changed
from piecewright.cli.endings import FINE
from piecewright.cli.reading import quilt_and_workroom
from piecewright.cli.telling import show, show_table
from piecewright.measure.length import Unit
from piecewright.sizing.redrafting import redraft, redrafted_words

_ROOM = {
    "cm": "Without a workroom of your own the seam is 7.5 mm, and yardage comes in steps of 10 cm.",
    "in": "Without a workroom of your own the seam is 1/4 in, and yardage comes in eighths of a yard.",
}


def redraft_quilt(quilt: Path, unit: Unit | None, out: str | None) -> int:
    """Tells the new sizes, and writes the changed quilt file where a name is given."""
    design, _, _ = quilt_and_workroom(quilt, None)
    other: Unit = unit or ("in" if design.unit == "cm" else "cm")
    after = redraft(design, other)
    show(f"{design.title}, redrafted in {'centimetres' if other == 'cm' else 'inches'}", "bold")
    changes = redrafted_words(design, after)
    show_table(("", "was", "is"), [(change.what, change.before, change.after) for change in changes])
    show(f"Pieces are cut for the new sizes, not converted. {_ROOM[other]}")
    if out is not None:
        show(f"Quilt file: {write_changed(quilt, out, design, after)}", "bold")
    return FINE
