"""Every way to cut a small list, one strip after another: what the search is measured against."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from piecewright.cutting.marks import CutList


def least_length(task: CutList) -> int:
    """The least length of cloth, in marks, of all layouts that are cut in the task's way."""

    @cache
    def least(left: tuple[int, ...]) -> int:
        if not any(left):
            return 0
        strips = {(height, gives) for height in task.heights for gives in _strips(task, height, left)}
        return min(
            height + task.squaring + least(tuple(a - b for a, b in zip(left, gives, strict=True)))
            for height, gives in strips
        )

    return least(task.counts)


def _strips(task: CutList, height: int, left: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
    """What a strip of this height may give: sections are filled from the left, each with one way."""

    def fill(number: int, room: int, gives: tuple[int, ...], tall: bool) -> Iterator[tuple[int, ...]]:
        if number == len(task.ways):
            if any(gives) and (tall or not task.tall(height)):
                yield gives
            return
        way = task.ways[number]
        stack = task.stack(height, way)
        for crosscuts in range(room // way.width + 1 if stack else 1):
            pieces = min(crosscuts * stack, left[way.size] - gives[way.size])
            more = (*gives[: way.size], gives[way.size] + pieces, *gives[way.size + 1 :])
            reaches = tall or (crosscuts > 0 and task.tall(way.height))
            yield from fill(number + 1, room - crosscuts * way.width, more, reaches)
            if pieces < crosscuts * stack:
                break

    yield from fill(0, task.width, (0,) * len(left), False)
