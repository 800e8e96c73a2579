"""A search around a layout: some strips are taken out and laid anew, again and again.

Neighbourhood search with a falling allowance (Dueck and Scheuer, Journal of Computational Physics 90,
1990): a little more length is accepted at first, none at the end. Chance comes from a fixed seed.
"""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from dataclasses import replace

from piecewright.cutting.marks import CutList, Strip
from piecewright.cutting.mixing import CLOTH_ALONE, Mixing, Sparing
from piecewright.cutting.settling import counts_of, merged

# How many strips are taken out at a time, and the share of length that may be lost for a while.
TAKEN_OUT = (5, 13)
ALLOWANCE = 0.001
# How often strips are filled one by one instead of by a dive: the fewer there are, the oftener.
ONE_BY_ONE, AT_MOST = 5, 0.5
# So many strips of one pattern at most leave together.
ALIKE = 3
# What a strip without any waste counts for when the wasteful ones are taken out.
NO_WASTE = 0.02


def shorter(
    mixing: Mixing,
    start: list[Strip],
    effort: int,
    sparing: Sparing = CLOTH_ALONE,
    bound: float = 0.0,
    low: bool = False,
) -> Iterator[list[Strip]]:
    """Layouts of the same pieces, each shorter than all before (what is spared counts as length).

    Ends when the bound is reached or so much effort is spent. Where they are to be `low`, new strips are as
    high as one piece.
    """
    task, chance, began = mixing.task, random.Random(0), mixing.effort
    now, length = start, mixing.counted(start, sparing)
    best = length
    while best > bound and mixing.effort - began < effort and now:
        spent = (mixing.effort - began) / effort
        kept, out = _taken_out(task, now, chance)
        allowed = max(length, best * (1 + ALLOWANCE * (1 - spent)))
        room = allowed - mixing.counted(kept, sparing)
        heights = mixing.low_heights if low else mixing.some_heights(chance)
        at = replace(sparing, heights=heights) if task.cuts.tall else sparing
        if chance.random() < min(AT_MOST, ONE_BY_ONE / sum(strip.times for strip in now)):
            anew = mixing.one_by_one(counts_of(task, out), room, at, chance)
        else:
            anew = mixing.dive(counts_of(task, out), room, at)
        if anew is None or mixing.counted(anew, sparing) > room:
            continue
        now = merged([*kept, *anew])
        length = mixing.counted(now, sparing)
        if length < best:
            best = length
            yield now


def _taken_out(
    task: CutList, strips: Sequence[Strip], chance: random.Random
) -> tuple[list[Strip], list[Strip]]:
    """Strips that stay, and some taken out: wasteful ones, ones of like height, or any by chance."""
    amount = min(chance.randint(*TAKEN_OUT), sum(strip.times for strip in strips))
    choice = chance.random()
    if choice < 0.5:
        taken = _wasteful(task, strips, amount, chance)
    elif choice < 0.85:
        taken = _like_heights(strips, amount, chance)
    else:
        taken = _by_chance(strips, amount, chance, [1.0] * len(strips))
    pairs = list(zip(strips, taken, strict=True))
    kept = [strip._replace(times=strip.times - out) for strip, out in pairs if strip.times > out]
    return kept, [strip._replace(times=out) for strip, out in pairs if out]


def _wasteful(task: CutList, strips: Sequence[Strip], amount: int, chance: random.Random) -> list[int]:
    wastes = []
    for strip in strips:
        ways = [(task.ways[cut.way], cut) for cut in strip.cuts]
        used = sum(way.width * way.height * cut.crosscuts * cut.stack for way, cut in ways)
        wastes.append(NO_WASTE + 1 - used / (strip.height * task.width))
    return _by_chance(strips, amount, chance, wastes)


def _like_heights(strips: Sequence[Strip], amount: int, chance: random.Random) -> list[int]:
    height = chance.choice(strips).height
    far = [abs(strip.height - height) * (0.5 + chance.random()) for strip in strips]
    taken = [0] * len(strips)
    for number in sorted(range(len(strips)), key=far.__getitem__):
        taken[number] = min(strips[number].times, amount, ALIKE)
        amount -= taken[number]
    return taken


def _by_chance(
    strips: Sequence[Strip], amount: int, chance: random.Random, weights: Sequence[float]
) -> list[int]:
    taken = [0] * len(strips)
    for _ in range(amount):
        left = [
            weight * (strip.times > out) for weight, strip, out in zip(weights, strips, taken, strict=True)
        ]
        taken[chance.choices(range(len(strips)), left)[0]] += 1
    return taken
