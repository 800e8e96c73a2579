"""Diamonds, triangles, hexagons and trapezoids from strips: cut across the cloth, then apart at a slant.

One batch is one strip across the usable width. Its height is the exact cut height of the shape; nothing is
trued up later, so it is never rounded.
"""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache, partial

from piecewright.bench.steps import AnyStep, CutApart, Ruled
from piecewright.design.kinds.diamonds import diamond
from piecewright.geometry.isometry import sin_of
from piecewright.geometry.offset import angles_of
from piecewright.geometry.polygon import Polygon
from piecewright.methods.method import Family, Making, Method, Start, Unit
from piecewright.methods.shape_words import marks_words, measured_words, raw_of, strip_height
from piecewright.methods.strip_rows import Row, across_tips, cut_row, row_of
from piecewright.workroom.workroom import Workroom

KINDS = ("diamond45", "diamond60", "triangle60", "hexagon", "trapezoid", "trapezoid-upright")


def steps(making: Making, raw: Polygon) -> tuple[AnyStep, ...]:
    """The strip cut at a slant, again and again."""
    (strip,) = making.pieces
    row = row_of(raw, making.sizes[0])
    return (cut_row(strip, making.gives, row, making.seam, making.times),)


def hexagon_steps(making: Making, raw: Polygon) -> tuple[AnyStep, ...]:
    """The strip cut into 60 degree diamonds; then the sharp tips cut off every one."""
    (strip,) = making.pieces
    diamonds, around = f"{making.gives} diamonds", _around_hexagon(raw)
    row = row_of(around, making.sizes[0])
    return (
        cut_row(strip, diamonds, row, making.seam, making.times),
        CutApart(
            takes=diamonds,
            cut=tuple(Ruled(*a, *b) for a, b in across_tips(around)),
            gives=("", making.gives, ""),
            times=making.times * len(row.pieces),
        ),
    )


def _around_hexagon(raw: Polygon) -> Polygon:
    """The 60 degree diamond whose tips are cut off to leave a hexagon."""
    ys = [y for _, y in raw]
    return diamond((max(ys) - min(ys)) / sin_of(60), 60)


def members(unit: Unit, workroom: Workroom) -> tuple[Method, ...]:
    """The way for this unit, where at least one comes out of a strip; raises Refused for no such unit."""
    unit.refuse_nonsense()
    return _members(replace(unit, fabrics=("patch",)), workroom)


@lru_cache(maxsize=512)
def _members(unit: Unit, workroom: Workroom) -> tuple[Method, ...]:
    raw, length = raw_of(unit, workroom), float(workroom.usable_width)
    height = strip_height(unit, workroom)
    row = row_of(_around_hexagon(raw) if unit.kind == "hexagon" else raw, length)
    if not row.pieces:
        return ()
    return (
        Method(
            name="from strips",
            kind=unit.kind,
            makes=len(row.pieces),
            starts=(Start(0, 1, 0, 1),),
            steps=partial(hexagon_steps if unit.kind == "hexagon" else steps, raw=raw),
            landmark="edges",
            reason="many at a time without a template, from one setting of the ruler; slanted edges stretch",
            says=_says(unit, row, workroom),
            unknowns=2,
            may_round=False,
            derived=lambda unit, take_up, extra: (length, height),
        ),
    )


def _says(unit: Unit, row: Row, workroom: Workroom) -> tuple[str, ...]:
    angles = angles_of(row.pieces[0])
    angle, count = min(angles[0], 180 - angles[0]), len(row.pieces)
    height, bottom = measured_words(row.height, workroom), _bottom(row.pieces[0])
    told = [f"Cut a strip {height} high across the cloth."]
    told += [note] if (note := marks_words(unit, workroom)) else []
    if row.cuts and len(row.cuts) > count:
        told.append(f"Cut its left end off at {angle:.4g} degrees.")
    if unit.kind.startswith("trapezoid"):
        along = measured_words(bottom, workroom)
        told.append(
            f"Cut pieces that are {along} long on one edge of the strip, every second one turned by half: "
            f"{count} come out of a strip."
        )
    elif unit.kind == "triangle60":
        told.append(
            f"Turn the ruler for each cut, so that it starts where the last one ended: {count} triangles, "
            "up and down in turn, come out of a strip."
        )
    else:
        told.append(
            f"Lay the ruler's {height} line on the slanted edge and cut along it, again and again: "
            f"{count} diamonds come out of a strip."
        )
    if unit.kind == "hexagon":
        told.append(
            "Cut both sharp tips off each diamond, square to its length, so that all six sides are equal."
        )
    told.append("Slanted edges stretch: handle the pieces little, and sew them without pulling.")
    return tuple(told)


def _bottom(shape: Polygon) -> float:
    below = [x for x, y in shape if y <= min(y for _, y in shape) + 1e-9]
    return max(below) - min(below)


FAMILY = Family("from strips", KINDS, members)
