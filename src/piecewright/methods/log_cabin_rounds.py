"""Log cabins log by log: round and round the centre, light on two neighbouring sides, dark on the others."""

from __future__ import annotations

from functools import lru_cache

from piecewright.design.kinds.log_cabin import KIND, SIDES
from piecewright.design.kinds.rounds import rounds_of
from piecewright.methods.logs_joined import LogSizes, LogSteps, starts_of
from piecewright.methods.method import Family, Method, Unit
from piecewright.workroom.workroom import Workroom

NAME = "log by log"


def members(unit: Unit, workroom: Workroom) -> tuple[Method, ...]:
    """The way for so many rounds, turning the unit's way."""
    unit.refuse_nonsense()
    return (_method(rounds_of(unit.form), unit.form.hand),)


@lru_cache(maxsize=256)
def _method(rounds: int, hand: str) -> Method:
    courses = tuple((side,) for side in SIDES[hand])
    way = "clockwise" if hand == "right" else "counter-clockwise"
    logs = 4 * rounds
    return Method(
        name=NAME,
        kind=KIND.key,
        makes=1,
        starts=starts_of(courses, rounds),
        steps=LogSteps(courses),
        landmark="edges",
        reason=f"one long seam after another, and nothing to match: {logs} logs, each as long as its side",
        says=(
            f"Sew the logs on in order, {way} as seen from the front: two light, two dark, and so on round.",
            "Lay each log underneath, so that you see the seams that you cross, and sew with the usual seam.",
            "Press every seam away from the centre before the next log goes on.",
            "Measure after every round: a seam that is a hair off grows with each log.",
            "Or cut as you go: sew it to a long strip, press, and cut the strip off even with its edge.",
        ),
        unknowns=2 + logs,
        may_round=False,
        upright=True,
        every_start_turns=True,
        pressed_as_written=True,
        derived=LogSizes(courses),
    )


FAMILY = Family(NAME, (KIND.key,), members)
