"""Looks: keys that are equal for drawings that show the same, up to quarter turns (never mirrored); hands."""

from __future__ import annotations

from collections.abc import Iterable

from piecewright.design.drawing import Patch
from piecewright.geometry.isometry import Isometry, folded, turned
from piecewright.geometry.polygon import bounds
from piecewright.methods.method import Unit

Look = tuple[tuple[object, ...], ...]

# Corners are counted in steps that no ruler has, so that none falls between two of them.
STEP = 1.2345e-3
MIRRORED = folded((0.0, 0.0), (0.0, 1.0))
TURNS = tuple(turned(degrees) for degrees in (0, 90, 180, 270))


def look(patches: Iterable[Patch]) -> Look:
    """The key of what the patches show together; the least over the four quarter turns."""
    shown = tuple(patches)
    return min(_as_it_lies(shown, turn) for turn in TURNS)


def hand_of(unit: Unit) -> str:
    """ "left" or "right" where a unit and its mirror image do not look alike, else an empty text."""
    patches = unit.drawing.patches
    mirrored = [patch.placed(MIRRORED) for patch in patches]
    return unit.hand if look(patches) != look(mirrored) else ""


def _as_it_lies(patches: tuple[Patch, ...], turn: Isometry) -> Look:
    lying = [patch.placed(turn) for patch in patches]
    left, low, _, _ = bounds([p for patch in lying for p in patch.outline])
    return tuple(sorted(_key(patch, left, low) for patch in lying))


def _key(patch: Patch, left: float, low: float) -> tuple[object, ...]:
    corners = tuple(sorted((_steps(x - left), _steps(y - low)) for x, y in patch.outline))
    way = -1 if patch.way is None else round(patch.way) % 360
    return (patch.role, way, corners)


def _steps(size: float) -> int:
    return int(size / STEP + 0.31)
