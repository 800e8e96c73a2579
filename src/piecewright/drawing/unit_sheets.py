"""True-scale sheets of a unit's own patches, whatever the way it is made: templates, and a foundation."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from piecewright.design.kinds import kind_of
from piecewright.drawing.foundations import NumberPart, foundation, foundation_sheet
from piecewright.drawing.templates import template, template_sheet
from piecewright.drawing.tiles import letter_of
from piecewright.drawing.true_scale import TrueShape, TrueSheet
from piecewright.drawing.writing import size_in_words
from piecewright.geometry.isometry import moved, turned
from piecewright.geometry.polygon import Polygon, bounds, placed, same_polygon
from piecewright.measure.length import Unit as LengthUnit
from piecewright.measure.tolerance import AS_DRAWN
from piecewright.methods.foundation.plan import FoundationSection
from piecewright.methods.foundation.way import foundation_for
from piecewright.methods.method import Unit
from piecewright.workroom.workroom import Workroom


def unit_templates(
    unit: Unit, workroom: Workroom, count: int, title: str, shown: LengthUnit = "in"
) -> TrueSheet:
    """A template for every patch of a unit that differs from the others; `count` is how many units.

    Their grain runs up the unit. Raises Refused for a patch that no allowance fits round.
    """
    take_up = float(workroom.take_up)
    shapes = [
        template(net, take_up, piece_name(number, fabric, unit), count=each * count, unit=shown)
        for number, (fabric, net, each) in enumerate(_patches(unit))
    ]
    return template_sheet(title, tuple(shapes))


def unit_foundation(
    unit: Unit, workroom: Workroom, count: int, title: str, shown: LengthUnit = "in"
) -> TrueSheet:
    """The sections of a unit as foundations, with the scrap that each number needs.

    Raises Refused where the unit cannot be sewn along straight lines, patch after patch.
    """
    sections = foundation_for(unit, workroom).sections
    called, fold = partial(fabric_words, unit=unit), float(workroom.fold)
    shapes = [
        section_shape(section, f"Section {section.letter}", called, fold, count, shown)
        for section in sections
    ]
    return foundation_sheet(title, tuple(shapes))


def piece_name(number: int, fabric: str, unit: Unit) -> str:
    """`A: goose`, `B: second fabric`: a letter, and what its fabric is for."""
    return f"{letter_of(number)}: {fabric_words(fabric, unit)}"


def fabric_words(fabric: str, unit: Unit) -> str:
    """What a fabric of a unit is for."""
    word = dict(zip(unit.fabrics, kind_of(unit.kind).fabrics, strict=False)).get(fabric, fabric)
    return f"{word} fabric" if word == fabric else word


def section_shape(
    section: FoundationSection,
    name: str,
    called: Callable[[str], str],
    fold: float,
    count: int,
    shown: LengthUnit,
) -> TrueShape:
    """A section as it is printed: `called` gives the words for the role of a patch, `fold` is in inches."""
    parts = [NumberPart(p.number, p.outline, called(p.role)) for p in section.patches]
    seams = [line for patch in section.patches if (line := patch.stitching(fold))]
    scraps = "; ".join(
        f"{p.number} {size_in_words(p.scrap.cut_width, p.scrap.cut_height, shown)}" for p in section.patches
    )
    return foundation(
        section.outline,
        parts,
        seams,
        section.rule.take_up,
        name,
        count=count,
        caption=f"{name}; scraps at least: {scraps}",
    )


def _patches(unit: Unit) -> list[tuple[str, Polygon, int]]:
    """The unit's patches, those of one fabric that are alike but for a quarter turn counted together.

    The sides of a unit lie along or across the grain, so a quarter turn leaves a patch on the straight.
    """
    found: list[tuple[str, Polygon, int]] = []
    for patch in unit.drawing.patches:
        for number, (fabric, outline, each) in enumerate(found):
            if fabric == patch.role and _alike(outline, patch.outline):
                found[number] = (fabric, outline, each + 1)
                break
        else:
            found.append((patch.role, patch.outline, 1))
    return found


def _alike(one: Polygon, other: Polygon) -> bool:
    turns = (turned(90.0 * quarter) for quarter in range(4))
    return any(same_polygon(_home(placed(one, turn)), _home(other), AS_DRAWN) for turn in turns)


def _home(outline: Polygon) -> Polygon:
    x0, y0, _, _ = bounds(outline)
    return placed(outline, moved(-x0, -y0))
