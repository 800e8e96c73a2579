"""The templates of a unit: each distinct patch once, as it shows, and how many of it a unit takes."""

from __future__ import annotations

from piecewright.design.kinds import kind_of
from piecewright.geometry.matching import outline_turns
from piecewright.geometry.polygon import Polygon
from piecewright.measure.tolerance import AS_DRAWN
from piecewright.methods.method import Unit
from piecewright.methods.strip_rows import homed

Template = tuple[str, Polygon, int, int]


def template_outlines(unit: Unit) -> list[Template]:
    """Name, net outline, number of the fabric, and count of each template that a unit needs.

    Outlines are finished, without allowances, in inches, counter-clockwise, each at the origin and turned as
    its first patch is drawn, so that the lengthwise grain runs up. Patches that are mirror images of each
    other have templates of their own. Curves are many short edges.

    >>> from piecewright.measure.length import inches
    >>> star = Unit("star8", ("sail", "tide", "sky"), inches(12), inches(12))
    >>> [(name, number, count) for name, _, number, count in template_outlines(star)]
    [('first points', 0, 4), ('second points', 1, 4), ('background 1', 2, 4), ('background 2', 2, 4)]
    """
    kind = kind_of(unit.kind)
    found: list[tuple[Polygon, int, int]] = []
    for number, outline in kind.shapes(unit.form):
        for k, (known, fabric, count) in enumerate(found):
            if fabric == number and next(outline_turns(outline, known, AS_DRAWN), None) is not None:
                found[k] = (known, fabric, count + 1)
                break
        else:
            found.append((homed(outline), number, 1))
    return [(_name(unit, found, k), *template) for k, template in enumerate(found)]


def _name(unit: Unit, found: list[tuple[Polygon, int, int]], at: int) -> str:
    """What the fabric is for, numbered where one fabric needs several templates."""
    kind, number = kind_of(unit.kind), found[at][1]
    if kind.patches == 1:
        return kind.name
    use = kind.fabrics[min(number, len(kind.fabrics) - 1)]
    alike = [k for k, (_, fabric, _) in enumerate(found) if fabric == number]
    return use if len(alike) == 1 else f"{use} {alike.index(at) + 1}"
