"""Fewer operations from the same cloth: a search for strips that are cut in whole multiples of the layers.

As the search for less length, but strips are taken out so that what stays is cut in full layers, and what is
laid anew comes in full layers first and singly for the rest.
"""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Iterator, Sequence

from piecewright.cutting.counting import operations
from piecewright.cutting.marks import Strip
from piecewright.cutting.mixing import CLOTH_ALONE, Mixing, Sparing
from piecewright.cutting.saving import together, trims_count
from piecewright.cutting.settling import counts_of, merged

# How many strips are taken out at a time, and how much more work is taken for a while, as a share.
TAKEN_OUT = (4, 14)
ALLOWANCE = 0.003
# How often strips that fill no layer go first, how often new strips come in layers, how often they are filled
# one by one, and how often trims count, and for what.
ODD_FIRST, LAYERED, ONE_BY_ONE, TRIMS_COUNT = 0.7, 0.7, 0.6, 0.5
TRIMS = (0.003, 0.02, 0.1)


def in_layers(
    mixing: Mixing, start: list[Strip], limit: float, layers: int, enough: int, effort: int
) -> Iterator[list[Strip]]:
    """Layouts within the limit of length, each with fewer operations than all before.

    Ends when they are few enough or so much effort is spent.
    """
    task = mixing.task

    def work(strips: Sequence[Strip]) -> float:
        return operations(task, strips, layers) if task.length(strips) <= limit else math.inf

    first = together(mixing, task.counts, layers, limit, CLOTH_ALONE)
    if first is not None and work(first) < work(start):
        start = first
        yield start
    yield from _search(mixing, start, work, lambda _, kept: limit - task.length(kept), layers, enough, effort)


def shorter_in_layers(
    mixing: Mixing, start: list[Strip], most: int, layers: int, enough: float, effort: int
) -> Iterator[list[Strip]]:
    """Layouts with at most so many operations, each shorter than all before.

    Ends when one is short enough or so much effort is spent.
    """
    task = mixing.task

    def length(strips: Sequence[Strip]) -> float:
        return task.length(strips) if operations(task, strips, layers) <= most else math.inf

    yield from _search(
        mixing, start, length, lambda allowed, kept: allowed - task.length(kept), layers, enough, effort
    )


def _search(
    mixing: Mixing,
    start: list[Strip],
    cost: Callable[[Sequence[Strip]], float],
    room: Callable[[float, Sequence[Strip]], float],
    layers: int,
    enough: float,
    effort: int,
) -> Iterator[list[Strip]]:
    """Ever cheaper layouts; `room(cost, kept)` is the length for new strips beside those that are kept."""
    chance, began = random.Random(0), mixing.effort
    now, least, best = start, cost(start), cost(start)
    while best > enough and mixing.effort - began < effort:
        spent = (mixing.effort - began) / effort
        allowed = max(least, best * (1 + ALLOWANCE * (1 - spent)))
        kept, out = _taken_out(now, layers, chance)
        anew = _anew(mixing, out, room(allowed, kept), layers, chance)
        strips = None if anew is None else merged([*kept, *anew])
        if strips is None or cost(strips) > allowed:
            continue
        now, least = strips, cost(strips)
        if least < best:
            best = least
            yield strips


def _anew(
    mixing: Mixing, out: Sequence[Strip], room: float, layers: int, chance: random.Random
) -> list[Strip] | None:
    counts = counts_of(mixing.task, out)
    sparing, limit = CLOTH_ALONE, room
    if chance.random() < TRIMS_COUNT:
        sparing, limit = Sparing(trims_count(mixing, chance.choice(TRIMS))), float("inf")
    in_full = layers if chance.random() < LAYERED else 1
    if chance.random() < ONE_BY_ONE:
        return _one_by_one(mixing, counts, in_full, limit, sparing, chance)
    return together(mixing, counts, in_full, limit, sparing)


def _one_by_one(
    mixing: Mixing, counts: Sequence[int], layers: int, limit: float, sparing: Sparing, chance: random.Random
) -> list[Strip] | None:
    share = mixing.one_by_one([count // layers for count in counts], limit / layers, sparing, chance)
    if share is None:
        return None
    stacked = [strip._replace(times=strip.times * layers) for strip in share]
    given = counts_of(mixing.task, stacked)
    left = [count - got for count, got in zip(counts, given, strict=True)]
    rest = mixing.one_by_one(left, limit - mixing.counted(stacked, sparing), sparing, chance)
    return None if rest is None else merged([*stacked, *rest])


def _taken_out(
    strips: Sequence[Strip], layers: int, chance: random.Random
) -> tuple[list[Strip], list[Strip]]:
    """Strips that stay and strips that go: some that fill no layer, then whole layers of others."""
    amount, taken = chance.randint(*TAKEN_OUT), [0] * len(strips)
    if chance.random() < ODD_FIRST:
        odd = [number for number, strip in enumerate(strips) if strip.times % layers]
        chance.shuffle(odd)
        for number in odd[: amount // 2]:
            taken[number] = strips[number].times % layers
    for number in _in_order(strips, chance):
        wanted = min(amount - sum(taken), max(layers, amount // 2))
        whole = (strips[number].times - taken[number]) // layers * layers
        if wanted > 0:
            taken[number] += min(whole, -(-wanted // layers) * layers)
    pairs = list(zip(strips, taken, strict=True))
    kept = [strip._replace(times=strip.times - out) for strip, out in pairs if strip.times > out]
    return kept, [strip._replace(times=out) for strip, out in pairs if out]


def _in_order(strips: Sequence[Strip], chance: random.Random) -> list[int]:
    """Any order, or those of like heights first."""
    order = list(range(len(strips)))
    if chance.random() < 0.5:
        chance.shuffle(order)
        return order
    height = chance.choice(strips).height
    far = [abs(strip.height - height) * (0.5 + chance.random()) for strip in strips]
    return sorted(order, key=far.__getitem__)
