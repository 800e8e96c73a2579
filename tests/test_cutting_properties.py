"""What holds for the layout of any list of pieces on any cloth."""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import replace
from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.bench.cloth import LENGTHWISE
from piecewright.bench.plan import Finish, Plan
from piecewright.bench.plan import Supply as ClothThere
from piecewright.bench.replay import run
from piecewright.cutting.checking import check_layout
from piecewright.cutting.cuts import WAYS_OF_CUTTING, Cuts
from piecewright.cutting.laying import lay_out, own_strips_layout
from piecewright.cutting.layout import Layout
from piecewright.cutting.wanted import Demand, Supply
from piecewright.cutting.wishes import AIMS, Aim, CuttingWish
from piecewright.measure.length import ZERO, Length, inches, mm
from piecewright.planning.writing import cutting_steps
from piecewright.workroom.workroom import INCH_WORKROOM

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


aims, ways = st.sampled_from(AIMS), st.sampled_from(WAYS_OF_CUTTING)
LITTLE = 4_000


def lying(layout: Layout) -> list[tuple[str, Length, Length, Length, Length]]:
    """Every piece where it lies on the cloth: its name, from left to right, from below to above."""
    found, low = [], ZERO
    for pattern in layout.patterns:
        for _ in range(pattern.times):
            left = ZERO
            for section in pattern.sections:
                for _ in range(section.count):
                    right = left + section.width
                    for level in range(section.stack):
                        foot = low + section.height * level
                        found.append((section.name, left, right, foot, foot + section.height))
                    left = right
            low = low + pattern.strip_height + layout.squaring
    return found


@settings(max_examples=40, deadline=None)
@given(pieces(), cloths(), aims, ways)
def test_no_two_pieces_overlap_and_none_reaches_beyond_the_cloth(
    demands: list[Demand], cloth: Supply, aim: Aim, cuts: Cuts
) -> None:
    few = [replace(demand, count=min(demand.count, 12)) for demand in demands]
    layout = lay_out(few, cloth, CuttingWish(aim, cuts, effort=LITTLE))
    placed = lying(layout)
    assert len(placed) == sum(demand.count for demand in few)
    for _, left, right, foot, top in placed:
        assert ZERO <= left < right <= cloth.usable_width
        assert ZERO <= foot < top <= layout.length
    for (_, l1, r1, f1, t1), (_, l2, r2, f2, t2) in combinations(placed, 2):
        assert r1 <= l2 or r2 <= l1 or t1 <= f2 or t2 <= f1


@settings(max_examples=25, deadline=None)
@given(pieces(), cloths(), ways)
def test_what_must_not_turn_has_its_grain_upright_on_the_bench(
    demands: list[Demand], cloth: Supply, cuts: Cuts
) -> None:
    layout = lay_out(demands, cloth, CuttingWish("least cloth", cuts, effort=LITTLE))
    there = ClothThere(fabric=layout.key, width=layout.usable_width, length=layout.length)
    steps = tuple(cutting_steps([layout], INCH_WORKROOM))
    finish = Finish(top=demands[0].name)
    bench, _ = run(Plan(title="cut", workroom=INCH_WORKROOM, cloth=(there,), steps=steps, finish=finish))
    for demand in demands:
        if not demand.may_turn:
            piece = bench.table.only(demand.name)
            across = cloth.usable_width if demand.whole_strip else demand.width
            assert piece.faces[0].grain == LENGTHWISE
            assert piece.raw[2] == pytest.approx((float(across), float(demand.height)))


@settings(max_examples=25, deadline=None)
@given(pieces(), cloths(), ways, st.integers(0, 80))
def test_the_bound_of_one_way_of_cutting_is_above_no_layout_that_is_cut_so(
    demands: list[Demand], cloth: Supply, cuts: Cuts, eighths: int
) -> None:
    # What is cut from narrower cloth, or in a stricter way, could be cut so too.
    narrower = replace(cloth, usable_width=cloth.usable_width - inches(Fraction(eighths, 8)))
    one_way = [replace(demand, may_turn=False, whole_strip=False) for demand in demands]
    free = [replace(demand, may_turn=True) for demand in one_way]
    fits = all(demand.width <= narrower.usable_width for demand in one_way)
    bound = lay_out(free, cloth, CuttingWish("least cloth", cuts, effort=LITTLE)).bound
    strict = WAYS_OF_CUTTING[: WAYS_OF_CUTTING.index(cuts) + 1]
    for cut in strict if fits else ():
        assert bound <= lay_out(one_way, narrower, CuttingWish("least cloth", cut, effort=LITTLE)).length


LIST = """
from test_cutting import HARBOUR, HARBOUR_CLOTH
from piecewright.cutting.laying import lay_out
from piecewright.cutting.wishes import AIMS, CuttingWish
for aim in AIMS:
    print(repr(lay_out(HARBOUR, HARBOUR_CLOTH, CuttingWish(aim, effort=60_000))))
"""


def test_another_process_with_other_hashes_gives_the_same_layouts_to_the_byte() -> None:
    found = set()
    for seed in ("0", "1", "4711"):
        there = {**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": os.pathsep.join(sys.path)}
        done = subprocess.run([sys.executable, "-c", LIST], env=there, check=True, capture_output=True)
        found.add(done.stdout)
    assert len(found) == 1
    assert found.pop().count(b"Layout(") == len(AIMS)
