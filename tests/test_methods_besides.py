"""Ways from which other things come besides: bonus units, units of the other hand, mirror images."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.measure.length import inches, mm
from piecewright.methods import geese_flip_bonus, hst_bonus, quarters_two, three_patch_halves, ways_for
from piecewright.methods.method import Unit
from piecewright.workroom.workroom import METRIC_WORKROOM, Workroom
from promises import keeps_its_promises

UNITS = {
    "hst": lambda side: Unit("hst", ("a", "b"), side, side),
    "geese": lambda side: Unit("geese", ("a", "b"), side * 2, side),
    "left": lambda side: Unit("threepatch", ("a", "b", "c"), side, side, (), "left"),
    "right": lambda side: Unit("threepatch", ("a", "b", "c"), side, side, (), "right"),
    "quarters": lambda side: Unit("quarters", ("a", "b", "c", "d"), side, side),
    "three of four": lambda side: Unit("quarters", ("a", "b", "a", "c"), side, side),
}
NAMES = {
    hst_bonus.NAME,
    geese_flip_bonus.NAME,
    three_patch_halves.NAME,
    quarters_two.METHOD.name,
}


def tried(unit: Unit, workroom: Workroom) -> None:
    (way,) = (one for one in ways_for(unit, workroom) if one.name in NAMES)
    keeps_its_promises(way, unit, workroom)


@pytest.mark.parametrize("which", UNITS)
@settings(max_examples=4)
@given(
    side=st.integers(12, 40).map(lambda eighths: inches(Fraction(eighths, 8))),
    take_up=st.integers(8, 12).map(lambda parts: inches(Fraction(parts, 32))),
)
def test_they_keep_their_promises(which, side, take_up):
    fold = take_up / 16
    tried(UNITS[which](side), Workroom(needle=take_up - fold, fold=fold))


@pytest.mark.parametrize("which", UNITS)
def test_they_keep_their_promises_in_centimetres(which):
    tried(UNITS[which](mm("67.5")), METRIC_WORKROOM)
