"""How layouts are compared and looked for, for each aim: least cloth, fewest settings, least cutting."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from piecewright.cutting.fewest_settings import for_fewest_settings, for_least_cutting
from piecewright.cutting.least_cloth import for_least_cloth
from piecewright.cutting.marks import Strip
from piecewright.cutting.saving import Score
from piecewright.cutting.settling import merged
from piecewright.cutting.shelves import own_strips
from piecewright.cutting.task import CuttingTask
from piecewright.cutting.wishes import Aim, CuttingWish

# More operations than each size in its own strips needs must save this share of what is bought; twice as many
# must save this share of it besides.
MORE_WORK, TWICE_AS_MUCH = 0.035, 0.02
# So few operations more do not matter, as a share.
HAIR = 0.005


def scores(task: CuttingTask, wish: CuttingWish) -> Score:
    """What counts for the aim, the most important first; less is better."""
    own = own_strips(task.marks)
    most = task.operations(own, wish.layers)

    def fewest(strips: list[Strip]) -> tuple[float, ...]:
        work = task.operations(strips, wish.layers)
        more = (work - most) / most
        weight = 1 + (more > HAIR) * (MORE_WORK + TWICE_AS_MUCH * min(more, 1.0))
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


_TRIES: dict[Aim, Callable[[CuttingTask, CuttingWish, Score], Iterator[list[Strip]]]] = {
    "least cloth": for_least_cloth,
    "fewest settings": for_fewest_settings,
    "least cutting": for_least_cutting,
}
