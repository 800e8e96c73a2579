"""Maps of the second pressing: those that one can follow by a rule, and the best one for two pressings."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from piecewright.pressing.joints import LaidBlock, Place
from piecewright.pressing.model import SLACK, Model, Term, summed

RULES: dict[str, Callable[[int, int], int]] = {
    "every other place, as on a chessboard": lambda row, column: (row + column) % 2,
    "every other row": lambda row, column: row % 2,
    "every other column": lambda row, column: column % 2,
}


def maps_by_rule(places: Mapping[Place, LaidBlock]) -> dict[str, frozenset[Place]]:
    """Maps that a sentence can tell, for all blocks and for one block alone; each its smaller half."""
    found: dict[str, frozenset[Place]] = {}
    keys = list(dict.fromkeys(block.block for block in places.values()))
    for key in ("", *keys) if len(keys) > 1 else ("",):
        of_block = {place for place, block in places.items() if key in ("", block.block)}
        for rule, number in RULES.items():
            halves = [frozenset(p for p in of_block if number(*p) == way) for way in (1, 0)]
            found[f"{rule}{f', of {key}' if key else ''}"] = min(halves, key=len)
        for quarters in sorted({places[place].quarters for place in of_block}):
            turned = frozenset(p for p in of_block if places[p].quarters == quarters)
            words = ("unturned", "turned to the left", "turned by half", "turned to the right")[quarters]
            found[f"those {words}{f', of {key}' if key else ''}"] = turned
    known: dict[frozenset[Place], str] = {}
    for rule, second in found.items():
        if second and len(second) < len(places):
            known.setdefault(second, rule)
    return {rule: second for second, rule in known.items()}


@dataclass(frozen=True)
class JointCost:
    """How many places clash at a joint: both first, then the other second, then the one, then both second."""

    one: Place
    other: Place
    clashes: tuple[int, int, int, int]


def best_map(
    places: Sequence[Place], inside: Mapping[Place, tuple[int, int]], joints: Sequence[JointCost]
) -> frozenset[Place]:
    """The map with the fewest clashes for two given pressings, and of these with the fewest places.

    `inside` tells what clashes in the block itself with its first and its second pressing.
    """
    model = Model()
    second = {place: model.yes_or_no() for place in places}
    clashes: list[tuple[Term, float]] = []
    for place, (first, other) in inside.items():
        clashes.append((second[place], other - first))
    for joint in joints:
        neither, other, one, both = joint.clashes
        clashes += [(second[joint.one], one - neither), (second[joint.other], other - neither)]
        if extra := both - one - other + neither:
            together = model.share()
            if extra > 0:
                model.at_most(second[joint.one] + second[joint.other] - together, 1.0)
            else:
                model.at_most(together - second[joint.one], 0.0)
                model.at_most(together - second[joint.other], 0.0)
            clashes.append((together, extra))
    least = model.least(summed(clashes))
    assert least is not None
    model.at_most(summed(clashes), least.cost + SLACK)
    solved = model.least(summed([(term, 1.0) for term in second.values()]), least.values)
    assert solved is not None
    return frozenset(place for place, term in second.items() if solved.yes(term))
