"""The quilts that are timed: the throw of the examples, and the same quilt in other sizes."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

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
        Timed("throw, 5 x 6 blocks", design),
        Timed("king-size quilt, 16 x 27 blocks", _sized(design, 16, 27)),
        Timed("100 times the blocks, 25 x 4 throws", _sized(design, setting.across * 25, setting.down * 4)),
        Timed("100 times the blocks, 10 x 10 throws", _sized(design, setting.across * 10, setting.down * 10)),
    )


def _sized(design: Design, across: int, down: int) -> Design:
    return replace(design, setting=replace(design.setting, across=across, down=down))
