"""An entry of a cutting list that wants a shape: `shape = "60 degree triangle"`, `h = 4`, `count = 40`."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from piecewright.cutting.lists.entries import LONGEST, SMALLEST, Entries, Place
from piecewright.cutting.shapes.reading import MEASURES, ShapeEntry, shape_wanted
from piecewright.cutting.shapes.wanted import ShapeDemand
from piecewright.measure.length import ZERO
from piecewright.problems import Refused

SHAPE_ITEM_KEYS = ("shape", *MEASURES, "count", "name", "hand", "finished", "blunted", "turning", "may_turn")


def shape_from(entries: Entries, entry: Mapping[str, Any], place: Place) -> ShapeDemand | None:
    """The shape of an entry; None where something in it is wrong."""
    before = len(entries.problems)
    entries.known(entry, SHAPE_ITEM_KEYS, place)
    shape = entries.text(entry, "shape", "", place)
    said = [key for key in MEASURES if str(entry.get(key, "")).strip()]
    upright = "any" if entries.yes(entry, "may_turn", True, place) else "none"
    read = ShapeEntry(
        name=entries.text(entry, "name", "", place),
        shape=shape,
        count=entries.count(entry, "count", 1, place, 1),
        measures={key: entries.length(entry, key, ZERO, place, SMALLEST, LONGEST) for key in said},
        hand=entries.text(entry, "hand", "", place),
        finished=entries.yes(entry, "finished", False, place),
        blunted=entries.yes(entry, "blunted", False, place),
        turning=entries.text(entry, "turning", upright, place),
        seam=entries.room.take_up,
        unit=entries.unit,
    )
    if "count" not in entry:
        entries.wrong("expected a count for every piece, got none", place(""), "Write count = ...")
    if len(entries.problems) > before:
        return None
    try:
        return shape_wanted(read)
    except Refused as refused:
        for problem in refused.problems:
            entries.wrong(problem.what, place("shape"), problem.do)
        return None
