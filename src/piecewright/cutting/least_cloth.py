"""How the least cloth is looked for, stage by stage."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from piecewright.cutting.choosing import shorter_choice
from piecewright.cutting.marks import Strip
from piecewright.cutting.mixing import Mixing, Sparing
from piecewright.cutting.saving import Score
from piecewright.cutting.searching import shorter
from piecewright.cutting.settling import merged
from piecewright.cutting.starting import mixing_from, quick_layouts
from piecewright.cutting.task import CuttingTask
from piecewright.cutting.wishes import CuttingWish

# A choice among all strips made so far pays up to so many sizes, where so much effort is left for each.
MOST_SIZES, EACH_SIZE = 24, 2_000


def for_least_cloth(task: CuttingTask, wish: CuttingWish, score: Score) -> Iterator[list[Strip]]:
    """Ever shorter layouts, from quick ones to those that were searched for."""
    quick = quick_layouts(task)
    yield from sorted(quick, key=score)[:1]
    mixing = mixing_from(task, quick)
    found = mixing.dive(mixing.task.counts)
    best = min([*quick, *([] if found is None else [found])], key=score)
    yield best
    for share, search in STAGES:
        effort = int(share * wish.effort) - mixing.effort
        for strips in search(mixing, best, effort):
            best = min(best, merged(strips), key=score)
            yield best


def low_first(mixing: Mixing, start: list[Strip], effort: int) -> Iterator[list[Strip]]:
    """Tall strips are looked for only after those as high as one piece."""
    if mixing.task.cuts.tall:
        found = mixing.dive(mixing.task.counts, sparing=Sparing(heights=mixing.low_heights))
        yield from shorter(mixing, found or start, effort, bound=mixing.bound, low=True)


def any_height(mixing: Mixing, start: list[Strip], effort: int) -> Iterator[list[Strip]]:
    """Shorter layouts from strips of all heights."""
    yield from shorter(mixing, start, effort, bound=mixing.bound)


def chosen_anew(mixing: Mixing, start: list[Strip], effort: int) -> Iterator[list[Strip]]:
    """The best choice among all strips that were made so far, where so much effort is left."""
    task = mixing.task
    sizes = len(task.counts)
    if sizes <= MOST_SIZES and effort >= EACH_SIZE * sizes and task.length(start) > mixing.bound:
        found = shorter_choice(mixing, start)
        yield from [] if found is None else [found]


Stage = Callable[[Mixing, list[Strip], int], Iterator[list[Strip]]]
# How least cloth is looked for: what does it, and the share of the effort that is spent when it ends.
STAGES: tuple[tuple[float, Stage], ...] = (
    (0.3, low_first),
    (0.65, any_height),
    (1.0, chosen_anew),
    (1.0, any_height),
)
