"""Corner-flipped units by stitch-and-flip: a square sewn over each corner that is flipped.

A second line of stitching beside the first saves what is cut off as small half-square triangles.
"""

from __future__ import annotations

from functools import lru_cache
from math import sqrt

from piecewright.bench.steps import AnyStep
from piecewright.design.kinds.corner_flipped import FLIPPED, flipped, room_left
from piecewright.methods.bonus import bonus, is_worth_it
from piecewright.methods.corner_lines import flips
from piecewright.methods.method import Family, Making, Method, Start, Unit
from piecewright.workroom.workroom import Workroom

NAME = "stitch and flip"
SAVED = "stitch and flip, bonus saved"

SAYS = (
    "Draw a line from corner to corner on the wrong side of the small squares.",
    "Lay one in a corner of the base, right sides together, its line across the corner.",
    "Sew a thread beside the line, on the side of the corner that goes.",
)
TRIM = ("Trim that corner, leaving a seam allowance, and press to the corner.",)
SAVE = (
    "Sew again twice the needle's distance from the first seam, towards the corner, and cut midway between.",
    "Press the unit to its corner, and the small unit to the darker cloth.",
)
AGAIN = ("Do the same in each corner that is flipped, then trim what stands out flush with the base.",)
LATER = ("True up the small units to a size of their own.",)


def exact(unit: Unit, take_up: float, extra: float) -> tuple[float, ...]:
    """The base's sides and the corner squares': squares and rectangles grow by a seam on each side."""
    return tuple(float(size) + 2 * take_up + extra for size in (unit.width, unit.height, *unit.measures))


def _method(unit: Unit, saves: bool) -> Method:
    corners = flipped(unit.kind, unit.form)
    count = len(corners)

    def steps(making: Making) -> tuple[AnyStep, ...]:
        """One corner after another, opposite ones together."""
        width, height, side = making.sizes
        return flips(making, corners, (width, height), side, bonus=saves)

    return Method(
        name=SAVED if saves else NAME,
        kind=unit.kind,
        makes=1,
        starts=(Start(0, 1, 0, 1), Start(1, count, 2, 2)),
        steps=steps,
        landmark="base",
        reason="whole sizes, and each corner that is cut off makes a small unit besides"
        if saves
        else "whole sizes and no bias edge to handle, but each corner is lost twice over",
        says=(*SAYS, *(SAVE if saves else TRIM), *(AGAIN if count > 1 else ()), *(LATER if saves else ())),
        unknowns=3,
        may_round=False,
        besides=(bonus(count),) if saves else (),
        derived=exact,
        pressed_as_written=True,
    )


@lru_cache(maxsize=1024)
def plain(unit: Unit, workroom: Workroom) -> tuple[Method, ...]:
    """The plain way, for the corners of this unit."""
    return (_method(unit, saves=False),)


@lru_cache(maxsize=1024)
def saved(unit: Unit, workroom: Workroom) -> tuple[Method, ...]:
    """The way that saves what comes off, where that makes units worth having.

    Where corners meet, what comes off the second has a tip of the first in it: there it is not offered.
    """
    take_up = float(workroom.take_up)
    *_, corner = exact(unit, take_up, 0.0)
    clear = room_left(unit.kind, unit.form, least=2) >= (2 - sqrt(2)) * take_up
    return (_method(unit, saves=True),) if clear and is_worth_it(corner, take_up) else ()


FAMILY = Family(NAME, tuple(FLIPPED), plain)
FAMILY_SAVED = Family(SAVED, tuple(FLIPPED), saved)
