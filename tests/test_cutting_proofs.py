"""Small lists against proofs from elsewhere: all ways there are, all strips at once, strip by strip."""

from __future__ import annotations

import random
from fractions import Fraction

import pytest

from cutting_exhaustive import least_length
from cutting_programmes import Piece, Small, least_by_columns, least_strip_by_strip
from piecewright.cutting.cuts import WAYS_OF_CUTTING, Cuts
from piecewright.cutting.laying import lay_out
from piecewright.cutting.layout import Layout
from piecewright.cutting.marks import in_marks
from piecewright.cutting.wanted import Demand, Supply
from piecewright.cutting.wishes import CuttingWish
from piecewright.measure.length import Length, inches

HALF, FINE = Fraction(1, 2), Fraction(1, 64)
WHY = "OR-Tools is not installed; `pip install -e .[bench]` brings it"


def small_lists(cuts: Cuts, number: int, sizes: int = 3, most: int = 5) -> list[Small]:
    """Lists in half inches on cloth 20 in wide, with a ruler of 12 in."""
    chance = random.Random(cuts.name)
    return [
        Small(
            pieces=tuple(
                Piece(
                    chance.randint(4, 30),
                    chance.randint(4, 30),
                    chance.randint(1, most),
                    chance.random() < 0.5,
                )
                for _ in range(sizes)
            ),
            width=40,
            ruler=24,
            squaring=chance.randint(0, 1),
            stacks=cuts.stacks,
            tall=cuts.tall,
        )
        for _ in range(number)
    ]


def wanted(small: Small, mark: Fraction = HALF) -> tuple[list[Demand], Supply]:
    demands = [
        Demand(
            f"size {number}",
            Length(piece.width * mark),
            Length(piece.height * mark),
            piece.count,
            piece.may_turn,
        )
        for number, piece in enumerate(small.pieces)
    ]
    width, ruler, squaring = (Length(size * mark) for size in (small.width, small.ruler, small.squaring))
    return demands, Supply("sail", width, inches("1/8"), ruler_length=ruler, squaring=squaring)


def least_cloth(small: Small, cuts: Cuts, mark: Fraction = HALF) -> Layout:
    return lay_out(*wanted(small, mark), CuttingWish("least cloth", cuts, effort=60_000))


@pytest.mark.parametrize("cuts", WAYS_OF_CUTTING)
def test_every_way_there_is_and_all_strips_at_once_have_the_same_least_length(cuts: Cuts) -> None:
    for small in small_lists(cuts, 6):
        task = in_marks(*wanted(small), cuts)
        assert Length(least_length(task) * task.mark) == Length(least_by_columns(small) * HALF)


@pytest.mark.parametrize("cuts", WAYS_OF_CUTTING)
def test_small_lists_are_cut_in_the_least_length_and_the_bound_is_below_it(cuts: Cuts) -> None:
    longer = 0
    for small in small_lists(cuts, 14, sizes=4, most=9):
        layout, least = least_cloth(small, cuts), Length(least_by_columns(small) * HALF)
        assert layout.bound <= least <= layout.length
        longer += layout.length > least
    assert longer <= 1


@pytest.mark.parametrize("cuts", WAYS_OF_CUTTING)
def test_strip_by_strip_nothing_shorter_is_found(cuts: Cuts) -> None:
    cp_model = pytest.importorskip("ortools.sat.python.cp_model", reason=WHY)
    for small in small_lists(cuts, 4, most=3):
        least = least_strip_by_strip(small, cp_model)
        assert least == least_by_columns(small)
        assert least_cloth(small, cuts).bound <= Length(least * HALF)


@pytest.mark.parametrize("cuts", WAYS_OF_CUTTING)
def test_sizes_in_the_finest_marks_have_a_bound_that_holds_and_is_above_the_area(cuts: Cuts) -> None:
    # 1/64 in: 20 in wide cloth is 1,280 marks, 40 in twice that; every width here is odd.
    higher = 0
    for small in small_lists(cuts, 6, sizes=4, most=9):
        pieces = tuple(
            Piece(64 * piece.width + 1, 64 * piece.height + 1, piece.count, piece.may_turn)
            for piece in small.pieces
        )
        fine = Small(pieces, 64 * 40, 64 * 24, 0, small.stacks, small.tall)
        layout = least_cloth(fine, cuts, FINE)
        assert layout.bound <= Length(least_by_columns(fine) * FINE) <= layout.length
        higher += layout.bound > Length(-(-layout.area_bound.exact // FINE) * FINE)
    assert higher >= 3
