"""Every way of every kind keeps its promises at random proportions and seams, or refuses in a sentence.

`promises.keeps_its_promises` tells what is promised: exactly the wanted finished unit after truing, the right
counts (besides too), cloth in = cloth out + waste for each fabric, undo, the bias edges the trade warns of.
PIECEWRIGHT_UNITS=20 tries twenty of each kind; PIECEWRIGHT_SEED another set of them.
"""

from __future__ import annotations

import os
from collections import Counter
from fractions import Fraction
from random import Random

import pytest

from piecewright.measure.length import inches, mm
from piecewright.methods import FAMILIES, METHODS, is_named, ways_for
from piecewright.methods.method import Unit
from piecewright.methods.recipe import make_recipe
from piecewright.problems import Refused
from piecewright.workroom.workroom import Workroom
from promises import FABRICS, SAMPLES, keeps_its_promises, label
from random_units import random_unit, random_workroom

UNITS = int(os.environ.get("PIECEWRIGHT_UNITS", "3"))
SEED = int(os.environ.get("PIECEWRIGHT_SEED", "11"))

# What a way may refuse a random unit for; each sentence is asserted whole but for its figures.
REFUSALS = (
    "with your seam, no squares on the marks of the ruler fit each other.",
    "makes 2 kinds here, since a corner of some piece shows on some",
    "has no allowance inside it at a seam of",
)


def tried(kind: str) -> Counter[str]:
    """What became of random units of a kind: how often each way kept its promises, or refused."""
    seen: Counter[str] = Counter()
    rng = Random(f"{kind} {SEED}")
    for _ in range(UNITS):
        room, side = random_workroom(rng)
        unit = random_unit(kind, side, rng)
        try:
            ways = ways_for(unit, room)
        except Refused as refused:
            fair(refused)
            seen["refused"] += 1
            continue
        assert ways, f"no way makes {unit}"
        for method in ways:
            try:
                keeps_its_promises(method, unit, room)
            except Refused as refused:
                fair(refused)
                seen["refused"] += 1
            except AssertionError as broken:
                raise AssertionError(f"{label(method)}, {unit}, seam {room.take_up}: {broken}") from broken
            else:
                seen["kept"] += 1
    return seen


def fair(refused: Refused) -> None:
    """One clear sentence, among those that are expected."""
    (problem,) = refused.problems
    assert any(refusal in str(problem) for refusal in REFUSALS), str(problem)
    assert "\n" not in str(problem)


@pytest.mark.parametrize("kind", SAMPLES)
def test_random_units_keep_the_promises_of_every_way(kind: str) -> None:
    seen = tried(kind)
    assert seen.total() >= UNITS
    assert seen["refused"] <= seen["kept"] / 2


def test_every_way_there_is_has_been_tried() -> None:
    """Each method and each family serves the sample of some kind, at some side."""
    rng = Random(SEED)
    rooms = [(Workroom(), inches(3)), *(random_workroom(rng) for _ in range(4))]
    known = [m for kind in SAMPLES for room, side in rooms for m in ways_for(SAMPLES[kind](side), room)]
    assert [label(m) for m in METHODS if m not in known] == []
    assert [f.name for f in FAMILIES if not any(is_named(m, f.name) for m in known)] == []


@pytest.mark.parametrize("side", ["3 3/8", "4", "5 1/4"])
def test_two_halves_of_a_star_lie_side_by_side_whatever_their_last_digits(side: str) -> None:
    """Edges that differ by less than a float shows were taken for an overlap."""
    unit = SAMPLES["star8"](inches(side))
    for method in ways_for(unit, Workroom()):
        keeps_its_promises(method, unit, Workroom())


def test_an_hourglass_keeps_its_outline_whatever_its_last_digits() -> None:
    """Four triangles that meet in the middle: their outline was lost over the spikes at their corners."""
    seam = inches("11/32")
    room = Workroom(needle=seam * Fraction(15, 16), fold=seam / 16)
    unit = Unit("hourglass", FABRICS, inches("1 1/16"), inches("1 1/16"))
    for method in ways_for(unit, room):
        keeps_its_promises(method, unit, room)


def test_geese_of_which_two_show_a_stray_tip_are_refused() -> None:
    """Plane geometry: small squares larger than half the large one and a seam reach over its middle.

    Cut with a trim of 1/8 in for 2 5/64, they are 3 1/8 and 5 1/2: 3 1/8 > 2 3/4 + 1/4.
    """
    unit = SAMPLES["geese"](inches("2 5/64"))
    method = next(m for m in METHODS if label(m) == "geese four at a time")
    with pytest.raises(Refused, match="makes 2 kinds here, since a corner of some piece shows on some"):
        make_recipe(method, unit, Workroom())
    assert make_recipe(method, SAMPLES["geese"](mm(51)), Workroom())
