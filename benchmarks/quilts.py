"""The quilts that are timed: the throw of the examples, and the same quilt in other sizes."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

import msgspec

from piecewright.bench.plan import Plan
from piecewright.bench.steps import AnyStep, JoinEnds
from piecewright.design.model import Design
from piecewright.design.read import read_design

HARBOUR_LIGHTS = Path(__file__).parent.parent / "examples" / "harbour-lights.toml"


@dataclass(frozen=True)
class Timed:
    """A quilt, and what it is called in the table."""

    name: str
    design: Design


def timed_quilts() -> tuple[Timed, ...]:
    """The throw first: the others are compared with it."""
    design, problems = read_design(HARBOUR_LIGHTS)
    if design is None:
        raise SystemExit("\n".join(map(str, problems)))
    setting = design.setting
    return (
        Timed("throw", design),
        Timed("king size", _sized(design, 16, 27)),
        Timed("100 times the blocks", _sized(design, setting.across * 10, setting.down * 10)),
    )


def _sized(design: Design, across: int, down: int) -> Design:
    return replace(design, setting=replace(design.setting, across=across, down=down))


def hundredfold(plan: Plan) -> Plan:
    """The plan of a hundred such quilts, made at one go: every count times a hundred."""
    cloth = tuple(msgspec.structs.replace(supply, length=supply.length * 100) for supply in plan.cloth)
    return msgspec.structs.replace(plan, cloth=cloth, steps=tuple(map(_hundred_times, plan.steps)))


def _hundred_times(step: AnyStep) -> AnyStep:
    fields = {name: getattr(step, name) * 100 for name in ("count", "times") if hasattr(step, name)}
    if isinstance(step, JoinEnds):
        fields.pop("count")  # How many strips make one binding.
    return msgspec.structs.replace(step, **fields)
