"""Checks: patches of two fabrics that take turns: four-patch, nine-patch, sixteen-patch.

The first fabric lies in the lower left corner; in a nine-patch it has all corners and the centre.
"""

from __future__ import annotations

from functools import partial

from piecewright.design.kinds.boxes import outlined
from piecewright.design.kinds.kind import Form, Kind, Shapes


def shapes(form: Form, across: int) -> Shapes:
    """The patches row by row, from below."""
    width, height = form.width / across, form.height / across
    return tuple(
        (
            (row + column) % 2,
            outlined((column * width, row * height, (column + 1) * width, (row + 1) * height)),
        )
        for row in range(across)
        for column in range(across)
    )


def _kind(key: str, name: str, across: int, fabrics: tuple[str, str]) -> Kind:
    return Kind(
        key=key, name=name, fabrics=fabrics, shapes=partial(shapes, across=across), patches=across * across
    )


FOUR_PATCH = _kind("fourpatch", "four-patch", 2, ("first", "second"))
NINE_PATCH = _kind("ninepatch", "nine-patch", 3, ("corners and centre", "sides"))
SIXTEEN_PATCH = _kind("sixteenpatch", "sixteen-patch", 4, ("first", "second"))

ACROSS = {FOUR_PATCH.key: 2, NINE_PATCH.key: 3, SIXTEEN_PATCH.key: 4}
"""How many patches lie side by side."""
