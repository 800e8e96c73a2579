"""The kite: two pairs of equal sides that meet, upright, told by width, height, and where it is widest."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from piecewright.design.kinds.kind import Form
from piecewright.design.kinds.single import single
from piecewright.geometry.polygon import Polygon


def outline(form: Form) -> Polygon:
    """The kite with a point below and one above; `widest` is how high its other two corners lie."""
    (widest,) = form.measures
    return (
        (form.width / 2, 0.0),
        (form.width, widest),
        (form.width / 2, form.height),
        (0.0, widest),
    )


def wanted(form: Form) -> str:
    """Its side corners lie between its points."""
    return "" if form.measures[0] < form.height else "to be widest below its upper point"


def fits(patches: Sequence[Polygon], width: float, height: float) -> Iterable[tuple[float, ...]]:
    """How high the right-most corner of a drawn patch lies."""
    return ((max(patches[0])[1],),)


KIND = single("kite", "kite", outline, wanted=wanted, measures=("widest",), fits=fits)
