"""The plan: a program for the bench. What cloth there is, where one starts, the steps, what they end in."""

from __future__ import annotations

import msgspec

from piecewright.bench.steps import AnyStep
from piecewright.measure.length import Length
from piecewright.workroom.workroom import Workroom

PLAN_VERSION = 1


class Supply(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """Cloth to cut from: a fabric, or an assortment taken as one; usable width and length."""

    fabric: str
    width: Length
    length: Length
    one_way: bool = False


class Have(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """Things that are there already: `count` in a pile.

    A flat rectangle of a fabric, or, where `made_by` holds steps, what they make of the pile `name`; those
    steps tell what the thing is and use up nothing.
    """

    name: str
    count: int
    fabric: str = ""
    width: Length | None = None
    height: Length | None = None
    made_by: tuple[AnyStep, ...] = ()


class Finish(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """The piles that a plan ends in, and what they must measure (raw, inches)."""

    top: str
    backing: str = ""
    backing_least: tuple[float, float] = (0.0, 0.0)
    binding: str = ""
    binding_least: float = 0.0
    batting: tuple[float, float] = (0.0, 0.0)


class Plan(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """All that the bench needs; it knows the drawing only through the replay.

    `left_over` says how many of which pile are over in the end, `not_upright` in how many patches of the top
    a one-way print cannot stand upright. `version` is that of this format.
    """

    title: str
    workroom: Workroom
    cloth: tuple[Supply, ...]
    steps: tuple[AnyStep, ...]
    finish: Finish
    have: tuple[Have, ...] = ()
    left_over: dict[str, int] = {}
    not_upright: int = 0
    version: int = PLAN_VERSION
