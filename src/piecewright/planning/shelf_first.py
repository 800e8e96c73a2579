"""Planning with a shelf: ways that need whole widths of cloth are given up where that spares buying.

Strips of strip sets run from selvedge to selvedge; they cannot be cut from fat quarters and squares.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import msgspec

from piecewright.cutting.wishes import LITTLE_EFFORT
from piecewright.design.model import Design
from piecewright.measure.length import ZERO
from piecewright.measure.showing import show_cloth
from piecewright.methods.strip_set import SET
from piecewright.planning.job import Job
from piecewright.planning.make_plan import make_plan
from piecewright.planning.things import Cut
from piecewright.problems import Problem, Refused
from piecewright.shelf.shelf import Shelf
from piecewright.workroom.workroom import Workroom


def plan_from_shelf(
    design: Design, workroom: Workroom, shelf: Shelf | None = None, effort: int = LITTLE_EFFORT
) -> Job:
    """The job that buys least where there is a shelf; the plan as wished where nothing is spared by it.

    Raises Refused as `make_plan`.
    """
    job = make_plan(design, workroom, shelf=shelf, effort=effort)
    if shelf is None or not _may_spare(job, shelf):
        return job
    without = msgspec.structs.replace(workroom, refused=(*workroom.refused, SET))
    try:
        other = make_plan(design, without, shelf=shelf, effort=effort)
    except Refused:
        return job
    if not other.replay.made_as_drawn or _bought(other) >= _bought(job):
        return job
    return replace(other, notes=(*other.notes, _spared(job, other)))


def _may_spare(job: Job, shelf: Shelf) -> bool:
    """Whether a cloth that the shelf has is bought all the same, for strips from selvedge to selvedge."""
    on_hand = {cloth.fabric for cloth in shelf.cloth}
    half = {layout.key: layout.usable_width.exact / 2 for layout in job.layouts if layout.key in on_hand}
    return any(
        isinstance(thing, Cut)
        and not thing.whole_strip
        and thing.fabric in half
        and max(thing.width, thing.height).exact >= half[thing.fabric]
        for thing in job.things.values()
    )


def _bought(job: Job) -> Fraction:
    """What is bought, in square inches."""
    return sum((one.buy.exact * one.usable_width.exact for one in job.layouts), Fraction(0))


def _spared(job: Job, other: Job) -> Problem:
    lengths = {layout.key: layout.buy for layout in other.layouts}
    spared = {
        layout.key: layout.buy - lengths.get(layout.key, ZERO)
        for layout in job.layouts
        if layout.buy > lengths.get(layout.key, ZERO)
    }
    told = " and ".join(f"{show_cloth(length, job.design.unit)} of {key!r}" for key, length in spared.items())
    return Problem(
        f"{SET} are left out, since they need whole widths: cut from the shelf, the quilt needs {told} less",
        "the shelf",
        "Plan without the shelf to see them.",
        weight="note",
    )
