"""Quick layouts: each size in its own strips, and first fit on shelves."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from piecewright.cutting.marks import Cut, CutList, Strip, Way


def own_strips(task: CutList) -> list[Strip]:
    """Each size in strips of its own height, lying in the way that takes less cloth; the fall-back."""
    strips: list[Strip] = []
    for size, count in enumerate(task.counts):
        number, way = min(task.ways_of(size), key=lambda entry: _own_length(entry[1], count, task.width))
        strips += _fresh(number, way, count, task.width)
    return strips


def _own_length(way: Way, count: int, width: int) -> int:
    return -(-count // (width // way.width)) * way.height


def _fresh(number: int, way: Way, count: int, width: int) -> list[Strip]:
    full, rest = divmod(count, width // way.width)
    strips = [Strip(way.height, (Cut(number, width // way.width, 1),), full)] if full else []
    return strips + ([Strip(way.height, (Cut(number, rest, 1),), 1)] if rest else [])


def own_then_shared(task: CutList) -> list[Strip]:
    """Full strips of one size each; only what is left of every size shares strips, by first fit."""
    strips, rests = [], []
    for size, count in enumerate(task.counts):
        number, way = min(task.ways_of(size), key=lambda entry: _own_length(entry[1], count, task.width))
        full, rest = divmod(count, task.width // way.width)
        strips += _fresh(number, way, count - rest, task.width) if full else []
        rests.append(rest)
    return strips + first_fit(replace(task, counts=tuple(rests)), low)


def low(way: Way) -> tuple[int, ...]:
    """Prefers the way that lies low, along the strip."""
    return way.height, way.turned


def tall(way: Way) -> tuple[int, ...]:
    """Prefers the way that stands tall, across the strip."""
    return -way.height, way.turned


def upright(way: Way) -> tuple[int, ...]:
    """Prefers pieces as they were wanted."""
    return way.turned, way.height


def first_fit(task: CutList, preferred: Callable[[Way], tuple[int, ...]]) -> list[Strip]:
    """Tallest pieces first, each size into the room left in strips already there, then into its own.

    Strips that are alike are handled together, so the work grows with the sizes and not with the pieces.
    """
    chosen = [
        min(task.ways_of(size), key=lambda entry: preferred(entry[1])) for size in range(len(task.counts))
    ]
    order = sorted(
        range(len(chosen)), key=lambda size: (-chosen[size][1].height, -chosen[size][1].width, size)
    )
    strips: list[Strip] = []
    for size in order:
        left = task.counts[size]
        filled: list[Strip] = []
        for strip in strips:
            parts, left = _fill(strip, task, size, left)
            filled += parts
        number, way = chosen[size]
        strips = filled + _fresh(number, way, left, task.width)
    return strips


def _fill(strip: Strip, task: CutList, size: int, left: int) -> tuple[list[Strip], int]:
    """Equal strips after taking in as many pieces of a size as they hold, and the pieces still left."""
    room = task.width - sum(cut.crosscuts * task.ways[cut.way].width for cut in strip.cuts)
    best = max(
        (Cut(number, room // way.width, task.stack(strip.height, way)) for number, way in task.ways_of(size)),
        key=lambda cut: cut.crosscuts * cut.stack,
    )
    hold = best.crosscuts * best.stack
    if not left or not hold:
        return [strip], left
    full = min(strip.times, left // hold)
    parts = [Strip(strip.height, (*strip.cuts, best), full)] if full else []
    left -= full * hold
    untouched = strip.times - full
    if untouched and left:
        parts.append(Strip(strip.height, strip.cuts + some(best, left), 1))
        untouched, left = untouched - 1, 0
    if untouched:
        parts.append(Strip(strip.height, strip.cuts, untouched))
    return parts, left


def some(cut: Cut, pieces: int) -> tuple[Cut, ...]:
    """So many pieces of a cut that could give more: whole stacks, then one lower stack."""
    count, rest = divmod(pieces, cut.stack)
    whole = (Cut(cut.way, count, cut.stack),) if count else ()
    return whole + ((Cut(cut.way, 1, rest),) if rest else ())
