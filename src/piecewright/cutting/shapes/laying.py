"""Shapes and rectangles of one cloth in one layout: strips for shapes share strips with all else.

A layout's own bound holds for the strips that the shapes are split into; those of `LaidShapes` hold for
every way to split them.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from piecewright.cutting.laying import lay_out
from piecewright.cutting.layout import Layout
from piecewright.cutting.shapes.problems import check_shapes
from piecewright.cutting.shapes.splitting import SPLITS, cut_from, least_cloth
from piecewright.cutting.shapes.wanted import ShapeCut, ShapeDemand
from piecewright.cutting.wanted import Demand, Supply
from piecewright.cutting.wishes import USUAL, Aim, CuttingWish
from piecewright.measure.length import Length
from piecewright.problems import Refused

MOST_PARTS = 2**20
TRIAL = 4
"""Each way to split the shapes is tried with this part of the effort; the best has all of it."""


@dataclass(frozen=True, slots=True)
class LaidShapes:
    """A layout, and the shapes that are cut from its strips and squares.

    `demands` are the rectangles that were wanted besides. No layout at all is shorter than `area_bound`, and
    none whose shapes are cut from such strips and squares than `bound`.
    """

    layout: Layout
    shapes: tuple[ShapeCut, ...]
    demands: tuple[Demand, ...]
    area_bound: Length
    bound: Length

    @property
    def rectangles(self) -> list[Demand]:
        """All rectangles of the layout: those wanted as such, and those for shapes."""
        return rectangles(self.demands, self.shapes)

    @property
    def loss(self) -> Fraction:
        """The share of the length that no piece takes."""
        length = self.layout.length.exact
        return 1 - self.area_bound.exact / length if length else Fraction(0)


def rectangles(demands: Sequence[Demand], shapes: Sequence[ShapeCut]) -> list[Demand]:
    """What is wanted in rectangles, with what shapes are cut from."""
    return [*demands, *(demand for cut in shapes for demand in cut.demands)]


def lay_out_shapes(
    demands: Sequence[Demand], shapes: Sequence[ShapeDemand], supply: Supply, wish: CuttingWish = USUAL
) -> LaidShapes:
    """The best layout for a wish of rectangles and shapes together, over the ways to split the shapes.

    Raises Refused with every reason why they cannot be cut from the cloth.
    """
    if problems := check_shapes(shapes, demands, supply):
        raise Refused(*problems)
    bounds = area_bound(demands, shapes, supply), strip_bound(demands, shapes, supply)
    trial = replace(wish, effort=wish.effort // TRIAL)
    tried = [
        LaidShapes(lay_out(rectangles(demands, cuts), supply, trial), cuts, tuple(demands), *bounds)
        for cuts in ways_to_split(shapes, supply)
    ]
    best = min(tried, key=_merit(wish.aim))
    refined = replace(best, layout=lay_out(best.rectangles, supply, wish))
    return min(refined, best, key=_merit(wish.aim))


def area_bound(demands: Sequence[Demand], shapes: Sequence[ShapeDemand], supply: Supply) -> Length:
    """The area of all pieces, as cut, over the usable width: no layout is shorter."""
    return _over_width(demands, sum(shape.area for shape in shapes), supply)


def strip_bound(demands: Sequence[Demand], shapes: Sequence[ShapeDemand], supply: Supply) -> Length:
    """The same with what falls away in the best filled strips of each shape, and between their pieces."""
    return _over_width(demands, sum(least_cloth(shape, supply) for shape in shapes), supply)


def _over_width(demands: Sequence[Demand], shaped: float, supply: Supply) -> Length:
    sides = ((supply.usable_width if d.whole_strip else d.width, d.height, d.count) for d in demands)
    area = sum((width.exact * height.exact * count for width, height, count in sides), Fraction(0))
    # A little less, so that it stays below where an area is irrational.
    sure = Fraction(int(shaped * (1 - 1e-9) * MOST_PARTS), MOST_PARTS)
    return Length((area + sure) / supply.usable_width.exact)


def ways_to_split(shapes: Sequence[ShapeDemand], supply: Supply) -> list[tuple[ShapeCut, ...]]:
    """What the shapes are cut from, all split alike, for each split that comes out unlike those before."""
    found: dict[tuple[tuple[int, int], ...], tuple[ShapeCut, ...]] = {}
    for split in SPLITS:
        cuts = tuple(cut_from(shape, supply, split) for shape in shapes)
        found.setdefault(tuple((s.each, s.count) for cut in cuts for s in cut.strips), cuts)
    return list(found.values())


def _merit(aim: Aim) -> Callable[[LaidShapes], tuple[object, ...]]:
    """What a wish looks at, what counts most first."""

    def merit(laid: LaidShapes) -> tuple[object, ...]:
        layout = laid.layout
        work = layout.ruler_changes, layout.cuts
        if aim == "least cloth":
            return layout.length, *work
        return (layout.buy, *work, layout.length) if aim == "fewest settings" else (*work, layout.length)

    return merit
