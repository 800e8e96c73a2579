"""Courthouse steps pair by pair: two logs on opposite sides, then two on the other sides, and so on round."""

from __future__ import annotations

from functools import lru_cache

from piecewright.design.kinds.courthouse import KIND, SIDES
from piecewright.design.kinds.rounds import rounds_of
from piecewright.methods.logs_joined import LogSizes, LogSteps, starts_of
from piecewright.methods.method import Family, Method, Unit
from piecewright.workroom.workroom import Workroom

NAME = "pair by pair"
COURSES = (SIDES[:2], SIDES[2:])


def members(unit: Unit, workroom: Workroom) -> tuple[Method, ...]:
    """The way for so many rounds."""
    unit.refuse_nonsense()
    return (_method(rounds_of(unit.form)),)


@lru_cache(maxsize=256)
def _method(rounds: int) -> Method:
    pairs = 2 * rounds
    return Method(
        name=NAME,
        kind=KIND.key,
        makes=1,
        starts=starts_of(COURSES, rounds),
        steps=LogSteps(COURSES),
        landmark="edges",
        reason=f"two logs alike at one go, pressed once: {pairs} pairs, and nothing to match",
        says=(
            "Sew a log to each of two opposite sides, and press both seams away from the centre.",
            "Sew the next pair to the other two sides, over the ends of the first; press outwards again.",
            "Measure after every round: a seam that is a hair off grows with each pair.",
            "Or cut as you go: sew it to a long strip, press, and cut the strip off even with its edge.",
        ),
        unknowns=2 + pairs,
        may_round=False,
        upright=True,
        every_start_turns=True,
        pressed_as_written=True,
        derived=LogSizes(COURSES),
    )


FAMILY = Family(NAME, (KIND.key,), members)
