"""What can still be made of pieces of cloth on hand: for each finished size the most units, and how."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from piecewright.batches.on_hand import Answer, OnHand, grids_for, most_from_hand
from piecewright.measure.length import Length, inches, mm
from piecewright.methods.comparing import compare_ways, unit_wanted
from piecewright.methods.method import Unit
from piecewright.methods.recipe import Recipe
from piecewright.problems import Problem, Refused
from piecewright.workroom.workroom import Workroom

SIDES = {
    "in": tuple(map(inches, ("1", "1 1/2", "2", "2 1/2", "3", "4", "5", "6", "8"))),
    "cm": tuple(map(mm, (25, 40, 50, 60, 75, 100, 125, 150, 200))),
}
"""Finished heights that are looked at where none are named."""


@dataclass(frozen=True)
class Still:
    """What can be made of one finished size: how many at most, and from what."""

    width: Length
    height: Length
    answer: Answer


def still_made(
    kind: str, on_hand: Sequence[OnHand], workroom: Workroom, sides: Sequence[Length] = ()
) -> tuple[Still, ...]:
    """The most units of a kind for each finished size, smallest first; sizes that give none are left out.

    Raises Refused where nothing can be made at all.
    """
    found = []
    for side in sides or SIDES[workroom.unit]:
        width = side * 2 if kind == "geese" else side
        unit = unit_wanted(kind, width, side)
        try:
            recipes = [*_recipes(unit, workroom), *grids_for(unit, on_hand, workroom)]
            answer = most_from_hand(recipes, on_hand, workroom)
        except Refused:
            continue
        found.append(Still(width, side, answer))
    if not found:
        raise Refused(Problem("nothing of that kind can be made of these pieces", do="Take smaller units."))
    return tuple(found)


def _recipes(unit: Unit, workroom: Workroom) -> list[Recipe]:
    return [way.recipe for way in compare_ways(unit, 1, workroom)]
