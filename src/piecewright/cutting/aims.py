"""How layouts are compared and looked for, for each aim: least cloth, fewest settings, least cutting."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from piecewright.cutting.marks import Strip
from piecewright.cutting.mixing import Mixing
from piecewright.cutting.saving import Score, fewer_settings, handier, on_few_settings
from piecewright.cutting.searching import shorter
from piecewright.cutting.settling import merged
from piecewright.cutting.shelves import first_fit, low, own_strips, own_then_shared, tall, upright
from piecewright.cutting.task import CuttingTask
from piecewright.cutting.wishes import Aim, CuttingWish

# More operations than each size in its own strips needs must save this share of the cloth at least, and for
# each share that they are more, this much of it besides.
MORE_WORK, EACH_MORE = 0.01, 0.4
# From so many layouts at most settings are saved.
STARTS = 6


def scores(task: CuttingTask, wish: CuttingWish) -> Score:
    """What counts for the aim, the most important first; less is better."""
    own = own_strips(task.marks)
    most = task.operations(own, wish.layers)

    def fewest(strips: list[Strip]) -> tuple[float, ...]:
        work = task.operations(strips, wish.layers)
        weight = 1 + (work > most) * (MORE_WORK + EACH_MORE * (work - most) / most)
        return task.steps(strips) * weight, task.settings(strips), work, task.marks.length(strips)

    def least_cloth(strips: list[Strip]) -> tuple[float, ...]:
        return (
            task.marks.length(strips),
            task.settings(strips),
            task.operations(strips, wish.layers),
        )

    def least_cutting(strips: list[Strip]) -> tuple[float, ...]:
        work = task.settings(strips) + task.operations(strips, wish.layers)
        return work, task.marks.length(strips)

    by_aim: dict[Aim, Score] = {
        "least cloth": least_cloth,
        "fewest settings": fewest,
        "least cutting": least_cutting,
    }
    return by_aim[wish.aim]


def ever_better(task: CuttingTask, wish: CuttingWish) -> Iterator[list[Strip]]:
    """Strips for the pieces that share them, each better for the aim than all before; the first at once.

    None takes more cloth than each size in its own strips. The bound of the task is raised on the way.
    """
    score, most = scores(task, wish), task.marks.length(own_strips(task.marks))
    best: list[Strip] | None = None
    for strips in _TRIES[wish.aim](task, wish, score):
        together = merged(strips)
        if task.marks.length(together) <= most and (best is None or score(together) < score(best)):
            best = together
            yield best


def _quick(task: CuttingTask) -> list[list[Strip]]:
    """Layouts that are there at once, none longer than the first: each size in its own strips."""
    own = own_strips(task.marks)
    quick = [own_then_shared(task.marks)]
    quick += [first_fit(task.marks, preferred) for preferred in (upright, low, tall)]
    most = task.marks.length(own)
    return [own, *(strips for strips in quick if task.marks.length(strips) <= most)]


def _mixing(task: CuttingTask, quick: list[list[Strip]]) -> Mixing:
    mixing = Mixing(task.marks, quick)
    task.raise_bound(mixing.bound)
    return mixing


def _for_least_cloth(task: CuttingTask, wish: CuttingWish, score: Score) -> Iterator[list[Strip]]:
    quick = _quick(task)
    yield from sorted(quick, key=score)[:1]
    mixing = _mixing(task, quick)
    best = min([*quick, *_dives(mixing)], key=score)
    yield best
    yield from shorter(mixing, best, wish.effort - mixing.effort, bound=mixing.bound)


def _for_fewest_settings(task: CuttingTask, wish: CuttingWish, score: Score) -> Iterator[list[Strip]]:
    quick = _quick(task)
    best = min(quick, key=score)
    yield best
    if _proven(task, quick[0]):
        return
    mixing = _mixing(task, quick)
    if _proven(task, quick[0]):
        return
    most = task.marks.length(quick[0])
    tried = [*quick]
    for strips in handier(mixing, most, wish.layers, wish.effort // 5):
        tried.append(merged(strips))
        yield tried[-1]
    for strips in on_few_settings(mixing, wish.layers, wish.effort // 3):
        tried.append(merged(strips))
        yield tried[-1]
    shortest = min(tried, key=task.marks.length)
    if not _proven(task, shortest):
        for strips in shorter(mixing, shortest, wish.effort // 5, bound=mixing.bound):
            tried.append(strips)
            yield strips
            if _proven(task, strips):
                break
    tried = [strips for strips in tried if task.marks.length(strips) <= most]
    yield from _saved(task, mixing, tried, wish, score, task.room)


def _for_least_cutting(task: CuttingTask, wish: CuttingWish, score: Score) -> Iterator[list[Strip]]:
    quick = _quick(task)
    best = min(quick, key=score)
    yield best
    mixing = _mixing(task, quick)
    most = float(task.marks.length(quick[0]))
    tried = [*quick, *map(merged, handier(mixing, most, wish.layers, wish.effort // 4))]
    tried += map(merged, on_few_settings(mixing, wish.layers, wish.effort // 2))
    tried = [strips for strips in tried if task.marks.length(strips) <= most]
    yield from tried
    yield from _saved(task, mixing, tried, wish, score, lambda _: most)


def _saved(
    task: CuttingTask,
    mixing: Mixing,
    tried: list[list[Strip]],
    wish: CuttingWish,
    score: Score,
    room: Callable[[list[Strip]], float],
) -> Iterator[list[Strip]]:
    """Ever fewer settings from the best of what was tried, with the effort that is left.

    `room` is what strips may take of the cloth.
    """
    until = mixing.effort + max(wish.effort - mixing.effort, wish.effort // 5)
    starts = sorted({score(strips): strips for strips in tried}.items())[:STARTS]
    for _, start in starts:
        yield from fewer_settings(mixing, start, score, room(start), wish.layers, until - mixing.effort)


def _dives(mixing: Mixing) -> list[list[Strip]]:
    found = mixing.dive(mixing.task.counts)
    return [] if found is None else [found]


def _proven(task: CuttingTask, strips: list[Strip]) -> bool:
    """Whether strips as short as the bound would be bought in the same length as these."""
    return task.least_steps(strips) >= task.steps(strips)


_TRIES: dict[Aim, Callable[[CuttingTask, CuttingWish, Score], Iterator[list[Strip]]]] = {
    "least cloth": _for_least_cloth,
    "fewest settings": _for_fewest_settings,
    "least cutting": _for_least_cutting,
}
