"""What holds for the layout of any list of pieces on any cloth."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.cutting.checking import check_layout
from piecewright.cutting.laying import lay_out, own_strips_layout
from piecewright.cutting.wanted import Demand, Supply
from piecewright.measure.length import Length, inches, mm

eighths = st.integers(8, 160).map(lambda number: inches(Fraction(number, 8)))
millimetres = st.integers(20, 400).map(mm)


@st.composite
def pieces(draw: st.DrawFn) -> list[Demand]:
    """Up to nine sizes, free or one-way, some reserved or whole strips, in eighths or millimetres or both."""
    sizes = draw(st.sampled_from([eighths, millimetres, st.one_of(eighths, millimetres)]))
    return [
        Demand(
            name=f"size {number}",
            width=draw(sizes),
            height=draw(sizes),
            count=draw(st.integers(1, 60)),
            may_turn=draw(st.booleans()),
            whole_strip=draw(st.integers(0, 9)) == 0,
            reserve=draw(st.integers(0, 9)) == 0,
        )
        for number in range(draw(st.integers(1, 9)))
    ]


@st.composite
def cloths(draw: st.DrawFn) -> Supply:
    """Cloth of any width that holds the widest piece."""
    return Supply(
        key="tide",
        usable_width=draw(
            st.one_of(st.integers(160, 400).map(lambda n: inches(Fraction(n, 8))), st.just(mm(1070)))
        ),
        buying_step=draw(st.sampled_from([inches("1/8"), inches("4 1/2"), mm(100)])),
        straightening=draw(st.sampled_from([inches(0), inches(2)])),
        shrinkage=draw(st.sampled_from([0.0, 0.03])),
        spare_strips=draw(st.integers(0, 1)),
        ruler_length=draw(st.sampled_from([None, inches(6), inches(24)])),
    )


@settings(max_examples=120)
@given(pieces(), cloths())
def test_every_piece_is_cut_once_inside_the_cloth_between_the_bounds(
    wanted: list[Demand], cloth: Supply
) -> None:
    layout, own = lay_out(wanted, cloth), own_strips_layout(wanted, cloth)
    assert check_layout(layout, wanted) == []
    assert check_layout(own, wanted) == []
    assert layout.area_bound <= layout.bound <= layout.length <= own.length
    assert layout.buy <= own.buy
    area = sum(
        (
            demand.height.exact
            * (cloth.usable_width if demand.whole_strip else demand.width).exact
            * demand.count
        )
        for demand in wanted
    )
    assert layout.area_bound == Length(area / cloth.usable_width.exact)


@settings(max_examples=40)
@given(pieces(), cloths())
def test_the_same_list_gives_the_same_layout_to_the_byte(wanted: list[Demand], cloth: Supply) -> None:
    assert repr(lay_out(wanted, cloth)).encode() == repr(lay_out(wanted, cloth)).encode()


@settings(max_examples=40)
@given(pieces(), cloths())
def test_what_is_bought_is_the_next_step_above_what_is_needed(wanted: list[Demand], cloth: Supply) -> None:
    layout = lay_out(wanted, cloth)
    assert layout.buy - cloth.buying_step < layout.purchase.needed <= layout.buy
    washed = layout.purchase.needed * cloth.share_left
    spared = layout.purchase.spare * layout.purchase.spare_strips
    assert washed == layout.length + cloth.straightening + spared


@settings(max_examples=40)
@given(pieces(), cloths())
def test_freedom_to_turn_never_takes_more_cloth_than_each_size_in_its_own_strips(
    wanted: list[Demand], cloth: Supply
) -> None:
    one_way = [replace(demand, may_turn=False) for demand in wanted]
    free = [replace(demand, may_turn=True) for demand in wanted]
    assert lay_out(free, cloth).length <= own_strips_layout(one_way, cloth).length
