"""Bonus units: a corner that is cut off is sewn a second time before the cut, and opens to a small square.

Terms:
- *corner seam*: the seam of a square sewn on its diagonal to a corner;
- *bonus unit*: the half-square triangle that the trimmed corner makes. Its line of stitching runs twice the
  needle's distance from the corner seam (half an inch at a quarter-inch seam), the cut midway between them.
"""

from __future__ import annotations

from math import sqrt

from piecewright.bench.cloth import SeamSize
from piecewright.bench.steps import Ruled
from piecewright.bench.truing import measured
from piecewright.geometry.point import Point
from piecewright.methods.lines import ruled
from piecewright.methods.method import Besides, Unit
from piecewright.methods.recipe import Recipe, cloth_besides
from piecewright.workroom.workroom import Workroom

PILE = "bonus"


def bonus(count: int, pile: str = PILE) -> Besides:
    """So many bonus units from each batch; their size is found on the bench."""
    each = "a bonus half-square triangle" if count == 1 else f"{count} bonus half-square triangles"
    return Besides(pile, count, f"{each}, to be trued up to a size of their own")


def sewn_twice(a: Point, b: Point, seam: SeamSize) -> tuple[Ruled, Ruled]:
    """The corner seam a hair to the right of a marked line, and the second one beyond the cut."""
    # The second line is sewn the needle's distance from the cut, which lies a take-up from the first fold.
    off = (seam.take_up + seam.needle) / sqrt((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2)
    x, y = (b[1] - a[1]) * off, -(b[0] - a[0]) * off
    return ruled(a, b, "hair right"), ruled((a[0] + x, a[1] + y), (b[0] + x, b[1] + y))


def is_worth_it(corner: float, take_up: float) -> bool:
    """Whether the bonus unit of a corner square (raw, inches) is larger finished than its own two seams."""
    # The corner loses a take-up to the cut and another to the fold, both on the diagonal.
    return corner - 2 * sqrt(2) * take_up > 4 * take_up


def bonus_size(recipe: Recipe, workroom: Workroom) -> tuple[float, float]:
    """What a bonus unit of a recipe measures before it is trued up: raw width and height, on the bench.

    Raises ValueError for a way that saves none.
    """
    found = next((one for one in recipe.method.besides if one.pile == PILE), None)
    if found is None:
        raise ValueError(f"{recipe.method.name} saves no bonus units")
    return measured(cloth_besides(recipe, found, workroom), "diagonal")


def corner_of(unit: Unit, take_up: float) -> float:
    """The raw side of the square that is sewn to a corner, where it is as high as the unit; inches."""
    return float(unit.height) + 2 * take_up
