"""Which shape of one patch a drawn patch is, at whatever angle it lies: a diamond, a hexagon, a kite."""

from __future__ import annotations

from collections.abc import Iterator

from piecewright.bench.grain import OFF_GRAIN
from piecewright.design.drawing import Patch
from piecewright.design.kinds import KINDS, Form, Kind
from piecewright.geometry.isometry import Isometry
from piecewright.geometry.matching import outline_turns
from piecewright.geometry.offset import angles_of
from piecewright.geometry.point import sub, unit
from piecewright.geometry.polygon import Polygon, bounds, clean, placed
from piecewright.measure.rounding import exactly
from piecewright.measure.tolerance import AS_DRAWN
from piecewright.methods.method import Unit
from piecewright.methods.strip_rows import homed

RIGHT = 90.0


def shape_of(patch: Patch) -> Unit | None:
    """The unit of one patch that a drawn patch shows, its fabric the patch's role; None for other shapes.

    Rectangles are none: they are cut as such.

    >>> found = shape_of(Patch("sail", ((0, 0), (3.464102, 0), (1.732051, 3))))
    >>> found.kind, str(found.height)
    ('triangle60', '3 in')
    """
    outline = clean(patch.outline, AS_DRAWN)
    if all(abs(angle - RIGHT) < OFF_GRAIN for angle in angles_of(outline)):
        return None
    for kind in KINDS.values():
        if kind.patches == 1:
            for form in _forms(kind, outline):
                if next(outline_turns(outline, kind.outline(form), AS_DRAWN), None) is not None:
                    measures = tuple(map(exactly, form.measures))
                    return Unit(
                        kind.key,
                        (patch.role,),
                        exactly(form.width),
                        exactly(form.height),
                        measures,
                        form.hand,
                    )
    return None


def _forms(kind: Kind, outline: Polygon) -> Iterator[Form]:
    """The forms of a kind that a patch may have: each direction in it is tried as the horizontal."""
    corners = len(outline)
    for k, a in enumerate(outline):
        for step in range(1, corners // 2 + 1):
            ux, uy = unit(sub(outline[(k + step) % corners], a))
            for turn in (Isometry(ux, -uy), Isometry(-ux, uy)):
                lying = homed(placed(outline, turn))
                _, _, width, height = bounds(lying)
                if not kind.measures:
                    size = height / bounds(kind.outline(Form(1.0, 1.0)))[3]
                    yield Form(size, size, fabrics=1)
                    continue
                for measures in kind.fits([lying], width, height):
                    forms = (Form(width, height, "", hand, measures, 1) for hand in kind.hands)
                    yield from (form for form in forms if measures[0] > 0 and not kind.wanted(form))
