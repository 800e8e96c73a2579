"""How the fewest ruler settings are looked for within what is bought, and the least cutting beyond it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from piecewright.cutting.layering import in_layers, shorter_in_layers
from piecewright.cutting.least_cloth import any_height, chosen_anew
from piecewright.cutting.marks import Strip
from piecewright.cutting.mixing import Mixing
from piecewright.cutting.saving import Score, fewer_settings, handier, on_few_settings
from piecewright.cutting.settling import merged
from piecewright.cutting.shelves import own_strips
from piecewright.cutting.starting import mixing_from, proven, quick_layouts
from piecewright.cutting.task import CuttingTask
from piecewright.cutting.wishes import CuttingWish

# No more operations than own strips need are looked for from few operations, and from the least length bought
# and one step more, with these shares of the effort.
FROM_HANDY, FROM_SHORT = 0.25, (0.2, 0.1)
# From so many layouts at most settings are saved.
STARTS = 6


def for_fewest_settings(task: CuttingTask, wish: CuttingWish, score: Score) -> Iterator[list[Strip]]:
    """Layouts bought in the least length, of those with few operations, and of those with few settings."""
    quick = quick_layouts(task)
    yield min(quick, key=score)
    if proven(task, quick[0]):
        return
    mixing = mixing_from(task, quick)
    if proven(task, quick[0]):
        return
    most, tried = task.marks.length(quick[0]), [*quick]
    yield from _noted(handier(mixing, most, wish.layers, wish.effort // 8), tried)
    yield from _noted(on_few_settings(mixing, wish.layers, wish.effort // 6), tried)
    yield from _noted(_least_bought(task, mixing, tried, wish), tried)
    tried = [strips for strips in tried if task.marks.length(strips) <= most]
    yield from _noted(_layered(task, mixing, tried, wish), tried)
    yield from _saved(task, mixing, tried, wish, score, task.room)


def _noted(found: Iterable[list[Strip]], tried: list[list[Strip]]) -> Iterator[list[Strip]]:
    for strips in found:
        tried.append(merged(strips))
        yield tried[-1]


def _least_bought(
    task: CuttingTask, mixing: Mixing, tried: list[list[Strip]], wish: CuttingWish
) -> Iterator[list[Strip]]:
    """Ever shorter layouts until none can be bought in a shorter length."""
    shortest = min(tried, key=task.marks.length)
    for stage, effort in ((any_height, wish.effort // 4), (chosen_anew, wish.effort // 3)):
        if proven(task, shortest):
            return
        for strips in stage(mixing, shortest, effort):
            shortest = strips
            yield strips
            if proven(task, strips):
                return


def _layered(
    task: CuttingTask, mixing: Mixing, tried: list[list[Strip]], wish: CuttingWish
) -> Iterator[list[Strip]]:
    """Layouts with no more operations than own strips need, in as short a length as can be bought.

    From layouts with few operations to the least length, and from the least length to fewer operations.
    """
    least = min(map(task.steps, tried))
    most = task.operations(own_strips(task.marks), wish.layers)
    handy = min((one for one in tried if task.operations(one, wish.layers) <= most), key=task.marks.length)
    if task.steps(handy) == least:
        return
    effort, enough = int(FROM_HANDY * wish.effort), task.room(handy, least)
    for strips in shorter_in_layers(mixing, handy, most, wish.layers, enough, effort):
        handy = strips
        yield strips
    for steps, share in zip(range(least, task.steps(handy)), FROM_SHORT, strict=False):
        short = min(
            (one for one in tried if task.steps(one) <= steps),
            key=lambda one: task.operations(one, wish.layers),
        )
        effort, limit = int(share * wish.effort), task.room(short, steps)
        for strips in in_layers(mixing, short, limit, wish.layers, most, effort):
            short = strips
            yield strips
        if task.operations(short, wish.layers) <= most:
            return


def for_least_cutting(task: CuttingTask, wish: CuttingWish, score: Score) -> Iterator[list[Strip]]:
    """Layouts with ever fewer settings and operations, none longer than each size in its own strips."""
    quick = quick_layouts(task)
    yield min(quick, key=score)
    mixing = mixing_from(task, quick)
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
