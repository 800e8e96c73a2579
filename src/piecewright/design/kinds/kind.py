"""A kind of unit: what it is called, what its fabrics are for, and what it looks like at any size.

Terms:
- *form*: what tells one unit of a kind from another but for its fabrics: size, facing, hand, measures;
- *facing*: how a unit is turned in the picture of a block ("nw", "n", "ns");
- *hand*: "left" or "right", where a unit and its mirror image cannot be turned into each other;
- *measure*: a finished length besides width and height ("corner" of a corner-flipped square).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field

from piecewright.geometry.polygon import Polygon, rectangle


@dataclass(frozen=True)
class Form:
    """Finished width and height, and further measures, in inches; `fabrics` is how many there are."""

    width: float
    height: float
    facing: str = ""
    hand: str = ""
    measures: tuple[float, ...] = ()
    fabrics: int = 2


Shapes = tuple[tuple[int, Polygon], ...]
"""Patches as the number of their fabric and their corners, counter-clockwise, in the unit's own frame."""

Fitting = Callable[[Sequence[Polygon], float, float], Iterable[tuple[float, ...]]]
"""The measures that a drawing of so many patches, so wide and high, may have."""


def with_article(name: str) -> str:
    """A kind's name with its article: "an hourglass"."""
    return f"{'an' if name[0] in 'aeiou' or name.startswith('hour') else 'a'} {name}"


def nothing_wrong(form: Form) -> str:
    """Every proportion is fine."""
    return ""


def square_only(form: Form) -> str:
    """Only a square will do."""
    return "" if form.width == form.height else "to be square"


def whole_rectangle(form: Form) -> Polygon:
    """The outline of nearly every unit."""
    return rectangle(form.width, form.height)


def no_measures(patches: Sequence[Polygon], width: float, height: float) -> Iterable[tuple[float, ...]]:
    """A kind without further measures."""
    return ((),)


@dataclass(frozen=True)
class Kind:
    """A kind of unit.

    `key` is its word in files and commands, `name` what people call it. `fabrics` says what each is for;
    where `more_fabrics`, the last of them may be repeated; where `more_measures`, its only measure may be
    repeated, or left out. `wanted` gives what its proportions should be, as
    in "to be square", or an empty text where all is well. The first of `facings` is how it is told alone.
    `fits` proposes the measures of a drawing. `outwards`: seams are pressed away from the first fabric, for
    there is least bulk.
    """

    key: str
    name: str
    fabrics: tuple[str, ...]
    shapes: Callable[[Form], Shapes]
    patches: int
    wanted: Callable[[Form], str] = nothing_wrong
    facings: tuple[str, ...] = ("",)
    hands: tuple[str, ...] = ("",)
    measures: tuple[str, ...] = ()
    fits: Fitting = field(default=no_measures)
    outline: Callable[[Form], Polygon] = whole_rectangle
    more_fabrics: bool = False
    more_measures: bool = False
    outwards: bool = False
    """`patches` is how many there are, or 0 where that depends on the form."""
