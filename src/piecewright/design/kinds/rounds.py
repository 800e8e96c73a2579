"""Logs in rounds about a square centre: how many rounds there are, and where each log lies.

Terms:
- *log*: a strip sewn on along one side of what there is already;
- *round*: the four logs that go once about it.

Measures are the centre's side and the width of a log; the rounds follow from the size of the whole.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from piecewright.design.kinds.boxes import Box, boxes_of
from piecewright.design.kinds.kind import Form
from piecewright.geometry.polygon import Polygon
from piecewright.measure.tolerance import AS_DRAWN

MOST_ROUNDS = 30
MEASURES = ("centre", "log")


def rounds_of(form: Form) -> int:
    """How many rounds of logs there are; see `wanted` for whether they come out whole."""
    centre, log = form.measures
    return round((form.width - centre) / (2 * log))


def centre_of(width: float, log: float, rounds: int) -> float:
    """The side of the centre that so many rounds of logs leave of a width; inches.

    >>> centre_of(9, 1, 3)
    3
    """
    return width - 2 * rounds * log


def wanted(form: Form) -> str:
    """A square, with whole rounds of logs about its centre."""
    if form.width != form.height:
        return "to be square"
    centre, log = form.measures
    rounds = rounds_of(form)
    if not 1 <= rounds <= MOST_ROUNDS:
        return f"to have from 1 to {MOST_ROUNDS} rounds of logs"
    whole = abs(centre_of(form.width, log, rounds) - centre) < AS_DRAWN
    return "" if whole else "to have whole rounds of logs about its centre"


def fits(patches: Sequence[Polygon], width: float, height: float) -> Iterable[tuple[float, ...]]:
    """The centre and the log that a drawing may have: a log is as wide as some patch is at its narrowest."""
    rounds, over = divmod(len(patches) - 1, 4)
    if over or not 1 <= rounds <= MOST_ROUNDS:
        return
    tried: list[float] = []
    for left, low, right, high in boxes_of(patches):
        log = min(right - left, high - low)
        centre = centre_of(width, log, rounds)
        if centre > AS_DRAWN and all(abs(log - other) > AS_DRAWN for other in tried):
            tried.append(log)
            yield centre, log


def centre_box(form: Form) -> Box:
    """Where the centre lies."""
    start = (form.width - form.measures[0]) / 2
    return start, start, start + form.measures[0], start + form.measures[0]


def log_boxes(form: Form, sides: tuple[str, ...]) -> list[Box]:
    """Where the logs lie, in the order in which they are sewn on: so many rounds of these sides."""
    log = form.measures[1]
    left, low, right, high = centre_box(form)
    found: list[Box] = []
    for side in sides * rounds_of(form):
        if side == "s":
            found.append((left, low - log, right, low))
            low -= log
        elif side == "e":
            found.append((right, low, right + log, high))
            right += log
        elif side == "n":
            found.append((left, high, right, high + log))
            high += log
        else:
            found.append((left - log, low, left, high))
            left -= log
    return found
