"""Taking times: rounds through all quilts, so that a slow moment of the machine falls on none alone."""

from __future__ import annotations

import gc
import statistics
import time
from collections.abc import Callable, Sequence

ROUNDS = 7


def medians(works: Sequence[Callable[[], object]], rounds: int = ROUNDS) -> list[float]:
    """The median processor time of each work, in seconds, after one round that does not count.

    As in the standard library's `timeit` the garbage collector is off while a work is timed.
    """
    times: list[list[float]] = [[] for _ in works]
    for number in range(rounds + 1):
        for work, taken in zip(works, times, strict=True):
            seconds = _timed(work)
            if number:
                taken.append(seconds)
    return [statistics.median(taken) for taken in times]


def _timed(work: Callable[[], object]) -> float:
    gc.collect()
    gc.disable()
    try:
        start = time.process_time()
        work()
        return time.process_time() - start
    finally:
        gc.enable()


def wall_clock(work: Callable[[], object], rounds: int = 3) -> float:
    """The median time that passes on the clock while a work is done, in seconds."""
    taken = []
    for _ in range(rounds):
        start = time.perf_counter()
        work()
        taken.append(time.perf_counter() - start)
    return statistics.median(taken)
