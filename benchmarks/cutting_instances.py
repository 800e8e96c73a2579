"""Cutting lists to measure against, read from a folder that an environment variable names.

Each is a .json file: `width`, and `items` with `w`, `h` and `qty` in whole units, whether they may turn, and
the best length that is known (`best_known`, or `best_by_cuts` for a way of cutting).
"""

from __future__ import annotations

import json
import os
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import Any

from piecewright.cutting.wanted import Demand, Supply
from piecewright.measure.length import Length, inches

FOLDER = "PIECEWRIGHT_CUTTING_LISTS"
MARK = Fraction(1, 8)
BEST_BY_CUTS = {
    "crosscuts": "2 non-exact",
    "stacks": "3 homogenous, strip height = an item height",
    "tall strips": "3 homogenous, strip height <= 24 in (or an item height)",
}


@dataclass(frozen=True)
class Instance:
    """One list: what is wanted, the cloth, and the best lengths known, in marks of 1/8 in."""

    name: str
    demands: tuple[Demand, ...]
    supply: Supply
    best_known: int
    best_by_cuts: dict[str, int]


def folder() -> Path | None:
    """Where the lists are, if someone said it."""
    named = os.environ.get(FOLDER)
    return Path(named) if named else None


def instances(pattern: str, ruler_length: Length | None = None) -> list[Instance]:
    """The lists whose path below the folder matches, by name."""
    place = folder()
    files = sorted(place.glob(pattern), key=_by_number) if place else []
    return [_instance(json.loads(file.read_text("utf-8")), ruler_length) for file in files]


def _by_number(file: Path) -> tuple[int, str]:
    digits = "".join(sign for sign in file.stem if sign.isdigit())
    return int(digits or 0), file.stem


def _instance(said: dict[str, Any], ruler_length: Length | None) -> Instance:
    turns = said.get("rotation") is True
    demands = tuple(
        Demand(
            name=f"size {number}",
            width=Length(item["w"] * MARK),
            height=Length(item["h"] * MARK),
            count=item["qty"],
            may_turn=bool(item.get("rotation", turns)),
        )
        for number, item in enumerate(said["items"], 1)
    )
    width = Length(said["width"] * MARK)
    supply = Supply(said["name"], width, inches("4 1/2"), ruler_length=ruler_length)
    by_cuts = said.get("best_by_cuts", {})
    best = {cuts: by_cuts[key] for cuts, key in BEST_BY_CUTS.items() if key in by_cuts}
    return Instance(said["name"], demands, supply, said["best_known"], best)
