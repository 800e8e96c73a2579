"""Cloth as shops of the other system sell it: widths, steps of yardage, and what a metre costs for a yard.

A motif's repeat and the selvedge are facts of the cloth itself; they are never redrafted.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import msgspec

from piecewright.design.model import Fabric
from piecewright.measure.length import Length, Unit, inches, mm
from piecewright.sizing.sensible import nearest
from piecewright.workroom.workroom import Workroom, default_workroom

# What is sold as the same: common practice, no source.
SOLD_WIDTHS: tuple[tuple[Length, Length], ...] = (
    (inches(36), mm(900)),
    (inches(42), mm(1070)),
    (inches(44), mm(1100)),
    (inches(45), mm(1150)),
    (inches(54), mm(1400)),
    (inches(60), mm(1500)),
    (inches(108), mm(2700)),
)
SOLD_STEPS: tuple[tuple[Length, Length], ...] = (
    (inches("4 1/2"), mm(100)),
    (inches(9), mm(250)),
    (inches(18), mm(500)),
    (inches(36), mm(1000)),
)
SEAMS: tuple[tuple[Length, Length], ...] = ((inches("1/4"), mm("7.5")),)

_WIDTH_STEP: dict[Unit, Length] = {"in": inches(1), "cm": mm(50)}
_SOLD_STEP: dict[Unit, Length] = {"in": inches("4 1/2"), "cm": mm(100)}
_YARD_IN_METRES = inches(36).exact / mm(1000).exact
_CENT = Fraction(1, 100)
_SEAM_STEP: dict[Unit, Length] = {"in": inches("1/16"), "cm": mm("0.5")}


def redrafted_fabric(fabric: Fabric, unit: Unit) -> Fabric:
    """The fabric as it is sold in the other system: its width, its price for a yard or metre, its step."""
    price = fabric.price
    if price is not None:
        price = price / _YARD_IN_METRES if unit == "cm" else price * _YARD_IN_METRES
        price = round(price / _CENT) * _CENT
    return replace(
        fabric,
        width=fabric.width and _sold(fabric.width, unit, SOLD_WIDTHS, _WIDTH_STEP),
        buying_step=fabric.buying_step and _sold(fabric.buying_step, unit, SOLD_STEPS, _SOLD_STEP),
        price=price,
    )


def redrafted_workroom(room: Workroom, unit: Unit) -> Workroom:
    """The workroom in the other system: its lengths are the usual ones there, the seam is a sensible one.

    A quarter of an inch becomes 7.5 mm, yardage comes in steps of 10 cm. Pace, likes and wishes stay.
    """
    if room.unit == unit:
        return room
    usual = default_workroom(unit)
    take_up = _sold(room.take_up, unit, SEAMS, _SEAM_STEP)
    lengths = {
        name: getattr(usual, name)
        for name in msgspec.structs.asdict(usual)
        if isinstance(getattr(usual, name), Length) and name not in ("needle", "fold")
    }
    return msgspec.structs.replace(
        room, unit=unit, fold=usual.fold, needle=take_up - usual.fold, spare=usual.spare, **lengths
    )


def _sold(
    length: Length, unit: Unit, known: tuple[tuple[Length, Length], ...], step: dict[Unit, Length]
) -> Length:
    """What is sold as the same, or else the nearest step."""
    for in_inches, in_cm in known:
        was, now = (in_inches, in_cm) if unit == "cm" else (in_cm, in_inches)
        if length == was:
            return now
    return nearest(length, step[unit])
