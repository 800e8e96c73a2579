"""Quilts of one unit, made in one pinned way: two blocks, one of them turned by half.

The block is drawn by the corners of its patches, so that units without a token of their own have one as well.
"""

from __future__ import annotations

from collections.abc import Iterator

import msgspec

from piecewright.measure.length import Length, inches, mm
from piecewright.methods import ways_for
from piecewright.methods.method import Unit
from piecewright.workroom.workroom import INCH_WORKROOM, METRIC_WORKROOM, Workroom
from promises import SAMPLES
from random_quilts import COLOURS, Quilt

SIDES = {"in": inches(3), "cm": mm(84)}
WORKROOMS = {"in": INCH_WORKROOM, "cm": METRIC_WORKROOM}


def one_way_quilt(unit: Unit, way: str | None, workroom: Workroom, one_way: bool = False) -> Quilt:
    """The quilt; without a way as the plan chooses. `one_way`: the last fabric's print runs one way."""
    lines = ['title = "One way of making"', f'unit = "{workroom.unit}"']
    for fabric, colour in zip(dict.fromkeys(unit.fabrics), COLOURS, strict=False):
        lines += [f"[fabrics.{fabric}]", f'colour = "{colour}"']
    if one_way:
        lines.append("one_way = true")
    lines += ["[blocks.thing]", f'size = "{_size(unit, workroom)}"', "patches = ["]
    for patch in unit.drawing.patches:
        corners = [f"[{_figure(x, workroom)}, {_figure(y, workroom)}]" for x, y in patch.outline]
        lines.append(f'  {{role = "{patch.role}", corners = [{", ".join(corners)}]}},')
    lines += ["]", "[setting]", "across = 2", "down = 1", 'arrangement = "thing thing.half"']
    if way:
        lines += ["[choices]", f'{unit.kind} = "{way}"']
    return Quilt("\n".join(lines) + "\n", workroom)


def one_way_quilts() -> Iterator[tuple[str, Unit, Quilt]]:
    """What each is called, its unit, and the quilt, for every way of every kind that can be a block."""
    for unit_of_length, side in SIDES.items():
        workroom = WORKROOMS[unit_of_length]
        for sample in SAMPLES.values():
            unit = sample(side)
            if unit.is_rectangle:
                for way in ways_for(unit, workroom):
                    quilt = one_way_quilt(unit, way.name, workroom, one_way=unit_of_length == "in")
                    yield f"{unit.kind} {way.name}, {unit_of_length}", unit, quilt


def quilt_of_two_ways() -> Quilt:
    """Eighteen half-square triangles where a further way takes no time: eights and twos on one pile."""
    quilt = one_way_quilt(SAMPLES["hst"](inches(2)), None, INCH_WORKROOM)
    at_once = msgspec.structs.replace(
        INCH_WORKROOM, pace=msgspec.structs.replace(INCH_WORKROOM.pace, set_up=0.0)
    )
    return Quilt(quilt.text.replace("across = 2\ndown = 1", "across = 6\ndown = 3"), at_once)


def _size(unit: Unit, workroom: Workroom) -> str:
    return " x ".join(_figure(float(side), workroom) for side in (unit.width, unit.height))


def _figure(size: float, workroom: Workroom) -> str:
    """A size in the file's own unit, as fine as it must be so that corners meet."""
    one: Length = inches(1) if workroom.unit == "in" else mm(10)
    return f"{size / float(one):.9f}"
