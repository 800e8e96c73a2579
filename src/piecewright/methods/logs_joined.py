"""Logs cut to length and sewn on about a centre: what log cabins and courthouse steps share.

Every log is as long as the side that it is sewn to, and the bench holds it to that; seams are pressed
outwards, away from the centre. Every piece lies as it will in the unit; a `laying` turns all by quarters.

Terms: a *course* is what is sewn on at one go: one log, or two on opposite sides.
"""

from __future__ import annotations

from dataclasses import dataclass

from piecewright.bench.cloth import Towards
from piecewright.bench.steps import AnyStep
from piecewright.design.kinds.rounds import log_boxes
from piecewright.methods.method import Making, Start, Unit
from piecewright.methods.patches_joined import EAST, NORTH, SOUTH, WEST, in_line

SIDE = {"s": SOUTH, "e": EAST, "n": NORTH, "w": WEST}
LOG, CENTRE, FIRST = 0, 1, 2
"""Numbers of the sizes: how wide logs are cut, the centre, then how long the logs of each course are."""

Courses = tuple[tuple[str, ...], ...]
"""The sides of a round, course by course; the first half of the courses is of one fabric."""


@dataclass(frozen=True)
class LogSizes:
    """What is cut for one unit: how wide logs are, the centre, then the length of each course; inches."""

    courses: Courses

    def __call__(self, unit: Unit, take_up: float, extra: float) -> tuple[float, ...]:
        """The sizes in the order of their numbers."""
        form = unit.form
        centre, log = form.measures
        sides = tuple(side for course in self.courses for side in course)
        boxes = log_boxes(form, sides)
        # The logs of a course are of one length.
        long = [
            right - left if sides[k % len(sides)] in "ns" else high - low
            for k, (left, low, right, high) in enumerate(boxes)
            if k % len(self.courses[0]) == 0
        ]
        return tuple(size + 2 * take_up for size in (log, centre, *long))


def starts_of(courses: Courses, rounds: int) -> tuple[Start, ...]:
    """The centre, then the logs of each course, each lying as it will in the unit."""
    starts = [Start(0, 1, CENTRE, CENTRE)]
    for k, course in enumerate(courses * rounds):
        fabric = 1 if 2 * (k % len(courses)) < len(courses) else 2
        lies = course[0] in "ns"
        width, height = (FIRST + k, LOG) if lies else (LOG, FIRST + k)
        starts.append(Start(fabric, len(course), width, height))
    return tuple(starts)


@dataclass(frozen=True)
class LogSteps:
    """Course after course joined on, and pressed outwards."""

    courses: Courses

    def __call__(self, making: Making) -> tuple[AnyStep, ...]:
        """The steps of a batch."""
        now, *logs = making.pieces
        steps: list[AnyStep] = []
        for k, log in enumerate(logs):
            course = self.courses[k % len(self.courses)]
            sewn = (k + 1) * len(course)
            gives = making.gives if k == len(logs) - 1 else f"{making.gives} {sewn} logs"
            line = [now, log]
            outwards: list[Towards] = ["second"]
            if len(course) > 1:
                line, outwards = [log, now, log], ["first", "second"]
            steps += in_line(line, gives, SIDE[course[-1]], outwards, making.times, making.laying.base)
            now = gives
        return tuple(steps)
