"""The ways of cutting, as data: what is cut after the strips, and how high a strip may be.

Every strip runs across the cloth. The ruler is turned once for the strips, a second time for the
crosscuts, and a third time where a crosscut is subcut into a stack of equal pieces.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Cuts:
    """One way of cutting.

    With `stacks`, a crosscut may hold several equal pieces above each other. With `tall`, a strip may be
    as high as several pieces together, up to the ruler's length; else it is as high as one of its pieces.
    """

    name: str
    stacks: bool
    tall: bool
    told: str


CROSSCUTS = Cuts("crosscuts", False, False, "strips, then crosscuts; what is lower than its strip is trimmed")
STACKS = Cuts("stacks", True, False, "strips, crosscuts, and low pieces subcut from stacks of equal ones")
TALL_STRIPS = Cuts("tall strips", True, True, "the same, from strips as high as several pieces together")

WAYS_OF_CUTTING = (CROSSCUTS, STACKS, TALL_STRIPS)
