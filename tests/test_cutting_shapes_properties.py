"""What holds for any shape in strips of any cloth."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from piecewright.cutting.checking import check_layout
from piecewright.cutting.shapes.checking import check_shape_cuts
from piecewright.cutting.shapes.kinds import HANDS, KINDS, Kind
from piecewright.cutting.shapes.laying import lay_out_shapes
from piecewright.cutting.shapes.outlines import mirrored
from piecewright.cutting.shapes.problems import check_shapes
from piecewright.cutting.shapes.reading import ShapeEntry, shape_wanted
from piecewright.cutting.shapes.rows import best_row, most_in
from piecewright.cutting.shapes.splitting import SPLITS, cut_from
from piecewright.cutting.shapes.wanted import TURNINGS, ShapeDemand
from piecewright.cutting.wanted import Demand, Supply
from piecewright.geometry.polygon import area, bounds, same_polygon
from piecewright.measure.length import Length, inches, mm
from piecewright.measure.tolerance import AS_DRAWN
from piecewright.problems import Refused

sizes = st.one_of(st.integers(8, 64).map(lambda n: inches(Fraction(n, 8))), st.integers(25, 160).map(mm))
widths = st.integers(240, 480).map(lambda n: inches(Fraction(n, 8)))


@st.composite
def entries(draw: st.DrawFn, name: str = "sails") -> ShapeEntry:
    """Any kind of shape with any angle, finished or as cut, whole or blunted, to any hand."""
    kind: Kind = draw(st.sampled_from(KINDS))
    angle = f"{draw(st.integers(30, 80))} degree " if kind.angles else ""
    return ShapeEntry(
        name=name,
        shape=angle + kind.name,
        count=draw(st.integers(1, 90)),
        measures={measure: draw(sizes) for measure in kind.measures},
        hand=draw(st.sampled_from(HANDS)) if kind.has_hand else "",
        finished=draw(st.booleans()),
        blunted=kind.has_point and draw(st.booleans()),
        turning=draw(st.sampled_from(TURNINGS)),
    )


@st.composite
def shapes(draw: st.DrawFn, name: str = "sails") -> ShapeDemand:
    """A shape as above; where its slants would meet, its longer side is made longer."""
    entry = draw(entries(name))
    try:
        return shape_wanted(entry)
    except Refused:
        longer = {**entry.measures, "w": entry.measures["w"] + entry.measures["h"] * 4}
        return shape_wanted(replace(entry, measures=longer))


def cloth(width: Length) -> Supply:
    return Supply("tide", width, inches("4 1/2"), ruler_length=inches(24))


@settings(max_examples=80, deadline=None)
@given(shapes(), widths, st.sampled_from(SPLITS))
def test_pieces_never_overlap_and_lie_inside_with_a_cut_along_each_side(
    shape: ShapeDemand, width: Length, split: str
) -> None:
    cut = cut_from(shape, cloth(width), split)
    assert check_shape_cuts([cut]) == []
    assert 0 <= cut.over < 4
    assert all(strip.width <= width or strip.each == 1 or strip.width == strip.height for strip in cut.strips)


@settings(max_examples=80, deadline=None)
@given(shapes(), widths)
def test_no_more_pieces_than_the_area_allows_and_more_width_never_gives_fewer(
    shape: ShapeDemand, width: Length
) -> None:
    long, high = float(width), bounds(shape.outline)[3]
    most = most_in(shape, long)
    assert most * area(shape.outline) <= long * high + AS_DRAWN
    assert most <= most_in(shape, long + 0.25) <= most_in(shape, long + 5)


@settings(max_examples=80, deadline=None)
@given(shapes(), widths)
def test_as_many_as_fit_are_the_most_that_fit(shape: ShapeDemand, width: Length) -> None:
    most = most_in(shape, float(width))
    assert most == 0 or best_row(shape, most).length <= float(width) + AS_DRAWN
    assert best_row(shape, most + 1).length > float(width)


@settings(max_examples=80, deadline=None)
@given(shapes(), widths)
def test_the_other_hand_takes_as_much_cloth(shape: ShapeDemand, width: Length) -> None:
    other = replace(shape, outline=mirrored(shape.outline))
    one, two = (cut_from(demand, cloth(width)) for demand in (shape, other))
    assert [(s.each, s.count, s.height) for s in one.strips] == [
        (s.each, s.count, s.height) for s in two.strips
    ]
    # A square end is cut exactly, a slanted one from a length on a mark.
    assert all(abs(float(s.width - t.width)) <= 0.125 for s, t in zip(one.strips, two.strips, strict=True))
    assert same_polygon(mirrored(other.outline), shape.outline, AS_DRAWN)


@settings(max_examples=80, deadline=None)
@given(shapes(), widths)
def test_freedom_to_turn_never_costs_pieces(shape: ShapeDemand, width: Length) -> None:
    free, upright = (replace(shape, turning=turning) for turning in ("end for end", "none"))
    assert most_in(upright, float(width)) <= most_in(free, float(width))


@settings(max_examples=25, deadline=None)
@given(st.lists(shapes(), min_size=1, max_size=3), widths, st.integers(1, 40))
def test_layouts_of_shapes_and_squares_hold_all_between_the_bounds(
    wanted: list[ShapeDemand], width: Length, count: int
) -> None:
    named = [replace(shape, name=f"sails {number}") for number, shape in enumerate(wanted)]
    squares = Demand("squares", inches("2 1/2"), inches("2 1/2"), count)
    assume(not check_shapes(named, [squares], cloth(width)))
    laid = lay_out_shapes([squares], named, cloth(width))
    assert check_layout(laid.layout, laid.rectangles) == []
    assert check_shape_cuts(laid.shapes, laid.layout.patterns) == []
    assert laid.area_bound <= laid.bound <= laid.layout.length
