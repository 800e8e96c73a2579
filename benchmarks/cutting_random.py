"""Cutting lists made up by chance, as quilts have them: a seed gives the same list everywhere.

A *unit* is what blocks are made of; its pieces are as large as the unit finishes, with seam allowance.
"""

from __future__ import annotations

import random
from fractions import Fraction

from benchmarks.cutting_instances import Instance
from piecewright.cutting.wanted import Demand, Supply
from piecewright.measure.length import Length, inches

# What is added to the finished size for squares and rectangles, half-square and quarter-square triangles.
PLAIN, HALVED, QUARTERED = Fraction(1, 2), Fraction(7, 8), Fraction(5, 4)
WIDTHS = (Fraction(40), Fraction(41), Fraction(42), Fraction(83, 2), Fraction(43))
RULER = inches(24)

Size = tuple[Fraction, Fraction]


def made_up(seed: int) -> Instance:
    """One list of 4 to 18 sizes and from about a hundred to some thousand pieces."""
    chance = random.Random(seed)
    one_way = chance.random() < 0.2
    blocks = chance.randint(2, 12) * chance.choice((2, 3, 4, 5, 6, 7))
    counts: dict[Size, int] = {}
    for _ in range(chance.randint(4, 16)):
        size = _size(chance)
        counts[size] = counts.get(size, 0) + max(1, blocks * chance.choice((1, 1, 2, 2, 3, 4, 4, 8)) // 2)
    demands = [_piece(size, count, one_way) for size, count in counts.items()]
    width = chance.choice(WIDTHS)
    demands += _borders(chance, width)
    supply = Supply("made up", Length(width), inches("4 1/2"), ruler_length=RULER)
    return Instance(f"made up {seed}", tuple(demands), supply, 0, {})


def _size(chance: random.Random) -> Size:
    finished = Fraction(chance.randint(2, 12), 2)
    kind = chance.random()
    if kind < 0.35:
        return (finished + PLAIN, finished + PLAIN)
    if kind < 0.55:
        return (finished + HALVED, finished + HALVED)
    if kind < 0.62:
        return (finished + QUARTERED, finished + QUARTERED)
    if kind < 0.9:
        return (finished + PLAIN, finished * chance.choice((2, 2, 3, Fraction(3, 2), 4)) + PLAIN)
    return (Fraction(chance.randint(2, 5), 2) + PLAIN, Fraction(chance.randint(6, 16)) + PLAIN)


def _piece(size: Size, count: int, one_way: bool) -> Demand:
    width, height = map(Length, size)
    return Demand(f"{size[0]} x {size[1]}", width, height, count, may_turn=not one_way)


def _borders(chance: random.Random, width: Fraction) -> list[Demand]:
    """Binding and borders: whole strips, or lengthwise ones in every fifth list."""
    found = []
    if chance.random() < 0.5:
        found.append(
            Demand("binding", Length(width), inches("2 1/4"), chance.randint(6, 11), whole_strip=True)
        )
    if chance.random() < 0.2:
        height = inches(chance.randint(40, 80))
        found.append(Demand("border", inches(chance.randint(3, 7)), height, 4, may_turn=False, reserve=True))
    return found
