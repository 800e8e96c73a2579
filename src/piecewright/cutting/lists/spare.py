"""Cloth to spare for mistakes, as pieces that are cut besides: see `workroom.spare` for the wish."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import TypeVar

from piecewright.cutting.shapes.wanted import ShapeDemand
from piecewright.cutting.wanted import Demand
from piecewright.workroom.spare import NOTHING_SPARE, Spare, read_spare

__all__ = ["NOTHING_SPARE", "Spare", "read_spare", "with_spare"]

Wanted = TypeVar("Wanted", Demand, ShapeDemand)


def with_spare(demands: Sequence[Wanted], spare: Spare) -> list[Wanted]:
    """The demands with the pieces to spare; a share is rounded up, so that it is one at least."""
    return [
        replace(demand, count=demand.count + spare.of_each + math.ceil(demand.count * spare.share))
        for demand in demands
    ]
