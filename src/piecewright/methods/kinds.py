"""Which kind of unit a drawing shows, and what people call it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from piecewright.design.drawing import Drawing, Patch
from piecewright.design.kinds import KINDS, Form, Kind, kind_of
from piecewright.geometry.isometry import Isometry, moved, turned
from piecewright.geometry.polygon import Polygon, area, bounds, placed, same_polygon
from piecewright.measure.rounding import exactly
from piecewright.measure.tolerance import AS_DRAWN
from piecewright.methods.method import Unit

MOST_FABRICS = 12
QUARTERS = tuple(turned(degrees) for degrees in (0.0, 90.0, 180.0, 270.0))

Lying = list[tuple[str, Polygon]]
"""The fabric and the outline of each patch."""


def name_of(kind: str) -> str:
    """What people call a kind of unit."""
    return kind_of(kind).name


def recognise(drawing: Drawing) -> Unit | None:
    """The unit that a drawing shows, whichever way it is turned (fabrics are its roles), or None."""
    patches = drawing.patches
    if len(patches) < 2 or len(drawing.outline) != 4:
        return None
    left, low, right, high = bounds(drawing.outline)
    if abs((right - left) * (high - low) - area(drawing.outline)) > AS_DRAWN:
        return None
    lying = [_home(patches, quarter) for quarter in QUARTERS]
    return next((unit for kind in KINDS.values() for unit in _fitting(kind, patches, lying)), None)


def _fitting(kind: Kind, patches: tuple[Patch, ...], in_turns: Sequence[Lying]) -> Iterator[Unit]:
    """The units of a kind that these patches may be; the first role that comes goes first.

    `in_turns` are the patches as they lie turned by no, one, two and three quarters.
    """
    if kind.patches and kind.patches != len(patches):
        return
    roles = list(dict.fromkeys(patch.role for patch in patches))
    if len(roles) > (MOST_FABRICS if kind.more_fabrics else len(kind.fabrics)):
        return
    for quarters in (0, 1):
        lying = [in_turns[quarters], in_turns[quarters + 2]]
        _, _, width, height = bounds([p for _, outline in lying[0] for p in outline])
        is_square = abs(width - height) < AS_DRAWN
        if quarters and is_square:
            return
        found: list[tuple[list[int], Unit]] = []
        turns = in_turns if is_square else lying
        outlines = [outline for _, outline in lying[0]]
        for measures in kind.fits(outlines, width, height):
            for hand in kind.hands:
                form = Form(width, height, kind.facings[0], hand, measures, _fabrics(kind, len(patches)))
                if kind.wanted(_exact(form)):
                    continue
                for way in turns:
                    fabrics = _read_off(kind, form, way)
                    if fabrics:
                        order = [roles.index(fabric) for fabric in fabrics]
                        exact = tuple(map(exactly, measures))
                        size = (exactly(width), exactly(height))
                        found.append((order, Unit(kind.key, fabrics, *size, exact, hand)))
        yield from (unit for _, unit in sorted(found, key=lambda pair: pair[0])[:1])


def _fabrics(kind: Kind, patches: int) -> int:
    return patches if kind.more_fabrics else len(kind.fabrics)


def _exact(form: Form) -> Form:
    """The form with sides that are as good as equal made equal."""
    sides = (float(exactly(form.width)), float(exactly(form.height)))
    return Form(*sides, form.facing, form.hand, form.measures, form.fabrics)


def _home(patches: tuple[Patch, ...], turn: Isometry) -> Lying:
    """The patches turned, their lower left corner at the origin."""
    lying = [(patch.role, placed(patch.outline, turn)) for patch in patches]
    left, low, *_ = bounds([p for _, outline in lying for p in outline])
    home = moved(-left, -low)
    return [(role, placed(outline, home)) for role, outline in lying]


def _read_off(kind: Kind, form: Form, lying: Lying) -> tuple[str, ...] | None:
    """The fabric of each number, where the patches lie just as the kind is drawn; else None."""
    shapes = kind.shapes(form)
    if len(shapes) != len(lying):
        return None
    fabrics: dict[int, str] = {}
    for number, outline in shapes:
        role = next((r for r, other in lying if same_polygon(outline, other, AS_DRAWN)), None)
        if role is None or fabrics.setdefault(number, role) != role:
            return None
    return tuple(fabrics[number] for number in sorted(fabrics))
