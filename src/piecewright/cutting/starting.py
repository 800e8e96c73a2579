"""What every search starts from: layouts that are there at once, and the strips that pay."""

from __future__ import annotations

from piecewright.cutting.marks import Strip
from piecewright.cutting.mixing import Mixing
from piecewright.cutting.shelves import first_fit, low, own_strips, own_then_shared, tall, upright
from piecewright.cutting.task import CuttingTask


def quick_layouts(task: CuttingTask) -> list[list[Strip]]:
    """Layouts that are there at once, none longer than the first: each size in its own strips."""
    own = own_strips(task.marks)
    quick = [own_then_shared(task.marks)]
    quick += [first_fit(task.marks, preferred) for preferred in (upright, low, tall)]
    most = task.marks.length(own)
    return [own, *(strips for strips in quick if task.marks.length(strips) <= most)]


def mixing_from(task: CuttingTask, quick: list[list[Strip]]) -> Mixing:
    """The strips that pay, from quick layouts; raises the bound of the task."""
    mixing = Mixing(task.marks, quick)
    task.raise_bound(mixing.bound)
    return mixing


def proven(task: CuttingTask, strips: list[Strip]) -> bool:
    """Whether strips as short as the bound would be bought in the same length as these."""
    return task.least_steps(strips) >= task.steps(strips)
